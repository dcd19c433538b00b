//! A rigid frame: where a shape or a wall stands.

use glam::DVec3;

/// A right-handed orthonormal frame; its axes and origin are given in the frame it stands in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where the frame's own origin lies.
    pub origin: DVec3,
    /// Unit vector of the frame's x axis.
    pub x: DVec3,
    /// Unit vector of the frame's y axis.
    pub y: DVec3,
    /// Unit vector of the frame's z axis; always x × y.
    pub z: DVec3,
}

impl Default for Frame {
    fn default() -> Self {
        Self::WORLD
    }
}

impl Frame {
    /// The world's own frame.
    pub const WORLD: Self = Self {
        origin: DVec3::ZERO,
        x: DVec3::X,
        y: DVec3::Y,
        z: DVec3::Z,
    };

    /// A frame from its origin and two axes, which must be perpendicular unit vectors.
    pub fn new(origin: DVec3, x: DVec3, y: DVec3) -> Self {
        Self {
            origin,
            x,
            y,
            z: x.cross(y),
        }
    }

    /// The world's axes with another origin.
    pub const fn at(origin: DVec3) -> Self {
        Self {
            origin,
            ..Self::WORLD
        }
    }

    /// A point of this frame, in the frame that this one stands in.
    pub fn point(&self, point: DVec3) -> DVec3 {
        self.origin + self.vector(point)
    }

    /// A direction of this frame, in the frame that this one stands in.
    pub fn vector(&self, vector: DVec3) -> DVec3 {
        self.x * vector.x + self.y * vector.y + self.z * vector.z
    }

    /// The reverse of [`Self::point`].
    pub fn local_point(&self, point: DVec3) -> DVec3 {
        self.local_vector(point - self.origin)
    }

    /// The reverse of [`Self::vector`].
    pub fn local_vector(&self, vector: DVec3) -> DVec3 {
        DVec3::new(vector.dot(self.x), vector.dot(self.y), vector.dot(self.z))
    }

    /// A frame given within this one, in the frame that this one stands in.
    #[must_use]
    pub fn place(&self, inner: &Self) -> Self {
        Self {
            origin: self.point(inner.origin),
            x: self.vector(inner.x),
            y: self.vector(inner.y),
            z: self.vector(inner.z),
        }
    }
}
