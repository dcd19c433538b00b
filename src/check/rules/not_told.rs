//! Facts that are not given.
//!
//! # What it finds
//! Facts of the manual, a bought thing, the house or another trade that are left out although something drawn depends
//! on them: each is one question. It names every verdict that depends on the fact, found by drawing it otherwise;
//! these wait, and are not listed. What fails however it is drawn stays a FAIL, and a fact on which nothing depends
//! is not asked for.
//!
//! # Why
//! A number that nobody gave is no number. Without the size of the cap nobody knows how far it is from the window.
//!
//! # Source
//! Whoever knows the fact: the unit's manual, the sheet of what is bought, a tape measure, the other trade.

use crate::check::{Concern, Measure, Report, Row, Rule, Thing};
use crate::design::Design;
use crate::params::parameter;

pub(super) const RULE: Rule = Rule {
    name: "not told",
    concern: Concern::FireAndGas,
    text: include_str!("not_told.rs"),
    keys: &[],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let params = &design.params;
    for parameter in params.untold.iter().filter_map(|key| parameter(key)) {
        let row = Row {
            subject: Measure("{}").of([Thing::Word(parameter.key)]),
            source: "the manual, the house, or whoever else knows it".to_owned(),
            ..Row::default()
        };
        let question = format!(
            "What is {}? {} It is drawn as {}, assumed.",
            parameter.key,
            parameter.meaning,
            params.text_of(parameter)
        );
        report.ask_for(row, None, question, vec![parameter.key]);
    }
}
