//! How much of two bodies lies in the same place. Touching is not overlap.

mod bored;
mod common;
mod polyhedra;
mod shared;
mod tube;
mod tubes;

use super::{Body, Bounds, Convex, Shape, TOLERANCE, Tube};

pub use common::common;
use polyhedra::depth;
pub(crate) use polyhedra::{apart, axes};
pub use shared::Overlap;

/// What two bodies have in common, or `None` when they are apart or only touch.
///
/// # Examples
/// Two studs side by side touch; moved 1/4 in, they are in one another.
/// ```
/// use chasewright::geom::{Body, Frame, Profile, Swept, gap, overlap};
/// use chasewright::units::Length;
/// use glam::DVec3;
///
/// let profile = Profile::rectangle(Length::inches(1.5), Length::inches(3.5));
/// let stud = Swept::square(profile, Length::inches(92.0));
/// let at = |inches: f64| Body::new(stud.clone(), Frame::at(DVec3::X * inches * 25.4));
/// assert!(overlap(&at(0.0), &at(1.5)).is_none());
/// assert!(gap(&at(0.0), &at(1.5)) < 1e-6);
/// let shared = overlap(&at(0.0), &at(1.25)).expect("1/4 in is shared");
/// assert!((shared.depth - 6.35).abs() < 1e-9);
/// ```
pub fn overlap(first: &Body, second: &Body) -> Option<Overlap> {
    if !first.bounds.overlaps(&second.bounds) {
        return None;
    }
    bored::opened((first, second), filled(first, second)?, filled)
}

/// What two bodies have in common, their bores filled.
fn filled(first: &Body, second: &Body) -> Option<Overlap> {
    match (&first.shape, &second.shape) {
        (Shape::Swept(_), Shape::Swept(_)) => swept(first, second),
        (Shape::Tube(tube), Shape::Swept(_)) => with_tube(tube, first, second),
        (Shape::Swept(_), Shape::Tube(tube)) => with_tube(tube, second, first),
        (Shape::Tube(a), Shape::Tube(b)) => tubes::overlap((a, &first.frame), (b, &second.frame)),
    }
}

/// Whether two bodies have something in common: whether [`overlap`] finds anything, without measuring it.
pub fn overlaps(first: &Body, second: &Body) -> bool {
    if !first.bounds.overlaps(&second.bounds) {
        return false;
    }
    match (&first.shape, &second.shape) {
        (Shape::Swept(a), Shape::Swept(b)) if a.bores.is_empty() && b.bores.is_empty() => {
            pairs(first, second, Bounds::overlaps).any(|(a, b)| depth(a, b) > TOLERANCE)
        }
        (Shape::Tube(tube), Shape::Swept(swept)) if swept.bores.is_empty() => {
            shares(tube, first, second)
        }
        (Shape::Swept(swept), Shape::Tube(tube)) if swept.bores.is_empty() => {
            shares(tube, second, first)
        }
        _ => overlap(first, second).is_some(),
    }
}

fn swept(first: &Body, second: &Body) -> Option<Overlap> {
    let mut found = None;
    for (a, b) in pairs(first, second, Bounds::overlaps) {
        let depth = depth(a, b);
        if depth > TOLERANCE {
            found = add(found, polyhedra::common_volume(a, b), depth);
        }
    }
    found
}

fn with_tube(tube: &Tube, placed: &Body, swept: &Body) -> Option<Overlap> {
    let mut found = None;
    for piece in &swept.pieces {
        if piece.bounds.overlaps(&placed.bounds) {
            let local: Convex = piece.seen_from(&placed.frame);
            let depth = tube::depth(tube, &local);
            if depth > TOLERANCE {
                let volume = tube::common_volume(tube, &local);
                if volume > TOLERANCE {
                    found = add(found, volume, depth);
                }
            }
        }
    }
    found
}

/// Whether [`with_tube`] finds anything.
fn shares(tube: &Tube, placed: &Body, swept: &Body) -> bool {
    let near = swept
        .pieces
        .iter()
        .filter(|it| it.bounds.overlaps(&placed.bounds));
    near.map(|it| it.seen_from(&placed.frame))
        .any(|local: Convex| tube::depth(tube, &local) > TOLERANCE && tube::shares(tube, &local))
}

/// Pieces of two bodies whose bounds are to one another as asked.
pub(crate) fn pairs<'a>(
    first: &'a Body,
    second: &'a Body,
    near: fn(&Bounds, &Bounds) -> bool,
) -> impl Iterator<Item = (&'a Convex, &'a Convex)> {
    first.pieces.iter().flat_map(move |a| {
        let near = second
            .pieces
            .iter()
            .filter(move |b| near(&b.bounds, &a.bounds));
        near.map(move |b| (a, b))
    })
}

#[expect(clippy::unnecessary_wraps, reason = "folds into the optional result")]
fn add(found: Option<Overlap>, volume: f64, depth: f64) -> Option<Overlap> {
    let before = found.unwrap_or(Overlap {
        volume: 0.0,
        depth: 0.0,
    });
    Some(Overlap {
        volume: before.volume + volume,
        depth: before.depth.max(depth),
    })
}
