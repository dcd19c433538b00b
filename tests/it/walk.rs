//! A walk over the one list: facts are left out of every demo, every faulty file and random designs, singly, in pairs,
//! ten at a time and by whole tables, and nothing ever looks better for it. A choice left out is its default written;
//! a subject left out takes what is judged of it along, and nothing else.

use std::collections::BTreeSet;

use chasewright::check::rules::RULES;
use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, design};
use chasewright::params::{GROUPS, Nature, PARAMETERS, Params, Presence, parameter};

use crate::generate::{Random, random_params};
use crate::seeded_faults::faulty;
use crate::support::demos;

fn findings(params: &Params) -> Vec<Finding> {
    check(&design(params))
}

fn is_same(a: &Finding, b: &Finding) -> bool {
    (a.rule, &a.subject) == (b.rule, &b.subject)
}

/// Facts that can be left out, and whether each is a key or a table.
fn facts(params: &Params) -> Vec<&'static str> {
    let told = |key: &str| params.without(key).is_ok_and(|it| it != *params);
    let keys = PARAMETERS.iter().filter(|it| it.nature == Nature::Fact);
    keys.map(|it| it.key).filter(|it| told(it)).collect()
}

/// Tables that say facts and can be left out.
fn tables(params: &Params) -> Vec<&'static str> {
    let told = |name: &str| params.has(name) && params.without_table(name).is_ok();
    let groups = GROUPS.iter().filter(|it| it.nature == Some(Nature::Fact));
    groups.map(|it| it.name).filter(|it| told(it)).collect()
}

/// The same without these keys and tables, as far as it can do without them, and those.
fn without(params: &Params, names: &[&'static str]) -> (Params, Vec<&'static str>) {
    let mut left = params.clone();
    let mut gone = Vec::new();
    for name in names {
        let next = if parameter(name).is_some() {
            left.without(name)
        } else {
            left.without_table(name)
        };
        if let Ok(next) = next {
            left = next;
            gone.push(*name);
        }
    }
    (left, gone)
}

/// Whether a question for one of these facts names the rule as one that waits; what is a table's own goes with it.
fn is_asked(after: &[Finding], gone: &[&str], old: &Finding) -> bool {
    let rule = old.rule;
    let is_own = |name: &str| old.parts.iter().any(|it| it.split('/').next() == Some(name));
    let of_it = |name: &str| {
        let group = name.split('.').next().unwrap_or_default();
        gone.contains(&name) || gone.contains(&group)
    };
    let asks = |it: &&Finding| it.answered_by.iter().any(|name| of_it(name));
    let waits = |it: &Finding| {
        it.rule == rule
            || it.waiting.iter().any(|it| it.rule == rule)
            || it.answered_by.iter().any(|name| is_own(name))
    };
    after.iter().filter(asks).any(waits)
}

/// What looks better after facts were left out.
fn better(before: &[Finding], after: &[Finding], gone: &[&str]) -> Vec<String> {
    let open = before
        .iter()
        .filter(|it| matches!(it.verdict, Verdict::Fail | Verdict::Ask));
    let better = open.filter_map(|old| {
        let now = after.iter().find(|new| is_same(old, new));
        let turned = now.filter(|it| !matches!(it.verdict, Verdict::Fail | Verdict::Ask));
        let what = match (now, turned) {
            (_, Some(now)) => format!("is {:?}", now.verdict),
            (None, _) if !is_asked(after, gone, old) => "is gone".to_owned(),
            _ => return None,
        };
        Some(format!(
            "{:?} {}: {} {what}",
            old.verdict, old.rule, old.about
        ))
    });
    better.collect()
}

/// How many of each are tried of a design.
#[derive(Clone, Copy)]
struct Tries {
    singles: usize,
    pairs: usize,
    tens: usize,
}

/// What leaves out, of one design, makes better.
fn walk(name: &str, params: &Params, random: &mut Random, tries: Tries) -> Vec<String> {
    let before = findings(params);
    let (facts, tables) = (facts(params), tables(params));
    let mut sets: Vec<Vec<&'static str>> = some(random, &facts, tries.singles);
    sets.extend(tables.iter().map(|it| vec![*it]));
    sets.extend((0..tries.pairs).map(|_| picked(random, &facts, 2)));
    sets.extend((0..tries.tens).map(|_| picked(random, &facts, 10)));
    let mut wrong = Vec::new();
    for set in sets {
        let (left, gone) = without(params, &set);
        for it in better(&before, &findings(&left), &gone) {
            wrong.push(format!("{name} without {}: {it}", gone.join(", ")));
        }
    }
    wrong
}

/// Each alone, or so many of them.
fn some(random: &mut Random, facts: &[&'static str], count: usize) -> Vec<Vec<&'static str>> {
    if facts.len() <= count {
        return facts.iter().map(|it| vec![*it]).collect();
    }
    (0..count).map(|_| picked(random, facts, 1)).collect()
}

fn picked(random: &mut Random, facts: &[&'static str], count: usize) -> Vec<&'static str> {
    let picked: BTreeSet<&str> = (0..count).map(|_| random.pick(facts)).collect();
    picked.into_iter().collect()
}

pub(crate) fn explore() {
    let a: Vec<usize> = std::env::args()
        .skip(1)
        .map(|a| a.parse().unwrap())
        .collect();
    let t = std::time::Instant::now();
    let tries = Tries {
        singles: a[1],
        pairs: a[2],
        tens: a[3],
    };
    let mut random = Random(1);
    let mut wrong = Vec::new();
    let files: Vec<(String, Params)> = match a[0] {
        0 => demos(),
        1 => faulty(),
        _ => (0..50)
            .map(|s| (format!("random {s}"), random_params(s)))
            .collect(),
    };
    for (n, p) in files {
        wrong.extend(walk(&n, &p, &mut random, tries));
    }
    for w in &wrong {
        println!("{w}");
    }
    println!("{} wrong in {:?}", wrong.len(), t.elapsed());
}
