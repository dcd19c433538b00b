//! Whether the mantel gets to its place in one piece.
//!
//! # What it finds
//! The mantel's length against the longest straight piece that can be carried into the room (`room.way_in`); without
//! that key, for a mantel that does not end with the chase, a question. From wall to wall it also finds the clear
//! distance between the walls against the mantel's diagonal, with its thickness or its depth, whichever is less: it
//! needs that much while one end is lowered or swung in.
//!
//! # Why
//! A mantel is one piece of wood or stone; one that does not get past the stairs, or that jams between the walls, is
//! cut where everybody sees it.
//!
//! # Datum
//! The mantel's longest edge; the finished walls.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, mantel_back, mantel_front, mantel_sides, point};
use crate::params::MantelExtent;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "mantel way in",
    concern: Concern::Framing,
    text: include_str!("mantel_way_in.rs"),
    keys: &[
        "room.width",
        "room.way_in",
        "mantel.thickness",
        "mantel.underside",
        "mantel.extent",
        "mantel.length",
        "mantel.end_ease",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Mantel) else {
        return;
    };
    let (params, layout) = (&design.params, &design.layout);
    let Some(mantel) = &params.mantel else { return };
    let front = mantel_front(mantel, layout);
    let back = mantel_back(mantel, layout);
    let sides = [front, back].map(|out| mantel_sides(mantel, layout, out));
    let length = sides[0].size().max(sides[1].size());
    let row = |measure: Measure, levers: &'static [&'static str]| Row {
        subject: measure.into(),
        parts: vec![part.id.clone()],
        location: Some(point(layout.unit_center, front, mantel.underside)),
        source: ARITHMETIC.to_owned(),
        levers,
        detail: None,
    };
    let measure = Measure("mantel's length on the way into the room");
    match params.room.way_in {
        Some(longest) => report.judge(
            row(measure, &["mantel.length"]),
            Numbers::at_most(length, longest),
        ),
        None if mantel.extent != MantelExtent::Chase => {
            let question = "Can the mantel be carried into the room in one piece (room.way_in)?";
            report.ask_for(row(measure, &[]), None, question, vec!["room.way_in"]);
        }
        None => {}
    }
    // across a corner the walls open toward the room, and it goes straight in
    if mantel.extent == MantelExtent::Room && !layout.site.is_turned() {
        let thin = mantel.thickness.min(front - back).to_mm();
        let diagonal = (length.to_mm() * length.to_mm() + thin * thin).sqrt();
        report.judge(
            row(
                Measure("mantel's diagonal between the walls"),
                &["mantel.end_ease"],
            ),
            Numbers::at_least(params.room.width, Length::mm(diagonal)),
        );
    }
}
