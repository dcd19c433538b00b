//! A shape that has been placed in the world.

use glam::DVec3;

use super::{Frame, Shape};

/// A shape and where it stands.
#[derive(Debug, Clone)]
pub struct Body {
    /// The exact shape, in its own frame.
    pub shape: Shape,
    /// Where the shape's own frame stands in the world.
    pub frame: Frame,
}

impl Body {
    /// Places a shape.
    pub fn new(shape: impl Into<Shape>, frame: Frame) -> Self {
        Self {
            shape: shape.into(),
            frame,
        }
    }
}

/// A way out of a clearance volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Direction {
    /// Along this unit vector of the world.
    Along(DVec3),
    /// Away from the center line of a tube, square to it.
    Radial,
}
