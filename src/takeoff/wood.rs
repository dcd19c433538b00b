//! When two sticks are the same piece of wood: one can be turned over or end for end into the other.
//!
//! In: corners in the board's own frame. Out: a key that all such positions share, and the key of the mirror image.
//! *Units*: counts of 1e-6 mm, as for shapes.

use glam::DVec3;

use crate::geom::TOLERANCE;

/// The corners of a piece of wood in the least of its positions.
pub(super) type Key = Vec<[i64; 3]>;

/// The key of a piece, and that of its mirror image; they are equal where it is its own.
pub(super) fn keys(corners: &[DVec3]) -> (Key, Key) {
    (least(corners, 1.0), least(corners, -1.0))
}

/// The least of all positions of one hand; in a square stick the two sides may change places too.
fn least(corners: &[DVec3], hand: f64) -> Key {
    let size = size(corners);
    let square = (size.x - size.y).abs() <= TOLERANCE;
    let signs = [1.0, -1.0];
    let mut positions = Vec::new();
    for x in signs {
        for y in signs {
            let straight = DVec3::new(x, y, hand * x * y);
            positions.push(position(corners, |it| it * straight));
            if square {
                // changing two axes turns the hand, so the third is turned back
                positions.push(position(corners, |it| {
                    DVec3::new(it.y, it.x, it.z) * (straight * DVec3::new(1.0, 1.0, -1.0))
                }));
            }
        }
    }
    positions.into_iter().min().unwrap_or_default()
}

fn size(corners: &[DVec3]) -> DVec3 {
    let low = corners.iter().fold(DVec3::INFINITY, |low, it| low.min(*it));
    let high = corners
        .iter()
        .fold(DVec3::NEG_INFINITY, |high, it| high.max(*it));
    high - low
}

/// The corners in one position, counted from the lowest of each axis.
fn position(corners: &[DVec3], turn: impl Fn(DVec3) -> DVec3) -> Key {
    let turned: Vec<DVec3> = corners.iter().map(|it| turn(*it)).collect();
    let low = turned.iter().fold(DVec3::INFINITY, |low, it| low.min(*it));
    let mut key: Key = turned
        .iter()
        .map(|it| (*it - low).to_array().map(steps))
        .collect();
    key.sort_unstable();
    key.dedup();
    key
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a stick is far shorter than 2^63 steps"
)]
fn steps(millimetres: f64) -> i64 {
    (millimetres / TOLERANCE).round() as i64
}
