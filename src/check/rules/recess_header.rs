//! The flat header over a recess.
//!
//! # What it finds
//! The opening that the flat header spans, against 8 ft; and the height from the header to the plate
//! above it, against 24 in.
//!
//! # Why
//! In a wall that carries nothing a single stick on flat is enough only over a short opening with
//! something to nail to close above it. Stone or a heavy screen over it wants more in any case.
//!
//! # Source
//! IRC 2015 to 2021, R602.7.4 (numbered otherwise in older editions), read in a secondary copy.

use crate::check::{Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "recess header",
    text: include_str!("recess_header.rs"),
    keys: &["recess.width", "recess.height", "recess.sill"],
    check,
};

const SPAN: Length = Length::inches(96.0);
const TO_NAILING: Length = Length::inches(24.0);

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(recess) = &design.layout.recess else {
        return;
    };
    let head = recess.rough_height.high.to_mm();
    let header = design.parts.iter().find(|it| {
        it.kind == Kind::Header && (it.body.bounds.low.z - head).abs() <= crate::geom::TOLERANCE
    });
    let Some(header) = header else { return };
    let row = |measure: Measure, levers| Row {
        subject: measure.into(),
        parts: vec![header.id.clone()],
        location: Some(header.body.bounds.center()),
        source: "IRC 2021 R602.7.4, read in a secondary copy; the local code decides".to_owned(),
        levers,
        ..Row::default()
    };
    // the jacks that carry it stand under its two ends
    let span = Length::mm(header.body.bounds.size().x) - 2.0 * design.params.front_stud().breadth();
    report.limit(
        row(
            Measure("opening under the flat header of the recess"),
            &["recess.width"],
        ),
        Numbers::at_most(span, SPAN),
    );
    let over = design.layout.ceiling_over_recess();
    let highest = design.layout.highest_over_recess();
    if let (Some(over), Some(highest)) = (over, highest) {
        let head = recess.finished_height.high;
        let stack = design.layout.stack_over_head(head, over.steepness);
        report.limit(
            row(
                Measure("from the flat header up to the plate"),
                &["recess.sill", "recess.height"],
            ),
            Numbers::at_most(highest - stack, TO_NAILING),
        );
    }
}
