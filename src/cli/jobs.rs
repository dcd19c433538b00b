//! What the commands do: check a design, make its files, and take it off.

use std::collections::BTreeSet;

use super::table;
use super::takeoff as lists;
use super::work::{BuildForm, Built, Drawn, Form, Scaled, TakenOff, Verdicts, Work};
use super::write::OutputFile;
use crate::check::{self, Finding, Verdict};
use crate::design::{self, Design};
use crate::drawing::{self, Paper, Sheet};
use crate::export::{
    DRAWINGS, FORMATS, PACKET, PACKET_NEEDS, Packet, Products, StepForm, TAKEOFF_FORMATS,
    drawings_pdf, findings_json, packet, scale_files, sheet_svg, takeoff_json,
};
use crate::geom::Mesh;
use crate::params::Params;
use crate::scale::{self, ScaleError, Settings};
use crate::solids::Proved;
use crate::takeoff::{PlanWatch, Takeoff, takeoff, takeoff_watched};

/// The real jobs.
pub const WORK: Work = Work {
    check,
    build,
    draw,
    packet: packet_alone,
    scale: scale_model,
    takeoff: take_off,
};

fn check(params: &Params, form: Form) -> Result<Verdicts, String> {
    let (proved, findings) = checked(params);
    verdicts(&proved.design, &findings, form)
}

