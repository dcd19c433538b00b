//! Two tubes. Whether they only touch is told from their ends, sides and centre lines; the volume
//! is that of one tube with facets inscribed in the other.

use glam::DVec3;

use super::{Overlap, tube};
use crate::geom::convex::{Convex, Face, Plane};
use crate::geom::nearest::closest_pass;
use crate::geom::{CenterLine, Frame, TOLERANCE, Tube};

/// Facets round a tube.
const SIDES: u32 = 64;
/// The widest step along a bend, in radians.
const STEP: f64 = std::f64::consts::PI / 48.0;

type Placed<'a> = (&'a Tube, &'a Frame);

pub(super) fn overlap(first: Placed<'_>, second: Placed<'_>) -> Option<Overlap> {
    let depth = depth(first, second);
    if depth <= TOLERANCE {
        return None;
    }
    if let Some(volume) = about_one_line(first, second) {
        return (volume > TOLERANCE).then_some(Overlap { volume, depth });
    }
    let solid = first.0.inner <= 0.0 && second.0.inner <= 0.0;
    let volume = faceted_volume(first, second);
    if volume > TOLERANCE || (solid && sides_meet(first, second)) {
        return Some(Overlap { volume, depth });
    }
    None
}

/// What two tubes about one center line share, such as a pipe and the flue within it: a ring along the way that both go.
/// Nothing where they have not one center line.
fn about_one_line((a, at): Placed<'_>, (b, other): Placed<'_>) -> Option<f64> {
    let is_same = |a: DVec3, b: DVec3, reach: f64| (a - b).length() * reach <= TOLERANCE;
    let way = match (a.center_line, b.center_line) {
        (CenterLine::Segment { length }, CenterLine::Segment { length: its }) => {
            let begins = at.local_point(other.origin);
            if !is_same(at.z, other.z, its) || begins.truncate().length() > TOLERANCE {
                return None;
            }
            length.min(begins.z + its) - begins.z.max(0.0)
        }
        (
            CenterLine::Arc { radius, angle },
            CenterLine::Arc {
                radius: its,
                angle: turn,
            },
        ) => {
            let is_one = (radius - its).abs() <= TOLERANCE
                && (angle - turn).abs() * radius <= TOLERANCE
                && is_same(at.origin, other.origin, 1.0)
                && is_same(at.z, other.z, radius)
                && is_same(at.x, other.x, radius);
            if !is_one {
                return None;
            }
            // by the second theorem of Pappus: the ring's middle goes this way
            radius * angle
        }
        (CenterLine::Segment { .. }, CenterLine::Arc { .. })
        | (CenterLine::Arc { .. }, CenterLine::Segment { .. }) => return None,
    };
    let (inner, outer) = (a.inner.max(b.inner), a.outer.min(b.outer));
    let ring = std::f64::consts::PI * (outer * outer - inner * inner);
    Some(ring.max(0.0) * way.max(0.0))
}

/// The smallest move, of those along ends, both centre lines' common perpendicular and the way
/// from one centre to the other, that parts the two; the search for the latter is spared when the
/// former show that they touch or are apart.
fn depth(first: Placed<'_>, second: Placed<'_>) -> f64 {
    let mut axes: Vec<DVec3> = Vec::new();
    for (tube, frame) in [first, second] {
        axes.extend(tube.ends().map(|end| frame.vector(end.normal)));
        if matches!(tube.center_line, CenterLine::Arc { .. }) {
            axes.push(frame.y);
        }
    }
    axes.push(first.1.z.cross(second.1.z));
    let quick = least_move(first, second, &axes);
    if quick <= TOLERANCE {
        return quick;
    }
    axes.clear();
    for (a, b) in [(first, second), (second, first)] {
        axes.extend(closest_pass(a, b).map(|pass| pass.on_second - pass.center));
        let apart = b.1.origin - a.1.origin;
        axes.push(apart - a.1.z * apart.dot(a.1.z));
    }
    quick.min(least_move(first, second, &axes))
}

/// The smallest move along one of these axes, either way, that parts the two.
fn least_move(first: Placed<'_>, second: Placed<'_>, axes: &[DVec3]) -> f64 {
    let reach = |(tube, frame): Placed<'_>, axis: DVec3| {
        axis.dot(frame.point(tube.farthest(frame.local_vector(axis))))
    };
    let moves = tube::units(axes).map(|axis| {
        let forth = reach(first, axis) + reach(second, -axis);
        forth.min(reach(second, axis) + reach(first, -axis))
    });
    moves.fold(f64::INFINITY, f64::min)
}

/// Whether the side of one solid tube reaches into the other by more than the tolerance.
fn sides_meet(first: Placed<'_>, second: Placed<'_>) -> bool {
    [(first, second), (second, first)].iter().any(|(a, b)| {
        closest_pass(*a, *b).is_some_and(|pass| a.0.outer - pass.distance > TOLERANCE)
    })
}

