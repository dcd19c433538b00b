//! Swept shapes into convex pieces, and the exact volume of every shape.
//!
//! A profile with openings or inward corners is cut into strips at its corners; strips that lie
//! between the same two edges are one. Pieces of a shape only touch one another.

use glam::{DVec2, DVec3};
use smallvec::smallvec;

use super::convex::{Convex, Face, Plane};
use super::outline::{edges, signed_area};
use super::{EndPlane, Frame, Profile, Shape, Swept, TOLERANCE, Tube};

impl Shape {
    /// Volume in cubic millimetres; 0 when nothing is left between the end planes.
    ///
    /// A prism between two planes that are not parallel has the volume of its cross-section times
    /// its height over the centroid; a tube has its cross-section times its centre line (second
    /// theorem of Pappus).
    pub fn volume(&self) -> f64 {
        match self {
            Self::Swept(swept) => swept.volume(),
            Self::Tube(tube) => tube.volume(),
        }
    }
}

impl Tube {
    fn volume(&self) -> f64 {
        let section = std::f64::consts::PI * (self.outer * self.outer - self.inner * self.inner);
        (section * self.center_line.length()).max(0.0)
    }
}

impl Swept {
    fn volume(&self) -> f64 {
        let bored = self.bores.iter().map(|bore| bore.bar().0.volume());
        self.unbored_volume() - bored.sum::<f64>()
    }

    fn unbored_volume(&self) -> f64 {
        if let ([bottom], [top]) = (self.bottom.as_slice(), self.top.as_slice())
            && self
                .profile
                .loops()
                .flatten()
                .all(|corner| top.z(*corner) >= bottom.z(*corner))
        {
            let center = self.profile.centroid();
            return self.profile.area() * (top.z(center) - bottom.z(center));
        }
        self.pieces(&Frame::WORLD).iter().map(Convex::volume).sum()
    }

    /// The shape, its bores filled, as convex pieces, placed in a frame.
    pub(crate) fn pieces(&self, frame: &Frame) -> Vec<Convex> {
        let parts = self.profile.convex_parts();
        parts
            .iter()
            .filter_map(|part| self.piece(part, frame))
            .collect()
    }

    /// What stands on one convex part of the profile.
    fn piece(&self, part: &[DVec2], frame: &Frame) -> Option<Convex> {
        let (bottom, top) = (self.bottom.first()?, self.top.first()?);
        let single = self.bottom.len() == 1 && self.top.len() == 1;
        if single && part.iter().all(|p| top.z(*p) - bottom.z(*p) > TOLERANCE) {
            return Some(prism(part, bottom, top, frame));
        }
        let low = lowest(part, bottom) - 1.0;
        let high = -lowest(part, &top.turned_over()) + 1.0;
        if high < low {
            return None;
        }
        let rough = prism(part, &level(low), &level(high), frame);
        let planes = self
            .bottom
            .iter()
            .map(|plane| plane.turned_over().plane(-1.0, frame));
        let mut planes = planes.chain(self.top.iter().map(|plane| plane.plane(1.0, frame)));
        planes.try_fold(rough, |rest, plane| rest.clip(&plane))
    }
}

impl EndPlane {
    /// The same plane with z counted the other way.
    fn turned_over(&self) -> Self {
        Self {
            height: -self.height,
            slope: -self.slope,
        }
    }

    /// The plane over a body (`side` 1), or, turned over, the plane under it (`side` −1).
    fn plane(&self, side: f64, frame: &Frame) -> Plane {
        let normal = DVec3::new(-self.slope.x, -self.slope.y, side).normalize();
        let point = DVec3::new(0.0, 0.0, side * self.height);
        Plane::through(frame.point(point), frame.vector(normal))
    }
}

fn level(height: f64) -> EndPlane {
    EndPlane {
        height,
        slope: DVec2::ZERO,
    }
}

fn lowest(part: &[DVec2], plane: &EndPlane) -> f64 {
    part.iter()
        .map(|p| plane.z(*p))
        .fold(f64::INFINITY, f64::min)
}

