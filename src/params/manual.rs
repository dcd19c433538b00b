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
