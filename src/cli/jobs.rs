//! What the two commands do: check a design, and make its files.

use std::collections::BTreeSet;

use super::table;
use super::work::{Built, Form, Verdicts, Work};
use super::write::OutputFile;
use crate::check::{self, Finding, Verdict};
use crate::design::{self, Design};
use crate::export::{FORMATS, Products, findings_json};
use crate::geom::Mesh;
use crate::params::Params;
use crate::solids::Solids;

/// The real jobs.
pub const WORK: Work = Work { check, build };

fn check(params: &Params, form: Form) -> Result<Verdicts, String> {
    let design = design::design(params);
    let mut findings = check::check(&design);
    check::try_remedies(params, &mut findings);
    verdicts(&design, &findings, form)
}

fn verdicts(design: &Design, findings: &[Finding], form: Form) -> Result<Verdicts, String> {
    let text = match form {
        Form::Table => table::findings(design, findings),
        Form::Json => findings_json(design, findings).map_err(|error| error.to_string())?,
    };
    Ok(Verdicts {
        failed: findings.iter().any(|it| it.verdict == Verdict::Fail),
        text,
    })
}

fn build(params: &Params) -> Result<Built, String> {
    let design = design::design(params);
    let mut findings = check::check(&design);
    check::try_remedies(params, &mut findings);
    let solids = Solids::new(&design, Mesh::CHORD_ERROR).map_err(|error| error.to_string())?;
    let failing: BTreeSet<String> = findings
        .iter()
        .filter(|it| it.verdict == Verdict::Fail)
        .flat_map(|it| it.parts.iter().cloned())
        .collect();
    let products = Products {
        design: &design,
        solids: &solids,
        failing: &failing,
        overlaps: &[],
        findings: &findings,
    };
    let files = FORMATS.iter().map(|format| {
        Ok(OutputFile {
            name: format.file.to_owned(),
            bytes: (format.write)(&products).map_err(|error| error.to_string())?,
        })
    });
    Ok(Built {
        verdicts: verdicts(&design, &findings, Form::Table)?,
        files: files.collect::<Result<_, String>>()?,
    })
}
