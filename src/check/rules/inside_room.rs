//! Parts that reach out of the room.
//!
//! # What it finds
//! Every part that goes through floor, ceiling or a wall; only the vent, its cap, the framing of its pass,
//! and blocks in the room's own walls and ceiling may.
//!
//! # Why
//! The ceiling that is measured is the ceiling that is there.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Boundary, Numbers, Quantity, Report, Row, Rule, outside};
use crate::design::Design;

pub(super) const RULE: Rule = Rule {
    name: "inside the room",
    text: include_str!("inside_room.rs"),
    keys: &["chase.left", "chase.width", "chase.depth"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    for out in outside(design) {
        let through = match out.boundary {
            Boundary::Left => "the wall to the left",
            Boundary::Right => "the wall to the right",
            Boundary::Wall => "the wall behind",
            Boundary::Opposite => "the wall opposite",
            Boundary::Floor => "the floor",
            Boundary::Ceiling => "the ceiling",
        };
        let row = Row {
            about: format!("{} through {through}", out.part),
            parts: vec![out.part],
            location: Some(out.location),
            source: ARITHMETIC.to_owned(),
            levers: &["chase.left", "chase.width", "chase.depth"],
            ..Row::default()
        };
        report.fail(row, Some(Numbers::none(Quantity::Length, out.by.to_mm())));
    }
}
