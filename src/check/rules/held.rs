//! Unsupported parts.
//!
//! # What it finds
//! Every part without a path of contacts to the slab or the house; every stick that is held at one place only; every
//! plate, header, sill or ledge that nothing supports near one of its ends; every upright without something under it
//! and something over it; and every header or sill without an upright against both of its ends.
//!
//! # Why
//! Bearing means contact. A stick that touches nothing at one end is a stick that was forgotten, or
//! one that something was cut away from.
//!
//! # Source
//! Common practice, no source.

use super::COMMON_PRACTICE;
use crate::check::{Concern, Lack, Measure, Numbers, Report, Row, Rule, Thing, unheld};
use crate::design::Design;

pub(super) const RULE: Rule = Rule {
    name: "held",
    concern: Concern::Structure,
    text: include_str!("held.rs"),
    keys: &[],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    for part in unheld(design) {
        let (measure, numbers) = match part.lack {
            Lack::Floats => (Measure("{}: not connected to slab or house"), None),
            Lack::HeldAtOnePlace { held, length } => (
                Measure("{}: held over too little of its length"),
                Some(Numbers::at_least(held, length / 2.0)),
            ),
            Lack::NotCarried { free } => (
                Measure("{}: unsupported near one end"),
                Some(Numbers::at_most(free, crate::units::Length::ZERO)),
            ),
            Lack::EndFree => (Measure("{}: nothing is against one of its ends"), None),
        };
        let row = Row {
            subject: measure.of([Thing::Part(part.part.clone())]),
            parts: vec![part.part],
            location: Some(part.location),
            source: COMMON_PRACTICE.to_owned(),
            ..Row::default()
        };
        report.fail(row, numbers);
    }
}
