//! Faces and lines in, what of them lies under a plane out.
//!
//! A corner on the plane counts as above it, and every cut of an edge is reckoned from its lower
//! end, so faces that share an edge share its cut to the last bit.

use glam::DVec3;

use crate::geom::{Plane, TOLERANCE};

/// How a body lies to a plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Under,
    Above,
    Across,
}

/// How points lie to a plane; those nearer than the tolerance count for neither side.
pub(super) fn side(plane: &Plane, points: &[DVec3]) -> Side {
    let mut range = (f64::INFINITY, f64::NEG_INFINITY);
    for point in points {
        let height = plane.height(*point);
        range = (range.0.min(height), range.1.max(height));
    }
    if range.1 <= TOLERANCE {
        Side::Under
    } else if range.0 >= -TOLERANCE {
        Side::Above
    } else {
        Side::Across
    }
}

fn height(plane: &Plane, point: DVec3) -> f64 {
    let height = plane.height(point);
    if height.abs() <= TOLERANCE {
        0.0
    } else {
        height
    }
}

/// Where an edge from under the plane to above it is cut.
fn crossing(under: (DVec3, f64), above: (DVec3, f64)) -> DVec3 {
    under.0.lerp(above.0, under.1 / (under.1 - above.1))
}

/// Cuts a convex face, given by its corners in order; the ends of the cut, if there is one.
pub(super) fn face(plane: &Plane, corners: &mut Vec<DVec3>) -> Option<[DVec3; 2]> {
    let old: Vec<(DVec3, f64)> = corners
        .iter()
        .map(|corner| (*corner, height(plane, *corner)))
        .collect();
    corners.clear();
    let mut cut = [None; 2];
    for (place, from) in old.iter().enumerate() {
        let to = old[(place + 1) % old.len()];
        if from.1 < 0.0 {
            corners.push(from.0);
        }
        if from.1 < 0.0 && to.1 >= 0.0 {
            cut[0] = Some(crossing(*from, to));
            corners.extend(cut[0]);
        }
        if from.1 >= 0.0 && to.1 < 0.0 {
            cut[1] = Some(crossing(to, *from));
            corners.extend(cut[1]);
        }
    }
    Some([cut[0]?, cut[1]?])
}

/// Cuts a line; `None` when all of it lies above the plane.
pub(super) fn line(plane: &Plane, [a, b]: [DVec3; 2]) -> Option<[DVec3; 2]> {
    let (from, to) = ((a, height(plane, a)), (b, height(plane, b)));
    match (from.1 < 0.0, to.1 < 0.0) {
        (true, true) => Some([a, b]),
        (true, false) => Some([a, crossing(from, to)]),
        (false, true) => Some([crossing(to, from), b]),
        (false, false) => None,
    }
}
