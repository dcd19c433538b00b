//! The unit's lip against the skin around it.
//!
//! # What it finds
//! Whether the lip, set forward by the face offset, ends flush with the finished face: lip + face
//! offset − board − finish.
//!
//! # Why
//! The finish is meant to meet the lip's edge. Short of it, a gap shows; proud of it, the finish hides an edge that
//! the manual may want free.
//!
//! # Datum
//! The stud face that the unit is fastened to.
//!
//! # Source
//! Arithmetic; flush is intended. Anything else is a question for the manual.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::geom::TOLERANCE;

pub(super) const RULE: Rule = Rule {
    name: "lip against skin",
    concern: Concern::Framing,
    text: include_str!("lip_against_skin.rs"),
    keys: &[
        "skins.board",
        "skins.lower_finish",
        "appliance.lip",
        "appliance.face_offset",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    // a lip that stands nowhere before the face is no part
    let lip = design.first(Kind::UnitLip);
    let Some(part) = lip.or_else(|| design.first(Kind::UnitBody)) else {
        return;
    };
    let (params, layout) = (&design.params, &design.layout);
    let lip = params.appliance.lip + params.appliance.face_offset;
    let skin = layout.faces.lower_finished - layout.faces.lower_stud;
    let numbers = Numbers::at_least(lip, skin);
    let row = Row {
        subject: Measure("finish meets the lip's edge").into(),
        parts: vec![part.id.clone()],
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.opening_top,
        )),
        source: ARITHMETIC.to_owned(),
        levers: &["skins.lower_finish", "appliance.face_offset", "skins.board"],
        ..Row::default()
    };
    if numbers.margin.abs() <= TOLERANCE {
        report.judge_flush(row, numbers);
    } else if numbers.margin < 0.0 {
        report.ask(
            row,
            Some(numbers),
            "The finish is proud of the lip: does the manual allow it?",
        );
    } else {
        report.ask(
            row,
            Some(numbers),
            "The lip is proud of the finish: is that wanted, and does the manual allow it?",
        );
    }
}
