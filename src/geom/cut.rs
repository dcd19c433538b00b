//! A closed mesh and a plane in, the closed mesh of what lies below the plane out.
//!
//! *Units and frame*: millimetres; mesh and plane in the same frame. Corners nearer to the plane than
//! the tolerance lie on it. The cut itself is closed by flat faces with edges round them.
//!
//! *Errors*: none. Where nothing lies below the plane the mesh is empty.

use std::collections::{BTreeMap, BTreeSet};

use glam::{DVec2, DVec3};

use super::outline::{crossing, edges, is_inside, signed_area};
use super::{Mesh, Plane, TOLERANCE, Triangle, triangulate};

impl Mesh {
    /// What lies below a plane.
    #[must_use]
    pub fn below(&self, plane: &Plane) -> Self {
        let heights: Vec<f64> = self
            .vertices
            .iter()
            .map(|v| plane.height_or_on(*v))
            .collect();
        if heights.iter().all(|height| *height <= 0.0) {
            return self.clone();
        }
        let mut cut = CutMesh::new(self, heights);
        for triangle in &self.triangles {
            cut.triangle(triangle);
        }
        for edge in &self.edges {
            cut.edge(*edge);
        }
        cut.close(plane.normal);
        cut.below
    }
}

/// A mesh while a plane cuts it.
struct CutMesh<'a> {
    old: &'a Mesh,
    heights: Vec<f64>,
    /// Old corner → new corner.
    kept: BTreeMap<usize, usize>,
    /// Edge that is cut → new corner.
    splits: BTreeMap<[usize; 2], usize>,
    /// New corners on the plane.
    flush: Vec<usize>,
    below: Mesh,
}

impl<'a> CutMesh<'a> {
    fn new(old: &'a Mesh, heights: Vec<f64>) -> Self {
        let below = Mesh {
            normals: old.normals.clone(),
            ..Mesh::default()
        };
        Self {
            old,
            heights,
            kept: BTreeMap::new(),
            splits: BTreeMap::new(),
            flush: Vec::new(),
            below,
        }
    }

    /// The new place of a corner that stays.
    fn keep(&mut self, corner: usize) -> usize {
        if let Some(new) = self.kept.get(&corner) {
            return *new;
        }
        let point = self.old.vertices[corner];
        let new = if self.heights[corner] < 0.0 {
            self.below.vertices.push(point);
            self.below.vertices.len() - 1
        } else {
            self.on_plane(point)
        };
        self.kept.insert(corner, new);
        new
    }

    /// The corner at a point of the plane: one for all that come to lie there, as where slivers are cut.
    fn on_plane(&mut self, point: DVec3) -> usize {
        let vertices = &mut self.below.vertices;
        let mut there = self.flush.iter().copied();
        let found = there.find(|it| vertices[*it].distance(point) <= TOLERANCE);
        found.unwrap_or_else(|| {
            vertices.push(point);
            self.flush.push(vertices.len() - 1);
            vertices.len() - 1
        })
    }

    /// Where an edge crosses the plane; the same for both faces beside it.
    fn split(&mut self, a: usize, b: usize) -> usize {
        let key = [a.min(b), a.max(b)];
        if let Some(new) = self.splits.get(&key) {
            return *new;
        }
        let ends = key.map(|end| self.old.vertices[end]);
        let new = self.on_plane(crossing(ends, key.map(|end| self.heights[end])));
        self.splits.insert(key, new);
        new
    }

    fn triangle(&mut self, triangle: &Triangle) {
        let heights = triangle.corners.map(|corner| self.heights[corner]);
        if heights.iter().all(|height| *height >= 0.0) {
            return;
        }
        let mut corners = Vec::new();
        for place in 0..3 {
            let next = (place + 1) % 3;
            let (a, b) = (triangle.corners[place], triangle.corners[next]);
            if heights[place] <= 0.0 {
                corners.push((self.keep(a), triangle.normals[place]));
            }
            if heights[place] * heights[next] < 0.0 {
                let corner = self.split(a, b);
                corners.push((corner, self.normal_between(triangle, place, next)));
            }
        }
        for pair in corners[1..].windows(2) {
            let fan = [corners[0], pair[0], pair[1]];
            let [a, b, c] = fan.map(|it| it.0);
            if a == b || b == c || c == a {
                continue;
            }
            self.below.triangles.push(Triangle {
                corners: fan.map(|it| it.0),
                normals: fan.map(|it| it.1),
            });
        }
    }

