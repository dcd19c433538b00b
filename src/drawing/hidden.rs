//! Solids in, the lines of them that are seen out.
//!
//! A point of an edge is hidden when the ray from it to the viewer runs through the inside of a convex piece.
//! Along an edge that is a set of linear inequalities, solved exactly by eliminating the ray's own length; a
//! ray that only grazes a piece is not hidden by it, so an edge on a shared face is seen.
//!
//! *Units and frame*: millimetres of the model, as the eye sees it.

use glam::{DVec2, DVec3};

use super::eye::Eye;
use super::ink::Rect;
use super::solid::{Piece, Solid};
use crate::geom::{Plane, crossing};

/// A ray that runs less deep under a face grazes it.
const GRAZE: f64 = 1e-3;

/// What is seen of an edge counts from this length on.
const SHORTEST: f64 = 0.05;

/// A line of a view.
pub(super) type Segment = [DVec2; 2];

/// A convex piece as the eye sees it.
struct Blocker {
    planes: Vec<Plane>,
    around: Rect,
    /// The nearest point to the eye.
    near: f64,
}

/// The edges of solids that are seen, each with the place of its solid in the list. What lies before the
/// section plane is gone.
pub(super) fn visible(
    solids: &[&Solid],
    eye: &Eye,
    section: Option<&Plane>,
) -> Vec<(usize, Segment)> {
    let blockers: Vec<Blocker> = solids
        .iter()
        .flat_map(|solid| &solid.pieces)
        .filter_map(|piece| Blocker::new(piece, eye, section))
        .collect();
    let mut found = Vec::new();
    for (place, ends) in outlines(solids, eye, section) {
        let ends = ends.map(|end| eye.see(end));
        let around = Rect::around(ends.map(DVec3::truncate));
        let mut hidden: Vec<(f64, f64)> = blockers
            .iter()
            .filter(|blocker| blocker.may_hide(&around, &ends))
            .filter_map(|blocker| blocker.hides(&ends))
            .collect();
        let parts = in_sight(&mut hidden, (ends[1] - ends[0]).length());
        found.extend(parts.into_iter().map(|(from, to)| {
            let at = |share: f64| ends[0].lerp(ends[1], share).truncate();
            (place, [at(from), at(to)])
        }));
    }
    found
}

/// The edges of solids as if nothing hid them.
pub(super) fn all(solids: &[&Solid], eye: &Eye, section: Option<&Plane>) -> Vec<(usize, Segment)> {
    let edges = outlines(solids, eye, section).into_iter();
    edges
        .map(|(place, ends)| (place, ends.map(|end| eye.see(end).truncate())))
        .collect()
}

fn outlines(solids: &[&Solid], eye: &Eye, section: Option<&Plane>) -> Vec<(usize, [DVec3; 2])> {
    let mut found = Vec::new();
    for (place, solid) in solids.iter().enumerate() {
        for edge in &solid.edges {
            let shows = edge.round.is_none_or(|[a, b]| eye.faces(a) != eye.faces(b));
            let ends = edge.ends.map(|end| solid.vertices[end]);
            let ends = section.map_or(Some(ends), |plane| under(plane, ends));
            if let Some(ends) = ends.filter(|_| shows)
                && (eye.see(ends[1]) - eye.see(ends[0])).truncate().length() > SHORTEST
            {
                found.push((place, ends));
            }
        }
    }
    found
}

/// What of a line lies under a plane.
fn under(plane: &Plane, ends: [DVec3; 2]) -> Option<[DVec3; 2]> {
    let [a, b] = ends.map(|end| plane.height(end));
    let crossing = || crossing(ends, [a, b]);
    match (a < GRAZE, b < GRAZE) {
        (true, true) => Some(ends),
        (true, false) => Some([ends[0], crossing()]),
        (false, true) => Some([crossing(), ends[1]]),
        (false, false) => None,
    }
}

