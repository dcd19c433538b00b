//! What only the unit's own manual can say: a value with its page, and the mantel rule.

use crate::units::Length;

/// A value out of the unit's manual, with the page it stands on. There is never a default.
#[derive(Debug, Clone, PartialEq)]
pub struct Manual<T> {
    /// The value.
    pub value: T,
    /// The page, as the manual counts it; never empty.
    pub page: String,
}

/// What is written where nobody has looked the page up, without its signs and spaces.
const NO_PAGES: [&str; 22] = [
    "later",
    "manual",
    "missing",
    "na",
    "nil",
    "no",
    "none",
    "notgiven",
    "notknown",
    "notsure",
    "p",
    "page",
    "pending",
    "pg",
    "seemanual",
    "tba",
    "tbc",
    "tbd",
    "todo",
    "unknown",
    "x",
    "xxx",
];

/// Whether a text names a page: a number above 0, or a word such as a letter or a cover; no question mark, dash or
/// placeholder.
pub(super) fn is_page(text: &str) -> bool {
    let plain: String = text.chars().filter(|it| it.is_alphanumeric()).collect();
    let plain = plain.to_lowercase();
    let is_negative = text.trim().strip_prefix('-').is_some();
    let mut digits = plain.chars().filter(char::is_ascii_digit).peekable();
    let is_zero = digits.peek().is_some() && digits.all(|it| it == '0');
    let is_doubted = text.contains('?');
    !plain.is_empty() && !is_negative && !is_zero && !is_doubted && !NO_PAGES.contains(&&*plain)
}

/// How high a mantel must be over its datum for how far it projects.
#[derive(Debug, Clone, PartialEq)]
pub enum MantelRule {
    /// A table: up to each projection, at least this height. Rows ascend.
    Steps(Vec<Step>),
    /// A line: height = base + factor × projection.
    Ramp {
        /// The height at no projection.
        base: Length,
        /// Height per projection, a plain ratio.
        factor: f64,
    },
}

/// One row of a mantel table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The row holds up to this projection, itself included.
    pub projection: Length,
    /// The least height for it.
    pub height: Length,
}
