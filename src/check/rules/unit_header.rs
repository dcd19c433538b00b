//! The header over the unit's opening.
//!
//! # What it finds
//! The opening that the header spans, against 8 ft; for a header of steel it asks for its maker's table.
//!
//! # Why
//! The chase carries nothing but itself, and for a wall that carries nothing the code's own header ends
//! at 8 ft. Two plies on edge are stiffer than the flat stick that the code is content with; over a
//! longer opening, or where the wall carries more than board and finish, somebody designs it: so in a wall
//! of the room that a flush chase is set into and that may carry load, where `existing stud cut` asks.
//!
//! # Datum
//! Between the jacks.
//!
//! # Source
//! IRC 2015 to 2021, R602.7.4 (numbered otherwise in older editions), read in a secondary copy.

use crate::catalog::FramingMember;
use crate::check::{Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "unit header",
    text: include_str!("unit_header.rs"),
    keys: &["front.header", "front.opening_ease"],
    check,
};

const SPAN: Length = Length::inches(96.0);

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    if layout.opened.as_ref().is_some_and(|it| !it.is_settled) {
        return;
    }
    let headers = design.parts.iter().filter(|it| {
        it.kind == Kind::Header
            && (it.body.bounds.low.z - layout.heights.header_bottom.to_mm()).abs()
                <= crate::geom::TOLERANCE
    });
    let row = Row {
        subject: Measure("opening under the unit's header").into(),
        parts: headers.map(|it| it.id.clone()).collect(),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_stud,
            layout.heights.header_bottom,
        )),
        source: "IRC 2021 R602.7.4, nonbearing, read in a secondary copy; the local code decides"
            .to_owned(),
        levers: &["front.opening_ease"],
        ..Row::default()
    };
    let numbers = Numbers::at_most(layout.rough_opening.size(), SPAN);
    if let FramingMember::Steel(header) = &design.params.front.header {
        let row = Row {
            source: "the maker's table of headers, as AISI S220 asks for one".to_owned(),
            ..row
        };
        let opening = layout
            .rough_opening
            .size()
            .tape(design.params.project.unit, Rounding::Up);
        let question = format!(
            "Does the maker's table allow a header of two {} over {opening}, for board and finish above it?",
            header.name
        );
        report.ask(row, None, question);
        return;
    }
    report.limit(row, numbers);
}
