//! A floor measured from a level line.
//!
//! # What it finds
//! How far the floor is below its highest measured place, at the lowest reading under a wall of the chase, or at the
//! lowest of all where none was taken there, against the build allowance.
//!
//! # Why
//! Sole plates lie level on the highest place of the floor and are packed up elsewhere, so that opening, header,
//! mantel and platform are level from end to end, and studs under one plate are cut to one length.
//!
//! # Datum
//! The highest measured place of the floor; all heights are measured from there.
//!
//! # Source
//! Common practice, no source.

use super::{COMMON_PRACTICE, first_of, packed_at};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Packed, Packing, point};
use crate::params::FloorReading;

pub(super) const RULE: Rule = Rule {
    name: "floor readings",
    concern: Concern::Framing,
    text: include_str!("floor_readings.rs"),
    keys: &["project.build_allowance", "room.floor"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let unit = design.params.project.unit;
    let soles: Vec<&Packing> = design
        .packing
        .iter()
        .filter(|it| it.of.is_under())
        .collect();
    let layout = &design.layout;
    let place = |it: &FloorReading| layout.site.room.point(point(it.right, it.out, layout.slab));
    let read = design.params.floor_readings();
    let anywhere = read.iter().map(|it| (it.below, place(it)));
    let mut depths: Vec<_> = soles.iter().map(|it| (it.thickness, it.place)).collect();
    if depths.is_empty() {
        depths = anywhere.collect();
    }
    let deepest = depths
        .into_iter()
        .max_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm()));
    let Some((deepest, place)) = deepest else {
        return;
    };
    let mut walls: Vec<Packed> = soles.iter().map(|it| it.of).collect();
    walls.dedup();
    let packed = walls.iter().map(|wall| {
        let own = soles.iter().filter(|it| it.of == *wall);
        format!("{wall}: {}", packed_at(own.copied(), unit))
    });
    let packed: Vec<String> = packed.collect();
    let row = Row {
        subject: Measure("floor below its highest measured place").into(),
        parts: first_of(design, Kind::Floor),
        location: Some(place),
        source: COMMON_PRACTICE.to_owned(),
        levers: &[],
        detail: (!packed.is_empty())
            .then(|| format!("packed, from where each is laid out: {}", packed.join("; "))),
    };
    let numbers = Numbers::at_most(deepest, report.allowance());
    if (deepest - report.allowance()).is_positive() {
        let question = "Sole plates are drawn level on the floor's highest place: will they be packed up there?";
        report.ask(row, Some(numbers), question);
    } else {
        report.limit(row, numbers);
    }
}
