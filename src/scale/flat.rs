//! Triangles in, the same faces in triangles of our own out.
//!
//! The mesh library divides flat faces another way at every run. So the triangles that lie in one plane
//! side by side are taken as one face, and that is divided again, by its outline alone: the same body,
//! the same triangles.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;

use glam::{DVec2, DVec3};

use crate::geom::{TOLERANCE, signed_area, triangles_of};

/// Triangles, as places in the list of corners.
pub type Triangles = Vec<[usize; 3]>;

/// Triangles with the outlines of these over the same corners; a face whose outline cannot be traced
/// keeps its own.
pub fn divided_anew(corners: &[DVec3], triangles: &[[usize; 3]]) -> Triangles {
    let mut anew: Triangles = faces(corners, triangles)
        .into_iter()
        .flat_map(|face| divide(corners, &face).unwrap_or(face))
        .map(|[a, b, c]| {
            [[a, b, c], [b, c, a], [c, a, b]]
                .into_iter()
                .min()
                .unwrap_or([a, b, c])
        })
        .collect();
    anew.sort_unstable();
    anew
}

/// Twice the area of a triangle, square to it.
fn across(corners: &[DVec3], [a, b, c]: [usize; 3]) -> DVec3 {
    (corners[b] - corners[a]).cross(corners[c] - corners[a])
}

/// Groups of triangles that lie side by side in one plane.
fn faces(corners: &[DVec3], triangles: &[[usize; 3]]) -> Vec<Triangles> {
    let mut sides: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for (place, [a, b, c]) in triangles.iter().enumerate() {
        for side in [(*a, *b), (*b, *c), (*c, *a)] {
            sides.insert(side, place);
        }
    }
    let mut group: Vec<usize> = (0..triangles.len()).collect();
    // a sliver has no plane of its own, so the faces are grown from the broadest triangles
    let mut order = group.clone();
    let area = |place: usize| across(corners, triangles[place]).length();
    order.sort_by(|a, b| area(*b).total_cmp(&area(*a)).then(a.cmp(b)));
    let mut taken = vec![false; triangles.len()];
    for seed in order {
        if taken[seed] {
            continue;
        }
        taken[seed] = true;
        let normal = across(corners, triangles[seed]).normalize_or_zero();
        let origin = corners[triangles[seed][0]];
        let mut open = vec![seed];
        while let Some(place) = open.pop() {
            let [a, b, c] = triangles[place];
            for side in [(b, a), (c, b), (a, c)] {
                let Some(next) = sides.get(&side).copied().filter(|it| !taken[*it]) else {
                    continue;
                };
                let inside = triangles[next]
                    .iter()
                    .all(|corner| (corners[*corner] - origin).dot(normal).abs() <= TOLERANCE);
                let turned = across(corners, triangles[next]).dot(normal) < -TOLERANCE;
                if inside && !turned {
                    taken[next] = true;
                    group[next] = seed;
                    open.push(next);
                }
            }
        }
    }
    let mut faces: BTreeMap<usize, Triangles> = BTreeMap::new();
    for (place, triangle) in triangles.iter().enumerate() {
        faces.entry(group[place]).or_default().push(*triangle);
    }
    faces.into_values().collect()
}

/// A face divided by its outline; `None` where that cannot be traced.
fn divide(corners: &[DVec3], face: &[[usize; 3]]) -> Option<Triangles> {
    let normal: DVec3 = face.iter().map(|it| across(corners, *it)).sum();
    let seen = flattened(corners, normal);
    let mut loops = outlines(face, &seen)?;
    let area = |outline: &Vec<usize>| -> f64 {
        signed_area(&outline.iter().map(|it| seen(*it)).collect::<Vec<_>>())
    };
    // the outer outline first: it alone runs the way the face does and holds the others
    loops.sort_by(|a, b| area(b).total_cmp(&area(a)).then_with(|| a.cmp(b)));
    let holes_turn_back = loops.iter().skip(1).all(|it| area(it) < 0.0);
    let first = loops.first()?;
    if !(holes_turn_back && area(first) > 0.0) {
        return None;
    }
    // the same area within the same border, or something went wrong
    let total = |triangles: &[[usize; 3]]| -> DVec3 {
        triangles.iter().map(|it| across(corners, *it)).sum()
    };
    let is_whole = |divided: &Triangles| {
        let off = (total(divided) - normal).length();
        off <= TOLERANCE * normal.length().max(1.0) && border(divided) == border(face)
    };
    Some(triangles_of(&loops, &seen))
        .filter(is_whole)
        .or_else(|| clipped(&loops, &seen).filter(is_whole))
}

