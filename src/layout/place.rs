//! Points and rectangles from what a tape reads.

use glam::{DVec2, DVec3};

use crate::units::{Length, Span};

/// A point of the world from what a tape reads.
pub fn point(right: Length, out: Length, height: Length) -> DVec3 {
    DVec3::new(right.to_mm(), -out.to_mm(), height.to_mm())
}

/// The corners of a rectangle in a plane whose x runs right and whose y runs up.
pub fn rectangle(sides: Span, heights: Span) -> Vec<DVec2> {
    [
        (sides.low, heights.low),
        (sides.high, heights.low),
        (sides.high, heights.high),
        (sides.low, heights.high),
    ]
    .map(|(right, up)| DVec2::new(right.to_mm(), up.to_mm()))
    .to_vec()
}

/// A place under one of the ceiling's planes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnderCeiling {
    /// From the left corner.
    pub right: Length,
    /// Out from the wall.
    pub out: Length,
    /// The plane's height there.
    pub height: Length,
    /// Plumb height that a layer of thickness 1 takes on it.
    pub steepness: f64,
}
