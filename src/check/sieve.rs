//! Parts in, pairs of parts out whose bounds overlap or touch: the sieve before every exact query.

use crate::design::Part;
use crate::geom::{Bounds, TOLERANCE};

/// Every pair of parts whose bounds overlap or touch, as indices, the smaller first, in order.
///
/// Pairs of two parts of the room are left out, since the room stands as it is.
pub(super) fn pairs(parts: &[Part]) -> Vec<(usize, usize)> {
    let bounds: Vec<&Bounds> = parts.iter().map(|it| &it.body.bounds).collect();
    pairs_within(parts, &bounds)
}

/// The same by other bounds, one for each part: those of what is shimmed.
pub(super) fn pairs_within(parts: &[Part], bounds: &[&Bounds]) -> Vec<(usize, usize)> {
    let mut order: Vec<usize> = (0..parts.len()).collect();
    let low = |i: usize| bounds[i].low.x;
    order.sort_by(|&a, &b| low(a).total_cmp(&low(b)));
    let mut found = Vec::new();
    for (place, &a) in order.iter().enumerate() {
        let end = bounds[a].high.x + TOLERANCE;
        for &b in order[place + 1..].iter().take_while(|&&b| low(b) <= end) {
            let both_room = parts[a].group.stands_already() && parts[b].group.stands_already();
            if !both_room && bounds[a].touches(bounds[b]) {
                found.push((a.min(b), a.max(b)));
            }
        }
    }
    found.sort_unstable();
    found
}
