//! How the ceiling rises.
//!
//! # What it finds
//! A ceiling whose rise along the wall, or out from it, is not given: neither both rises, nor
//! `slope = "flat"`, readings, or a ridge with its height. It is drawn level that way, and this rule asks.
//! Verdicts that depend on the slope, found by drawing it otherwise, wait for the answer and are not listed; what
//! fails however it is drawn is a FAIL.
//!
//! # Why
//! A rise of 1 in 12 that nobody wrote down is 2 in over a chase 2 ft deep: studs too short, plates that
//! do not meet the ceiling, a wall that does not tilt up.
//!
//! # Source
//! The house: a level and a tape.

use super::parts_of;
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "ceiling slope",
    concern: Concern::Framing,
    text: include_str!("ceiling_slope.rs"),
    keys: &[
        "ceiling.slope",
        "ceiling.rise_right",
        "ceiling.rise_out",
        "ceiling.readings",
        "ridge.runs",
        "ridge.height",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let missing = design.params.missing_rises();
    if missing.is_empty() {
        return;
    }
    let layout = &design.layout;
    let over = layout.ceiling.height_at(layout.unit_center, Length::ZERO);
    let row = Row {
        subject: Measure("how the ceiling rises over the chase").into(),
        parts: parts_of(design, Kind::Ceiling),
        location: Some(point(layout.unit_center, Length::ZERO, over)),
        source: "the house: a level and a tape".to_owned(),
        levers: &[],
        detail: None,
    };
    let question = format!(
        "How does the ceiling rise ({}; 0 where it is level, or ceiling.slope = \"flat\")? It is drawn level that way.",
        missing.join(", ")
    );
    let keys = [&missing[..], &["ceiling.slope"]].concat();
    report.ask_for(row, None, question, keys);
}
