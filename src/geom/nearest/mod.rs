//! The least distance between two bodies, and where it is.

mod found;
mod polyhedra;
mod tube;
mod tubes;

use super::{Body, Convex, Shape, TOLERANCE, Tube};

pub use found::Nearest;
pub(crate) use tube::nearest_within as tube_to_convex;
pub(crate) use tubes::closest_pass;

/// The least distance between two bodies in millimetres, 0 when they touch or overlap.
///
/// A tube counts as solid, its bore filled. Exact for swept shapes and straight tubes; where a bend
/// is one of the two, edges and centre lines are searched, to better than 1e-4 mm.
pub fn gap(first: &Body, second: &Body) -> f64 {
    nearest(first, second).distance
}

/// The least distance between two bodies and where it is; see [`gap`].
pub fn nearest(first: &Body, second: &Body) -> Nearest {
    nearest_within(first, second, f64::INFINITY)
}

/// The least distance between two bodies if it is less than a limit, which spares most of the work for what is
/// farther; else endless.
pub fn nearest_within(first: &Body, second: &Body, limit: f64) -> Nearest {
    let nowhere = Nearest {
        distance: limit,
        ..Nearest::NOWHERE
    };
    let mut found = match (&first.shape, &second.shape) {
        (Shape::Swept(_), Shape::Swept(_)) => swept(first, second, nowhere),
        (Shape::Tube(tube), Shape::Swept(_)) => with_tube(tube, first, second, nowhere),
        (Shape::Swept(_), Shape::Tube(tube)) => with_tube(tube, second, first, nowhere).swapped(),
        (Shape::Tube(a), Shape::Tube(b)) => tubes::nearest((a, &first.frame), (b, &second.frame)),
    };
    if found.distance >= limit {
        return Nearest::NOWHERE;
    }
    if found.distance <= TOLERANCE {
        found.distance = 0.0;
    }
    found
}

fn swept(first: &Body, second: &Body, mut found: Nearest) -> Nearest {
    for a in &first.pieces {
        for b in &second.pieces {
            if a.bounds.gap(&b.bounds) < found.distance {
                found.keep_nearer(polyhedra::nearest_within(a, b, found.distance));
            }
        }
    }
    found
}

/// The tube comes first in the result.
fn with_tube(tube: &Tube, placed: &Body, swept: &Body, mut found: Nearest) -> Nearest {
    for piece in &swept.pieces {
        if piece.bounds.gap(&placed.bounds) < found.distance
            && beyond_faces(piece, placed) < found.distance
        {
            let local = piece.seen_from(&placed.frame);
            let nearer = tube::nearest_within(tube, &local, found.distance);
            found.keep_nearer(nearer.placed(&placed.frame));
        }
    }
    found
}

/// How far a body lies beyond the face that it is farthest from: it is at least that far from the piece.
fn beyond_faces(piece: &Convex, body: &Body) -> f64 {
    let heights = piece.faces.iter().map(|face| {
        let plane = &face.plane;
        plane.height(body.farthest(-plane.normal))
    });
    heights.fold(f64::NEG_INFINITY, f64::max)
}
