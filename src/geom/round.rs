//! What can be asked of a tube in closed form: its nearest point, its farthest point, its ends.
//!
//! All in the tube's own frame, in millimetres; a tube counts as solid here, its bore filled.

use glam::{DVec2, DVec3};

use super::{Bounds, CenterLine, Frame, Tube};

/// Vectors shorter than this are rounding errors without a direction.
const SHORT: f64 = 1e-9;

/// A flat end of a tube.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Disc {
    /// Middle of the disc.
    pub(crate) center: DVec3,
    /// Unit vector out of the tube.
    pub(crate) normal: DVec3,
    /// Outer radius.
    pub(crate) outer: f64,
    /// Radius of the bore.
    pub(crate) inner: f64,
}

impl Disc {
    /// The disc's nearest point to a point.
    fn nearest(&self, point: DVec3) -> DVec3 {
        let offset = point - self.center;
        let flat = offset - self.normal * offset.dot(self.normal);
        self.center + flat.clamp_length_max(self.outer)
    }

    /// The point of the rim that lies farthest in a direction.
    pub(crate) fn farthest(&self, direction: DVec3) -> DVec3 {
        self.center + square_to(self.normal, direction) * self.outer
    }

    /// The same disc in the frame that its frame stands in.
    pub(crate) fn placed(&self, frame: &Frame) -> Self {
        Self {
            center: frame.point(self.center),
            normal: frame.vector(self.normal),
            ..*self
        }
    }

    /// Two unit vectors that span the disc; with the normal they are right-handed.
    pub(crate) fn axes(&self) -> (DVec3, DVec3) {
        let first = self.normal.any_orthonormal_vector();
        (first, self.normal.cross(first))
    }
}

impl Tube {
    /// The nearest point of the solid tube; a point inside is its own.
    pub(crate) fn nearest(&self, point: DVec3) -> DVec3 {
        match self.center_line {
            CenterLine::Segment { length } => {
                let flat = DVec2::new(point.x, point.y).clamp_length_max(self.outer);
                flat.extend(point.z.max(0.0).min(length))
            }
            CenterLine::Arc { radius, angle } => {
                let turn = libm::atan2(point.z, radius - point.x);
                if turn >= 0.0 && turn <= angle {
                    let center = turned(radius, turn).0;
                    return center + (point - center).clamp_length_max(self.outer);
                }
                let [first, second] = self.ends().map(|end| end.nearest(point));
                if point.distance_squared(first) <= point.distance_squared(second) {
                    first
                } else {
                    second
                }
            }
        }
    }

    /// Distance of a point from the solid tube, 0 inside.
    pub(crate) fn distance(&self, point: DVec3) -> f64 {
        point.distance(self.nearest(point))
    }

    /// The point that lies farthest in a direction.
    pub(crate) fn farthest(&self, direction: DVec3) -> DVec3 {
        match self.center_line {
            CenterLine::Segment { length } => {
                let flat = DVec2::new(direction.x, direction.y).normalize_or_zero() * self.outer;
                flat.extend(if direction.z > 0.0 { length } else { 0.0 })
            }
            CenterLine::Arc { radius, angle } => {
                // The farther a cross-section turns toward the direction, the farther out it is,
                // because the centre line's radius is larger than the tube's.
                let toward = libm::atan2(direction.z, -direction.x);
                let turn = nearest_turn(toward, angle);
                let (center, along) = turned(radius, turn);
                center + square_to(along, direction) * self.outer
            }
        }
    }

    /// The flat ends: where the centre line starts, and where it stops.
    pub(crate) fn ends(&self) -> [Disc; 2] {
        [(0.0, -1.0), (1.0, 1.0)].map(|(t, sign)| {
            let (center, along) = self.center_line.at(t);
            Disc {
                center,
                normal: along * sign,
                outer: self.outer,
                inner: self.inner,
            }
        })
    }

    /// The box around the placed tube.
    pub(crate) fn bounds(&self, frame: &Frame) -> Bounds {
        let reach = |axis: DVec3| axis.dot(frame.point(self.farthest(frame.local_vector(axis))));
        let ends = |sign: f64| {
            DVec3::new(
                reach(DVec3::X * sign),
                reach(DVec3::Y * sign),
                reach(DVec3::Z * sign),
            )
        };
        Bounds {
            low: -ends(-1.0),
            high: ends(1.0),
        }
    }

    /// The centre line alone.
    pub(crate) fn thread(&self) -> Self {
        Self {
            outer: 0.0,
            inner: 0.0,
            ..*self
        }
    }
}

/// The unit vector square to an axis that leads farthest in a direction; zero when the direction is
/// the axis itself.
fn square_to(axis: DVec3, direction: DVec3) -> DVec3 {
    let flat = direction - axis * direction.dot(axis);
    if flat.length() < SHORT {
        return DVec3::ZERO;
    }
    // Once more, since rounding errors weigh heavily in a short vector.
    let unit = flat.normalize();
    unit - axis * unit.dot(axis)
}

/// The turn from 0 to `angle` that is nearest to a direction, itself given as a turn.
fn nearest_turn(toward: f64, angle: f64) -> f64 {
    if toward >= 0.0 && toward <= angle {
        return toward;
    }
    if libm::cos(toward) >= libm::cos(toward - angle) {
        0.0
    } else {
        angle
    }
}

/// The point and the unit direction of travel of an arc at a turn.
fn turned(radius: f64, turn: f64) -> (DVec3, DVec3) {
    let (sin, cos) = libm::sincos(turn);
    (
        DVec3::new(radius - radius * cos, 0.0, radius * sin),
        DVec3::new(sin, 0.0, cos),
    )
}
