//! Defaults of the builder's own choices on which a verdict depends.
//!
//! Which they are is tried. The design is made again with the default off by the build allowance, or as the other
//! choice, and every verdict that is another one then rests on it.

use std::collections::BTreeMap;

use super::{Finding, Subject, Verdict, check};
use crate::design::design;
use crate::params::{Nature, Parameter, Params, Value, parameter};

/// A default on which a verdict rests.
#[derive(Debug, Clone, PartialEq)]
pub struct Assumption {
    /// The key that was left out.
    pub key: &'static str,
    /// What it is by default.
    pub value: Value,
    /// What it means.
    pub meaning: &'static str,
    /// The verdicts that are others with another value, the worst first.
    pub turns: Vec<Turn>,
}

/// A verdict that is another one with another value.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// The rule's name.
    pub rule: &'static str,
    /// What it measures.
    pub subject: Subject,
    /// What it says of the default; nothing where it does not find it.
    pub from: Option<Verdict>,
    /// What it says with the other value.
    pub to: Verdict,
    /// The other value.
    pub with: Value,
}

/// Every default on which a verdict rests, the worst first.
pub fn assumptions(params: &Params, findings: &[Finding]) -> Vec<Assumption> {
    let left_out = params.left_out.iter().filter_map(|key| parameter(key));
    let choices = left_out.filter(|it| it.nature == Nature::Choice);
    let mut found: Vec<Assumption> = choices
        .filter_map(|it| assumption(params, it, findings))
        .collect();
    // stable: those that turn as bad stand in the order of the list
    found.sort_by_key(|it| it.turns.first().map(|turn| turn.to));
    found
}

fn assumption(params: &Params, parameter: &Parameter, findings: &[Finding]) -> Option<Assumption> {
    let value = params.get(parameter.key)?;
    let mut turns: BTreeMap<(&'static str, Subject), Turn> = BTreeMap::new();
    for other in parameter.little_off(params) {
        let Ok(changed) = params.with(parameter.key, &other) else {
            continue;
        };
        for turn in turned(findings, &check(&design(&changed)), &other) {
            let name = (turn.rule, turn.subject.clone());
            if turns.get(&name).is_none_or(|known| turn.to < known.to) {
                turns.insert(name, turn);
            }
        }
    }
    let mut turns: Vec<Turn> = turns.into_values().collect();
    turns.sort_by_key(|it| it.to);
    (!turns.is_empty()).then_some(Assumption {
        key: parameter.key,
        value,
        meaning: parameter.meaning,
        turns,
    })
}

/// What says another word after a change than before it, and what is wrong only then.
fn turned(before: &[Finding], after: &[Finding], with: &Value) -> Vec<Turn> {
    let known: BTreeMap<_, _> = before
        .iter()
        .map(|it| ((it.rule, &it.subject), it.verdict))
        .collect();
    let turned = after.iter().filter_map(|it| {
        let from = known.get(&(it.rule, &it.subject)).copied();
        let is_turned = from.map_or(it.verdict == Verdict::Fail, |from| from != it.verdict);
        is_turned.then(|| Turn {
            rule: it.rule,
            subject: it.subject.clone(),
            from,
            to: it.verdict,
            with: with.clone(),
        })
    });
    turned.collect()
}