/// A prism on a convex polygon; its bottom is under its top at every corner.
fn prism(part: &[DVec2], bottom: &EndPlane, top: &EndPlane, frame: &Frame) -> Convex {
    let count = part.len();
    let ends = [bottom, top];
    let mut vertices = Vec::with_capacity(2 * count);
    for end in ends {
        vertices.extend(part.iter().map(|p| frame.point(p.extend(end.z(*p)))));
    }
    let mut faces = Vec::with_capacity(count + 2);
    faces.push(Face {
        plane: bottom.turned_over().plane(-1.0, frame),
        corners: (0..count).rev().collect(),
    });
    faces.push(Face {
        plane: top.plane(1.0, frame),
        corners: (count..2 * count).collect(),
    });
    for i in 0..count {
        let j = (i + 1) % count;
        let out = -(part[j] - part[i]).perp().normalize_or_zero();
        faces.push(Face {
            plane: Plane::through(vertices[i], frame.vector(out.extend(0.0))),
            corners: smallvec![i, j, j + count, i + count],
        });
    }
    Convex::new(vertices, faces)
}

impl Profile {
    /// The profile as convex polygons, counter-clockwise, that only touch one another.
    pub(crate) fn convex_parts(&self) -> Vec<Vec<DVec2>> {
        if self.is_convex() {
            return vec![self.outline.clone()];
        }
        let upright = strips(self.loops().map(<[DVec2]>::to_vec));
        let lying = strips(
            self.loops()
                .map(|corners| corners.iter().map(|p| swapped(*p)).collect()),
        );
        if upright.len() <= lying.len() {
            return upright;
        }
        lying
            .into_iter()
            .map(|part| part.into_iter().rev().map(swapped).collect())
            .collect()
    }
}

fn swapped(point: DVec2) -> DVec2 {
    DVec2::new(point.y, point.x)
}

/// A part of a strip between two edges.
struct Trapezoid {
    lower: usize,
    upper: usize,
    from: f64,
    to: f64,
}

/// Cuts what the loops enclose at every corner's x.
fn strips(loops: impl Iterator<Item = Vec<DVec2>>) -> Vec<Vec<DVec2>> {
    let mut cuts = Vec::new();
    let mut sides: Vec<[DVec2; 2]> = Vec::new();
    for corners in loops {
        cuts.extend(corners.iter().map(|p| p.x));
        sides.extend(edges(&corners).map(|(a, b)| if a.x < b.x { [a, b] } else { [b, a] }));
    }
    sides.retain(|[a, b]| b.x - a.x > TOLERANCE);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| *a - *b <= TOLERANCE);
    let mut found: Vec<Trapezoid> = Vec::new();
    for cut in cuts.windows(2) {
        strip(&sides, cut[0], cut[1], &mut found);
    }
    found
        .iter()
        .map(|part| part.corners(&sides))
        .filter(|corners| corners.len() >= 3 && signed_area(corners) > 0.0)
        .collect()
}

/// Adds the parts of one strip, or lengthens those of the strip before.
fn strip(sides: &[[DVec2; 2]], from: f64, to: f64, found: &mut Vec<Trapezoid>) {
    let middle = f64::midpoint(from, to);
    let mut across: Vec<usize> = (0..sides.len())
        .filter(|&i| sides[i][0].x < middle && middle < sides[i][1].x)
        .collect();
    across.sort_by(|&a, &b| y_at(&sides[a], middle).total_cmp(&y_at(&sides[b], middle)));
    for pair in across.chunks_exact(2) {
        let before = found.iter_mut().find(|part| {
            part.lower == pair[0] && part.upper == pair[1] && (part.to - from).abs() <= TOLERANCE
        });
        match before {
            Some(part) => part.to = to,
            None => found.push(Trapezoid {
                lower: pair[0],
                upper: pair[1],
                from,
                to,
            }),
        }
    }
}

impl Trapezoid {
    fn corners(&self, sides: &[[DVec2; 2]]) -> Vec<DVec2> {
        let at = |side: usize, x: f64| DVec2::new(x, y_at(&sides[side], x));
        let mut corners = vec![
            at(self.lower, self.from),
            at(self.lower, self.to),
            at(self.upper, self.to),
            at(self.upper, self.from),
        ];
        corners.dedup_by(|a, b| a.distance(*b) <= TOLERANCE);
        if corners[0].distance(corners[corners.len() - 1]) <= TOLERANCE {
            corners.pop();
        }
        corners
    }
}

fn y_at([a, b]: &[DVec2; 2], x: f64) -> f64 {
    a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x))
}
