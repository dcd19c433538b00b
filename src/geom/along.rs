//! Where a straight line runs inside a body.

use glam::DVec3;

use super::{Body, TOLERANCE};

/// The stretches of a line inside a swept body, in millimetres along a unit vector from a point, in order; what only
/// touches is none, stretches that meet are one, and bores count as filled. A tube has none.
pub fn stretches(body: &Body, start: DVec3, way: DVec3) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    for piece in &body.pieces {
        let (mut enters, mut leaves) = (f64::NEG_INFINITY, f64::INFINITY);
        for face in &piece.faces {
            let (height, rise) = (face.plane.height(start), face.plane.normal.dot(way));
            if rise.abs() <= 1e-12 {
                // along this face: nothing of the line is inside, or this face does not bound it
                if height > -TOLERANCE {
                    leaves = f64::NEG_INFINITY;
                }
            } else if rise < 0.0 {
                enters = enters.max(-height / rise);
            } else {
                leaves = leaves.min(-height / rise);
            }
        }
        if leaves - enters > TOLERANCE {
            found.push((enters, leaves));
        }
    }
    merged(found)
}

/// Stretches in order; those that meet are one.
pub fn merged(mut stretches: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (from, to) in stretches {
        match joined.last_mut() {
            Some(last) if from - last.1 <= TOLERANCE => last.1 = last.1.max(to),
            _ => joined.push((from, to)),
        }
    }
    joined
}
