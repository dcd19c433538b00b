//! The walls of the room that the unit faces.
//!
//! # What it finds
//! How much is left between the clearance in front of the opening and the walls of the room that the front faces: the
//! one opposite, and across a corner also the side wall that is not part of that corner.
//!
//! # Why
//! The manual keeps the space in front of the opening free of everything combustible, and a wall with its paint and
//! paper is combustible.
//!
//! # Datum
//! The unit's face; the wall's finished face. The measured distance is the manual's number plus what is left beyond
//! it.
//!
//! # Source
//! The unit's manual, `appliance.front_clearance`.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Span, point};

pub(super) const RULE: Rule = Rule {
    name: "opposite wall",
    concern: Concern::FireAndGas,
    text: include_str!("opposite_wall.rs"),
    keys: &[
        "room.depth",
        "chase.depth",
        "appliance.front_clearance",
        "appliance.opening_width",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (unit, layout) = (&design.params.appliance, &design.layout);
    let clearance = unit.front_clearance.value;
    let sides = Span::about(layout.unit_center, unit.opening_width);
    let front = layout.faces.unit + clearance;
    let corners = [sides.low, sides.high].map(|it| point(it, front, layout.heights.opening_top));
    let ways = corners.map(|it| (layout.way_before(it), it));
    let [left, right] = ways;
    let (beyond, place) = if left.0 <= right.0 { left } else { right };
    let row = Row {
        subject: Measure("the room's wall in front of the opening").into(),
        parts: vec!["clearance/unit front".to_owned()],
        location: Some(place),
        source: page(&unit.front_clearance),
        levers: &["chase.depth"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(clearance + beyond, clearance));
}
