//! Outlines of pieces of board: closed runs of corners, openings the other way round.

use glam::DVec2;

use crate::geom::TOLERANCE;

/// The area within a closed run of corners; below zero where it runs clockwise.
pub(super) fn area(corners: &[DVec2]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(a, b)| a.perp_dot(*b))
        .sum::<f64>()
        / 2.0
}

/// A closed run of corners within a rectangle (Sutherland and Hodgman, Communications of the ACM 17, 1974).
pub(super) fn clip(corners: &[DVec2], low: DVec2, high: DVec2) -> Vec<DVec2> {
    let sides = [
        (DVec2::NEG_X, -low.x),
        (DVec2::X, high.x),
        (DVec2::NEG_Y, -low.y),
        (DVec2::Y, high.y),
    ];
    sides
        .into_iter()
        .fold(corners.to_vec(), |corners, (out, limit)| {
            let mut kept = Vec::new();
            let next = corners.iter().cycle().skip(1);
            for (a, b) in corners.iter().zip(next) {
                let (from, to) = (out.dot(*a) - limit, out.dot(*b) - limit);
                if from <= 0.0 {
                    kept.push(*a);
                }
                if (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0) {
                    kept.push(a.lerp(*b, from / (from - to)));
                }
            }
            kept
        })
}

/// The same area without edges that two runs share, one each way: an opening that reaches the outline is a notch in it.
pub(super) fn joined(loops: Vec<Vec<DVec2>>) -> Vec<Vec<DVec2>> {
    let same = |a: DVec2, b: DVec2| a.distance(b) <= TOLERANCE;
    let all: Vec<DVec2> = loops.iter().flatten().copied().collect();
    let edges: Vec<(DVec2, DVec2)> = loops.iter().flat_map(|it| parted(it, &all)).collect();
    let backward = |(a, b): (DVec2, DVec2)| edges.iter().any(|it| same(it.0, b) && same(it.1, a));
    let mut open: Vec<(DVec2, DVec2)> = edges.iter().copied().filter(|it| !backward(*it)).collect();
    if open.len() == edges.len() {
        return loops;
    }
    let mut found = Vec::new();
    while !open.is_empty() {
        let (start, mut end) = open.remove(0);
        let mut corners = vec![start];
        while !same(start, end) {
            let Some(next) = open.iter().position(|it| same(it.0, end)) else {
                // an end that nothing goes on from is no outline
                return loops;
            };
            corners.push(end);
            end = open.remove(next).1;
        }
        found.push(without_straight(&corners));
    }
    found
}

/// The edges of a run, parted where corners lie on them.
fn parted(corners: &[DVec2], all: &[DVec2]) -> Vec<(DVec2, DVec2)> {
    let next = corners.iter().cycle().skip(1);
    let part = |(a, b): (&DVec2, &DVec2)| {
        let (way, length) = (*b - *a, a.distance(*b));
        let on_it = |corner: &&DVec2| {
            let along = (**corner - *a).dot(way) / length;
            let beside = (**corner - *a).perp_dot(way) / length;
            along > TOLERANCE && along < length - TOLERANCE && beside.abs() <= TOLERANCE
        };
        let mut stops: Vec<DVec2> = all.iter().filter(on_it).copied().collect();
        stops.sort_by(|c, d| c.distance(*a).total_cmp(&d.distance(*a)));
        stops.dedup_by(|c, d| c.distance(*d) <= TOLERANCE);
        let ends = [*a].into_iter().chain(stops).chain([*b]);
        let ends: Vec<DVec2> = ends.collect();
        ends.windows(2).map(|it| (it[0], it[1])).collect::<Vec<_>>()
    };
    corners.iter().zip(next).flat_map(part).collect()
}

/// Corners at which the outline turns.
fn without_straight(corners: &[DVec2]) -> Vec<DVec2> {
    let count = corners.len();
    let turns = |at: &usize| {
        let [before, here, after] = [at + count - 1, *at, at + 1].map(|it| corners[it % count]);
        (here - before)
            .normalize_or_zero()
            .perp_dot((after - here).normalize_or_zero())
            .abs()
            > TOLERANCE
    };
    (0..count).filter(turns).map(|at| corners[at]).collect()
}
