//! Verdicts that depend on a fact that is not given: they wait for it.
//!
//! Which they are is tried. The design is made again with the fact drawn otherwise, near and far, and what is not the
//! same then rests on it. Nothing has to be declared, and no rule needs to know.

use std::collections::{BTreeMap, BTreeSet};

use super::all::judged;
use super::rules::NOT_TOLD;
use super::rules::RULES;
use super::{Finding, Verdict, Waiting};
use crate::design::{Design, design};
use crate::geom::TOLERANCE;
use crate::params::{Parameter, Params, parameter};

/// How many verdicts wait for a fact.
pub fn not_judged(findings: &[Finding]) -> usize {
    let asked = findings.iter().filter(|it| it.asks_for_a_fact());
    let waiting = asked.flat_map(|it| {
        let itself = it.waiting.is_empty().then(|| Waiting::of(it));
        it.waiting.iter().cloned().chain(itself)
    });
    waiting.collect::<BTreeSet<_>>().len()
}

/// Every finding, by what it is about.
type Found<'a> = BTreeMap<Waiting, &'a Finding>;

fn by_name(findings: &[Finding]) -> Found<'_> {
    findings.iter().map(|it| (Waiting::of(it), it)).collect()
}

/// Takes out what depends on a fact that is not given; the question for the fact names it.
pub(super) fn hold_back(design: &Design, findings: &mut Vec<Finding>) {
    name_rules_of_tables(design, findings);
    let untold = design.params.not_told();
    let untold: Vec<&Parameter> = untold.iter().filter_map(|it| parameter(it)).collect();
    if untold.is_empty() {
        return;
    }
    let together = together(&design.params, &untold);
    let mut waiting: BTreeMap<&str, BTreeSet<Waiting>> = BTreeMap::new();
    for it in &untold {
        let waits = waits_for(&design.params, it, findings, &together);
        waiting.insert(it.key, waits);
    }
    for question in findings.iter_mut().filter(|it| it.verdict == Verdict::Ask) {
        let own = question.answered_by.iter();
        let own: BTreeSet<&Waiting> = own.filter_map(|it| waiting.get(it)).flatten().collect();
        let own = own.into_iter().filter(|it| **it != Waiting::of(question));
        let own: Vec<Waiting> = own.cloned().collect();
        question.waiting.extend(own);
    }
    let all: BTreeSet<&Waiting> = waiting.values().flatten().collect();
    findings.retain(|it| match it.verdict {
        Verdict::Ask => it.rule != NOT_TOLD || !it.waiting.is_empty(),
        Verdict::Fail | Verdict::Tight | Verdict::Decided | Verdict::Pass | Verdict::Flush => {
            !all.contains(&Waiting::of(it))
        }
    });
}

/// Whatever the rules find that declare one of these keys.
fn judged_by(is_one: impl Fn(&str) -> bool) -> impl Iterator<Item = Waiting> {
    let rules = RULES
        .iter()
        .filter(move |it| it.keys.iter().any(|key| is_one(key)));
    rules.map(|it| Waiting {
        rule: it.name,
        subject: None,
    })
}

/// Lets the question for a table name the rules that need it.
fn name_rules_of_tables(design: &Design, findings: &mut [Finding]) {
    for question in findings.iter_mut().filter(|it| it.asks_for_a_fact()) {
        let tables = question.answered_by.iter();
        let tables: Vec<&str> = tables
            .filter(|it| parameter(it).is_none())
            .copied()
            .collect();
        let of_it = |key: &str| {
            parameter(key)
                .is_some_and(|it| tables.contains(&it.group) && !design.params.has(it.group))
        };
        let own = question.rule;
        let rules = judged_by(of_it).filter(|it| it.rule != own);
        question.waiting.extend(rules);
    }
}

/// What is found with all of them drawn otherwise at once.
fn together(params: &Params, untold: &[&Parameter]) -> Vec<Vec<Finding>> {
    if untold.len() < 2 {
        return Vec::new();
    }
    let ends: [fn(usize) -> usize; 2] = [|_| 0, |last| last];
    let drawn = ends.map(|end| {
        untold.iter().fold(params.clone(), |drawn, it| {
            let others = it.others(params);
            let other = others.get(end(others.len().saturating_sub(1)));
            let other = other.and_then(|other| drawn.with(it.key, other).ok());
            other.unwrap_or(drawn)
        })
    });
    drawn.iter().map(|it| judged(&design(it))).collect()
}

/// What rests on one of them.
fn waits_for(
    params: &Params,
    parameter: &Parameter,
    findings: &[Finding],
    together: &[Vec<Finding>],
) -> BTreeSet<Waiting> {
    let others = parameter.others(params).into_iter();
    let others = others.filter_map(|it| params.with(parameter.key, &it).ok());
    let trials: Vec<Vec<Finding>> = others.map(|it| judged(&design(&it))).collect();
    if trials.is_empty() {
        return judged_by(|key| key == parameter.key).collect();
    }
    let drawn = by_name(findings);
    let all = trials.iter().chain(together);
    let all: Vec<Found<'_>> = all.map(|it| by_name(it)).collect();
    let strict = parameter.others_are_all() && together.is_empty();
    let new = all.iter().flat_map(|it| it.keys());
    let new = new.filter(|it| !drawn.contains_key(it)).cloned();
    let moved = drawn.iter().filter(|(name, finding)| {
        let then: Vec<Option<&&Finding>> = all.iter().map(|it| it.get(name)).collect();
        rests(finding, &then, strict)
    });
    let moved = moved.map(|(name, _)| name.clone());
    let found = new.chain(moved);
    found.filter(|it| it.rule != NOT_TOLD).collect()
}

/// Whether a finding is not the same in every trial. What fails in all of them fails; what is worst as it is drawn
/// holds where nothing else is left to draw.
fn rests(finding: &Finding, then: &[Option<&&Finding>], strict: bool) -> bool {
    let every =
        |holds: &dyn Fn(&Finding) -> bool| then.iter().all(|it| it.is_some_and(|it| holds(it)));
    if finding.verdict == Verdict::Fail && every(&|it| it.verdict == Verdict::Fail) {
        return false;
    }
    let margin = |it: &Finding| it.numbers.map_or(0.0, |it| it.margin);
    if strict
        && every(&|it| margin(it) >= margin(finding) - TOLERANCE && it.verdict >= finding.verdict)
    {
        return false;
    }
    !every(&|it| it.verdict == finding.verdict && (margin(it) - margin(finding)).abs() <= TOLERANCE)
}
