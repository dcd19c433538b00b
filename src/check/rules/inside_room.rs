//! Parts that reach out of the room.
//!
//! # What it finds
//! Every part that goes through floor, ceiling or a wall; only the vent, its cap, the framing of its pass, and blocks
//! in the room's own walls and ceiling may.
//!
//! # Why
//! The measured room is the room that is there.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Thing, outside};
use crate::design::Design;

pub(super) const RULE: Rule = Rule {
    name: "inside the room",
    concern: Concern::Structure,
    text: include_str!("inside_room.rs"),
    keys: &["chase.left", "chase.width", "chase.depth"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    for out in outside(design) {
        let row = Row {
            subject: Measure("{} through {}")
                .of([Thing::Part(out.part.clone()), Thing::Boundary(out.boundary)]),
            parts: vec![out.part],
            location: Some(out.location),
            source: ARITHMETIC.to_owned(),
            levers: &["chase.left", "chase.width", "chase.depth"],
            ..Row::default()
        };
        report.fail(row, Some(Numbers::none(Quantity::Length, out.by.to_mm())));
    }
}
