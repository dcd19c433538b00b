//! Questions that somebody decided: they are not asked again, and are no PASS.

use super::{Finding, Verdict};
use crate::design::Design;
use crate::params::Decision;

impl Finding {
    /// Whether a decision is about it.
    pub(super) fn is_meant_by(&self, decision: &Decision) -> bool {
        let subject = decision.of.as_ref();
        self.rule == decision.question && subject.is_none_or(|it| self.subject.is_called(it))
    }

    /// Whether somebody's word is an answer: it asks, and no key would tell.
    pub(super) fn can_be_decided(&self) -> bool {
        self.verdict == Verdict::Ask && self.answered_by.is_empty()
    }
}

/// Gives each question that was decided its decision; of a rule that asks more than once, only what the decision names.
pub(super) fn apply(design: &Design, findings: &mut [Finding]) {
    for decision in &design.params.project.decided {
        let meant = findings
            .iter_mut()
            .filter(|it| it.can_be_decided() && it.is_meant_by(decision));
        let mut meant: Vec<&mut Finding> = meant.collect();
        if let [finding] = meant.as_mut_slice() {
            finding.verdict = Verdict::Decided;
            finding.decision = Some(decision.clone());
        }
    }
}
