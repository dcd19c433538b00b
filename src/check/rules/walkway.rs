//! The walkway in front of the chase.
//!
//! # What it finds
//! The room left in front of the mantel or the finished face, whichever is nearer to a wall that the front faces,
//! against the walkway that is wanted. It counts square to that wall: across a corner from the mantel's end, or the
//! face's.
//!
//! # Why
//! A chase that nobody can walk past spoils the room; better to see it on paper.
//!
//! # Datum
//! The room's inside, bare of furniture.
//!
//! # Source
//! `room.walkway`; 36 in is comfortable (common practice, no source).

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Span, mantel_front, mantel_sides, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "walkway",
    concern: Concern::Looks,
    text: include_str!("walkway.rs"),
    keys: &[
        "room.walkway",
        "chase.depth",
        "skins.board",
        "skins.side_finish",
        "mantel.projection",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let mut places = Vec::new();
    let mut before = |sides: Span, out: Length| {
        let rights = [sides.center(), sides.low, sides.high];
        places.extend(rights.map(|right| point(right, out, layout.slab)));
    };
    let skins = params.skins.board + params.skins.side_finish;
    let face = layout.faces.lower_finished;
    before(layout.site.with_skins(skins, face), face);
    if let Some(mantel) = &params.mantel {
        let out = mantel_front(mantel, layout);
        before(mantel_sides(mantel, layout, out), out);
    }
    let ways = places
        .iter()
        .map(|place| (layout.way_before(*place), *place));
    let Some((way, place)) = ways.min_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm())) else {
        return;
    };
    let row = Row {
        subject: Measure("clear walkway in front of the chase").into(),
        location: Some(place),
        source: "room.walkway; common practice, no source".to_owned(),
        levers: &["chase.depth", "mantel.projection"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(way, params.room.walkway));
}
