//! The two exact shapes, each in its own frame and made from its own sizes.

use glam::{DVec2, DVec3};

use super::Frame;
use super::outline::{edges, signed_area};
use crate::units::{Angle, Length, TOLERANCE};

/// An exact shape in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A profile swept along +z and closed by planes: a stick, a sheet, a wedge, a box.
    Swept(Swept),
    /// A round bar or pipe along a straight or bent centre line.
    Tube(Tube),
}

/// An outline with openings, in the xy plane of the shape's own frame.
///
/// The outline runs counter-clockwise and the openings clockwise, as seen from +z; no edge touches
/// another, and every corner turns.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Corners of the outline, counter-clockwise.
    pub outline: Vec<DVec2>,
    /// Corners of each opening, clockwise.
    pub openings: Vec<Vec<DVec2>>,
}

/// A plane that closes an end of a swept profile: z = height + slope · (x, y).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndPlane {
    /// Height above the profile's own origin, in millimetres.
    pub height: f64,
    /// Rise of the plane per millimetre along x and along y.
    pub slope: DVec2,
}

/// A round hole straight through a swept body, square to its sweep and to the two sides that it goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bore {
    /// Where its middle enters a side of the body.
    pub start: DVec3,
    /// Where it leaves the opposite side, at the same height.
    pub end: DVec3,
    /// Radius in millimetres.
    pub radius: f64,
}

/// A profile swept along +z between planes.
///
/// The body lies above every bottom plane and below every top plane. Each list has at least one
/// plane; more than one is allowed only over a convex profile without openings. Bores lie wholly within the sides
/// that they go through, and clear of one another.
#[derive(Debug, Clone, PartialEq)]
pub struct Swept {
    /// What is swept.
    pub profile: Profile,
    /// Planes under the body.
    pub bottom: Vec<EndPlane>,
    /// Planes over the body.
    pub top: Vec<EndPlane>,
    /// Holes through its sides.
    pub bores: Vec<Bore>,
}

/// The centre line of a tube; it starts at the origin and heads along +z.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CenterLine {
    /// Straight to (0, 0, length).
    Segment {
        /// Length in millimetres.
        length: f64,
    },
    /// A bend toward +x: the circle's centre lies at (radius, 0, 0), and the point at turn φ is
    /// (radius − radius·cos φ, 0, radius·sin φ).
    Arc {
        /// Radius of the centre line in millimetres; larger than the tube's outer radius.
        radius: f64,
        /// How far it turns, in radians; above 0 and at most π.
        angle: f64,
    },
}

/// A round bar or pipe with flat ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    /// Where its middle runs.
    pub center_line: CenterLine,
    /// Outer radius in millimetres.
    pub outer: f64,
    /// Inner radius in millimetres; 0 is a solid bar.
    pub inner: f64,
}

impl EndPlane {
    /// A plane square to the sweep.
    pub const fn level(height: Length) -> Self {
        Self {
            height: height.to_mm(),
            slope: DVec2::ZERO,
        }
    }

    /// A plane that rises along x and y.
    pub const fn sloped(height: Length, slope: DVec2) -> Self {
        Self {
            height: height.to_mm(),
            slope,
        }
    }

    /// The plane's z over a point of the profile.
    pub fn z(&self, point: DVec2) -> f64 {
        self.height + self.slope.dot(point)
    }
}

impl Profile {
    /// A rectangle from (0, 0) to (width, depth).
    pub fn rectangle(width: Length, depth: Length) -> Self {
        let (w, d) = (width.to_mm(), depth.to_mm());
        Self::polygon(vec![
            DVec2::ZERO,
            DVec2::new(w, 0.0),
            DVec2::new(w, d),
            DVec2::new(0.0, d),
        ])
    }

    /// A polygon, turned counter-clockwise if it is not.
    pub fn polygon(outline: Vec<DVec2>) -> Self {
        Self {
            outline: turned(outline, true),
            openings: Vec::new(),
        }
    }

    /// The convex polygon round these points, which do not all lie on one line.
    pub fn around(points: &[DVec2]) -> Self {
        let mut sorted = points.to_vec();
        sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let chain = |points: &mut dyn Iterator<Item = DVec2>| {
            let mut kept: Vec<DVec2> = Vec::new();
            for point in points {
                while let [.., a, b] = kept[..]
                    && (b - a).perp_dot(point - a) <= TOLERANCE
                {
                    kept.pop();
                }
                kept.push(point);
            }
            kept.pop();
            kept
        };
        let below = chain(&mut sorted.iter().copied());
        let above = chain(&mut sorted.iter().rev().copied());
        Self::polygon([below, above].concat())
    }

