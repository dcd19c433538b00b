//! Parameters and a finding in, a change that was tried and works out.
//!
//! A remedy changes one or two of the builder's own dimensions: never a number of the manual, an
//! allowance, a datum or what burns. It is offered only after the design has been made again with it,
//! and checked again: the finding is gone and nothing fails that did not fail before. The smallest
//! change comes first, in marks of the tape.

use std::collections::BTreeSet;

use super::rules::RULES;
use super::{Change, Finding, Remedy, Report, Subject, Verdict, check};
use crate::catalog::{FramingMember, lumber};
use crate::design::design;
use crate::params::{Kind, Params, Value, parameter};
use crate::units::{Length, TapeUnit};

/// The farthest that a dimension is moved.
const FARTHEST: Length = Length::inches(24.0);
/// Stock that a stick may be changed to.
const STOCK: [&str; 4] = ["2x3", "2x4", "2x6", "2x8"];

/// Tries remedies for every finding that fails, and puts them into the findings.
pub fn try_remedies(params: &Params, findings: &mut [Finding]) {
    let failing = fails(findings);
    for finding in findings.iter_mut() {
        if finding.verdict == Verdict::Fail && !finding.levers.is_empty() {
            finding.remedy = Some(remedy(params, finding, &failing));
        }
    }
}

/// A finding by its rule and what it is about.
type Name = (&'static str, Subject);

fn name(finding: &Finding) -> Name {
    (finding.rule, finding.subject.clone())
}

fn fails(findings: &[Finding]) -> BTreeSet<Name> {
    let failed = findings.iter().filter(|it| it.verdict == Verdict::Fail);
    failed.map(name).collect()
}

/// A change that clears the finding by itself, and the parameters with it.
struct Attempt {
    change: Change,
    size: Length,
    params: Params,
    margin: Option<f64>,
    /// What fails after it and did not before.
    broken: Vec<Finding>,
}

/// How much of a margin is wanted.
#[derive(Debug, Clone, Copy)]
enum Goal {
    /// The build allowance or more.
    Allowance,
    /// Zero or more.
    Cleared,
}

impl Goal {
    fn is_met(self, verdict: Verdict) -> bool {
        match self {
            Self::Allowance => !matches!(verdict, Verdict::Fail | Verdict::Tight),
            Self::Cleared => verdict != Verdict::Fail,
        }
    }
}

/// A change that leaves the build allowance, or else one that just clears the finding.
fn remedy(params: &Params, finding: &Finding, failing: &BTreeSet<Name>) -> Remedy {
    [Goal::Allowance, Goal::Cleared]
        .into_iter()
        .find_map(|goal| changes(params, finding, failing, goal))
        .unwrap_or_else(|| Remedy {
            changes: Vec::new(),
            margin: None,
            tried: finding.levers.to_vec(),
        })
}

fn changes(
    params: &Params,
    finding: &Finding,
    failing: &BTreeSet<Name>,
    goal: Goal,
) -> Option<Remedy> {
    let mut attempts: Vec<Attempt> = finding
        .levers
        .iter()
        .flat_map(|key| attempts(params, key, finding, failing, goal))
        .collect();
    attempts.sort_by(|a, b| a.size.to_mm().total_cmp(&b.size.to_mm()));
    let tried = finding.levers.to_vec();
    if let Some(found) = attempts.iter().find(|it| it.broken.is_empty()) {
        return Some(Remedy {
            changes: vec![found.change.clone()],
            margin: found.margin,
            tried,
        });
    }
    let second = attempts
        .iter()
        .find_map(|first| Some((first, mend(first, failing, goal)?)));
    second.map(|(first, second)| Remedy {
        changes: vec![first.change.clone(), second.change],
        margin: first.margin,
        tried,
    })
}

/// A second change that clears the one thing that a first change broke.
fn mend(first: &Attempt, failing: &BTreeSet<Name>, goal: Goal) -> Option<Attempt> {
    let [broken] = first.broken.as_slice() else {
        return None;
    };
    let levers = broken.levers.iter().filter(|key| **key != first.change.key);
    levers
        .flat_map(|key| attempts(&first.params, key, broken, failing, goal))
        .filter(|it| it.broken.is_empty())
        .min_by(|a, b| a.size.to_mm().total_cmp(&b.size.to_mm()))
}

/// The smallest change of a key each way that clears a finding.
fn attempts(
    params: &Params,
    key: &'static str,
    finding: &Finding,
    failing: &BTreeSet<Name>,
    goal: Goal,
) -> Vec<Attempt> {
    let is_builders = parameter(key).is_some_and(|it| !it.needs_page);
    let old = params.get(key).filter(|_| is_builders);
    let changes: Vec<(Length, Value)> = match &old {
        Some(Value::Length(length)) => [1.0, -1.0]
            .into_iter()
            .filter_map(|sign| smallest_step(params, key, (*length, sign), finding, goal))
            .collect(),
        // what is steel is so for the manual's sake
        Some(Value::Lumber(FramingMember::Wood(now))) => STOCK
            .into_iter()
            .filter(|name| *name != now.name)
            .filter_map(lumber)
            .map(|it| ((it.width - now.width).abs(), Value::Lumber(it.into())))
            .collect(),
        Some(Value::Choice(now)) => words_of(key)
            .iter()
            .filter(|it| *it != now)
            .map(|it| (Length::ZERO, Value::Choice(it)))
            .collect(),
        _ => Vec::new(),
    };
    let Some(from) = old else { return Vec::new() };
    let attempt = |(size, to): (Length, Value)| {
        let changed = params.with(key, &to).ok()?;
        let margin = margin_left(&changed, finding, goal)?;
        let after = check(&design(&changed));
        let broken = after
            .into_iter()
            .filter(|it| it.verdict == Verdict::Fail && !failing.contains(&name(it)))
            .collect();
        Some(Attempt {
            change: Change {
                key,
                from: from.clone(),
                to,
            },
            size,
            params: changed,
            margin,
            broken,
        })
    };
    changes.into_iter().filter_map(attempt).collect()
}

/// The words that a key may be.
fn words_of(key: &str) -> &'static [&'static str] {
    match parameter(key).map(|it| it.kind) {
        Some(Kind::Choice(words)) => words,
        _ => &[],
    }
}

