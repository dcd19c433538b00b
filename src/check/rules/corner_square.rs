//! An out-of-square corner of the room, with the chase square in it.
//!
//! # What it finds
//! How far the side wall of the room lies behind its place farthest into the room, as far out as the chase reaches,
//! against the build allowance.
//!
//! # Why
//! A chase in a corner is framed square to the fireplace wall, whatever the side wall does. So it is set where the
//! side wall comes farthest into the room, nothing cuts into that wall, and elsewhere there is a widening gap: what
//! is screwed there is packed, and board or trim is scribed to the wall. (A chase across a corner is cut to the
//! corner's own angle instead.)
//!
//! # Datum
//! The place of the side wall farthest into the room, between the fireplace wall and the chase's end on it;
//! whatever counts from that corner counts from there.
//!
//! # Source
//! A 3-4-5 triangle, by tape: the theorem of Pythagoras; packed and scribed: common practice,
//! no source.

use super::{COMMON_PRACTICE, first_of, packed_at};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind, Packing};
use crate::params::RoomWall;

pub(super) const RULE: Rule = Rule {
    name: "corner square",
    concern: Concern::Framing,
    text: include_str!("corner_square.rs"),
    keys: &[
        "project.build_allowance",
        "room.left_corner",
        "room.right_corner",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let unit = design.params.project.unit;
    for wall in [RoomWall::Left, RoomWall::Right] {
        let own = design.packing.iter().filter(|it| it.of.is_beside(wall));
        let own: Vec<&Packing> = own.collect();
        let thick = |it: &Packing| it.thickness.to_mm();
        let Some(widest) = own.iter().max_by(|a, b| thick(a).total_cmp(&thick(b))) else {
            continue;
        };
        let at = packed_at(own.iter().copied(), unit);
        let turn = if design.params.corner_opens(wall) > 0.0 {
            "wider"
        } else {
            "narrower"
        };
        let row = Row {
            subject: Measure("gap at the {}, corner out of square").of([Thing::RoomWall(wall)]),
            parts: first_of(design, Kind::Floor),
            location: Some(widest.place),
            source: COMMON_PRACTICE.to_owned(),
            levers: &[],
            detail: Some(format!(
                "the corner is {turn} than square, and the chase stays square to the fireplace wall; along the {} from the corner: {at}",
                wall.name()
            )),
        };
        let numbers = Numbers::at_most(widest.thickness, report.allowance());
        if (widest.thickness - report.allowance()).is_positive() {
            let question = "The chase stays square: will it be packed where it is screwed to this wall, and the board scribed to it?";
            report.ask(row, Some(numbers), question);
        } else {
            report.limit(row, numbers);
        }
    }
}
