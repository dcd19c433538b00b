//! Parts in one another.
//!
//! # What it finds
//! Every two parts that share space, with the volume they share and how far one has to be pushed to
//! be clear of the other. Parts that touch share nothing. Where a cable or the gas pipe passes straight
//! through a stud, the stud is bored: see the rule `bores and notches`.
//!
//! # Why
//! Two sticks cannot stand in one place; on site one of them is cut.
//!
//! # Source
//! Arithmetic on the exact shapes.

use super::ARITHMETIC;
use super::bores::is_cut;
use crate::check::{Measure, Numbers, Quantity, Report, Row, Rule, Thing, interference};
use crate::design::Design;

pub(super) const RULE: Rule = Rule {
    name: "part in part",
    text: include_str!("part_in_part.rs"),
    keys: &[],
    check,
};

/// Cubic millimetres in a cubic centimetre.
const CUBIC_CENTIMETRE: f64 = 1000.0;

fn check(design: &Design, report: &mut Report<'_>) {
    let part = |id: &str| design.parts.iter().find(|it| it.id == id);
    for clash in interference(design) {
        let both = part(&clash.first).zip(part(&clash.second));
        if both.is_some_and(|(first, second)| is_cut(first, second, design.params.project.unit)) {
            continue;
        }
        let row = Row {
            subject: Measure("{} in {}")
                .of([&clash.first, &clash.second].map(|it| Thing::Part(it.clone()))),
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
