//! Parts in one another.
//!
//! # What it finds
//! Every two parts that share space, with the volume they share and how far one has to be pushed to
//! be clear of the other. Parts that touch share nothing.
//!
//! # Why
//! Two sticks cannot stand in one place; on site one of them is cut.
//!
//! # Source
//! Arithmetic on the exact shapes.

use super::ARITHMETIC;
use crate::check::{Numbers, Quantity, Report, Row, Rule, interference};
use crate::design::Design;

pub(super) const RULE: Rule = Rule {
    name: "part in part",
    text: include_str!("part_in_part.rs"),
    check,
};

/// Cubic millimetres in a cubic centimetre.
const CUBIC_CENTIMETRE: f64 = 1000.0;

fn check(design: &Design, report: &mut Report<'_>) {
    for clash in interference(design) {
        let row = Row {
            about: format!("{} in {}", clash.first, clash.second),
            parts: vec![clash.first, clash.second],
            location: Some(clash.location),
            source: ARITHMETIC.to_owned(),
            levers: &[],
            detail: Some(format!(
                "they share {:.1} cm³",
                clash.volume / CUBIC_CENTIMETRE
            )),
        };
        report.fail(
            row,
            Some(Numbers::none(Quantity::Length, clash.depth.to_mm())),
        );
    }
}
