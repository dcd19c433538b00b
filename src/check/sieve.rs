//! Parts in, pairs of parts out whose bounds overlap or touch: the sieve before every exact query.

use crate::design::Part;
use crate::geom::TOLERANCE;

/// Every pair of parts whose bounds overlap or touch, as indices, the smaller first, in order.
///
/// Pairs of two parts of the room are left out, since the room stands as it is.
pub(super) fn pairs(parts: &[Part]) -> Vec<(usize, usize)> {
    let mut order: Vec<usize> = (0..parts.len()).collect();
    let low = |i: usize| parts[i].body.bounds.low.x;
    order.sort_by(|&a, &b| low(a).total_cmp(&low(b)));
    let mut found = Vec::new();
    for (place, &a) in order.iter().enumerate() {
        let end = parts[a].body.bounds.high.x + TOLERANCE;
        for &b in order[place + 1..].iter().take_while(|&&b| low(b) <= end) {
            let both_room = parts[a].group.stands_already() && parts[b].group.stands_already();
            if !both_room && parts[a].body.bounds.touches(&parts[b].body.bounds) {
                found.push((a.min(b), a.max(b)));
            }
        }
    }
    found.sort_unstable();
    found
}
