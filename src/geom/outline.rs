//! Closed runs of corners: their edges, their area, what they surround, and what of them lies below a height.
//!
//! *Units and frame*: millimetres; an area counts positive where the corners run counter-clockwise.
//!
//! Wherever an edge is cut, it is cut by [`crossing`]. Edges that several faces share are given to it from the same
//! end each time, so that the faces meet in one point to the last bit.

use std::ops::{Add, Mul};

use glam::{DVec2, DVec3};

/// A point of a plane or of space.
pub(crate) trait Point: Copy + Add<Output = Self> + Mul<f64, Output = Self> {}

impl Point for DVec2 {}
impl Point for DVec3 {}

/// The edges of a closed run of corners.
pub(crate) fn edges<T: Copy>(corners: &[T]) -> impl Iterator<Item = (T, T)> {
    let next = corners.iter().cycle().skip(1);
    corners.iter().copied().zip(next.copied())
}

/// Area inside a closed run of corners; positive when it runs counter-clockwise.
pub(crate) fn signed_area(corners: &[DVec2]) -> f64 {
    edges(corners).map(|(a, b)| a.perp_dot(b)).sum::<f64>() / 2.0
}

/// Whether a point is inside an odd number of closed runs, by counting what a ray to the right crosses.
pub(crate) fn is_inside(loops: &[Vec<DVec2>], point: DVec2) -> bool {
    let edges = loops.iter().flat_map(|corners| edges(corners));
    let crossed = edges
        .filter(|(a, b)| (a.y > point.y) != (b.y > point.y))
        .filter(|(a, b)| point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x));
    crossed.count() % 2 == 1
}

/// Where an edge crosses a plane, by the heights of its two ends over it, one on either side.
pub(crate) fn crossing<P: Point>([a, b]: [P; 2], [from, to]: [f64; 2]) -> P {
    let share = from / (from - to);
    a * (1.0 - share) + b * share
}

/// What is left of a convex area where a height that changes evenly is not above 0 (Sutherland and Hodgman,
/// Communications of the ACM 17, 1974).
pub(crate) fn below<P: Point, C: Default + Extend<P>>(
    corners: &[P],
    height: impl Fn(P) -> f64,
) -> C {
    let mut kept = C::default();
    let mut from = corners.first().map_or(0.0, |first| height(*first));
    for (a, b) in edges(corners) {
        let to = height(b);
        if from <= 0.0 {
            kept.extend([a]);
        }
        if from * to < 0.0 {
            kept.extend([crossing([a, b], [from, to])]);
        }
        from = to;
    }
    kept
}

/// What of an area lies in a rectangle.
pub(crate) fn within(corners: &[DVec2], low: DVec2, high: DVec2) -> Vec<DVec2> {
    let sides = [
        (DVec2::NEG_X, -low.x),
        (DVec2::X, high.x),
        (DVec2::NEG_Y, -low.y),
        (DVec2::Y, high.y),
    ];
    sides
        .iter()
        .fold(corners.to_vec(), |corners, (out, limit)| {
            below(&corners, |corner| out.dot(corner) - limit)
        })
}
