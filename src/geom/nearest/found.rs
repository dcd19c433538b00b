//! Where two bodies are nearest.

use glam::DVec3;

use crate::geom::Frame;

/// The least distance between two bodies and the two points it lies between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// Distance in millimetres; 0 when the bodies touch or overlap, endless when one is empty.
    pub distance: f64,
    /// The point of the first body; when they touch or overlap, a point near both.
    pub on_first: DVec3,
    /// The point of the second body.
    pub on_second: DVec3,
}

impl Nearest {
    pub(super) const NOWHERE: Self = Self {
        distance: f64::INFINITY,
        on_first: DVec3::ZERO,
        on_second: DVec3::ZERO,
    };

    pub(super) fn between(on_first: DVec3, on_second: DVec3) -> Self {
        Self {
            distance: on_first.distance(on_second),
            on_first,
            on_second,
        }
    }

    pub(super) fn touching(point: DVec3) -> Self {
        Self {
            distance: 0.0,
            on_first: point,
            on_second: point,
        }
    }

    pub(super) fn swapped(self) -> Self {
        Self {
            on_first: self.on_second,
            on_second: self.on_first,
            ..self
        }
    }

    pub(super) fn keep_nearer(&mut self, other: Self) {
        if other.distance < self.distance {
            *self = other;
        }
    }

    pub(super) fn placed(self, frame: &Frame) -> Self {
        Self {
            on_first: frame.point(self.on_first),
            on_second: frame.point(self.on_second),
            ..self
        }
    }
}
