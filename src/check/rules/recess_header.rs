//! The header over a recess.
//!
//! # What it finds
//! A stick lying flat: the opening that it spans, against 8 ft; the height from it to the plate above it, against 24
//! in; and where stone or tile is over it, its whole load against the load that bends it by 1/600 of its span. Plies
//! on edge: their whole load against the load that bends them by 1/600 of their span under stone or tile, by 1/360
//! under board, and against their strength. Over 8 ft, or in steel, it asks.
//!
//! # Why
//! In a nonbearing wall a single stick on the flat is enough only over a short opening with something to nail to
//! close above it. Stone cracks on a header that sags.
//!
//! # Source
//! A flat stick: IRC 2015 to 2021, R602.7.4 (numbered otherwise in older editions), read in a secondary copy.
//! Bending: `check/header.rs`, with its sources.

use super::unit_header::{carried, spans_by_code};
use crate::check::header::over_recess;
use crate::check::{Concern, Report, Rule};
use crate::design::Design;
use crate::params::HeaderForm;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "recess header",
    concern: Concern::Structure,
    text: include_str!("recess_header.rs"),
    keys: &[
        "recess.width",
        "recess.height",
        "recess.sill",
        "recess.header_form",
        "recess.header",
        "recess.header_plies",
        "front.header_modulus",
        "skins.lower_material",
        "skins.upper_material",
        "stock.prices",
        "skins.lower_weight",
        "skins.upper_weight",
    ],
    check,
};

const LEVERS: &[&str] = &["recess.header_form", "recess.header", "recess.width"];
const LEVERS_OF_HEIGHT: &[&str] = &["recess.header_form", "recess.sill", "recess.height"];

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(beam) = over_recess(design) else {
        return;
    };
    if beam.header.form == HeaderForm::Flat && beam.stud.wood().is_some() {
        let over = design.layout.ceiling_over_recess();
        let highest = design.layout.highest_over_recess();
        let to_plate =
            over.zip(highest)
                .zip(design.layout.recess)
                .map(|((over, highest), recess)| {
                    let head = recess.finished_height.high;
                    highest - design.layout.stack_over_head(head, over.steepness)
                });
        let to_plate = to_plate.unwrap_or(Length::ZERO);
        spans_by_code(design, report, &beam, to_plate, [LEVERS, LEVERS_OF_HEIGHT]);
    }
    carried(design, report, &beam, LEVERS);
}
