//! A rafter in the way of the vent.
//!
//! # What it finds
//! Rafters that the hole through ceiling and roof would cut; trusses (`rafters.kind`) fail.
//!
//! # Why
//! A rafter supports the roof: somebody has to design the headers for a cut one. A truss is never cut.
//!
//! # Datum
//! Faces of the rafters, as `roof.first_rafter` and `roof.rafter_spacing` place them.
//!
//! # Source
//! Common practice, no source; the local code decides.

use super::clearances_of;
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Thing};
use crate::design::{ClearanceKind, Design, point};
use crate::params::RafterKind;

pub(super) const RULE: Rule = Rule {
    name: "rafter cut",
    concern: Concern::Structure,
    text: include_str!("rafter_cut.rs"),
    keys: &[
        "rafters.kind",
        "roof.first_rafter",
        "roof.rafter_spacing",
        "appliance.center",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(pass) = design
        .layout
        .roof_pass
        .as_ref()
        .filter(|it| !it.cut.is_empty())
    else {
        return;
    };
    let kind = design.params.rafters.as_ref().map(|it| it.kind);
    let what = match kind {
        Some(RafterKind::Truss) => "trusses",
        Some(RafterKind::Joist) => "joists",
        Some(RafterKind::Rafter) | None => "rafters",
    };
    let numbers = Numbers::none(Quantity::Count, pass.cut.len() as f64);
    let row = Row {
        subject: Measure("{} cut by the hole through the roof").of([Thing::Word(what)]),
        parts: clearances_of(design, &[ClearanceKind::RoofPass]),
        location: Some(point(pass.middle.0, -pass.middle.1, pass.low)),
        source: "local code; a designer".to_owned(),
        levers: &["appliance.center"],
        ..Row::default()
    };
    let question = match kind {
        Some(RafterKind::Truss) => return report.fail(row, Some(numbers)),
        Some(_) => "Who designs the headers over what is cut?",
        None => {
            "Who designs the headers over the cut rafter? If it is a truss, it is not cut: move the pipe."
        }
    };
    let keys = if kind.is_none() {
        vec!["rafters"]
    } else {
        Vec::new()
    };
    report.ask_for(row, Some(numbers), question, keys);
}
