//! A swept profile in, its corners and flat faces out: the planar boundary of a body.
//!
//! *Units and frame*: millimetres, in the shape's own frame. Faces point outward: seen from outside
//! the first loop of a facet runs counter-clockwise and every further one, an opening, clockwise.
//! A wedge that runs out to nothing has neither a face nor a second corner there.
//!
//! *Errors*: none. What its planes cut away entirely has no facets, and so has a profile with
//! openings or inward corners whose planes cross inside it, for which the exact shape has no meaning.

use std::collections::{BTreeMap, BTreeSet};

use glam::{DVec2, DVec3};

use super::outline::{crossing, edges};
use super::{EndPlane, Swept, TOLERANCE};

/// A flat face, possibly with openings.
#[derive(Debug, Clone, PartialEq)]
pub struct Facet {
    /// Unit vector out of the body.
    pub normal: DVec3,
    /// Corners of the outline and of each opening, as places in [`Faceted::vertices`].
    pub loops: Vec<Vec<usize>>,
}

/// The closed planar boundary of a body.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Faceted {
    /// Corners; each is listed once.
    pub vertices: Vec<DVec3>,
    /// Faces; every edge belongs to two of them, once in each direction.
    pub facets: Vec<Facet>,
}

impl Faceted {
    /// The boundary of a swept profile.
    pub fn new(swept: &Swept) -> Self {
        match (swept.bottom.as_slice(), swept.top.as_slice()) {
            ([bottom], [top]) if apart(swept, bottom, top) => between(swept, bottom, top),
            _ if swept.profile.is_convex() => cut(swept),
            _ => Self::default(),
        }
    }

    /// The upright face that looks one way: of a body with bores there is one where a bore ends.
    pub fn facing(&self, way: DVec3) -> Option<usize> {
        let mut facets = self.facets.iter();
        facets.position(|it| it.normal.distance(way) <= TOLERANCE)
    }

    /// Every edge once, as places in [`Self::vertices`], the smaller first.
    pub fn edges(&self) -> Vec<[usize; 2]> {
        let mut found: Vec<[usize; 2]> = self
            .facets
            .iter()
            .flat_map(|facet| &facet.loops)
            .flat_map(|corners| edges(corners))
            .filter(|(a, b)| a < b)
            .map(|(a, b)| [a, b])
            .collect();
        found.sort_unstable();
        found
    }
}

/// Whether the top is nowhere under the bottom, and above it at some corner at least.
fn apart(swept: &Swept, bottom: &EndPlane, top: &EndPlane) -> bool {
    let heights = || {
        let corners = swept.profile.loops().flatten();
        corners.map(|corner| top.z(*corner) - bottom.z(*corner))
    };
    heights().all(|height| height >= -TOLERANCE) && heights().any(|height| height > TOLERANCE)
}

/// The body between one bottom plane and one top plane that do not cross inside the profile.
fn between(swept: &Swept, bottom: &EndPlane, top: &EndPlane) -> Faceted {
    let mut body = Faceted::default();
    let mut floor = Vec::new();
    let mut roof = Vec::new();
    for corners in swept.profile.loops() {
        let pairs: Vec<(usize, usize)> = corners
            .iter()
            .map(|corner| upright(&mut body.vertices, *corner, bottom, top))
            .collect();
        for (index, (from, to)) in edges(corners).enumerate() {
            let (low, high) = pairs[index];
            let (next_low, next_high) = pairs[(index + 1) % pairs.len()];
            let mut side = vec![low, next_low, next_high, high];
            side.dedup();
            if side.first() == side.last() {
                side.pop();
            }
            if side.len() > 2 {
                body.facets.push(Facet {
                    normal: outward(from, to),
                    loops: vec![side],
                });
            }
        }
        floor.push(pairs.iter().rev().map(|pair| pair.0).collect());
        roof.push(pairs.iter().map(|pair| pair.1).collect());
    }
    body.facets.push(Facet {
        normal: downward(bottom),
        loops: floor,
    });
    body.facets.push(Facet {
        normal: -downward(top),
        loops: roof,
    });
    body
}

/// The lower and the upper corner over a point of the profile; one and the same where the planes meet.
fn upright(
    vertices: &mut Vec<DVec3>,
    corner: DVec2,
    bottom: &EndPlane,
    top: &EndPlane,
) -> (usize, usize) {
    let (low, high) = (bottom.z(corner), top.z(corner));
    vertices.push(corner.extend(low));
    let lower = vertices.len() - 1;
    if high - low <= TOLERANCE {
        return (lower, lower);
    }
    vertices.push(corner.extend(high));
    (lower, lower + 1)
}

/// Square to an edge of a profile, away from the material.
fn outward(from: DVec2, to: DVec2) -> DVec3 {
    let along = (to - from).normalize();
    DVec3::new(along.y, -along.x, 0.0)
}