/// The smallest number of tape marks, in one direction, that clears the finding: by doubling until it
/// is cleared, then by halving the step between.
fn smallest_step(
    params: &Params,
    key: &'static str,
    (from, sign): (Length, f64),
    finding: &Finding,
    goal: Goal,
) -> Option<(Length, Value)> {
    let mark = match params.project.unit {
        TapeUnit::Inch => Length::inches(1.0 / 16.0),
        TapeUnit::Millimeter => Length::mm(1.0),
    };
    let moved = |marks: u32| Value::Length(from + mark * (sign * f64::from(marks)));
    let clears = |marks: u32| {
        let changed = params.with(key, &moved(marks)).ok();
        changed.is_some_and(|it| margin_left(&it, finding, goal).is_some())
    };
    let (mut fails, mut works) = (0, 1);
    while !clears(works) {
        fails = works;
        works *= 2;
        if mark * f64::from(works) > FARTHEST {
            return None;
        }
    }
    while works - fails > 1 {
        let middle = u32::midpoint(fails, works);
        if clears(middle) {
            works = middle;
        } else {
            fails = middle;
        }
    }
    Some((mark * f64::from(works), moved(works)))
}

/// Whether the finding's own rule has nothing against the changed design any more, and the margin
/// that it then reports, if it still measures it.
#[expect(
    clippy::option_option,
    reason = "cleared or not, and then measured or not"
)]
fn margin_left(params: &Params, finding: &Finding, goal: Goal) -> Option<Option<f64>> {
    let rule = RULES.iter().find(|it| it.name == finding.rule)?;
    let mut found = Vec::new();
    let allowance = params.project.build_allowance;
    (rule.check)(
        &design(params),
        &mut Report::new(rule.name, allowance, &mut found),
    );
    let same = found.iter().find(|it| it.subject == finding.subject);
    if same.is_some_and(|it| !goal.is_met(it.verdict)) {
        return None;
    }
    Some(same.and_then(|it| it.numbers).map(|it| it.margin))
}
