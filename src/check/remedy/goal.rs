//! How much of a margin a cure has to leave.

use crate::check::{Finding, Numbers, Quantity, Verdict};
use crate::units::Length;

/// How much of a margin is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Goal {
    /// The build allowance or more.
    Allowance,
    /// Zero or more.
    Cleared,
}

impl Goal {
    pub(super) const fn is_met(self, verdict: Verdict) -> bool {
        match verdict {
            Verdict::Fail => false,
            Verdict::Tight => matches!(self, Self::Cleared),
            Verdict::Ask | Verdict::Decided | Verdict::Pass | Verdict::Flush => true,
        }
    }

    /// How much a finding lacks, in its own quantity; `None` without numbers.
    pub(super) fn lacking(self, finding: &Finding, allowance: Length) -> Option<f64> {
        let wanted = |numbers: Numbers| match (self, numbers.quantity) {
            (Self::Allowance, Quantity::Length) => allowance.to_mm(),
            _ => 0.0,
        };
        finding.numbers.map(|it| wanted(it) - it.margin)
    }
}
