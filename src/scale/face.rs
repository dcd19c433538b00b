//! A mesh and a plane square to an axis in, the mesh's face in that plane out: what lies on it, and how deep the
//! body is behind it.
//!
//! *Units and frame*: millimetres at full size, in the world's frame.

use glam::{DVec2, DVec3};

use crate::geom::{Bounds, Mesh, TOLERANCE, signed_area, within};

/// Share of a rectangle that may be missing from a face that covers it.
const MISSING: f64 = 1e-6;

/// A flat face square to an axis.
#[derive(Debug, Clone)]
pub(super) struct Face {
    axis: usize,
    at: f64,
    /// Whether the body lies below it.
    up: bool,
    triangles: Vec<[DVec2; 3]>,
    /// Every other triangle that is not seen edge on: its corners, and how far each lies along the axis.
    others: Vec<([DVec2; 3], [f64; 3])>,
}

/// A point as it is seen along an axis.
fn flat(axis: usize, point: DVec3) -> DVec2 {
    DVec2::new(point[(axis + 1) % 3], point[(axis + 2) % 3])
}

fn twice([a, b, c]: [DVec2; 3]) -> f64 {
    (b - a).perp_dot(c - a)
}

impl Face {
    /// The face at the upper or the lower end of a mesh.
    pub(super) fn new(mesh: &Mesh, bounds: &Bounds, axis: usize, up: bool) -> Self {
        let at = if up {
            bounds.high[axis]
        } else {
            bounds.low[axis]
        };
        let mut face = Self {
            axis,
            at,
            up,
            triangles: Vec::new(),
            others: Vec::new(),
        };
        for triangle in &mesh.triangles {
            let corners = triangle.corners.map(|corner| mesh.vertices[corner]);
            let seen = corners.map(|it| flat(axis, it));
            if corners.iter().all(|it| (it[axis] - at).abs() <= TOLERANCE) {
                face.triangles.push(seen);
            } else if twice(seen).abs() > TOLERANCE {
                face.others.push((seen, corners.map(|it| it[axis])));
            }
        }
        face
    }

    pub(super) fn is_there(&self) -> bool {
        !self.triangles.is_empty()
    }

    /// Whether the face covers a box, seen along the axis.
    pub(super) fn covers(&self, bounds: &Bounds) -> bool {
        let [low, high] = [bounds.low, bounds.high].map(|it| flat(self.axis, it));
        let size = high - low;
        let shared = |it: &[DVec2; 3]| signed_area(&within(it, low, high)).abs();
        let covered: f64 = self.triangles.iter().map(shared).sum();
        covered >= size.x * size.y * (1.0 - MISSING)
    }

    /// How deep the body is behind a box, at its corners and its middle.
    pub(super) fn depth(&self, bounds: &Bounds) -> f64 {
        let [low, high] = [bounds.low, bounds.high].map(|it| flat(self.axis, it));
        let points = [
            low,
            DVec2::new(high.x, low.y),
            high,
            DVec2::new(low.x, high.y),
            (low + high) / 2.0,
        ];
        let depths = points.into_iter().map(|it| self.depth_at(it));
        depths.fold(f64::INFINITY, f64::min)
    }

    fn depth_at(&self, point: DVec2) -> f64 {
        let hits = self.others.iter().filter_map(|(corners, heights)| {
            let whole = twice(*corners);
            let [a, b, c] = *corners;
            let shares = [[point, b, c], [a, point, c], [a, b, point]].map(|it| twice(it) / whole);
            let hit = shares.iter().all(|it| *it >= -MISSING);
            let height: f64 = shares
                .iter()
                .zip(heights)
                .map(|(share, it)| share * it)
                .sum();
            let depth = if self.up {
                self.at - height
            } else {
                height - self.at
            };
            (hit && depth > TOLERANCE).then_some(depth)
        });
        let depth = hits.fold(f64::INFINITY, f64::min);
        if depth.is_finite() { depth } else { 0.0 }
    }
}
