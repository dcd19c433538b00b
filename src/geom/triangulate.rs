//! A flat face with openings or inward corners in, triangles over exactly its corners out.
//!
//! *Frame*: the shape's own; the face must not stand upright, since it is seen along z.
//!
//! Triangles use every corner of the face. Corners that lie on a straight line with their neighbors
//! are kept from the triangulation library, which makes slivers of them or passes over them, as
//! rounding has it; each is put into the triangle whose side it lies on afterward.

use std::collections::BTreeSet;

use earcut::Earcut;
use glam::{DVec2, DVec3};

use super::outline::signed_area;
use super::{Facet, TOLERANCE};

/// Triangles over a face, as places in the list of vertices, counter-clockwise from outside.
pub(super) fn facet(vertices: &[DVec3], facet: &Facet) -> Vec<[usize; 3]> {
    // Seen from the side that it faces, so that the outline runs counter-clockwise.
    let side = facet.normal.z.signum();
    let seen = |vertex: usize| DVec2::new(vertices[vertex].x, vertices[vertex].y * side);
    polygon(&facet.loops, seen)
}

/// Triangles over an outline and its openings, as the places that the loops are made of; they turn as
/// the outline does.
pub(crate) fn polygon(loops: &[Vec<usize>], seen: impl Fn(usize) -> DVec2) -> Vec<[usize; 3]> {
    let corners: Vec<usize> = loops.iter().flatten().copied().collect();
    let points: Vec<DVec2> = corners.iter().map(|corner| seen(*corner)).collect();
    let mut openings = Vec::new();
    let mut start = 0;
    // Places of the corners where the loops turn.
    let mut turning: Vec<usize> = Vec::new();
    for corners in loops {
        if start > 0 {
            openings.push(turning.len());
        }
        turning.extend(turns(&points, (start..start + corners.len()).collect()));
        start += corners.len();
    }
    // A face that is inside out stays so, for the checks to see.
    let way = signed_area(&points[..loops[0].len()]).signum();
    let mut flat: Vec<usize> = Vec::new();
    let turning_points = turning.iter().map(|place| points[*place].to_array());
    Earcut::new().earcut(turning_points, &openings, &mut flat);
    let found = flat
        .chunks_exact(3)
        .map(|t| [t[0], t[1], t[2]].map(|it| turning[it]));
    let mut triangles: Vec<[usize; 3]> = found.collect();
    turn(&points, &mut triangles, way);
    let sides = sides_of(loops);
    for corner in 0..points.len() {
        put_back(&points, &sides, &mut triangles, corner);
    }
    let place = |triangle: [usize; 3]| triangle.map(|corner| corners[corner]);
    triangles.into_iter().map(place).collect()
}

/// A loop without the corners that lie on the line between their neighbors; never fewer than three.
fn turns(points: &[DVec2], mut places: Vec<usize>) -> Vec<usize> {
    let mut at = 0;
    while at < places.len() && places.len() > 3 {
        let count = places.len();
        let [before, here, after] =
            [at + count - 1, at, at + 1].map(|it| points[places[it % count]]);
        let along = (after - before).normalize_or_zero();
        let aside = along.perp_dot(here - before).abs();
        let reach = along.dot(here - before);
        if aside <= TOLERANCE && reach > 0.0 && reach < before.distance(after) {
            places.remove(at);
            at = at.saturating_sub(1);
        } else {
            at += 1;
        }
    }
    places
}

/// Turns all triangles the way the outline runs. The library gives all of them the same turn, and a
/// sliver's own sign is no more than rounding, so they are turned together.
fn turn(points: &[DVec2], triangles: &mut [[usize; 3]], way: f64) {
    let doubled =
        |[a, b, c]: &[usize; 3]| (points[*b] - points[*a]).perp_dot(points[*c] - points[*a]);
    if triangles.iter().map(doubled).sum::<f64>() * way < 0.0 {
        for [_, b, c] in triangles {
            std::mem::swap(b, c);
        }
    }
}

/// The sides of the loops, as places in the list of all their corners.
fn sides_of(loops: &[Vec<usize>]) -> BTreeSet<(usize, usize)> {
    let mut sides = BTreeSet::new();
    let mut start = 0;
    for corners in loops {
        let count = corners.len();
        sides.extend((0..count).map(|i| (start + i, start + (i + 1) % count)));
        start += count;
    }
    sides
}

/// Splits every triangle that has this corner on one of its sides but not among its corners, unless
/// the side is a face's own or another triangle lies beside it: then nothing is missing there.
fn put_back(
    points: &[DVec2],
    sides: &BTreeSet<(usize, usize)>,
    triangles: &mut Vec<[usize; 3]>,
    corner: usize,
) {
    for place in 0..triangles.len() {
        let triangle = triangles[place];
        if triangle.contains(&corner) {
            continue;
        }
        let turns = [[0, 1, 2], [1, 2, 0], [2, 0, 1]].map(|turn| turn.map(|i: usize| triangle[i]));
        let split = turns.into_iter().find(|[a, b, _]| {
            let (from, to, point) = (points[*a], points[*b], points[corner]);
            let along = (to - from).normalize_or_zero();
            let reach = along.dot(point - from);
            let aside = along.perp_dot(point - from).abs();
            let within = reach > TOLERANCE && reach < from.distance(to) - TOLERANCE;
            let beside = |it: &[usize; 3]| (0..3).any(|i| it[i] == *b && it[(i + 1) % 3] == *a);
            aside <= TOLERANCE
                && within
                && !sides.contains(&(*a, *b))
                && !triangles.iter().any(beside)
        });
        if let Some([a, b, c]) = split {
            triangles[place] = [a, corner, c];
            triangles.push([corner, b, c]);
        }
    }
}
