//! Points of the world in, points of a picture out.
//!
//! *Units and frame*: millimetres. Seen points have x to the right, y up, and z toward the viewer;
//! all three are linear over a flat face in either kind of view, so faces stay flat when they are drawn.

use glam::DVec3;

use crate::geom::Plane;

/// What lies nearer to the eye than this share of the distance to the subject is left out.
const NEAREST: f64 = 0.2;

/// From where the model is seen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Camera {
    right: DVec3,
    up: DVec3,
    back: DVec3,
    /// The eye and its distance from the subject; a view without an eye has no vanishing points.
    eye: Option<(DVec3, f64)>,
}

impl Camera {
    /// A view along parallel rays, from the side that the unit vector points to; not from straight above.
    pub(super) fn flat(back: DVec3) -> Self {
        let right = DVec3::Z.cross(back).normalize_or(DVec3::X);
        Self {
            right,
            up: back.cross(right),
            back,
            eye: None,
        }
    }

    /// A view from an eye that looks level along +y at a subject some way off; upright lines stay upright.
    pub(super) fn level(eye: DVec3, distance: f64) -> Self {
        Self {
            eye: Some((eye, distance)),
            ..Self::flat(DVec3::NEG_Y)
        }
    }

    /// A point as it is seen. It must not lie beyond [`Self::near`].
    pub(super) fn see(&self, point: DVec3) -> DVec3 {
        let Some((eye, distance)) = self.eye else {
            return self.turn(point);
        };
        let seen = self.turn(point - eye);
        let shrink = distance / -seen.z;
        DVec3::new(seen.x * shrink, seen.y * shrink, distance * shrink)
    }

    /// A direction of the world in the camera's frame.
    pub(super) fn turn(&self, vector: DVec3) -> DVec3 {
        DVec3::new(
            self.right.dot(vector),
            self.up.dot(vector),
            self.back.dot(vector),
        )
    }

    /// Whether a face through a point is seen from outside.
    pub(super) fn faces(&self, point: DVec3, normal: DVec3) -> bool {
        match self.eye {
            Some((eye, _)) => normal.dot(eye - point) > 0.0,
            None => normal.dot(self.back) > 0.0,
        }
    }

    /// The plane that everything drawn lies under, if there is an eye that could be passed.
    pub(super) fn near(&self) -> Option<Plane> {
        let (eye, distance) = self.eye?;
        Some(Plane::through(
            eye - self.back * distance * NEAREST,
            self.back,
        ))
    }
}
