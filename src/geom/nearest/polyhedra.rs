//! Least distance between two convex bodies with flat faces.

use glam::DVec3;
use smallvec::SmallVec;

use super::Nearest;
use crate::geom::overlap::apart;
use crate::geom::{Bounds, Convex, TOLERANCE};

/// Unit vectors whose cross product is shorter than this are the same axis.
const SAME_AXIS: f64 = 1e-12;
/// Distances that differ by less, in millimetres, differ by rounding only.
const SAME_DISTANCE: f64 = 1e-9;

/// Not nearer than the limit when they are at least as far apart.
pub(super) fn nearest_within(a: &Convex, b: &Convex, limit: f64) -> Nearest {
    if boxes_agree(a, b) {
        return boxes(a, b);
    }
    let least = apart(a, b, limit);
    if least < -TOLERANCE {
        return Nearest::touching(a.bounds.common(&b.bounds).center());
    }
    if least >= limit {
        return Nearest::NOWHERE;
    }
    let nowhere = Nearest {
        distance: limit,
        ..Nearest::NOWHERE
    };
    let mut found = corners_to_faces(a, b, nowhere);
    found = corners_to_faces(b, a, found.swapped()).swapped();
    // Nothing is nearer than the gap along an axis; edges need a look only where faces leave room for them.
    if found.distance <= least + SAME_DISTANCE {
        return found;
    }
    let others = edges_near(b, &a.bounds, found.distance);
    for (edge, p, q) in edges_near(a, &b.bounds, found.distance) {
        for (other, r, s) in &others {
            if edge.gap(other) < found.distance {
                found.keep_nearer(segments(p, q, *r, *s));
            }
        }
    }
    found
}

/// The edges whose boxes are nearer to a box than a distance, each with its box.
fn edges_near(
    convex: &Convex,
    bounds: &Bounds,
    distance: f64,
) -> SmallVec<[(Bounds, DVec3, DVec3); 12]> {
    let edges = convex.segments();
    let boxed = edges.map(|(from, to)| (Bounds::around([from, to]), from, to));
    boxed.filter(|it| it.0.gap(bounds) < distance).collect()
}

/// Whether both are boxes with the same three axes.
fn boxes_agree(a: &Convex, b: &Convex) -> bool {
    let same = |u: &DVec3| {
        b.normals
            .iter()
            .any(|v| u.cross(*v).length_squared() < SAME_AXIS * SAME_AXIS)
    };
    a.is_box() && b.is_box() && a.normals.iter().all(same)
}

fn boxes(a: &Convex, b: &Convex) -> Nearest {
    let (mut on_a, mut on_b) = (DVec3::ZERO, DVec3::ZERO);
    for axis in &a.normals {
        let ((a_low, a_high), (b_low, b_high)) = (a.interval(*axis), b.interval(*axis));
        let (at_a, at_b) = if b_low > a_high {
            (a_high, b_low)
        } else if a_low > b_high {
            (a_low, b_high)
        } else {
            let middle = f64::midpoint(a_low.max(b_low), a_high.min(b_high));
            (middle, middle)
        };
        on_a += *axis * at_a;
        on_b += *axis * at_b;
    }
    Nearest::between(on_a, on_b)
}

/// From the corners of one to the faces of the other, where that is nearer than what was found.
fn corners_to_faces(a: &Convex, b: &Convex, mut found: Nearest) -> Nearest {
    for face in &b.faces {
        for corner in &a.vertices {
            let height = face.plane.height(*corner);
            if height > -TOLERANCE && height < found.distance {
                let foot = *corner - face.plane.normal * height;
                if b.covers(face, foot) {
                    found.keep_nearer(Nearest::between(*corner, foot));
                }
            }
        }
    }
    found
}

/// From a point of segment pq to a point of segment rs.
fn segments(p: DVec3, q: DVec3, r: DVec3, s: DVec3) -> Nearest {
    let (u, v, w) = (q - p, s - r, p - r);
    let (uu, uv, vv) = (u.dot(u), u.dot(v), v.dot(v));
    let (uw, vw) = (u.dot(w), v.dot(w));
    let part = |above: f64, below: f64| {
        if below > 0.0 {
            (above / below).clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    // Where the first line passes nearest to the second, held within the segment; then the other's
    // nearest point to that, and back.
    let start = part(uv * vw - vv * uw, uu * vv - uv * uv);
    let other = part(uv * start + vw, vv);
    let on_first = part(uv * other - uw, uu);
    let mut found = Nearest::between(p + u * on_first, r + v * other);
    // Parallel or nearly parallel segments: their ends decide.
    for (end, on_first) in [(r, part(-uw, uu)), (s, part(uv - uw, uu))] {
        found.keep_nearer(Nearest::between(p + u * on_first, end));
    }
    for (end, on_second) in [(p, part(vw, vv)), (q, part(uv + vw, vv))] {
        found.keep_nearer(Nearest::between(end, r + v * on_second));
    }
    found
}
