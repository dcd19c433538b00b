//! The outside wall behind the chase.
//!
//! # What it finds
//! Whether the wall behind the chase gets insulation, an air seal and board before the unit is set: a
//! question until `wall.sealed` says so, and a FAIL where it says that it does not.
//!
//! # Why
//! Behind the unit nobody gets to that wall again. Left open, it is the usual reason for a cold fireplace
//! and for damp in the chase.
//!
//! # Source
//! Common practice, no source; the local energy code decides.

use crate::check::{Report, Row, Rule};
use crate::design::{Design, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "envelope",
    text: include_str!("envelope.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let row = Row {
        about: "insulation, air seal and board of the wall behind the chase".to_owned(),
        location: Some(point(layout.chase.center(), Length::ZERO, layout.body_top)),
        source: "common practice, no source; the local energy code decides".to_owned(),
        ..Row::default()
    };
    match design.params.wall.sealed {
        Some(true) => {}
        Some(false) => report.fail(row, None),
        None => {
            let question = "Is the wall behind the chase insulated, sealed against air and boarded before the unit is set?";
            report.ask(row, None, question);
        }
    }
}
