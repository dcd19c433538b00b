//! Outlines of pieces of board: closed runs of corners, openings the other way round.

use glam::DVec2;

use super::face::limits;
use crate::geom::{TOLERANCE, edges};
use crate::units::Rounding;

/// Which way the places of an outline's corners go to a mark, across and up, so that no cut-out is smaller than it has to
/// be: the board lies to the left of each run. What lies on the outline's own box goes to the nearest mark, as its size does.
pub fn cut_roundings(loops: &[Vec<DVec2>]) -> Vec<Vec<[Rounding; 2]>> {
    let around = limits(&loops.concat());
    let of = |corners: &Vec<DVec2>| {
        let count = corners.len();
        let way = |at: usize| {
            let corner = corners[at];
            let before = corner - corners[(at + count - 1) % count];
            let after = corners[(at + 1) % count] - corner;
            [0, 1].map(|axis| {
                let on_box = [around.0, around.1]
                    .iter()
                    .any(|it| (it[axis] - corner[axis]).abs() <= TOLERANCE);
                let square = |edge: &&DVec2| edge[axis].abs() <= TOLERANCE;
                match [before, after].iter().find(square) {
                    Some(edge) if !on_box => outward(*edge, axis),
                    _ => Rounding::Nearest,
                }
            })
        };
        (0..count).map(way).collect()
    };
    loops.iter().map(of).collect()
}

/// Away from the board at the left of an edge that is square to an axis.
fn outward(edge: DVec2, axis: usize) -> Rounding {
    // to the left of what runs up lies less of x, of what runs right more of y
    let more_is_board = if axis == 0 {
        edge.y < 0.0
    } else {
        edge.x > 0.0
    };
    if more_is_board {
        Rounding::Up
    } else {
        Rounding::Down
    }
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
    let part = |(a, b): (DVec2, DVec2)| {
        let (way, length) = (b - a, a.distance(b));
        let on_it = |corner: &&DVec2| {
            let along = (**corner - a).dot(way) / length;
            let beside = (**corner - a).perp_dot(way) / length;
            along > TOLERANCE && along < length - TOLERANCE && beside.abs() <= TOLERANCE
        };
        let mut stops: Vec<DVec2> = all.iter().filter(on_it).copied().collect();
        stops.sort_by(|c, d| c.distance(a).total_cmp(&d.distance(a)));
        stops.dedup_by(|c, d| c.distance(*d) <= TOLERANCE);
        let ends = [a].into_iter().chain(stops).chain([b]);
        let ends: Vec<DVec2> = ends.collect();
        ends.windows(2).map(|it| (it[0], it[1])).collect::<Vec<_>>()
    };
    edges(corners).flat_map(part).collect()
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