/// The model, and what is found about it: what has no proper solid too, so that every command finds the same.
fn checked(params: &Params) -> (Proved, Vec<Finding>) {
    let proved = Proved::new(design::design(params), Mesh::CHORD_ERROR);
    let mut findings = check::check(&proved.design);
    check::try_remedies(params, &mut findings);
    (proved, findings)
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

fn build(params: &Params, form: BuildForm, watch: PlanWatch<'_>) -> Result<Built, String> {
    with_products(params, (form.step, watch), |design, products, taken| {
        let mut files = files_of(products, |_| true)?;
        if form.drawings {
            let sheets = sheets(design, taken, None);
            files.push(packet_of(products, taken, (&files, &sheets))?);
            files.push(pdf(design, &sheets)?);
        }
        files.extend(lists_of(design, taken)?);
        Ok(files)
    })
}

/// The packet without what is written beside it.
fn packet_alone(params: &Params, watch: PlanWatch<'_>) -> Result<Built, String> {
    let form = (StepForm::default(), watch);
    with_products(params, form, |design, products, taken| {
        let needs = files_of(products, |file| PACKET_NEEDS.contains(&file))?;
        let sheets = sheets(design, taken, None);
        Ok(vec![packet_of(products, taken, (&needs, &sheets))?])
    })
}

/// Makes everything that files are made of, and then files, out of the whole design and the products of what is shown.
fn with_products(
    params: &Params,
    (step, watch): (StepForm, PlanWatch<'_>),
    files: impl FnOnce(&Design, &Products<'_>, &Takeoff) -> Result<Vec<OutputFile>, String>,
) -> Result<Built, String> {
    let (proved, findings) = checked(params);
    let design = &proved.design;
    let failing: BTreeSet<String> = findings
        .iter()
        .filter(|it| it.verdict == Verdict::Fail)
        .flat_map(|it| it.parts.iter().cloned())
        .collect();
    let products = Products {
        design: &proved.shown,
        solids: &proved.solids,
        failing: &failing,
        overlaps: &check::shared(design),
        findings: &findings,
        step,
    };
    let taken = takeoff_watched(design, watch);
    Ok(Built {
        files: files(design, &products, &taken)?,
        verdicts: verdicts(design, &findings, Form::Table)?,
        faults: taken.faults,
    })
}

/// The files of the formats that are wanted.
fn files_of(products: &Products<'_>, wanted: fn(&str) -> bool) -> Result<Vec<OutputFile>, String> {
    let formats = FORMATS.iter().filter(|format| wanted(format.file));
    let files = formats.map(|format| {
        Ok(OutputFile {
            name: format.file.to_owned(),
            bytes: (format.write)(products).map_err(|error| error.to_string())?,
        })
    });
    files.collect()
}

/// The packet, with the model and the pictures out of files that are made already.
fn packet_of(
    products: &Products<'_>,
    taken: &Takeoff,
    (files, sheets): (&[OutputFile], &[Sheet]),
) -> Result<OutputFile, String> {
    let files = files
        .iter()
        .map(|it| (it.name.as_str(), it.bytes.as_slice()));
    let drawings: Vec<(String, String)> = sheets
        .iter()
        .map(|it| (it.title.clone(), sheet_svg(it)))
        .collect();
    let page = packet(&Packet {
        products,
        takeoff: taken,
        files: &files.collect::<Vec<_>>(),
        drawings: &drawings,
    });
    Ok(OutputFile {
        name: PACKET.to_owned(),
        bytes: page.map_err(|error| error.to_string())?.into_bytes(),
    })
}

fn draw(params: &Params, paper: Option<Paper>) -> Result<Drawn, String> {
    let design = design::design(params);
    let sheets = sheets(&design, &takeoff(&design), paper);
    let mut files = vec![pdf(&design, &sheets)?];
    files.extend(sheets.iter().enumerate().map(|(place, sheet)| OutputFile {
        name: format!("sheet-{:02}.svg", place + 1),
        bytes: sheet_svg(sheet).into_bytes(),
    }));
    let line = |(place, sheet): (usize, &Sheet)| {
        let (title, scale) = (&sheet.title, sheet.scale.name);
        format!(
            "{:2}  {title}: {scale} on {}\n",
            place + 1,
            sheet.paper.name()
        )
    };
    Ok(Drawn {
        text: sheets.iter().enumerate().map(line).collect(),
        files,
    })
}

fn sheets(design: &Design, taken: &Takeoff, paper: Option<Paper>) -> Vec<Sheet> {
    let paper = paper.unwrap_or_else(|| Paper::usual(design.params.project.unit));
    drawing::sheets(design, taken, paper)
}

fn pdf(design: &Design, sheets: &[Sheet]) -> Result<OutputFile, String> {
    let bytes = drawings_pdf(sheets, &design.params.project.name);
    Ok(OutputFile {
        name: DRAWINGS.to_owned(),
        bytes: bytes.map_err(|error| error.to_string())?,
    })
}

fn scale_model(params: &Params, settings: &Settings) -> Result<Scaled, String> {
    let design = design::design(params);
    let model = match scale::model(&design, settings) {
        Ok(model) => model,
        Err(ScaleError::Refused(why)) => return Ok(Scaled::Refused(why)),
        Err(error) => return Err(error.to_string()),
    };
    let files = scale_files(&design, &model).map_err(|error| error.to_string())?;
    let files = files
        .into_iter()
        .map(|(name, bytes)| OutputFile { name, bytes });
    let mut text = format!(
        "1:{}: {} bodies, {} plates, {} parts not to scale\n",
        settings.ratio,
        model.look.len(),
        model.kit.plates.len(),
        model.not_to_scale.len()
    );
    if let Some(why) = model.too_large {
        text.push_str("no model in one piece, the kit alone: ");
        text.push_str(&why);
        text.push('\n');
    }
    Ok(Scaled::Made(files.collect(), text))
}

fn take_off(params: &Params, form: Form, watch: PlanWatch<'_>) -> Result<TakenOff, String> {
    let design = design::design(params);
    let taken = takeoff_watched(&design, watch);
    let text = match form {
        Form::Table => lists::tables(&design, &taken),
        Form::Json => takeoff_json(&design, &taken).map_err(|error| error.to_string())?,
    };
    Ok(TakenOff {
        text,
        files: lists_of(&design, &taken)?,
        faults: taken.faults,
    })
}

/// The files of a takeoff.
fn lists_of(design: &Design, taken: &Takeoff) -> Result<Vec<OutputFile>, String> {
    let files = TAKEOFF_FORMATS.iter().map(|format| {
        Ok(OutputFile {
            name: format.file.to_owned(),
            bytes: (format.write)(design, taken).map_err(|error| error.to_string())?,
        })
    });
    files.collect()
}
