//! Where wood is wanted behind a face.

use crate::design::Branch;
use crate::geom::Frame;
use crate::units::{Length, Span};

/// Bays narrower than this stay empty: nothing can be nailed in (common practice, no source).
pub const LEAST_BAY: Length = Length::inches(1.5);

/// What a row of blocks is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Backing {
    /// The mantel, where it hangs on studs.
    Mantel,
    /// The screen's mount.
    Screen,
    /// A rail on a side wall.
    Rail,
    /// The joint between two kinds of board.
    BoardJoint,
}

/// Where wood is wanted behind a face: a level band of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// What it is for.
    pub backing: Backing,
    /// What the sticks that it lies between belong to.
    pub wall: Branch,
    /// The wall's frame: x along the wall from its left end, y from its face inward, z up from the floor datum.
    pub frame: Frame,
    /// From where to where along the wall.
    pub along: Span,
    /// Its middle height.
    pub height: Length,
    /// Whether blocks are wanted for it.
    pub wanted: bool,
}
