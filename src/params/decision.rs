//! What somebody decided where no key has the answer: which question, who, when, and what.

use super::fault::Fault;

/// How a decision is written.
pub(super) const DECISION: &str = "{ question = \"gas line\", who = \"licensed fitter\", date = \"2026-11-30\", what = \"tested, see the record\" }";

/// The answer of somebody to a question that no key answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decision {
    /// The rule that asks.
    pub question: String,
    /// What it asks of, as the rule says it, where it asks more than once.
    pub of: Option<String>,
    /// Who decided: a person, or a role.
    pub who: String,
    /// The day, as ISO 8601 writes it.
    pub date: String,
    /// What was decided, where that is to be kept.
    pub what: Option<String>,
}

impl Decision {
    pub(super) fn text(&self) -> String {
        let of = self
            .of
            .as_ref()
            .map_or(String::new(), |it| format!(": {it}"));
        format!("{}{of} by {} on {}", self.question, self.who, self.date)
    }
}

/// The fault of decisions by themselves.
pub(super) fn decisions_fault(key: &str, decisions: &[Decision]) -> Option<Fault> {
    decisions.iter().find_map(|it| {
        if it.who.trim().is_empty() || it.question.trim().is_empty() {
            let fault = Fault::new(key, "a decision lacks its question or who decided");
            let fault = fault.found(it.text()).expected(DECISION);
            return Some(fault.way_out("write who decided, by name or role"));
        }
        (!is_day(&it.date)).then(|| {
            let fault = Fault::new(key, "the date of a decision is not a date");
            let fault = fault.found(format!("\"{}\"", it.date));
            let fault = fault.expected("year, month and day, such as \"2026-11-30\"");
            fault.way_out("write the day on which it was decided")
        })
    })
}

/// Whether a text is a day of the calendar, as ISO 8601 writes it.
fn is_day(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else {
        return false;
    };
    let number = |part: &str, digits: usize| {
        let is_plain = part.len() == digits && part.bytes().all(|it| it.is_ascii_digit());
        part.parse::<u32>().ok().filter(|_| is_plain)
    };
    match (number(year, 4), number(month, 2), number(day, 2)) {
        (Some(year), Some(month), Some(day)) => (1..=days(year, month)).contains(&day),
        _ => false,
    }
}

/// Days of a month of the Gregorian calendar; 0 where there is no such month.
const fn days(year: u32, month: u32) -> u32 {
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if is_leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        _ => 0,
    }
}
