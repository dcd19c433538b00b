//! Changes in, what the checks say of the design with them out; counted, and no more of them than are allowed.

use std::collections::BTreeSet;

use super::goal::Goal;
use crate::check::all::judged;
use crate::check::rules::RULES;
use crate::check::{Finding, Name, Report, Verdict};
use crate::design::design;
use crate::params::{Params, Value};

/// The most designs that are made for one file: about half a second's work.
pub const TRIALS: u32 = 300;
/// The most designs that are made for one cause, so that something is left for the others.
const FOR_ONE: u32 = 90;

/// How far a search for cures has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Searching {
    /// The rule whose finding is to be cleared.
    pub rule: &'static str,
    /// Designs that have been made.
    pub made: u32,
}

/// Changes of one design: each key and its new value.
pub(super) type Changes = Vec<(&'static str, Value)>;

/// What became of a finding with some changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Outcome {
    /// The parameters are not valid so, or no more designs may be made.
    Refused,
    /// It is not cleared; the margin that it has, if it has numbers.
    Left(Option<f64>),
    /// It is cleared; the margin that is left, if it is still measured.
    Cleared(Option<f64>),
}

/// The designs that are made in search of cures.
pub(super) struct Trials<'a> {
    pub(super) params: &'a Params,
    failing: BTreeSet<Name>,
    watch: &'a mut dyn FnMut(&Searching) -> bool,
    made: u32,
    most: u32,
    is_stopped: bool,
}

impl<'a> Trials<'a> {
    pub(super) fn new(params: &'a Params, watch: &'a mut dyn FnMut(&Searching) -> bool) -> Self {
        // what waits for a fact is judged here as it is drawn
        let before = judged(&design(params));
        Self {
            params,
            failing: fails(&before).map(Finding::name).collect(),
            watch,
            made: 0,
            most: TRIALS,
            is_stopped: false,
        }
    }

    /// How many designs have been made.
    pub(super) const fn made(&self) -> u32 {
        self.made
    }

    /// Begins the search for one cause.
    pub(super) fn begin(&mut self) {
        self.most = TRIALS.min(self.made + FOR_ONE);
    }

    /// Whether another design may be made; it is counted.
    fn may_make(&mut self, rule: &'static str) -> bool {
        let made = self.made;
        self.is_stopped |= !(self.watch)(&Searching { rule, made });
        let may = !self.is_stopped && made < self.most;
        self.made += u32::from(may);
        may
    }

    /// What a finding's own rule says of it with these changes.
    pub(super) fn outcome(&mut self, finding: &Finding, changes: &Changes, goal: Goal) -> Outcome {
        let Ok(changed) = self.params.with_all(changes) else {
            return Outcome::Refused;
        };
        if !self.may_make(finding.rule) {
            return Outcome::Refused;
        }
        let Some(rule) = RULES.iter().find(|it| it.name == finding.rule) else {
            return Outcome::Refused;
        };
        let mut found = Vec::new();
        (rule.check)(
            &design(&changed),
            &mut Report::new(rule.name, rule.concern, &changed, &mut found),
        );
        let same = found.iter().find(|it| it.subject == finding.subject);
        let margin = same.and_then(|it| it.numbers).map(|it| it.margin);
        if same.is_some_and(|it| !goal.is_met(it.verdict)) {
            Outcome::Left(margin)
        } else {
            Outcome::Cleared(margin)
        }
    }

    /// What some of the rules say with these changes; `None` where they are refused.
    pub(super) fn found_by(
        &mut self,
        rules: &[&'static str],
        changes: &Changes,
    ) -> Option<Vec<Finding>> {
        let changed = self.params.with_all(changes).ok()?;
        let first = rules.first()?;
        if !self.may_make(first) {
            return None;
        }
        let model = design(&changed);
        let own = RULES.iter().filter(|it| rules.contains(&it.name));
        Some(own.flat_map(|it| it.findings(&model)).collect())
    }

    /// Everything that the checks say with these changes; `None` where they are refused.
    pub(super) fn checked(
        &mut self,
        rule: &'static str,
        changes: &Changes,
    ) -> Option<Vec<Finding>> {
        let changed = self.params.with_all(changes).ok()?;
        self.may_make(rule).then(|| judged(&design(&changed)))
    }

    /// What fails among these and did not before.
    pub(super) fn broken(&self, after: &[Finding]) -> Vec<Finding> {
        let new = fails(after).filter(|it| !self.failing.contains(&it.name()));
        new.cloned().collect()
    }
}

fn fails(findings: &[Finding]) -> impl Iterator<Item = &Finding> {
    findings.iter().filter(|it| it.verdict == Verdict::Fail)
}
