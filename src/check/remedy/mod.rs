//! Parameters and findings in, causes and cures out.
//!
//! Findings that one change would clear have one cause: the worst of them stands first, and the others follow from it
//! (see [`causes`]). Then a cure is tried for each cause that fails, and for no finding beneath it. A cure changes
//! one or two of the builder's own dimensions: never a number of the manual, an allowance, a datum or what is
//! combustible. It is offered only after the design has been made again with it and checked again: the finding is
//! gone, and nothing fails that did not fail before. The smallest change comes first, in marks of the tape that the
//! value was written on.
//!
//! The search is bounded by the number of designs that it makes, so that an answer comes at once, whatever is wrong.

mod causes;
mod changes;
mod goal;
mod search;
mod slopes;
mod trials;

use super::{Finding, Verdict};
use crate::params::Params;
pub use causes::causes;
use slopes::Slopes;
use trials::Trials;
pub use trials::{Searching, TRIALS};

/// Finds causes, tries cures for those that fail, and puts both into the findings and their order.
pub fn try_remedies(params: &Params, findings: &mut Vec<Finding>) {
    try_remedies_watched(params, findings, &mut |_| true);
}

/// As [`try_remedies`], telling how far it has come, until it is told to stop; how many designs were made.
pub fn try_remedies_watched(
    params: &Params,
    findings: &mut Vec<Finding>,
    watch: &mut dyn FnMut(&Searching) -> bool,
) -> u32 {
    let mut trials = Trials::new(params, watch);
    let slopes = Slopes::measured(findings, &mut trials);
    causes::group(findings, &slopes, params.project.build_allowance);
    let mut searched = vec![false; findings.len()];
    while let Some(index) = next(findings, &searched) {
        searched[index] = true;
        let cure = search::cure(&findings[index], &slopes, &mut trials);
        if let Some(after) = &cure.after {
            causes::cleared(findings, index, after);
        }
        findings[index].remedy = cure.remedy;
    }
    causes::beside(findings);
    causes::in_order(findings);
    trials.made()
}

/// The first cause that fails and for which no cure has been searched.
fn next(findings: &[Finding], searched: &[bool]) -> Option<usize> {
    let wants =
        |it: &Finding| it.verdict == Verdict::Fail && it.follows.is_none() && it.can_be_moved();
    let mut open = findings.iter().zip(searched);
    open.position(|(it, is_searched)| !is_searched && wants(it))
}

impl Finding {
    fn can_be_moved(&self) -> bool {
        !self.levers.is_empty()
    }
}
