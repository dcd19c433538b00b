//! Least distance between two solid tubes.
//!
//! The nearest point of a tube lies on its side, straight out from a place where its centre line
//! passes the other tube; or inside a flat end, where the other's nearest point is the one farthest
//! toward that end; or on an end's rim. How far a point is from a solid tube is known in closed
//! form, so only places along centre lines and rims are searched.

use glam::DVec3;

use super::Nearest;
use crate::geom::numeric::dips;
use crate::geom::round::Disc;
use crate::geom::{Frame, TOLERANCE, Tube};

/// Steps along a centre line or a rim.
const STEPS: u32 = 40;
/// Nearer than this to an end of a centre line, as a part of it, is at the end.
const AT_END: f64 = 1e-9;
/// How far beyond a full turn a rim is followed, so that no dip falls on the seam.
const SEAM: f64 = 1.1;

type Placed<'a> = (&'a Tube, &'a Frame);

/// Where the inside of a tube's centre line passes nearest to another solid tube.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pass {
    /// The place on the centre line.
    pub(crate) center: DVec3,
    /// The other tube's nearest point.
    pub(crate) on_second: DVec3,
    /// How far they are apart.
    pub(crate) distance: f64,
}

/// The nearest pass of the first tube's centre line along the second, where the way from one to the
/// other is square to the line; `None` when the line is nearest at one of its ends.
pub(crate) fn closest_pass(first: Placed<'_>, second: Placed<'_>) -> Option<Pass> {
    let center = |t: f64| first.1.point(first.0.center_line.at(t).0);
    let distance = |t: f64| distance(second, center(t));
    let length = first.0.center_line.length();
    dips(STEPS, length, f64::INFINITY, distance)
        .into_iter()
        .filter(|(place, _)| *place > AT_END && *place < 1.0 - AT_END)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(place, distance)| Pass {
            center: center(place),
            on_second: point_of(second, center(place)),
            distance,
        })
}

pub(super) fn nearest(first: Placed<'_>, second: Placed<'_>) -> Nearest {
    let mut found = from_first(first, second);
    if found.distance > TOLERANCE {
        found.keep_nearer(from_first(second, first).swapped());
    }
    found
}

fn from_first(first: Placed<'_>, second: Placed<'_>) -> Nearest {
    let mut found = Nearest::NOWHERE;
    if let Some(pass) = closest_pass(first, second) {
        let radius = first.0.outer;
        if pass.distance <= radius {
            return Nearest::touching(pass.on_second);
        }
        let on_side = pass.center.lerp(pass.on_second, radius / pass.distance);
        found = Nearest::between(on_side, pass.on_second);
    }
    for end in first.0.ends() {
        from_end(&end.placed(first.1), second, &mut found);
    }
    found
}

fn from_end(end: &Disc, second: Placed<'_>, found: &mut Nearest) {
    let facing = second
        .1
        .point(second.0.farthest(second.1.local_vector(-end.normal)));
    let height = (facing - end.center).dot(end.normal);
    let foot = facing - end.normal * height;
    if height >= 0.0 && foot.distance(end.center) <= end.outer {
        found.keep_nearer(Nearest::between(foot, facing));
    }
    found.keep_nearer(Nearest::between(end.center, point_of(second, end.center)));
    let (u, v) = end.axes();
    let turn = std::f64::consts::TAU * SEAM;
    let rim = |t: f64| {
        let (sin, cos) = libm::sincos(turn * t);
        end.center + (u * cos + v * sin) * end.outer
    };
    for (place, _) in dips(STEPS, turn * end.outer, found.distance, |t| {
        distance(second, rim(t))
    }) {
        found.keep_nearer(Nearest::between(rim(place), point_of(second, rim(place))));
    }
}

fn point_of((tube, frame): Placed<'_>, point: DVec3) -> DVec3 {
    frame.point(tube.nearest(frame.local_point(point)))
}

fn distance((tube, frame): Placed<'_>, point: DVec3) -> f64 {
    tube.distance(frame.local_point(point))
}
