//! The unit's rough opening in the front wall.
//!
//! # What it finds
//! What is left of the front beside the opening, on its narrower side, after a jack, a king and the
//! end stud.
//!
//! # Why
//! An opening that leaves no room for its jack, king and end stud cannot be framed.
//!
//! # Source
//! Arithmetic on dressed lumber (DOC PS 20).

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "opening in the front",
    concern: Concern::FireAndGas,
    text: include_str!("opening_in_front.rs"),
    keys: &["chase.left", "chase.width", "appliance.center"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let opening = layout.rough_opening;
    let studs = layout.between_end_studs();
    let beside = (opening.low - studs.low).min(studs.high - opening.high);
    let left = beside - 2.0 * design.params.front_stud().breadth();
    let row = Row {
        subject: Measure("left beside the opening after jack, king and end stud").into(),
        location: Some(point(
            opening.low,
            layout.faces.upper_stud,
            layout.heights.header_bottom,
        )),
        source: ARITHMETIC.to_owned(),
        levers: &["chase.width", "appliance.center", "chase.left"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(left, Length::ZERO));
}
