//! From where the model is looked at: points of the world in, points of a view out.
//!
//! *Units and frame*: millimetres. In a view x runs right, y up, and z toward the viewer; rays are parallel.

use glam::DVec3;

use super::ink::Rect;
use crate::geom::Plane;

/// A direction of view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Eye {
    right: DVec3,
    up: DVec3,
    back: DVec3,
}

impl Eye {
    /// From the room, looking at the fireplace wall.
    pub(super) const FRONT: Self = Self::new(DVec3::X, DVec3::Z, DVec3::NEG_Y);
    /// From the left, with the wall at the left and the room at the right.
    pub(super) const LEFT: Self = Self::new(DVec3::NEG_Y, DVec3::Z, DVec3::NEG_X);
    /// From the right, with the room at the left and the wall at the right.
    pub(super) const RIGHT: Self = Self::new(DVec3::Y, DVec3::Z, DVec3::X);
    /// From above, with the wall at the top.
    pub(super) const ABOVE: Self = Self::new(DVec3::X, DVec3::Y, DVec3::Z);

    /// The way of looking with these directions to the right, up, and back to the viewer.
    pub(super) const fn new(right: DVec3, up: DVec3, back: DVec3) -> Self {
        Self { right, up, back }
    }

    /// From the room, from the left and from above, so that equal lengths along the three axes are drawn equal.
    ///
    /// Source: ISO 5456-3:1996, isometric axonometry.
    pub(super) fn isometric() -> Self {
        let back = DVec3::new(-1.0, -1.0, 1.0).normalize();
        let right = DVec3::Z.cross(back).normalize();
        Self::new(right, back.cross(right), back)
    }

    /// A point as it is seen.
    pub(super) fn see(&self, point: DVec3) -> DVec3 {
        DVec3::new(
            self.right.dot(point),
            self.up.dot(point),
            self.back.dot(point),
        )
    }

    /// The box round points as they are seen.
    pub(super) fn around<'a>(&self, points: impl IntoIterator<Item = &'a DVec3>) -> Rect {
        Rect::around(points.into_iter().map(|it| self.see(*it).truncate()))
    }

    /// A plane as it is seen.
    pub(super) fn see_plane(&self, plane: &Plane) -> Plane {
        Plane {
            normal: self.see(plane.normal),
            offset: plane.offset,
        }
    }

    /// Whether a face is turned to the viewer.
    pub(super) fn faces(&self, normal: DVec3) -> bool {
        normal.dot(self.back) > 1e-9
    }

    /// The plane square to the line of sight through a point; what is nearer lies above it.
    pub(super) fn plane(&self, point: DVec3) -> Plane {
        Plane::through(point, self.back)
    }
}
