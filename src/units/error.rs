//! Why a text is no quantity.

/// Why a text is not the quantity it should be.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("column {column}: found {found}, expected {expected}")]
pub struct ParseError {
    /// The character it happened at, from 1.
    pub column: usize,
    /// The same place in bytes, from 0.
    pub offset: usize,
    /// What stands there.
    pub found: String,
    /// What should stand there.
    pub expected: &'static str,
}
