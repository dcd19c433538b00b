//! Faces and lines in, what of them lies under a plane out.
//!
//! A corner on the plane counts as above it, and every cut of an edge is reckoned from its lower
//! end, so faces that share an edge share its cut to the last bit.

use glam::DVec3;

use crate::geom::{Plane, TOLERANCE, crossing};

/// How a body lies to a plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PlaneSide {
    Under,
    Above,
    Across,
}

/// How points lie to a plane; those nearer than the tolerance count for neither side.
pub(super) fn side(plane: &Plane, points: &[DVec3]) -> PlaneSide {
    let mut range = (f64::INFINITY, f64::NEG_INFINITY);
    for point in points {
        let height = plane.height(*point);
        range = (range.0.min(height), range.1.max(height));
    }
    if range.1 <= TOLERANCE {
        PlaneSide::Under
    } else if range.0 >= -TOLERANCE {
        PlaneSide::Above
    } else {
        PlaneSide::Across
    }
}

/// Cuts a convex face, given by its corners in order; the ends of the cut, if there is one.
pub(super) fn face(plane: &Plane, corners: &mut Vec<DVec3>) -> Option<[DVec3; 2]> {
    let old: Vec<(DVec3, f64)> = corners
        .iter()
        .map(|corner| (*corner, plane.height_or_on(*corner)))
        .collect();
    corners.clear();
    let mut cut = [None; 2];
    for (place, from) in old.iter().enumerate() {
        let to = old[(place + 1) % old.len()];
        if from.1 < 0.0 {
            corners.push(from.0);
        }
        if from.1 < 0.0 && to.1 >= 0.0 {
            cut[0] = Some(crossing([from.0, to.0], [from.1, to.1]));
            corners.extend(cut[0]);
        }
        if from.1 >= 0.0 && to.1 < 0.0 {
            cut[1] = Some(crossing([to.0, from.0], [to.1, from.1]));
            corners.extend(cut[1]);
        }
    }
    Some([cut[0]?, cut[1]?])
}

/// Cuts a line; `None` when all of it lies above the plane.
pub(super) fn line(plane: &Plane, [a, b]: [DVec3; 2]) -> Option<[DVec3; 2]> {
    let [from, to] = [a, b].map(|end| plane.height_or_on(end));
    match (from < 0.0, to < 0.0) {
        (true, true) => Some([a, b]),
        (true, false) => Some([a, crossing([a, b], [from, to])]),
        (false, true) => Some([crossing([b, a], [to, from]), b]),
        (false, false) => None,
    }
}
