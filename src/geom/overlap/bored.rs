//! What bores take from the overlap of two bodies.
//!
//! A bore is taken off as the bar that was in it. What passes through a bore lies in nothing: that is told from
//! circles, and not from volumes, since those two would have to cancel.

use glam::DVec3;

use super::Overlap;
use crate::geom::{Body, Bore, CenterLine, Shape, TOLERANCE};

/// What is left of an overlap of two bodies when their bores are open; `None` where nothing is. `filled` measures an
/// overlap with the bores filled.
pub(super) fn opened(
    (first, second): (&Body, &Body),
    whole: Overlap,
    filled: fn(&Body, &Body) -> Option<Overlap>,
) -> Option<Overlap> {
    let (of_first, of_second) = (bars(first), bars(second));
    if of_first.is_empty() && of_second.is_empty() {
        return Some(whole);
    }
    if passes(first, second) || passes(second, first) {
        return None;
    }
    let shared = |a: &Body, b: &Body| filled(a, b).map_or(0.0, |it| it.volume);
    let taken = of_first.iter().map(|it| shared(it, second));
    let taken = taken.chain(of_second.iter().map(|it| shared(first, it)));
    // taken twice
    let both = of_first
        .iter()
        .flat_map(|a| of_second.iter().map(move |b| shared(a, b)));
    let volume = whole.volume - taken.sum::<f64>() + both.sum::<f64>();
    (volume > TOLERANCE * whole.volume.max(1.0)).then_some(Overlap { volume, ..whole })
}

/// What was bored out of a body.
fn bars(body: &Body) -> Vec<Body> {
    let bar = |bore: &Bore| {
        let (bar, frame) = bore.bar();
        Body::new(bar, body.frame.place(&frame))
    };
    body.shape.bores().iter().map(bar).collect()
}

/// Whether a straight pipe runs within a bore of a body, which it may just fill.
fn passes(pipe: &Body, bored: &Body) -> bool {
    let Shape::Tube(tube) = &pipe.shape else {
        return false;
    };
    let CenterLine::Segment { length } = tube.center_line else {
        return false;
    };
    let ends = [0.0, length].map(|at| bored.frame.local_point(pipe.frame.point(DVec3::Z * at)));
    bored.shape.bores().iter().any(|bore| {
        let way = (bore.end - bore.start).normalize();
        let off = |point: DVec3| (point - bore.start).reject_from_normalized(way).length();
        ends.iter()
            .all(|end| off(*end) + tube.outer <= bore.radius + TOLERANCE)
    })
}
