//! A unit set forward of the studs.
//!
//! # What it finds
//! How far the unit's face is in front of the stud face, against how far its manual allows it, on furring. It asks
//! where that is not given.
//!
//! # Why
//! The unit's flange is fastened to the framing; set forward, it is fastened to furring on the framing, and body,
//! spacers and clearances move with it. Not every unit is listed that way.
//!
//! # Datum
//! The stud face that the unit's opening is in.
//!
//! # Source
//! The unit's manual, `appliance.most_forward`.

use super::{page, parts_of};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "unit set forward",
    concern: Concern::FireAndGas,
    text: include_str!("unit_forward.rs"),
    keys: &["appliance.face_offset", "appliance.most_forward"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (unit, layout) = (&design.params.appliance, &design.layout);
    if !unit.face_offset.is_positive() {
        return;
    }
    let row = Row {
        subject: Measure("unit's face in front of the stud face").into(),
        parts: [
            parts_of(design, Kind::UnitBody),
            parts_of(design, Kind::Furring),
        ]
        .concat(),
        location: Some(point(
            layout.unit_center,
            layout.faces.unit,
            layout.heights.opening_top,
        )),
        source: "the unit's manual".to_owned(),
        levers: &["appliance.face_offset"],
        ..Row::default()
    };
    let Some(most) = &unit.most_forward else {
        let question = "How far in front of the studs does the manual allow the unit to be set, on furring (appliance.most_forward)?";
        report.ask_for(row, None, question, vec!["appliance.most_forward"]);
        return;
    };
    let row = Row {
        source: page(most),
        ..row
    };
    // furring is as thick as it is
    report.limit(row, Numbers::at_most(unit.face_offset, most.value));
}
