//! Sticks and sheets that could not be made.
//!
//! # What it finds
//! Parts that the design asks for and that have no room: a cripple between a header and a sill that
//! lie on one another is not asked for, but a stud that would be shorter than nothing is.
//!
//! # Why
//! A missing part is not a part that fits: whatever rests on it would hang in the air.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Report, Row, Rule};
use crate::design::{Design, Note};

pub(super) const RULE: Rule = Rule {
    name: "part without room",
    text: include_str!("left_out.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    for note in &design.notes {
        if let Note::LeftOut { id, why } = note {
            let row = Row {
                about: format!("{id}: {why}"),
                parts: vec![id.clone()],
                source: ARITHMETIC.to_owned(),
                levers: &[
                    "ceiling.height",
                    "recess.sill",
                    "recess.height",
                    "chase.depth",
                ],
                ..Row::default()
            };
            report.fail(row, None);
        }
    }
}
