//! Which finding follows from which.
//!
//! Findings that get better by moving one dimension one way have one cause: too little of that dimension. Of all such
//! sets the largest is taken first, then the largest of what is left, until no two findings are left that have a lever
//! in common. The one that asks for the most is the cause. What a tried cure clears beside its finding follows from it
//! too; what it does not clear stands for itself.

use std::cmp::Reverse;

use super::goal::Goal;
use super::slopes::{Slopes, is_open};
use crate::check::{Finding, Name, Verdict};
use crate::units::Length;

/// Each cause with what follows from it, of findings in order; where no causes have been looked for, each by itself.
pub fn causes(findings: &[Finding]) -> impl Iterator<Item = (&Finding, &[Finding])> {
    let groups = findings.chunk_by(|_, next| next.follows.is_some());
    groups.filter_map(<[Finding]>::split_first)
}

/// Puts findings that a lever moves the same way under the one that asks for the most of it.
pub(super) fn group(findings: &mut [Finding], slopes: &Slopes, allowance: Length) {
    let mut left: Vec<usize> = (0..findings.len())
        .filter(|it| is_open(&findings[*it]))
        .collect();
    while let Some((key, set)) = largest(findings, &left, slopes) {
        let need = |index: usize| {
            let finding = &findings[index];
            let lacking = Goal::Allowance.lacking(finding, allowance);
            lacking.unwrap_or_default() / slopes.of(key, finding).abs()
        };
        let worse = |a: &usize, b: &usize| {
            let verdicts = findings[*a].verdict.cmp(&findings[*b].verdict);
            verdicts.then(need(*b).total_cmp(&need(*a))).then(a.cmp(b))
        };
        let Some(cause) = set.iter().copied().min_by(worse) else {
            break;
        };
        let name = findings[cause].name();
        for index in set.iter().copied().filter(|it| *it != cause) {
            findings[index].follows = Some(name.clone());
        }
        left.retain(|it| !set.contains(it));
    }
}

/// The lever, and the way, that the most of these findings get better by, and which they are; `None` if none helps two.
fn largest(
    findings: &[Finding],
    left: &[usize],
    slopes: &Slopes,
) -> Option<(&'static str, Vec<usize>)> {
    let levers = left.iter().flat_map(|it| findings[*it].levers.iter());
    let mut ways: Vec<(&'static str, bool)> =
        levers.flat_map(|it| [(*it, true), (*it, false)]).collect();
    ways.sort_unstable();
    ways.dedup();
    let helped = |(key, up): (&'static str, bool)| {
        let by = |finding: &Finding| {
            let slope = slopes.of(key, finding);
            let slope = if up { slope } else { -slope };
            finding.levers.contains(&key) && slope > 0.0
        };
        let set = left.iter().copied().filter(|it| by(&findings[*it]));
        (key, set.collect::<Vec<usize>>())
    };
    let sets = ways.into_iter().map(helped).filter(|it| it.1.len() > 1);
    // the first of the largest: `max_by` would take the last
    sets.min_by_key(|it| Reverse(it.1.len()))
}

/// After a cure: what it cleared beside its own finding follows from that, and what it did not clear does not.
pub(super) fn cleared(findings: &mut [Finding], cause: usize, after: &[Finding]) {
    let name = findings[cause].name();
    let is_cleared = |finding: &Finding| {
        let same = after.iter().find(|it| it.name() == finding.name());
        same.is_none_or(|it| it.verdict > finding.verdict)
    };
    for index in (0..findings.len()).filter(|it| *it != cause) {
        let finding = &findings[index];
        let was_beneath = finding.follows.as_ref() == Some(&name);
        let cure = finding.remedy.as_ref();
        let is_free = finding.follows.is_none() && cure.is_none_or(|it| it.changes.is_empty());
        let can_follow = is_free && finding.verdict == Verdict::Fail;
        if was_beneath && !is_cleared(finding) {
            findings[index].follows = None;
        } else if can_follow && is_cleared(finding) {
            let below = findings[index].name();
            findings[index].follows = Some(name.clone());
            findings[index].remedy = None;
            passed_on(findings, &below, &name);
        }
    }
}

/// What followed from one finding follows from another.
fn passed_on(findings: &mut [Finding], from: &Name, to: &Name) {
    for finding in findings.iter_mut() {
        if finding.follows.as_ref() == Some(from) {
            finding.follows = Some(to.clone());
        }
    }
}

/// What fails and has no cure follows from a worse failure without one that names one of its parts.
pub(super) fn beside(findings: &mut [Finding]) {
    let is_uncured = |it: &Finding| {
        let cure = it.remedy.as_ref();
        let has_none = cure.is_none_or(|it| it.changes.is_empty());
        it.verdict == Verdict::Fail && it.follows.is_none() && has_none
    };
    for index in 0..findings.len() {
        let own = &findings[index];
        if !is_uncured(own) {
            continue;
        }
        let shares = |it: &Finding| it.parts.iter().any(|part| own.parts.contains(part));
        let mut worse = findings[..index].iter();
        let cause = worse.find(|it| is_uncured(it) && shares(it));
        if let Some(cause) = cause.map(Finding::name) {
            let own = own.name();
            findings[index].follows = Some(cause.clone());
            findings[index].remedy = None;
            passed_on(findings, &own, &cause);
        }
    }
}

/// Brings what follows from a finding behind it; else the order stays.
pub(super) fn in_order(findings: &mut Vec<Finding>) {
    let (causes, mut below): (Vec<Finding>, Vec<Finding>) =
        findings.drain(..).partition(|it| it.follows.is_none());
    for cause in causes {
        let name = cause.name();
        findings.push(cause);
        let (own, rest) = below
            .into_iter()
            .partition(|it| it.follows.as_ref() == Some(&name));
        findings.extend::<Vec<Finding>>(own);
        below = rest;
    }
    findings.extend(below);
}
