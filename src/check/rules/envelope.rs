//! The outside wall behind the chase.
//!
//! # What it finds
//! Whether the wall behind the chase gets insulation, an air seal and board before the unit is set: a
//! question until `wall.sealed` says so, and a FAIL where it says that it does not. Of a flush chase whose
//! enclosure stands outdoors it is the enclosure's sides, back, floor and top; of one indoors, the far wall
//! that it reaches, and nothing where it has a back of its own.
//!
//! # Why
//! Behind the unit nobody gets to that wall again. Left open, it is the usual reason for a cold fireplace
//! and for damp in the chase.
//!
//! # Source
//! Common practice, no source; the local energy code decides.

use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, point};
use crate::params::SpaceBehind;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "envelope",
    concern: Concern::FireAndGas,
    text: include_str!("envelope.rs"),
    keys: &["wall.sealed", "behind.space"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let space = params.behind.as_ref().map(|it| it.space);
    let (measure, question) = match space.filter(|_| layout.site.is_enclosed()) {
        None => (
            Measure("insulation, air seal and board of the wall behind the chase"),
            "Is the wall behind the chase insulated, sealed against air and boarded before the unit is set?",
        ),
        Some(SpaceBehind::Outdoors) => (
            Measure("insulation, air seal and board of the enclosure outdoors"),
            "Are sides, back, floor and top of the enclosure insulated, sealed against air and boarded before the unit is set?",
        ),
        Some(SpaceBehind::Indoors) => return,
    };
    let row = Row {
        subject: measure.into(),
        location: Some(point(
            layout.site.chase.center(),
            Length::ZERO,
            layout.heights.body_top,
        )),
        source: "common practice, no source; the local energy code decides".to_owned(),
        ..Row::default()
    };
    match params.fireplace_wall.sealed {
        Some(true) => {}
        Some(false) => report.fail(row, None),
        None => report.ask_for(row, None, question, vec!["wall.sealed"]),
    }
}