impl Blocker {
    fn new(piece: &Piece, eye: &Eye, section: Option<&Plane>) -> Option<Self> {
        let gone = |plane: &&Plane| piece.corners.iter().all(|it| plane.height(*it) > -GRAZE);
        if section.as_ref().is_some_and(gone) {
            return None;
        }
        let planes = piece.planes.iter().chain(section);
        let seen: Vec<DVec3> = piece.corners.iter().map(|it| eye.see(*it)).collect();
        Some(Self {
            planes: planes.map(|plane| eye.see_plane(plane)).collect(),
            around: Rect::around(seen.iter().map(|it| it.truncate())),
            near: seen
                .iter()
                .fold(f64::NEG_INFINITY, |near, it| near.max(it.z)),
        })
    }

    fn may_hide(&self, around: &Rect, ends: &[DVec3; 2]) -> bool {
        self.near > ends[0].z.min(ends[1].z) + GRAZE
            && self.around.grown(GRAZE).overlaps(&around.grown(GRAZE))
    }

    /// The part of a line that the piece hides, as shares of the line.
    fn hides(&self, ends: &[DVec3; 2]) -> Option<(f64, f64)> {
        let mut range = (0.0, 1.0);
        // Bounds on the ray's length that leave it inside, as start + change · share.
        let mut least = vec![(0.0, 0.0)];
        let mut most = Vec::new();
        for plane in &self.planes {
            let start = plane.height(ends[0]) + GRAZE;
            let change = plane.normal.dot(ends[1] - ends[0]);
            let along = plane.normal.z;
            if along.abs() < 1e-9 {
                keep(&mut range, start, change)?;
            } else if along > 0.0 {
                most.push((-start / along, -change / along));
            } else {
                least.push((-start / along, -change / along));
            }
        }
        for low in &least {
            for high in &most {
                keep(&mut range, low.0 - high.0, low.1 - high.1)?;
            }
        }
        Some(range)
    }
}

/// Narrows a range to where start + change · share < 0.
fn keep(range: &mut (f64, f64), start: f64, change: f64) -> Option<()> {
    if change.abs() < 1e-12 {
        return (start < 0.0).then_some(());
    }
    let zero = -start / change;
    if change > 0.0 {
        range.1 = range.1.min(zero);
    } else {
        range.0 = range.0.max(zero);
    }
    (range.0 < range.1).then_some(())
}

/// What hidden parts leave of a line of this length.
fn in_sight(hidden: &mut [(f64, f64)], length: f64) -> Vec<(f64, f64)> {
    hidden.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut parts = Vec::new();
    let mut from = 0.0;
    for (start, end) in hidden.iter().chain(std::iter::once(&(1.0, 1.0))) {
        if (start - from) * length > SHORTEST {
            parts.push((from, *start));
        }
        from = end.max(from);
    }
    parts
}

/// Lines that lie on one another are drawn once.
pub(super) fn merged(lines: Vec<Segment>) -> Vec<Segment> {
    let mut keyed: Vec<(i64, i64, i64, f64, f64, DVec2, DVec2)> = lines
        .into_iter()
        .map(|[a, b]| {
            let way = (b - a).normalize_or_zero();
            let way = if way.x < -1e-6 || (way.x.abs() <= 1e-6 && way.y < 0.0) {
                -way
            } else {
                way
            };
            let across = way.perp();
            let (s, t) = (way.dot(a), way.dot(b));
            let base = across * across.dot(a);
            let key = |value: f64, step: f64| whole(value / step);
            (
                key(way.x, 1e-5),
                key(way.y, 1e-5),
                key(across.dot(a), 0.02),
                s.min(t),
                s.max(t),
                way,
                base,
            )
        })
        .collect();
    keyed.sort_by(|a, b| {
        (a.0, a.1, a.2)
            .cmp(&(b.0, b.1, b.2))
            .then(a.3.total_cmp(&b.3))
    });
    let mut found: Vec<(i64, i64, i64, f64, f64, DVec2, DVec2)> = Vec::new();
    for line in keyed {
        match found.last_mut() {
            Some(last)
                if (last.0, last.1, last.2) == (line.0, line.1, line.2)
                    && line.3 <= last.4 + SHORTEST =>
            {
                last.4 = last.4.max(line.4);
            }
            _ => found.push(line),
        }
    }
    found
        .iter()
        .map(|line| [line.6 + line.5 * line.3, line.6 + line.5 * line.4])
        .collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "whole and far inside the range"
)]
fn whole(value: f64) -> i64 {
    value.round().clamp(-1e15, 1e15) as i64
}
