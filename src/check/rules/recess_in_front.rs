//! The recess in the width of its wall.
//!
//! # What it finds
//! The wall's width between its end studs, against the recess with its board, jacks and kings; and
//! what is left on the narrower side after a jack, a king and the end stud.
//!
//! # Why
//! Where the recess's own side would fall on the unit's kings, it is framed wider and furred in.
//! A recess is usually wider than the unit's opening and needs jacks and full-height kings of its own.
//!
//! # Source
//! Arithmetic on dressed lumber (DOC PS 20).

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "recess in the front",
    concern: Concern::Framing,
    text: include_str!("recess_in_front.rs"),
    keys: &["chase.width", "recess.width", "recess.center"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let Some(recess) = &layout.recess else { return };
    let thickness = design.params.front_stud().breadth();
    let studs = layout.between_end_studs();
    let row = |measure: Measure| Row {
        subject: measure.into(),
        location: Some(point(
            recess.rough.low,
            layout.faces.upper_stud,
            recess.rough_height.high,
        )),
        source: ARITHMETIC.to_owned(),
        levers: &["recess.width", "recess.center", "chase.width"],
        ..Row::default()
    };
    report.judge(
        row(Measure(
            "wall between its end studs for the recess with jacks and kings",
        )),
        Numbers::at_least(studs.size(), recess.framed.size() + 4.0 * thickness),
    );
    let beside = (recess.framed.low - studs.low).min(studs.high - recess.framed.high);
    report.judge(
        row(Measure(
            "left beside the recess after jack, king and end stud",
        )),
        Numbers::at_least(beside - 2.0 * thickness, Length::ZERO),
    );
}
