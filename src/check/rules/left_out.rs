//! Sticks and panels that could not be made.
//!
//! # What it finds
//! Parts that the design needs and that have no room, such as a stud whose length would be less than nothing; a
//! cripple between a header and a sill that touch is not needed. Also parts and clearance volumes so thin, or so cut,
//! that they are not a proper solid: the model files leave them out.
//!
//! # Why
//! A missing part is not a part that fits: whatever rests on it would be unsupported.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Report, Row, Rule, Thing};
use crate::design::{Design, Note};

pub(super) const RULE: Rule = Rule {
    name: "part without room",
    concern: Concern::Structure,
    text: include_str!("left_out.rs"),
    keys: &[
        "ceiling.height",
        "chase.depth",
        "recess.height",
        "recess.sill",
    ],
    check,
};

const LEVERS: &[&str] = &[
    "ceiling.height",
    "recess.sill",
    "recess.height",
    "chase.depth",
];

fn check(design: &Design, report: &mut Report<'_>) {
    for note in &design.notes {
        let (measure, id, why, levers): (_, _, _, &'static [&'static str]) = match note {
            Note::LeftOut { id, why } => (Measure("{} without room"), id, why, LEVERS),
            // no change of a dimension is tried: whether it helps, the kernel alone could say
            Note::Unproved { id, why } => (
                Measure("{}: not a proper solid, left out of the model files"),
                id,
                why,
                &[],
            ),
            Note::Dropped { .. } | Note::Assumed { .. } => continue,
        };
        let row = Row {
            subject: measure.of([Thing::Part(id.clone())]),
            detail: Some(why.clone()),
            parts: vec![id.clone()],
            source: ARITHMETIC.to_owned(),
            levers,
            ..Row::default()
        };
        report.fail(row, None);
    }
}
