//! Design in, findings out: interference, clearances, support, and every rule of the list.
//!
//! A rule finds; it never changes the design. The verdict follows from the margin alone.

mod backing;
mod clearance;
mod finding;
mod heights;
mod inside;
mod interference;
mod remedy;
mod report;
pub mod rules;
mod sieve;
mod support;

pub use clearance::{Margin, clearances};
pub use finding::{Finding, Numbers, Quantity, Sense, Verdict};
pub use heights::{HeightRow, heights};
pub use inside::{Boundary, Outside, outside};
pub use interference::{Clash, Shared, interference, shared};
pub use remedy::{Change, Remedy, try_remedies};
pub use report::{Report, Row};
pub use support::{Lack, Unheld, unheld};

use crate::design::Design;

/// One check.
#[derive(Debug)]
pub struct Rule {
    /// Its readable name.
    pub name: &'static str,
    /// Its source text, whose leading comment is its documentation.
    pub text: &'static str,
    /// Looks at the design and reports.
    pub check: fn(&Design, &mut Report<'_>),
}

impl Rule {
    /// The rule's documentation: what it finds, why, from where it counts, and its source.
    pub fn documentation(&self) -> String {
        self.text
            .lines()
            .map_while(|line| line.strip_prefix("//!"))
            .map(|line| line.strip_prefix(' ').unwrap_or(line))
            .collect::<Vec<_>>()
            .join("\n")
    }

    /// What this rule alone finds, in its own order.
    pub fn findings(&self, design: &Design) -> Vec<Finding> {
        let mut findings = Vec::new();
        self.add_findings(design, &mut findings);
        findings
    }

    fn add_findings(&self, design: &Design, findings: &mut Vec<Finding>) {
        let allowance = design.params.project.build_allowance;
        (self.check)(design, &mut Report::new(self.name, allowance, findings));
    }
}

/// Every finding about a design, worst first.
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
    let mut findings = Vec::new();
    for rule in rules::RULES {
        rule.add_findings(design, &mut findings);
    }
    rules::ceiling_slope::hold_back(design, &mut findings);
    // stable: within a verdict the smallest margin first, then the order of the rules
    findings.sort_by(|a, b| {
        let margin = |it: &Finding| it.numbers.map_or(f64::INFINITY, |numbers| numbers.margin);
        a.verdict
            .cmp(&b.verdict)
            .then(margin(a).total_cmp(&margin(b)))
    });
    findings
}