/// A face without openings, the broadest ear taken first: for outlines with corners so near to each other
/// that the triangulation library passes over them.
fn clipped(loops: &[Vec<usize>], seen: &impl Fn(usize) -> DVec2) -> Option<Triangles> {
    let [outline] = loops else {
        return None;
    };
    let mut rest = outline.clone();
    let mut found = Vec::new();
    while rest.len() > 3 {
        let ears = (0..rest.len()).map(|place| (place, ear(&rest, place, seen)));
        let (place, area) = ears.max_by(|a, b| a.1.total_cmp(&b.1))?;
        if area <= 0.0 {
            return None;
        }
        found.push(around(&rest, place));
        rest.remove(place);
    }
    found.push([rest[0], rest[1], rest[2]]);
    Some(found)
}

/// A corner between its neighbors.
fn around(rest: &[usize], place: usize) -> [usize; 3] {
    let count = rest.len();
    [count - 1, 0, 1].map(|step| rest[(place + step) % count])
}

/// Twice the area of the triangle at a corner; 0 where another corner lies in it.
fn ear(rest: &[usize], place: usize, seen: &impl Fn(usize) -> DVec2) -> f64 {
    let triangle = around(rest, place);
    let [a, b, c] = triangle.map(seen);
    let left = |from: DVec2, to: DVec2, it: DVec2| (to - from).perp_dot(it - from);
    let holds = |it: DVec2| left(a, b, it) >= 0.0 && left(b, c, it) >= 0.0 && left(c, a, it) >= 0.0;
    let mut others = rest.iter().filter(|it| !triangle.contains(it));
    if others.any(|it| holds(seen(*it))) {
        return 0.0;
    }
    left(a, b, c)
}

/// Corners seen in the plane of a face, from outside.
pub fn flattened(corners: &[DVec3], normal: DVec3) -> impl Fn(usize) -> DVec2 {
    let size = normal.abs();
    move |place| {
        let DVec3 { x, y, z } = corners[place];
        if size.z >= size.x && size.z >= size.y {
            DVec2::new(x * normal.z.signum(), y)
        } else if size.x >= size.y {
            DVec2::new(y * normal.x.signum(), z)
        } else {
            DVec2::new(z * normal.y.signum(), x)
        }
    }
}

/// The outlines of a face, each from its first corner on; `None` where one does not close. Where two meet
/// in a corner each goes on round the outside, so that none touches itself.
pub fn outlines(face: &[[usize; 3]], seen: &impl Fn(usize) -> DVec2) -> Option<Vec<Vec<usize>>> {
    let mut open = border(face);
    let mut loops = Vec::new();
    while let Some(&(start, second)) = open.first() {
        let mut outline = vec![start];
        let mut side = (start, second);
        open.remove(&side);
        while side.1 != start {
            outline.push(side.1);
            side = onward(&open, side, seen)?;
            open.remove(&side);
        }
        loops.extend(parted(outline));
    }
    Some(loops)
}

/// The side that goes on from another: where several do, the first one counter-clockwise from where the
/// outline comes from, past what is not the face.
fn onward(
    open: &BTreeSet<(usize, usize)>,
    (from, at): (usize, usize),
    seen: &impl Fn(usize) -> DVec2,
) -> Option<(usize, usize)> {
    let back = seen(from) - seen(at);
    let turn = |to: usize| {
        let way = seen(to) - seen(at);
        let angle = libm::atan2(back.perp_dot(way), back.dot(way));
        if angle > 0.0 { angle } else { angle + TAU }
    };
    let onward = open.range((at, 0)..=(at, usize::MAX)).copied();
    onward.min_by(|a, b| turn(a.1).total_cmp(&turn(b.1)))
}

/// An outline as loops that pass every corner once.
fn parted(outline: Vec<usize>) -> Vec<Vec<usize>> {
    let mut loops = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for corner in outline {
        if let Some(before) = open.iter().position(|it| *it == corner) {
            loops.push(open.split_off(before));
        }
        open.push(corner);
    }
    loops.push(open);
    loops
}

/// The sides of triangles that no other of them shares.
pub fn border(face: &[[usize; 3]]) -> BTreeSet<(usize, usize)> {
    let sides = face
        .iter()
        .flat_map(|[a, b, c]| [(*a, *b), (*b, *c), (*c, *a)]);
    let mut border = BTreeSet::new();
    for (a, b) in sides {
        if !border.remove(&(b, a)) {
            border.insert((a, b));
        }
    }
    border
}
