//! The lower of several planes over a plan: a ceiling, or what studs end under.
//!
//! *Units and frame*: millimetres; heights along z over (x, y). What lies below is convex, so over a
//! line or a convex area it is lowest at an end or a corner.

use glam::{DVec2, DVec3};

use super::outline::below;
use super::{EndPlane, Frame, TOLERANCE};
use crate::units::Length;

/// One plane, or several of which the lowest counts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Underside {
    planes: Vec<EndPlane>,
}

impl Underside {
    /// The lower of these planes. Without a plane it is level, at 0.
    pub fn new(planes: Vec<EndPlane>) -> Self {
        Self { planes }
    }

    /// The planes, in the order they were given.
    pub fn planes(&self) -> &[EndPlane] {
        &self.planes
    }

    /// The height over a point.
    pub fn z(&self, place: DVec2) -> f64 {
        let heights = self.planes.iter().map(|plane| plane.z(place));
        heights.reduce(f64::min).unwrap_or_default()
    }

    /// The height over a point so far to the right and out from the wall, where y runs into the wall.
    pub fn height_at(&self, right: Length, out: Length) -> Length {
        Length::mm(self.z(DVec2::new(right.to_mm(), -out.to_mm())))
    }

    /// Which plane is the lowest over a point; the first of several.
    pub fn plane_at(&self, place: DVec2) -> usize {
        let planes = self.planes.iter().enumerate();
        let lowest = planes.min_by(|a, b| a.1.z(place).total_cmp(&b.1.z(place)));
        lowest.map_or(0, |(at, _)| at)
    }

    /// The lowest height over points, and so over whatever convex area has them as its corners.
    pub fn lowest(&self, corners: impl IntoIterator<Item = DVec2>) -> f64 {
        let heights = corners.into_iter().map(|corner| self.z(corner));
        heights.fold(f64::INFINITY, f64::min)
    }

    /// The highest height over a convex area.
    pub fn highest(&self, area: &[DVec2]) -> f64 {
        let parts = self.over(area);
        let corners = parts.iter().flat_map(|(_, corners)| corners);
        corners.fold(f64::NEG_INFINITY, |high, corner| high.max(self.z(*corner)))
    }

    /// The same planes over the xy plane of another frame, whose z runs up too.
    #[must_use]
    pub fn seen_from(&self, frame: &Frame) -> Self {
        let seen = |plane: &EndPlane| {
            let rise = plane.slope.extend(0.0);
            EndPlane {
                height: plane.z(frame.origin.truncate()) - frame.origin.z,
                slope: DVec2::new(rise.dot(frame.x), rise.dot(frame.y)),
            }
        };
        Self::new(self.planes.iter().map(seen).collect())
    }

    /// What lies over the xy plane of a frame whose z runs up, over the world.
    #[must_use]
    pub fn placed(&self, frame: &Frame) -> Self {
        let placed = |plane: &EndPlane| {
            let slope = frame.vector(plane.slope.extend(0.0)).truncate();
            EndPlane {
                height: plane.height + frame.origin.z - slope.dot(frame.origin.truncate()),
                slope,
            }
        };
        Self::new(self.planes.iter().map(placed).collect())
    }

    /// The same, lowered: each plane by a length of its own.
    #[must_use]
    pub fn lowered(&self, by: impl Fn(&EndPlane) -> Length) -> Self {
        let lower = |plane: &EndPlane| EndPlane {
            height: plane.height - by(plane).to_mm(),
            ..*plane
        };
        Self::new(self.planes.iter().map(lower).collect())
    }

    /// A convex area, counter-clockwise, divided by which plane is the lowest: the plane's place in
    /// the list, and the part under it. A plane that is nowhere the lowest by itself has none.
    pub fn over(&self, area: &[DVec2]) -> Vec<(usize, Vec<DVec2>)> {
        if self.planes.len() < 2 {
            return self.planes.iter().map(|_| (0, area.to_vec())).collect();
        }
        let all = (0..self.planes.len()).map(|at| (at, self.part_under(at, area)));
        all.filter(|(at, part)| self.is_lowest_by_itself(*at, part))
            .collect()
    }

    fn part_under(&self, at: usize, area: &[DVec2]) -> Vec<DVec2> {
        let own = self.planes[at];
        let others = self.planes.iter().enumerate().filter(|it| it.0 != at);
        others.fold(area.to_vec(), |part, (_, other)| {
            below(&part, |place| own.z(place) - other.z(place))
        })
    }

