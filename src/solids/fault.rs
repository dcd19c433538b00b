//! What can be wrong with a solid.

/// What can be wrong with a solid.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// Nothing is left of it.
    #[error("the shape has no volume")]
    Empty,
    /// Its shell has a gap, or faces that look different ways.
    #[error("the shell is not closed")]
    Open,
    /// Its shell looks inward.
    #[error("the shell is inside out")]
    InsideOut,
    /// The kernel says otherwise that it is no solid.
    #[error("the kernel refuses it: {0}")]
    Refused(String),
}