    fn normal_between(&mut self, triangle: &Triangle, place: usize, next: usize) -> usize {
        let [a, b] = [place, next].map(|it| triangle.normals[it]);
        if a == b {
            return a;
        }
        let heights = [place, next].map(|it| self.heights[triangle.corners[it]]);
        let ends = [a, b].map(|it| self.old.normals[it]);
        let between = crossing(ends, heights).normalize_or(ends[0]);
        self.below.normals.push(between);
        self.below.normals.len() - 1
    }

    fn edge(&mut self, [a, b]: [usize; 2]) {
        let (from, to) = (self.heights[a], self.heights[b]);
        if from >= 0.0 && to >= 0.0 {
            return;
        }
        let ends = if from * to < 0.0 {
            let inner = if from < 0.0 { a } else { b };
            [self.keep(inner), self.split(a, b)]
        } else {
            [self.keep(a), self.keep(b)]
        };
        self.below.edges.push(ends);
    }

    /// Closes what the cut has left open.
    fn close(&mut self, normal: DVec3) {
        let loops = open_loops(sides(&self.below.triangles));
        let first = self.below.triangles.len();
        let across = normal.any_orthonormal_vector();
        let up = normal.cross(across);
        let vertices = self.below.vertices.clone();
        let seen =
            |corner: usize| DVec2::new(vertices[corner].dot(across), vertices[corner].dot(up));
        self.below.normals.push(normal);
        let normals = [self.below.normals.len() - 1; 3];
        for face in faces(&loops, &seen) {
            let found = triangulate::polygon(&face, seen).into_iter();
            // An outline that passes a corner twice leaves triangles without an inside there.
            let found = found.filter(|[a, b, c]| a != b && b != c && c != a);
            let triangles = found.map(|corners| Triangle { corners, normals });
            self.below.triangles.extend(triangles);
        }
        let backward = loops.iter().flat_map(|corners| edges(corners));
        let backward = backward.map(|(a, b)| (b, a));
        let closed = sides(&self.below.triangles[first..]).chain(backward);
        // slivers of no area that the triangulation has passed over
        for sliver in open_loops(closed) {
            let fan = sliver.windows(2).skip(1).map(|pair| Triangle {
                corners: [sliver[0], pair[0], pair[1]],
                normals,
            });
            self.below.triangles.extend(fan);
        }
        for corners in loops {
            self.below
                .edges
                .extend(edges(&corners).map(<[usize; 2]>::from));
        }
    }
}

/// The sides of triangles, as these run.
fn sides(triangles: &[Triangle]) -> impl Iterator<Item = (usize, usize)> {
    triangles.iter().flat_map(|it| {
        let [a, b, c] = it.corners;
        [(a, b), (b, c), (c, a)]
    })
}

/// The sides that are run along one way only, backward, as closed runs of corners.
fn open_loops(sides: impl Iterator<Item = (usize, usize)>) -> Vec<Vec<usize>> {
    let sides: BTreeSet<(usize, usize)> = sides.collect();
    let open = sides.iter().filter(|(a, b)| !sides.contains(&(*b, *a)));
    let mut onward: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (a, b) in open {
        onward.entry(*b).or_default().push(*a);
    }
    let mut loops = Vec::new();
    while let Some(start) = onward.keys().next().copied() {
        let mut corners = Vec::new();
        let mut here = start;
        while let Some(next) = onward.get_mut(&here).and_then(Vec::pop) {
            if onward[&here].is_empty() {
                onward.remove(&here);
            }
            corners.push(here);
            here = next;
            if here == start {
                break;
            }
        }
        loops.push(corners);
    }
    loops
}

/// Each outline with the openings in it.
fn faces(loops: &[Vec<usize>], seen: &impl Fn(usize) -> DVec2) -> Vec<Vec<Vec<usize>>> {
    let points = |corners: &[usize]| corners.iter().map(|it| seen(*it)).collect::<Vec<_>>();
    let area = |corners: &[usize]| signed_area(&points(corners));
    let mut faces: Vec<Vec<Vec<usize>>> = Vec::new();
    for corners in loops.iter().filter(|it| area(it) > 0.0) {
        faces.push(vec![corners.clone()]);
    }
    for opening in loops.iter().filter(|it| area(it) < 0.0) {
        let corners = points(opening);
        // The smallest outline round an opening is its own. Where a wall is as thin as its facets are
        // off, single corners may lie outside.
        let around = faces.iter_mut().filter(|face| {
            let outline = [points(&face[0])];
            let inside = corners.iter().filter(|it| is_inside(&outline, **it));
            2 * inside.count() > corners.len()
        });
        if let Some(face) = around.min_by(|a, b| area(&a[0]).total_cmp(&area(&b[0]))) {
            face.push(opening.clone());
        }
    }
    faces
}
