//! The way that is left before the chase.
//!
//! # What it finds
//! What is left of the room's depth before the mantel or the finished face, whichever stands farther
//! out, against the walkway that is wanted.
//!
//! # Why
//! A chase that leaves no way past it spoils the room; it shows on paper first.
//!
//! # Datum
//! The room's inside depth, bare of furniture.
//!
//! # Source
//! `room.walkway`; 36 in is comfortable (common practice, no source).

use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Design, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "walkway",
    text: include_str!("walkway.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let projection = params
        .mantel
        .as_ref()
        .map_or(Length::ZERO, |it| it.projection);
    let front = layout.lower_finished + projection;
    let row = Row {
        about: "walkway left before the chase".to_owned(),
        location: Some(point(layout.unit_center, front, layout.slab)),
        source: "room.walkway; common practice, no source".to_owned(),
        levers: &["chase.depth", "mantel.projection"],
        ..Row::default()
    };
    report.judge(
        row,
        Numbers::at_least(layout.way_before(params, front), params.room.walkway),
    );
}
