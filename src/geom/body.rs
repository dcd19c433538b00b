//! A shape that has been placed in the world, with what every query on it needs.

use glam::DVec3;

use super::{Bounds, Convex, Frame, Shape};

/// A shape and where it stands.
///
/// Made by [`Body::new`] only, so that bounds and pieces always belong to shape and frame.
#[derive(Debug, Clone)]
pub struct Body {
    /// The exact shape, in its own frame.
    pub shape: Shape,
    /// Where the shape's own frame stands in the world.
    pub frame: Frame,
    /// The smallest box with the world's axes around it; exact for tubes too.
    pub bounds: Bounds,
    /// A swept shape as convex pieces in the world, which only touch one another; none for a tube,
    /// and none for a shape that its end planes cut away entirely.
    pub pieces: Vec<Convex>,
}

impl Body {
    /// Places a shape.
    pub fn new(shape: impl Into<Shape>, frame: Frame) -> Self {
        let shape = shape.into();
        let (bounds, pieces) = match &shape {
            Shape::Swept(swept) => {
                let pieces = swept.pieces(&frame);
                let bounds = pieces
                    .iter()
                    .fold(Bounds::EMPTY, |bounds, piece| bounds.union(&piece.bounds));
                (bounds, pieces)
            }
            Shape::Tube(tube) => (tube.bounds(&frame), Vec::new()),
        };
        Self {
            shape,
            frame,
            bounds,
            pieces,
        }
    }

    /// Volume in cubic millimetres.
    pub fn volume(&self) -> f64 {
        self.shape.volume()
    }

    /// Whether there is nothing of it.
    pub fn is_empty(&self) -> bool {
        self.bounds.is_empty()
    }

    /// The same body, moved.
    #[must_use]
    pub fn moved(&self, by: DVec3) -> Self {
        let frame = Frame {
            origin: self.frame.origin + by,
            ..self.frame
        };
        Self::new(self.shape.clone(), frame)
    }

    /// The point that lies farthest in a direction of the world; the origin for an empty body.
    pub fn farthest(&self, direction: DVec3) -> DVec3 {
        match &self.shape {
            Shape::Swept(_) => {
                let mut best = (f64::NEG_INFINITY, DVec3::ZERO);
                for vertex in self.pieces.iter().flat_map(|piece| &piece.vertices) {
                    let height = direction.dot(*vertex);
                    if height.total_cmp(&best.0).is_ge() {
                        best = (height, *vertex);
                    }
                }
                best.1
            }
            Shape::Tube(tube) => self
                .frame
                .point(tube.farthest(self.frame.local_vector(direction))),
        }
    }
}