fn faceted_volume(first: Placed<'_>, second: Placed<'_>) -> f64 {
    let (faceted, exact) = if matches!(first.0.center_line, CenterLine::Segment { .. }) {
        (first, second)
    } else {
        (second, first)
    };
    let sum = |pieces: Vec<Convex>| -> f64 {
        let local = pieces.iter().map(|piece| piece.seen_from(exact.1));
        local
            .filter(|piece| tube::depth(exact.0, piece) > TOLERANCE)
            .map(|piece| tube::common_volume(exact.0, &piece))
            .sum()
    };
    let full = sum(facets(faceted, faceted.0.outer, false));
    let bore = if faceted.0.inner > 0.0 {
        sum(facets(faceted, faceted.0.inner, true))
    } else {
        0.0
    };
    (full - bore).max(0.0)
}

/// A tube's wall as convex pieces: whole discs of a solid tube, the sides of a hollow one.
pub(super) fn walls(placed: Placed<'_>) -> Vec<Convex> {
    let (tube, frame) = placed;
    if tube.inner <= TOLERANCE {
        return facets(placed, tube.outer, false);
    }
    let sides = SIDES as usize;
    let mut found = Vec::new();
    for pair in stations(tube).windows(2) {
        let rings = [pair[0], pair[1]].map(|turn| {
            let step = pair[1] - pair[0];
            let outer = ring(tube, turn, tube.outer, false, step);
            (outer, ring(tube, turn, tube.inner, false, step))
        });
        for side in 0..sides {
            let next = (side + 1) % sides;
            let quads = rings.each_ref().map(|(outer, inner)| {
                let quad = [outer[side], outer[next], inner[next], inner[side]];
                quad.iter().map(|p| frame.point(*p)).collect()
            });
            found.push(between(&quads));
        }
    }
    found
}

/// Where a tube is cut into pieces: as a share of a straight one, as turns of a bend.
fn stations(tube: &Tube) -> Vec<f64> {
    let mut turns = vec![0.0];
    if let CenterLine::Arc { angle, .. } = tube.center_line {
        while turns[turns.len() - 1] + STEP < angle {
            turns.push(turns[turns.len() - 1] + STEP);
        }
        turns.push(angle);
    } else {
        turns.push(1.0);
    }
    turns
}

/// A solid tube as convex pieces with facets inside, or `around`, its true surface.
fn facets((tube, frame): Placed<'_>, radius: f64, around: bool) -> Vec<Convex> {
    stations(tube)
        .windows(2)
        .map(|pair| {
            let rings =
                [pair[0], pair[1]].map(|turn| ring(tube, turn, radius, around, pair[1] - pair[0]));
            between(&rings.map(|ring| ring.iter().map(|p| frame.point(*p)).collect()))
        })
        .collect()
}

/// The corners of a cross-section. On a bend the chords between cross-sections run nearer to the
/// bend's axis than the arc; the half where that matters is moved away from the axis.
fn ring(tube: &Tube, place: f64, radius: f64, around: bool, step: f64) -> Vec<DVec3> {
    let half = std::f64::consts::PI / f64::from(SIDES);
    let grown = if around {
        radius / libm::cos(half)
    } else {
        radius
    };
    (0..SIDES)
        .map(|i| {
            let (sin, cos) = libm::sincos(2.0 * half * f64::from(i));
            let (x, y) = (grown * cos, grown * sin);
            match tube.center_line {
                CenterLine::Segment { length } => DVec3::new(x, y, length * place),
                CenterLine::Arc { radius, .. } => {
                    let (sin, cos) = libm::sincos(place);
                    let mut out = radius - x;
                    if (x < 0.0) == around {
                        out /= libm::cos(step / 2.0);
                    }
                    DVec3::new(radius - out * cos, y, out * sin)
                }
            }
        })
        .collect()
}

/// The convex piece between two rings, counter-clockwise as seen against the way from the first to
/// the second.
fn between(rings: &[Vec<DVec3>; 2]) -> Convex {
    let count = rings[0].len();
    let vertices: Vec<DVec3> = rings.iter().flatten().copied().collect();
    let mut loops: Vec<Vec<usize>> = vec![(0..count).rev().collect(), (count..2 * count).collect()];
    for i in 0..count {
        let j = (i + 1) % count;
        loops.push(vec![i, j, j + count, i + count]);
    }
    let faces = loops.into_iter().map(|corners| {
        let at = |i: usize| vertices[corners[i * corners.len() / 4]];
        let normal = (at(2) - at(0)).cross(at(3) - at(1)).normalize_or_zero();
        Face {
            plane: Plane::through(at(0), normal),
            corners: corners.into(),
        }
    });
    let faces = faces.collect();
    Convex::new(vertices, faces)
}
