//! The head of the recess under the ceiling.
//!
//! # What it finds
//! The ceiling at its low end over the recess's header, against the stack under it: finished head,
//! board, header, plates on their slope and the gap.
//!
//! # Why
//! A plate on a slope takes more height than its thickness, and the header meets the ceiling first at
//! its low end.
//!
//! # Datum
//! The ceiling's surface over the low edge of the plate.
//!
//! # Source
//! Arithmetic: a plate of thickness t on a plane with slopes a and b takes t·√(1 + a² + b²) of height.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, point};

pub(super) const RULE: Rule = Rule {
    name: "recess under the ceiling",
    concern: Concern::Framing,
    text: include_str!("recess_under_ceiling.rs"),
    keys: &["chase.top_plates", "recess.height", "recess.sill"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let (Some(recess), Some(over)) = (&layout.recess, layout.ceiling_over_recess()) else {
        return;
    };
    let stack = layout.stack_over_head(recess.finished_height.high, over.steepness);
    let place = point(over.right, over.out, over.height);
    let row = Row {
        subject: Measure("ceiling over the recess's head, header, plates and gap").into(),
        parts: vec![design.ceiling_over(place)],
        location: Some(place),
        source: ARITHMETIC.to_owned(),
        levers: &["recess.sill", "recess.height", "chase.top_plates"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(over.height, stack));
}
