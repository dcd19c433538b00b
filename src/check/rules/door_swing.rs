//! A cabinet's door that swings over the chase's face.
//!
//! # What it finds
//! For doors that hang on the side toward the chase, on cabinets whose front stands as far out as the
//! chase's face: the distance from the cabinet to the opening's side, against the door's width.
//!
//! # Why
//! Such a door opens flat over the face, and its edge can end up in front of the hot glass. A stop on the hinge, or
//! hinging it on the other side, keeps it away.
//!
//! # Datum
//! The cabinet's side toward the chase; the opening's side.
//!
//! # Source
//! Arithmetic.

use super::{ARITHMETIC, parts_of};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind, Span, cabinets, point};
use crate::params::{DoorHinge, Hand};

pub(super) const RULE: Rule = Rule {
    name: "door swing",
    concern: Concern::Heat,
    text: include_str!("door_swing.rs"),
    keys: &[
        "appliance.opening_width",
        "cabinets.gap",
        "cabinets.door",
        "cabinets.hinge",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let Some(keys) = &params.cabinets else { return };
    if keys.hinge == DoorHinge::Far || !keys.door.is_positive() {
        return;
    }
    let opening = Span::about(layout.unit_center, params.appliance.opening_width);
    let built = parts_of(design, Kind::Cabinet);
    for (cabinet, part) in cabinets(layout).iter().zip(built) {
        if (layout.faces.lower_finished - cabinet.outs.high).is_positive() {
            // the chase's own side stops it
            continue;
        }
        let (hand, edge, distance) = if cabinet.on_the_left {
            (
                Hand::Left,
                cabinet.sides.high,
                opening.low - cabinet.sides.high,
            )
        } else {
            (
                Hand::Right,
                cabinet.sides.low,
                cabinet.sides.low - opening.high,
            )
        };
        let row = Row {
            subject: Measure("{} cabinet's door, opened flat: clear distance to the opening")
                .of([Thing::Hand(hand)]),
            parts: vec![part],
            location: Some(point(edge, cabinet.outs.high, cabinet.heights.center())),
            source: ARITHMETIC.to_owned(),
            levers: &["cabinets.door", "cabinets.gap"],
            detail: None,
        };
        report.judge(row, Numbers::at_least(distance, keys.door));
    }
}
