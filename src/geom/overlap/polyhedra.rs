//! Two convex bodies with flat faces: penetration depth by separating axes, volume by clipping.

use glam::DVec3;

use crate::geom::{Convex, TOLERANCE};

/// Cross products of unit edges shorter than this add no axis of their own.
const PARALLEL: f64 = 1e-9;

/// The unit vectors along which two convex bodies can be parted, if they can be parted at all.
///
/// Source: the separating axis theorem for convex polyhedra: face normals of both, and the cross
/// products of an edge of one with an edge of the other.
pub(crate) fn axes<'a>(a: &'a Convex, b: &'a Convex) -> impl Iterator<Item = DVec3> + 'a {
    let crosses = a.directions.iter().flat_map(|u| {
        let others = b.directions.iter();
        others.filter_map(move |v| {
            let cross = u.cross(*v);
            let length = cross.length();
            (length > PARALLEL).then(|| cross / length)
        })
    });
    let normals = a.normals.iter().chain(&b.normals).copied();
    normals.chain(crosses)
}

/// The smallest move that parts two convex bodies, in millimetres; not above the tolerance when
/// they touch or are apart.
pub(crate) fn depth(a: &Convex, b: &Convex) -> f64 {
    let mut depth = f64::INFINITY;
    for axis in axes(a, b) {
        let ((a_low, a_high), (b_low, b_high)) = (a.interval(axis), b.interval(axis));
        depth = depth.min(a_high - b_low).min(b_high - a_low);
        if depth <= TOLERANCE {
            break;
        }
    }
    depth
}

/// The widest gap between two convex bodies along an axis that could part them, in millimetres, or the first that is
/// as wide as the limit; below zero when they overlap. They are at least as far apart.
pub(crate) fn apart(a: &Convex, b: &Convex, limit: f64) -> f64 {
    let mut widest = f64::NEG_INFINITY;
    for axis in axes(a, b) {
        let ((a_low, a_high), (b_low, b_high)) = (a.interval(axis), b.interval(axis));
        widest = widest.max(a_low - b_high).max(b_low - a_high);
        if widest >= limit {
            break;
        }
    }
    widest
}

/// The volume that two convex bodies share, in cubic millimetres.
pub(super) fn common_volume(a: &Convex, b: &Convex) -> f64 {
    let mut faces = b.faces.iter();
    let common = faces.try_fold(a.clone(), |rest, face| rest.clip(&face.plane));
    common.map_or(0.0, |rest| rest.volume())
}