    fn is_lowest_by_itself(&self, at: usize, part: &[DVec2]) -> bool {
        let middle = part.iter().sum::<DVec2>() / part.len().max(1) as f64;
        let mut others = self.planes.iter().enumerate().filter(|it| it.0 != at);
        let lower =
            others.all(|(_, other)| other.z(middle) - self.planes[at].z(middle) > TOLERANCE);
        lower && part.len() > 2
    }

    /// The planes that count over a convex area.
    pub fn planes_over(&self, area: &[DVec2]) -> Vec<EndPlane> {
        match self.planes.as_slice() {
            [_] => self.planes.clone(),
            planes => {
                let parts = self.over(area);
                let found: Vec<EndPlane> = parts.iter().map(|(at, _)| planes[*at]).collect();
                match (found.is_empty(), area.first()) {
                    (true, Some(corner)) => vec![planes[self.plane_at(*corner)]],
                    _ => found,
                }
            }
        }
    }

    /// One plane that lies nowhere over these, above a rectangle from (0, 0) to (width, depth): with
    /// the mean slopes of the corners, as high as they allow.
    pub fn plane_under(&self, width: f64, depth: f64) -> EndPlane {
        let z = |x: f64, y: f64| self.z(DVec2::new(x, y));
        let along = z(width, 0.0) - z(0.0, 0.0) + z(width, depth) - z(0.0, depth);
        let across = z(0.0, depth) - z(0.0, 0.0) + z(width, depth) - z(width, 0.0);
        let slope = DVec2::new(along / (2.0 * width), across / (2.0 * depth));
        let corners = [(0.0, 0.0), (width, 0.0), (0.0, depth), (width, depth)];
        let heights = corners.map(|(x, y)| z(x, y) - slope.dot(DVec2::new(x, y)));
        EndPlane {
            height: heights.into_iter().fold(f64::INFINITY, f64::min),
            slope,
        }
    }

    /// What lies under it along a line: corners as (place from the line's start, height), from end to end.
    pub fn along(&self, from: DVec2, to: DVec2) -> Vec<DVec2> {
        let lines: Vec<(f64, f64)> = self.lines(from, to).collect();
        roofline(&lines, (0.0, from.distance(to)))
    }

    /// Heights over the ends of a line: one pair for each plane.
    pub fn lines(&self, from: DVec2, to: DVec2) -> impl Iterator<Item = (f64, f64)> {
        let pair = move |plane: &EndPlane| (plane.z(from), plane.z(to));
        self.planes.iter().map(pair)
    }
}

/// The lowest of straight lines, each given by its heights at the two ends of a base line: corners as
/// (place along the base, height), from end to end.
pub fn roofline(lines: &[(f64, f64)], base: (f64, f64)) -> Vec<DVec2> {
    let lowest = |share: f64| {
        let heights = lines.iter().map(|(a, b)| a + (b - a) * share);
        heights.fold(f64::INFINITY, f64::min)
    };
    let mut shares = vec![0.0, 1.0];
    for (at, (a, b)) in lines.iter().enumerate() {
        for (c, d) in &lines[at + 1..] {
            let (first, last) = (a - c, b - d);
            if first * last < 0.0 {
                let share = first / (first - last);
                let inside = share.min(1.0 - share) * (base.1 - base.0).abs() > TOLERANCE;
                if inside && a + (b - a) * share - lowest(share) <= TOLERANCE {
                    shares.push(share);
                }
            }
        }
    }
    shares.sort_by(f64::total_cmp);
    shares.dedup_by(|a, b| ((*a - *b) * (base.1 - base.0)).abs() <= TOLERANCE);
    let place = |share: f64| base.0 + (base.1 - base.0) * share;
    let corners = shares.into_iter();
    corners
        .map(|share| DVec2::new(place(share), lowest(share)))
        .collect()
}

impl EndPlane {
    /// Plumb height of a layer of thickness 1 on this plane: √(1 + slope²).
    pub fn steepness(&self) -> f64 {
        (1.0 + self.slope.length_squared()).sqrt()
    }

    /// The normal of the plane, upward, as a unit vector.
    pub fn up(&self) -> DVec3 {
        DVec3::new(-self.slope.x, -self.slope.y, 1.0).normalize()
    }
}