    /// The same profile with one more opening, turned clockwise if it is not.
    #[must_use]
    pub fn with_opening(mut self, opening: Vec<DVec2>) -> Self {
        self.openings.push(turned(opening, false));
        self
    }

    /// Area in square millimetres, openings taken off.
    pub fn area(&self) -> f64 {
        self.loops().map(signed_area).sum()
    }

    /// Centre of the area.
    pub fn centroid(&self) -> DVec2 {
        let mut moment = DVec2::ZERO;
        for corners in self.loops() {
            for (a, b) in edges(corners) {
                moment += (a + b) * a.perp_dot(b) / 6.0;
            }
        }
        moment / self.area()
    }

    /// The outline, then each opening.
    pub fn loops(&self) -> impl Iterator<Item = &[DVec2]> {
        std::iter::once(self.outline.as_slice()).chain(self.openings.iter().map(Vec::as_slice))
    }

    /// Whether it has no openings and no corner that turns inward.
    pub fn is_convex(&self) -> bool {
        let corners = &self.outline;
        let count = corners.len();
        self.openings.is_empty()
            && (0..count).all(|i| {
                let (a, b, c) = (
                    corners[i],
                    corners[(i + 1) % count],
                    corners[(i + 2) % count],
                );
                (b - a).perp_dot(c - b) > 0.0
            })
    }
}

impl Swept {
    /// A profile between z = 0 and z = length, both ends square.
    pub fn square(profile: Profile, length: Length) -> Self {
        Self {
            profile,
            bottom: vec![EndPlane::level(Length::ZERO)],
            top: vec![EndPlane::level(length)],
            bores: Vec::new(),
        }
    }

    /// A box from the origin to (x, y, z).
    pub fn block(x: Length, y: Length, z: Length) -> Self {
        Self::square(Profile::rectangle(x, y), z)
    }
}

impl Bore {
    /// What was bored out, as a bar, and its place in the body's own frame: along +z, x up the sweep.
    pub(crate) fn bar(&self) -> (Tube, Frame) {
        let way = self.end - self.start;
        let bar = Tube {
            center_line: CenterLine::Segment {
                length: way.length(),
            },
            outer: self.radius,
            inner: 0.0,
        };
        let way = way.normalize();
        (bar, Frame::new(self.start, DVec3::Z, way.cross(DVec3::Z)))
    }
}

impl Shape {
    /// The same shape before it was bored.
    #[must_use]
    pub fn unbored(&self) -> Self {
        match self {
            Self::Swept(swept) => Self::Swept(Swept {
                bores: Vec::new(),
                ..swept.clone()
            }),
            Self::Tube(tube) => Self::Tube(*tube),
        }
    }

    /// Its bores; a tube has none.
    pub fn bores(&self) -> &[Bore] {
        match self {
            Self::Swept(swept) => &swept.bores,
            Self::Tube(_) => &[],
        }
    }
}

impl Tube {
    /// A straight pipe.
    pub const fn straight(outer: Length, inner: Length, length: Length) -> Self {
        Self {
            center_line: CenterLine::Segment {
                length: length.to_mm(),
            },
            outer: outer.to_mm(),
            inner: inner.to_mm(),
        }
    }

    /// A bend.
    pub const fn bend(outer: Length, inner: Length, radius: Length, angle: Angle) -> Self {
        Self {
            center_line: CenterLine::Arc {
                radius: radius.to_mm(),
                angle: angle.to_radians(),
            },
            outer: outer.to_mm(),
            inner: inner.to_mm(),
        }
    }
}

impl CenterLine {
    /// The length of the line in millimetres.
    pub fn length(&self) -> f64 {
        match *self {
            Self::Segment { length } => length,
            Self::Arc { radius, angle } => radius * angle,
        }
    }

    /// The point and the unit direction of travel at `t`, from 0 at the start to 1 at the end.
    pub fn at(&self, t: f64) -> (DVec3, DVec3) {
        match *self {
            Self::Segment { length } => (DVec3::new(0.0, 0.0, length * t), DVec3::Z),
            Self::Arc { radius, angle } => {
                let (sin, cos) = libm::sincos(angle * t);
                (
                    DVec3::new(radius - radius * cos, 0.0, radius * sin),
                    DVec3::new(sin, 0.0, cos),
                )
            }
        }
    }
}

impl From<Swept> for Shape {
    fn from(swept: Swept) -> Self {
        Self::Swept(swept)
    }
}

impl From<Tube> for Shape {
    fn from(tube: Tube) -> Self {
        Self::Tube(tube)
    }
}

fn turned(mut corners: Vec<DVec2>, counter_clockwise: bool) -> Vec<DVec2> {
    if (signed_area(&corners) > 0.0) != counter_clockwise {
        corners.reverse();
    }
    corners
}
