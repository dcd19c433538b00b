//! Decisions that no longer answer a question.
//!
//! # What it finds
//! Each row of `project.decided` without a question to answer: a check that does not ask, or that asks about other
//! things or about more than one; one that a key answers; one that fails, which nobody can decide away. It goes by
//! what the other rules found.
//!
//! # Why
//! A question that somebody has decided is not asked again. A decision without its question was made about another
//! design, or was entered wrong.
//!
//! # Source
//! Whoever decided.

use crate::check::{Concern, Finding, Measure, Report, Row, Rule, Thing, Verdict};
use crate::design::Design;
use crate::params::Decision;

pub(super) const RULE: Rule = Rule {
    name: "decided",
    concern: Concern::FireAndGas,
    text: include_str!("decided.rs"),
    keys: &["project.decided"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let decisions = design.params.project.decided.iter().enumerate();
    let lost = decisions.filter_map(|(index, it)| Some((index, it, lost(it, report.found())?)));
    let lost: Vec<_> = lost.collect();
    for (index, decision, question) in lost {
        let row = Row {
            subject: Measure("row {} of the decisions, about {}").of([
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
    match meant.iter().filter(|it| it.can_be_decided()).count() {
        0 => {}
        1 => return None,
        _ => return Some("It asks more than once: which one was decided (`of`)?".to_owned()),
    }
    let keys = meant.iter().flat_map(|it| &it.answered_by);
    let keys: Vec<&str> = keys.copied().collect();
    Some(if meant.iter().any(|it| it.verdict == Verdict::Fail) {
        "It fails, and a FAIL cannot be decided away: what will be built differently?".to_owned()
    } else if keys.is_empty() {
        "Nothing asks this, or no longer does: which question did it answer?".to_owned()
    } else {
        format!("A key answers it: what is {}?", keys.join(", "))
    })
}