/// Square to a plane, toward −z.
fn downward(plane: &EndPlane) -> DVec3 {
    plane.slope.extend(-1.0).normalize()
}

/// A half-space: `normal` · point ≤ `offset` is kept.
struct HalfSpace {
    normal: DVec3,
    offset: f64,
}

impl HalfSpace {
    fn under(plane: &EndPlane) -> Self {
        let normal = -downward(plane);
        Self {
            normal,
            offset: normal.z * plane.height,
        }
    }

    fn over(plane: &EndPlane) -> Self {
        let normal = downward(plane);
        Self {
            normal,
            offset: normal.z * plane.height,
        }
    }

    fn height(&self, point: DVec3) -> f64 {
        self.normal.dot(point) - self.offset
    }
}

/// The body that is left of a convex profile when each of its planes has cut it.
fn cut(swept: &Swept) -> Faceted {
    let planes = || swept.bottom.iter().chain(&swept.top);
    let corners = &swept.profile.outline;
    let heights = || planes().flat_map(|plane| corners.iter().map(|corner| plane.z(*corner)));
    let low = heights().fold(f64::INFINITY, f64::min) - 1.0;
    let high = heights().fold(f64::NEG_INFINITY, f64::max) + 1.0;
    let level = |height| EndPlane {
        height,
        slope: DVec2::ZERO,
    };
    let half_spaces = swept
        .bottom
        .iter()
        .map(HalfSpace::over)
        .chain(swept.top.iter().map(HalfSpace::under));
    let body = half_spaces.fold(
        between(swept, &level(low), &level(high)),
        |body, half_space| clip(&body, &half_space),
    );
    compact(&body)
}

/// What a half-space leaves of a convex body. Corners that fall away stay in the list, unused.
fn clip(body: &Faceted, half_space: &HalfSpace) -> Faceted {
    let heights: Vec<f64> = body
        .vertices
        .iter()
        .map(|vertex| half_space.height(*vertex))
        .collect();
    let used = |facet: &Facet| facet.loops.iter().flatten().copied().collect::<Vec<_>>();
    let outside = |vertex: usize| heights[vertex] > TOLERANCE;
    let inside = |vertex: usize| heights[vertex] < -TOLERANCE;
    if !body.facets.iter().flat_map(used).any(outside) {
        return body.clone();
    }
    let mut kept = Faceted {
        vertices: body.vertices.clone(),
        facets: Vec::new(),
    };
    let mut cuts = BTreeMap::new();
    for facet in &body.facets {
        if !used(facet).into_iter().any(inside) {
            continue;
        }
        let mut corners = Vec::new();
        for (a, b) in facet.loops.iter().flat_map(|corners| edges(corners)) {
            if !outside(a) {
                corners.push(a);
            }
            if inside(a) && outside(b) || outside(a) && inside(b) {
                let corner = *cuts.entry((a.min(b), a.max(b))).or_insert_with(|| {
                    let ends = [a, b].map(|end| body.vertices[end]);
                    kept.vertices.push(crossing(ends, [heights[a], heights[b]]));
                    kept.vertices.len() - 1
                });
                corners.push(corner);
            }
        }
        kept.facets.push(Facet {
            normal: facet.normal,
            loops: vec![corners],
        });
    }
    close(&mut kept, half_space.normal);
    kept
}

/// Adds the face over the one hole that a cut has left.
fn close(body: &mut Faceted, normal: DVec3) {
    let directed: BTreeSet<(usize, usize)> = body
        .facets
        .iter()
        .flat_map(|facet| &facet.loops)
        .flat_map(|corners| edges(corners))
        .collect();
    let open: BTreeMap<usize, usize> = directed
        .iter()
        .filter(|(a, b)| !directed.contains(&(*b, *a)))
        .map(|(a, b)| (*b, *a))
        .collect();
    let Some(first) = open.keys().next().copied() else {
        return;
    };
    let mut corners = vec![first];
    while let Some(next) = open.get(&corners[corners.len() - 1]) {
        if *next == first || corners.len() > open.len() {
            break;
        }
        corners.push(*next);
    }
    body.facets.push(Facet {
        normal,
        loops: vec![corners],
    });
}

/// The same body without the corners that no face uses.
fn compact(body: &Faceted) -> Faceted {
    let mut places = vec![usize::MAX; body.vertices.len()];
    let mut vertices = Vec::new();
    let facets = body.facets.iter().map(|facet| {
        let loops = facet.loops.iter().map(|corners| {
            let place = |vertex: &usize| {
                if places[*vertex] == usize::MAX {
                    places[*vertex] = vertices.len();
                    vertices.push(body.vertices[*vertex]);
                }
                places[*vertex]
            };
            corners.iter().map(place).collect()
        });
        Facet {
            normal: facet.normal,
            loops: loops.collect(),
        }
    });
    let facets = facets.collect();
    Faceted { vertices, facets }
}
