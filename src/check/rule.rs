//! One check: its name, its documentation, and what looks at the design.

use super::concern::Concern;
use super::finding::Finding;
use super::report::Report;
use crate::design::Design;

/// One check.
#[derive(Debug)]
pub struct Rule {
    /// Its readable name.
    pub name: &'static str,
    /// What is at stake.
    pub concern: Concern,
    /// The text of its file, whose leading comment is its documentation.
    pub(super) text: &'static str,
    /// Keys of the parameters that it judges by: what it compares or asks for, and the dimensions that move it.
    pub keys: &'static [&'static str],
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

    pub(super) fn add_findings(&self, design: &Design, findings: &mut Vec<Finding>) {
        let mut report = Report::new(self.name, self.concern, &design.params, findings);
        (self.check)(design, &mut report);
    }
}
