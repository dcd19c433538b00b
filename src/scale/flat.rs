//! Triangles in, the same faces in triangles of our own out.
//!
//! The mesh library divides flat faces another way at every run. So the triangles that lie in one plane
//! side by side are taken as one face, and that is divided again, by its outline alone: the same body,
//! the same triangles.

use std::collections::{BTreeMap, BTreeSet};

use glam::{DVec2, DVec3};

use crate::geom::{TOLERANCE, triangles_of};

/// Triangles, as places in the list of corners.
type Triangles = Vec<[usize; 3]>;

/// Triangles with the outlines of these over the same corners; a face whose outline cannot be traced
/// keeps its own.
pub(super) fn divided_anew(corners: &[DVec3], triangles: &[[usize; 3]]) -> Triangles {
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
    let mut loops = outlines(face)?;
    let area = |outline: &Vec<usize>| -> f64 {
        let next = outline.iter().cycle().skip(1);
        let pairs = outline.iter().zip(next);
        pairs.map(|(a, b)| seen(*a).perp_dot(seen(*b))).sum()
    };
    // the outer outline first: it alone runs the way the face does and holds the others
    loops.sort_by(|a, b| area(b).total_cmp(&area(a)).then_with(|| a.cmp(b)));
    let holes_turn_back = loops.iter().skip(1).all(|it| area(it) < 0.0);
    let first = loops.first()?;
    if !(holes_turn_back && area(first) > 0.0) {
        return None;
    }
    let divided = triangles_of(&loops, &seen);
    // the same area within the same border, or something went wrong
    let total = |triangles: &[[usize; 3]]| -> DVec3 {
        triangles.iter().map(|it| across(corners, *it)).sum()
    };
    let off = (total(&divided) - normal).length();
    let whole = off <= TOLERANCE * normal.length().max(1.0) && border(&divided) == border(face);
    whole.then_some(divided)
}

/// Corners seen in the plane of a face, from outside.
fn flattened(corners: &[DVec3], normal: DVec3) -> impl Fn(usize) -> DVec2 {
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

/// The outlines of a face, each from its first corner on; `None` where two meet in a corner.
fn outlines(face: &[[usize; 3]]) -> Option<Vec<Vec<usize>>> {
    let mut next: BTreeMap<usize, usize> = BTreeMap::new();
    for (a, b) in border(face) {
        if next.insert(a, b).is_some() {
            return None;
        }
    }
    let mut loops = Vec::new();
    while let Some((&start, _)) = next.iter().next() {
        let mut outline = vec![start];
        let mut place = next.remove(&start)?;
        while place != start {
            outline.push(place);
            place = next.remove(&place)?;
        }
        loops.push(outline);
    }
    Some(loops)
}

/// The sides of triangles that no other of them shares.
fn border(face: &[[usize; 3]]) -> BTreeSet<(usize, usize)> {
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
