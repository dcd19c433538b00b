//! A solid and a plane in, the closed outlines where the plane cuts it out.
//!
//! *Units and frame*: millimetres of the model, as the eye sees it.

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use super::eye::Eye;
use super::solid::Solid;
use crate::geom::{Plane, crossing, edges};

/// Points nearer than this are one.
const STEP: f64 = 1e-4;

/// The outlines of a cut; a point inside an odd number of them is cut material.
pub(super) fn outlines(solid: &Solid, plane: &Plane, eye: &Eye) -> Vec<Vec<DVec2>> {
    let sides: Vec<[DVec3; 2]> = solid
        .faces
        .iter()
        .flat_map(|face| face_sides(solid, face, plane))
        .collect();
    joined(&sides, eye)
}

/// The lines where a plane crosses a face.
fn face_sides(solid: &Solid, face: &[Vec<usize>], plane: &Plane) -> Vec<[DVec3; 2]> {
    let mut crossings: Vec<DVec3> = Vec::new();
    for corners in face {
        for (a, b) in edges(corners) {
            let (a, b) = (solid.vertices[a.min(b)], solid.vertices[a.max(b)]);
            let (over, under) = (plane.height(a), plane.height(b));
            // a corner on the plane counts as above it, so every outline is crossed an even number of times
            if (over >= 0.0) != (under >= 0.0) {
                crossings.push(crossing([a, b], [over, under]));
            }
        }
    }
    let Some((first, last)) = ends(&crossings) else {
        return Vec::new();
    };
    let way = last - first;
    crossings.sort_by(|a, b| way.dot(*a).total_cmp(&way.dot(*b)));
    crossings
        .chunks_exact(2)
        .map(|pair| [pair[0], pair[1]])
        .collect()
}

/// Two points of a line that are far apart.
fn ends(points: &[DVec3]) -> Option<(DVec3, DVec3)> {
    let first = *points.first()?;
    let far = |a: &&DVec3, b: &&DVec3| a.distance(first).total_cmp(&b.distance(first));
    let last = *points.iter().max_by(far)?;
    Some((first, last))
}

fn key(point: DVec2) -> (i64, i64) {
    (whole(point.x / STEP), whole(point.y / STEP))
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "whole and far inside the range"
)]
fn whole(value: f64) -> i64 {
    value.round().clamp(-1e15, 1e15) as i64
}

/// Sides that share ends, joined to closed outlines.
fn joined(sides: &[[DVec3; 2]], eye: &Eye) -> Vec<Vec<DVec2>> {
    let flat: Vec<[DVec2; 2]> = sides
        .iter()
        .map(|side| side.map(|end| eye.see(end).truncate()))
        .filter(|[a, b]| key(*a) != key(*b))
        .collect();
    let mut at: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    for (place, side) in flat.iter().enumerate() {
        for end in side {
            at.entry(key(*end)).or_default().push(place);
        }
    }
    let mut used = vec![false; flat.len()];
    let mut loops = Vec::new();
    for start in 0..flat.len() {
        if used[start] {
            continue;
        }
        used[start] = true;
        let mut corners = vec![flat[start][0]];
        let mut end = flat[start][1];
        while let Some(next) = at
            .get(&key(end))
            .and_then(|places| places.iter().find(|place| !used[**place]))
        {
            used[*next] = true;
            corners.push(end);
            let [a, b] = flat[*next];
            end = if key(a) == key(end) { b } else { a };
        }
        if corners.len() > 2 {
            loops.push(corners);
        }
    }
    loops
}
