//! What supports the mantel beyond the chase.
//!
//! # What it finds
//! For each end that reaches beyond the chase's finished side: whether a leg of `mantel.end_legs` stands
//! under it, or a cabinet whose top it lies on. Where neither does, it asks.
//!
//! # Why
//! The blocks and the ledge behind a mantel end with the chase. Whatever overhangs them bends, and the joint at the
//! chase's corner opens.
//!
//! # Datum
//! The finished side of the chase, at the mantel's front.
//!
//! # Source
//! Common practice, no source.

use super::COMMON_PRACTICE;
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind, mantel_back, mantel_beyond, mantel_front, mantel_sides, point};
use crate::geom::TOLERANCE;
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "mantel ends",
    concern: Concern::Looks,
    text: include_str!("mantel_ends.rs"),
    keys: &[
        "mantel.underside",
        "mantel.extent",
        "mantel.length",
        "mantel.end_legs",
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
    let ends = mantel_sides(mantel, layout, front);
    let beyond = mantel_beyond(mantel, layout);
    let middle = (front + mantel_back(mantel, layout)) / 2.0;
    let mut hanging = Vec::new();
    let [left, right] = beyond;
    for (name, end, beyond, inner) in [
        ("left", ends.low, left, ends.low + left),
        ("right", ends.high, right, ends.high - right),
    ] {
        if beyond.to_mm() > TOLERANCE && !carried(design, (end, inner), middle) {
            let length = beyond.tape(params.project.unit, Rounding::Up);
            hanging.push((format!("{name} {length}"), end));
        }
    }
    let Some((_, end)) = hanging.first() else {
        return;
    };
    let texts: Vec<&str> = hanging.iter().map(|it| it.0.as_str()).collect();
    let row = Row {
        subject: Measure("mantel ends beyond the chase").into(),
        parts: vec![part.id.clone()],
        location: Some(point(*end, middle, mantel.underside)),
        source: COMMON_PRACTICE.to_owned(),
        levers: &[],
        detail: Some(format!("it reaches on: {}", texts.join(", "))),
    };
    let question = "What supports the mantel beyond the chase: a cabinet under it, a leg (mantel.end_legs), brackets into studs?";
    report.ask(row, None, question);
}

/// Whether something stands under the mantel between two places beside the chase.
fn carried(design: &Design, (end, chase): (Length, Length), middle: Length) -> bool {
    let Some(mantel) = &design.params.mantel else {
        return false;
    };
    let (low, high) = (end.min(chase).to_mm(), end.max(chase).to_mm());
    let under = mantel.underside.to_mm();
    design.parts.iter().any(|part| {
        let bounds = part.body.bounds;
        matches!(part.kind, Kind::Leg | Kind::Cabinet)
            && (bounds.high.z - under).abs() <= TOLERANCE
            && bounds.high.x.min(high) - bounds.low.x.max(low) > TOLERANCE
            // at least half of its depth lies on it
            && -bounds.low.y >= middle.to_mm() - TOLERANCE
    })
}
