//! Where rules put what they find; turns numbers into verdicts.

use glam::DVec3;

use super::{Concern, Finding, Numbers, Quantity, Subject, Verdict};
use crate::geom::TOLERANCE;
use crate::params::Params;
use crate::units::Length;

/// The findings of one rule.
#[derive(Debug)]
pub struct Report<'a> {
    rule: &'static str,
    concern: Concern,
    params: &'a Params,
    findings: &'a mut Vec<Finding>,
}

/// A finding before its verdict.
#[derive(Debug, Clone, Default)]
pub struct Row {
    /// What is measured, and of what.
    pub subject: Subject,
    /// Ids of what is concerned.
    pub parts: Vec<String>,
    /// Where it is.
    pub location: Option<DVec3>,
    /// Manual page, published rule, or arithmetic.
    pub source: String,
    /// Keys of the builder's own dimensions that move it.
    pub levers: &'static [&'static str],
    /// More that the reader wants to know.
    pub detail: Option<String>,
}

/// What is asked, and the keys that answer it.
#[derive(Debug, Default)]
struct Question {
    text: Option<String>,
    keys: Vec<&'static str>,
}

impl<'a> Report<'a> {
    pub(super) fn new(
        rule: &'static str,
        concern: Concern,
        params: &'a Params,
        findings: &'a mut Vec<Finding>,
    ) -> Self {
        Self {
            rule,
            concern,
            params,
            findings,
        }
    }

    /// What was found so far, by the rules before this one too.
    pub fn found(&self) -> &[Finding] {
        self.findings
    }

    /// What a careful builder may be off.
    pub fn allowance(&self) -> Length {
        self.params.project.build_allowance
    }

    /// The levers of what is there.
    fn levers(&self, levers: &'static [&'static str]) -> Vec<&'static str> {
        let levers = levers.iter().copied();
        levers.filter(|it| self.params.has_table_of(it)).collect()
    }

    /// Judges what hands build or place: FAIL, TIGHT or PASS. The build allowance is one of lengths. Whose limit it is,
    /// the manual's, a code's or the trade's, makes no difference.
    pub fn judge(&mut self, row: Row, numbers: Numbers) {
        let allowance = if numbers.quantity == Quantity::Length {
            self.allowance().to_mm()
        } else {
            0.0
        };
        let verdict = Verdict::of_margin(numbers.margin, allowance);
        self.add(row, Some(numbers), verdict, Question::default());
    }

    /// Judges what nobody can build a little off: FAIL or PASS. A count, a size of stock, a spacing on center, a reading
    /// of what stands, and what is shimmed until it fits.
    pub fn limit(&mut self, row: Row, numbers: Numbers) {
        let verdict = Verdict::of_margin(numbers.margin, 0.0);
        self.add(row, Some(numbers), verdict, Question::default());
    }

    /// Judges numbers whose zero is meant: exactly zero is FLUSH, else as [`Self::judge`].
    pub fn judge_flush(&mut self, row: Row, numbers: Numbers) {
        if numbers.margin.abs() <= TOLERANCE {
            self.add(row, Some(numbers), Verdict::Flush, Question::default());
        } else {
            self.judge(row, numbers);
        }
    }

    /// Reports what must not be.
    pub fn fail(&mut self, row: Row, numbers: Option<Numbers>) {
        self.add(row, numbers, Verdict::Fail, Question::default());
    }

    /// Reports what only somebody else can answer.
    pub fn ask(&mut self, row: Row, numbers: Option<Numbers>, question: impl Into<String>) {
        self.ask_for(row, numbers, question, Vec::new());
    }

    /// Reports what these keys, or some of them, would answer.
    pub fn ask_for(
        &mut self,
        row: Row,
        numbers: Option<Numbers>,
        question: impl Into<String>,
        keys: Vec<&'static str>,
    ) {
        let text = Some(question.into());
        self.add(row, numbers, Verdict::Ask, Question { text, keys });
    }

    fn add(&mut self, row: Row, numbers: Option<Numbers>, verdict: Verdict, question: Question) {
        self.findings.push(Finding {
            rule: self.rule,
            concern: self.concern,
            verdict,
            subject: row.subject,
            numbers,
            parts: row.parts,
            location: row.location,
            source: row.source,
            question: question.text,
            answered_by: question.keys,
            decision: None,
            waiting: Vec::new(),
            levers: self.levers(row.levers),
            detail: row.detail,
            follows: None,
            remedy: None,
        });
    }
}
