//! Unlikely numbers.
//!
//! # What it finds
//! Every fact in the file, and every thickness and spacing with a usual range in the trade, whose number is outside
//! that range, and every table of the manual whose columns seem to be swapped: a clearance of a few millimeters where
//! inches were copied into a metric file, a missing zero. It asks whether the page really says so, and names the
//! other unit if the number would fit there. It never fails anything.
//!
//! # Why
//! A check with a wrong number passes as quietly as one with the right number.
//!
//! # Source
//! Common practice, no source: `explain` has the range of each key.

use crate::check::{Concern, Measure, Report, Row, Rule, Thing};
use crate::design::Design;
use crate::params::{Doubt, PARAMETERS, Parameter, Value};

use super::COMMON_PRACTICE;

pub(super) const RULE: Rule = Rule {
    name: "likely",
    concern: Concern::FireAndGas,
    text: include_str!("likely.rs"),
    keys: &[],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    for parameter in PARAMETERS {
        if let Some((value, doubt)) = parameter.doubt(&design.params) {
            let row = Row {
                subject: Measure("{}").of([Thing::Word(parameter.key)]),
                source: COMMON_PRACTICE.to_owned(),
                ..Row::default()
            };
            report.ask(row, None, question(parameter, &value, &doubt));
        }
    }
}

/// Whether the number is really so.
fn question(parameter: &Parameter, value: &Value, doubt: &Doubt) -> String {
    let whence = if let Value::Manual { page, .. } = value {
        format!("what page {page} says")
    } else {
        "so".to_owned()
    };
    let key = parameter.key;
    match doubt {
        Doubt::Number {
            found,
            usual,
            other_unit,
        } => {
            let other = other_unit.as_ref().map(|it| format!("; {it} would be"));
            let other = other.unwrap_or_default();
            format!("Is this {whence}: {key} {found}? The usual range is {usual}{other}.")
        }
        Doubt::ColumnsSwapped => format!(
            "Is this {whence}: in every row of {key} the first number is larger than the second? Usually it is the other way around."
        ),
    }
}
