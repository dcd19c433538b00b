//! Decisions that answer nothing.
//!
//! # What it finds
//! Each row of `project.decided` that no question is left for: a check that does not ask, or asks of other things; one
//! that a key answers; one that fails, which nobody can decide away.
//!
//! # Why
//! A question that somebody decided is not asked again. A decision that has lost its question was made about
//! another design, or was written wrong.
//!
//! # Source
//! Whoever decided.

use super::RULES;
use crate::check::{Finding, Measure, Report, Row, Rule, Thing, Verdict};
use crate::design::Design;
use crate::params::Decision;

pub(super) const RULE: Rule = Rule {
    name: "decided",
    text: include_str!("decided.rs"),
    keys: &["project.decided"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let decisions = &design.params.project.decided;
    if decisions.is_empty() {
        return;
    }
    let others = RULES.iter().filter(|it| it.name != RULE.name);
    let found: Vec<Finding> = others.flat_map(|it| it.findings(design)).collect();
    for (index, decision) in decisions.iter().enumerate() {
        let Some(question) = lost(decision, &found) else {
            continue;
        };
        let row = Row {
            subject: Measure("row {} of the decisions, on {}").of([
                Thing::Number(index + 1),
                Thing::Named(decision.question.clone()),
            ]),
            source: format!("{}, {}", decision.who, decision.date),
            ..Row::default()
        };
        report.ask_for(row, None, question, vec!["project.decided"]);
    }
}

/// What is asked of a decision that answers nothing; nothing where it does.
fn lost(decision: &Decision, found: &[Finding]) -> Option<String> {
    let meant: Vec<&Finding> = found.iter().filter(|it| it.is_meant_by(decision)).collect();
    if meant.iter().any(|it| it.can_be_decided()) {
        return None;
    }
    let keys = meant.iter().flat_map(|it| &it.answered_by);
    let keys: Vec<&str> = keys.copied().collect();
    Some(if meant.iter().any(|it| it.verdict == Verdict::Fail) {
        "It fails, and a FAIL cannot be decided: what is built differently?".to_owned()
    } else if keys.is_empty() {
        "Nothing asks this, or does so no more: which question did it answer?".to_owned()
    } else {
        format!("A key answers it: what is {}?", keys.join(", "))
    })
}
