//! What the commands do: check a design, make its files, and take it off.

use super::look::Look;
use super::takeoff as lists;
use super::verdicts as shown;
use super::watch::{Step, Watch};
use super::work::{BuildForm, Built, Drawn, Form, Scaled, TakenOff, Verdicts, Work};
use super::write::OutputFile;
use crate::check::{self, Finding, Searching, Verdict, try_remedies_watched};
use crate::design::{self, Design};
use crate::drawing::{Paper, Sheet};
use crate::export::{FORMATS, Products, Set, findings_json, takeoff_json};
use crate::geom::Mesh;
use crate::params::Params;
use crate::scale::{self, ScaleError, Settings};
use crate::solids::Proved;
use crate::takeoff::{Takeoff, takeoff_watched};

/// The real jobs.
pub const WORK: Work = Work {
    check,
    build,
    draw,
    packet: packet_alone,
    scale: scale_model,
    takeoff: take_off,
};

fn check(params: &Params, form: Form, watch: Watch<'_>) -> Result<Verdicts, String> {
    let proved = proved(params);
    let products = Products {
        findings: found(&proved.design, watch).into(),
        ..products(&proved)
    };
    verdicts(&products, form)
}

/// The findings with their cures.
fn found(design: &Design, watch: Watch<'_>) -> Vec<Finding> {
    let mut findings = check::check(design);
    let mut watched = |it: &Searching| watch(Step::Curing(it));
    try_remedies_watched(&design.params, &mut findings, &mut watched);
    findings
}

fn planned(design: &Design, watch: Watch<'_>) -> Takeoff {
    let planned = takeoff_watched(design, &mut |it| watch(Step::Planning(it)));
    watch(Step::Making);
    planned
}

/// The model with what has no proper solid noted, so that every command finds the same.
fn proved(params: &Params) -> Proved {
    Proved::new(design::design(params), Mesh::CHORD_ERROR)
}

fn products(proved: &Proved) -> Products<'_> {
    Products {
        proved: Some(proved),
        ..Products::of(&proved.design)
    }
}

/// The same with drawings on this paper, or on the usual one.
fn products_on(proved: &Proved, paper: Option<Paper>) -> Products<'_> {
    let usual = products(proved);
    Products {
        paper: paper.unwrap_or(usual.paper),
        ..usual
    }
}

fn verdicts(products: &Products<'_>, form: Form) -> Result<Verdicts, String> {
    let (design, findings) = (products.design, products.findings());
    let assumptions = products.assumptions();
    let (text, counts) = match form {
        Form::Table(look) => (
            shown::text(design, findings, assumptions, look),
            shown::counts(findings, look),
        ),
        Form::Json => {
            let json = findings_json(design, findings, assumptions);
            (json.map_err(|error| error.to_string())?, String::new())
        }
    };
    Ok(Verdicts {
        failed: findings.iter().any(|it| it.verdict == Verdict::Fail),
        text,
        counts,
    })
}

fn build(params: &Params, form: BuildForm, watch: Watch<'_>) -> Result<Built, String> {
    let proved = proved(params);
    let products = Products {
        step: form.step,
        takeoff: planned(&proved.design, &mut *watch).into(),
        findings: found(&proved.design, watch).into(),
        ..products_on(&proved, form.paper)
    };
    let sets = [Set::Model, Set::Packet, Set::Drawings, Set::Takeoff];
    let wanted = |it: &Set| form.drawings || matches!(it, Set::Model | Set::Takeoff);
    let sets: Vec<Set> = sets.into_iter().filter(wanted).collect();
    built(&products, &sets, form.look)
}

/// The packet without what is written beside it.
fn packet_alone(params: &Params, form: BuildForm, watch: Watch<'_>) -> Result<Built, String> {
    let proved = proved(params);
    let products = Products {
        takeoff: planned(&proved.design, &mut *watch).into(),
        findings: found(&proved.design, watch).into(),
        ..products_on(&proved, form.paper)
    };
    built(&products, &[Set::Packet], form.look)
}

fn built(products: &Products<'_>, sets: &[Set], look: Look) -> Result<Built, String> {
    Ok(Built {
        files: files_of(products, sets)?,
        verdicts: verdicts(products, Form::Table(look))?,
        faults: products.takeoff().faults.clone(),
    })
}

/// The files of these sets, in the order of the list.
fn files_of(products: &Products<'_>, sets: &[Set]) -> Result<Vec<OutputFile>, String> {
    let mut files = Vec::new();
    for format in FORMATS.iter().filter(|it| sets.contains(&it.set)) {
        let made = products.files(format).map_err(|error| error.to_string())?;
        let made = made.into_iter();
        files.extend(made.map(|(name, bytes)| OutputFile { name, bytes }));
    }
    Ok(files)
}

fn draw(params: &Params, paper: Option<Paper>) -> Result<Drawn, String> {
    let design = design::design(params);
    let usual = Products::of(&design);
    let products = Products {
        paper: paper.unwrap_or(usual.paper),
        ..usual
    };
    let line = |(sheet, number): (&Sheet, usize)| {
        let (title, scale) = (&sheet.title, sheet.scale.name);
        format!("{number:2}  {title}: {scale} on {}\n", sheet.paper.name())
    };
    Ok(Drawn {
        text: products.sheets().iter().zip(1..).map(line).collect(),
        files: files_of(&products, &[Set::Drawings, Set::Sheets])?,
    })
}

fn scale_model(params: &Params, settings: &Settings) -> Result<Scaled, String> {
    let design = design::design(params);
    let model = match scale::model(&design, settings) {
        Ok(model) => model,
        Err(ScaleError::Refused(why)) => return Ok(Scaled::Refused(why)),
        Err(error) => return Err(error.to_string()),
    };
    let mut text = format!(
        "1:{}: {} bodies, {} plates, {} parts not to scale\n",
        settings.ratio,
        model.look.len(),
        model.kit.plates.len(),
        model.not_to_scale.len()
    );
    if let Some(why) = &model.too_large {
        text.push_str("no model in one piece, the kit alone: ");
        text.push_str(why);
        text.push('\n');
    }
    let products = Products {
        scale: Some(model),
        ..Products::of(&design)
    };
    Ok(Scaled::Made(files_of(&products, &[Set::Scale])?, text))
}

fn take_off(params: &Params, form: Form, watch: Watch<'_>) -> Result<TakenOff, String> {
    let design = design::design(params);
    let taken = planned(&design, watch);
    let text = match form {
        Form::Table(look) => lists::tables(&design, &taken, look),
        Form::Json => takeoff_json(&design, &taken).map_err(|error| error.to_string())?,
    };
    let faults = taken.faults.clone();
    let products = Products {
        takeoff: taken.into(),
        ..Products::of(&design)
    };
    Ok(TakenOff {
        text,
        files: files_of(&products, &[Set::Takeoff])?,
        faults,
    })
}
