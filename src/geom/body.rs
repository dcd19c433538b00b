//! A shape that has been placed in the world.

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
