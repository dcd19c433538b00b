//! The mantel over the framing below it.
//!
//! # What it finds
//! The mantel's underside against the top of the framing over the unit: the header, or the ledge of a stepped front,
//! on which a mantel is meant to lie (FLUSH). One that is above the ledge by more than the build allowance rests on
//! nothing: without a cleat or brackets it asks what holds it.
//!
//! # Why
//! Below that line there is no blocking to screw into, and in a stepped front no ledge to rest on.
//!
//! # Datum
//! The floor datum of the file.
//!
//! # Source
//! Arithmetic: platform + body + top clearance + header (+ ledge).

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::geom::TOLERANCE;
use crate::params::MantelHold;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "mantel on the framing",
    concern: Concern::Framing,
    text: include_str!("mantel_on_framing.rs"),
    keys: &[
        "front.header",
        "platform.layers",
        "mantel.underside",
        "mantel.held_by",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Mantel) else {
        return;
    };
    let layout = &design.layout;
    let Some(mantel) = &design.params.mantel else {
        return;
    };
    let row = Row {
        subject: Measure("mantel's underside above the top of the framing").into(),
        parts: vec![part.id.clone()],
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.framing_top,
        )),
        source: ARITHMETIC.to_owned(),
        levers: &["mantel.underside", "front.header", "platform.layers"],
        ..Row::default()
    };
    let numbers = Numbers::at_least(mantel.underside, layout.heights.framing_top);
    let held = matches!(
        mantel.held_by,
        Some(MantelHold::Cleat | MantelHold::Brackets)
    );
    let over = Length::mm(numbers.margin) - report.allowance();
    if layout.is_stepped() && !held && over.to_mm() >= -TOLERANCE {
        let question = "The mantel rests on nothing: will it be lowered onto the ledge, or does a cleat, or do brackets, hold it (mantel.held_by)?";
        report.ask_for(row, Some(numbers), question, vec!["mantel.held_by"]);
    } else if layout.is_stepped() {
        report.judge_flush(row, numbers);
    } else {
        report.judge(row, numbers);
    }
}
