//! Every rule over one design.

use super::finding::Finding;
use super::{decided, rules, waiting};
use crate::design::Design;

/// Every finding about a design, worst first, and of those of one verdict the gravest.
///
/// # Examples
/// A mantel that is set lower fails the manual's rule.
/// ```
/// use chasewright::check::{Verdict, check};
/// use chasewright::design::design;
/// use chasewright::params::{self, Value};
/// use chasewright::units::Length;
///
/// let text = include_str!(concat!(
///     env!("CARGO_MANIFEST_DIR"),
///     "/params/reading-room.toml"
/// ));
/// let params = params::read(text).expect("a sound file");
/// let low = Value::Length(Length::inches(40.0));
/// let lower = params.with("mantel.underside", &low).expect("a sound height");
/// let findings = check(&design(&lower));
/// let rule = findings.iter().find(|it| it.rule == "mantel rule").expect("it is judged");
/// assert_eq!(rule.verdict, Verdict::Fail);
/// ```
pub fn check(design: &Design) -> Vec<Finding> {
    let mut findings = judged(design);
    waiting::hold_back(design, &mut findings);
    decided::apply(design, &mut findings);
    // stable: within a verdict what is gravest, and of that what lacks most, or has least left, of what is required;
    // then the order of the rules
    findings.sort_by(|a, b| {
        let stakes = (a.verdict, a.concern).cmp(&(b.verdict, b.concern));
        stakes.then(a.share().total_cmp(&b.share()))
    });
    findings
}

/// What every rule says of what is drawn, in their order, whether or not the facts that it is drawn by are given.
pub(super) fn judged(design: &Design) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in rules::RULES {
        rule.add_findings(design, &mut findings);
    }
    rules::finish_material::hold_back(design, &mut findings);
    rules::enclosure::name_waiting(&mut findings);
    findings
}
