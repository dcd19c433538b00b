//! A convex body with flat faces: the piece that every exact query on swept shapes works on.

use glam::DVec3;
use smallvec::SmallVec;

use super::outline::crossing;
use super::{Bounds, Frame, TOLERANCE};

/// Two unit vectors whose cross product is shorter than this are parallel.
const PARALLEL: f64 = 1e-12;

/// A plane: the points with normal · p = offset. What belongs to it lies below, at heights up to 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// Unit vector out of the body.
    pub normal: DVec3,
    /// Distance from the origin along the normal, in millimetres.
    pub offset: f64,
}

/// A flat face of a convex body.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// The face's plane; its normal points out of the body.
    pub plane: Plane,
    /// Indices of the corners, counter-clockwise as seen from outside.
    pub corners: SmallVec<[usize; 4]>,
}

/// A closed convex body with flat faces.
#[derive(Debug, Clone, PartialEq)]
pub struct Convex {
    /// The corners.
    pub vertices: Vec<DVec3>,
    /// The faces.
    pub faces: Vec<Face>,
    /// Every edge once, as indices of its two ends.
    pub edges: Vec<[usize; 2]>,
    /// The box around it.
    pub bounds: Bounds,
    /// Unit normals of the faces, of parallel ones only the first.
    pub(crate) normals: Vec<DVec3>,
    /// Unit directions of the edges, of parallel ones only the first.
    pub(crate) directions: Vec<DVec3>,
}

impl Plane {
    /// The plane through a point.
    pub fn through(point: DVec3, normal: DVec3) -> Self {
        Self {
            normal,
            offset: normal.dot(point),
        }
    }

    /// Signed distance of a point, positive outside.
    pub fn height(&self, point: DVec3) -> f64 {
        self.normal.dot(point) - self.offset
    }

    /// The same, exactly 0 for what is nearer than the tolerance: it lies on the plane.
    pub(crate) fn height_or_on(&self, point: DVec3) -> f64 {
        let height = self.height(point);
        if height.abs() <= TOLERANCE {
            0.0
        } else {
            height
        }
    }
}

impl Convex {
    /// A convex body from its corners and faces.
    pub(crate) fn new(vertices: Vec<DVec3>, faces: Vec<Face>) -> Self {
        let mut edges = Vec::with_capacity(vertices.len() + faces.len());
        let mut normals = Vec::with_capacity(faces.len());
        let mut directions = Vec::with_capacity(faces.len());
        for face in &faces {
            if !has_parallel(&normals, face.plane.normal) {
                normals.push(face.plane.normal);
            }
            for (a, b) in face.sides() {
                // Each edge is run through once either way, by the two faces that share it.
                if a < b {
                    edges.push([a, b]);
                    push_unless_parallel(&mut directions, vertices[b] - vertices[a]);
                }
            }
        }
        Self {
            bounds: Bounds::around(vertices.iter().copied()),
            vertices,
            faces,
            edges,
            normals,
            directions,
        }
    }

    /// Volume in cubic millimetres.
    pub fn volume(&self) -> f64 {
        let Some(&apex) = self.vertices.first() else {
            return 0.0;
        };
        let mut six = 0.0;
        for face in &self.faces {
            let first = self.vertices[face.corners[0]] - apex;
            for pair in face.corners[1..].windows(2) {
                let (b, c) = (self.vertices[pair[0]] - apex, self.vertices[pair[1]] - apex);
                six += first.dot(b.cross(c));
            }
        }
        six / 6.0
    }

    /// The corners of a face.
    pub fn corners<'a>(&'a self, face: &'a Face) -> impl Iterator<Item = DVec3> + 'a {
        face.corners.iter().map(|&corner| self.vertices[corner])
    }

    /// The ends of every edge.
    pub fn segments(&self) -> impl Iterator<Item = (DVec3, DVec3)> + '_ {
        self.edges
            .iter()
            .map(|&[a, b]| (self.vertices[a], self.vertices[b]))
    }

    /// The smallest and the largest of axis · p over the body.
    pub(crate) fn interval(&self, axis: DVec3) -> (f64, f64) {
        // compared, and not by `min` and `max`, which ask for NaN every time: every exact query comes through here
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for vertex in &self.vertices {
            let height = axis.dot(*vertex);
            if height < low {
                low = height;
            }
            if height > high {
                high = height;
            }
        }
        (low, high)
    }

    /// Whether a point is inside or on the surface.
    pub(crate) fn contains(&self, point: DVec3) -> bool {
        self.faces
            .iter()
            .all(|face| face.plane.height(point) <= TOLERANCE)
    }

    /// Whether a point of a face's plane is within the face.
    pub(crate) fn covers(&self, face: &Face, point: DVec3) -> bool {
        face.sides().all(|(a, b)| {
            let (a, b) = (self.vertices[a], self.vertices[b]);
            (b - a).cross(point - a).dot(face.plane.normal) >= -TOLERANCE
        })
    }

    /// Whether it is a box, not necessarily with the world's axes.
    pub(crate) fn is_box(&self) -> bool {
        self.faces.len() == 6
            && self.normals.len() == 3
            && self.vertices.len() == 8
            && self.normals[0].dot(self.normals[1]).abs() < PARALLEL
            && self.normals[1].dot(self.normals[2]).abs() < PARALLEL
            && self.normals[2].dot(self.normals[0]).abs() < PARALLEL
    }

    /// The same body as seen from a frame.
    pub(crate) fn seen_from(&self, frame: &Frame) -> Self {
        let vertices: Vec<DVec3> = self
            .vertices
            .iter()
            .map(|v| frame.local_point(*v))
            .collect();
        let faces = self.faces.iter().map(|face| Face {
            plane: Plane {
                normal: frame.local_vector(face.plane.normal),
                offset: face.plane.offset - face.plane.normal.dot(frame.origin),
            },
            corners: face.corners.clone(),
        });
        let turned = |ways: &[DVec3]| ways.iter().map(|it| frame.local_vector(*it)).collect();
        Self {
            bounds: Bounds::around(vertices.iter().copied()),
            vertices,
            faces: faces.collect(),
            edges: self.edges.clone(),
            normals: turned(&self.normals),
            directions: turned(&self.directions),
        }
    }

    /// What of the body lies below a plane; `None` when nothing does but what is thinner than the
    /// tolerance.
    pub(crate) fn clip(&self, plane: &Plane) -> Option<Self> {
        let heights: Vec<f64> = self.vertices.iter().map(|v| plane.height(*v)).collect();
        if heights.iter().all(|height| *height >= -TOLERANCE) {
            return None;
        }
        if heights.iter().all(|height| *height <= TOLERANCE) {
            return Some(self.clone());
        }
        let mut cut = CutConvex::new(self, &heights);
        let mut faces: Vec<Face> = self
            .faces
            .iter()
            .filter_map(|face| cut.face(face))
            .collect();
        let cap = open_loop(&faces);
        if cap.len() >= 3 {
            faces.push(Face {
                plane: *plane,
                corners: cap.into(),
            });
        }
        Some(Self::new(cut.vertices, faces))
    }
}

impl Face {
    /// The face's sides as pairs of indices, in the order of its corners.
    pub fn sides(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        let corners = self.corners.as_slice();
        (0..corners.len()).map(move |at| {
            let next = corners.get(at + 1).unwrap_or(&corners[0]);
            (corners[at], *next)
        })
    }
}

/// A convex body while a plane cuts it.
struct CutConvex<'a> {
    old: &'a [DVec3],
    heights: &'a [f64],
    /// Old corner → new corner, for those that stay.
    kept: Vec<Option<usize>>,
    /// Edge that is cut → new corner.
    splits: Vec<([usize; 2], usize)>,
    vertices: Vec<DVec3>,
}

impl<'a> CutConvex<'a> {
    fn new(convex: &'a Convex, heights: &'a [f64]) -> Self {
        let mut vertices = Vec::with_capacity(heights.len() + 4);
        let kept = convex.vertices.iter().zip(heights).map(|(vertex, height)| {
            (*height <= TOLERANCE).then(|| {
                vertices.push(*vertex);
                vertices.len() - 1
            })
        });
        let kept = kept.collect();
        Self {
            old: &convex.vertices,
            heights,
            kept,
            splits: Vec::new(),
            vertices,
        }
    }

    fn face(&mut self, face: &Face) -> Option<Face> {
        let mut corners = SmallVec::new();
        for (a, b) in face.sides() {
            corners.extend(self.kept[a]);
            let (low, high) = (
                self.heights[a].min(self.heights[b]),
                self.heights[a].max(self.heights[b]),
            );
            if low < -TOLERANCE && high > TOLERANCE {
                corners.push(self.split(a, b));
            }
        }
        (corners.len() >= 3).then_some(Face {
            plane: face.plane,
            corners,
        })
    }

    fn split(&mut self, a: usize, b: usize) -> usize {
        let key = [a.min(b), a.max(b)];
        if let Some((_, corner)) = self.splits.iter().find(|(edge, _)| *edge == key) {
            return *corner;
        }
        let ends = key.map(|end| self.old[end]);
        let point = crossing(ends, key.map(|end| self.heights[end]));
        self.vertices.push(point);
        self.splits.push((key, self.vertices.len() - 1));
        self.vertices.len() - 1
    }
}

/// The corners that close what a cut has left open: the sides that only one face runs along,
/// backward, in order.
fn open_loop(faces: &[Face]) -> Vec<usize> {
    let sides: Vec<(usize, usize)> = faces.iter().flat_map(Face::sides).collect();
    let open: Vec<(usize, usize)> = sides
        .iter()
        .filter(|(a, b)| !sides.contains(&(*b, *a)))
        .map(|(a, b)| (*b, *a))
        .collect();
    let mut corners: Vec<usize> = open.first().iter().map(|side| side.0).collect();
    while let Some(last) = corners.last() {
        match open.iter().find(|(from, _)| from == last) {
            Some((_, to)) if !corners.contains(to) => corners.push(*to),
            _ => break,
        }
    }
    corners
}

/// Adds the direction of an edge.
fn push_unless_parallel(list: &mut Vec<DVec3>, edge: DVec3) {
    if !has_parallel(list, edge) {
        list.push(edge.normalize_or_zero());
    }
}

/// Whether a list of unit vectors has one along a vector, either way round.
fn has_parallel(list: &[DVec3], way: DVec3) -> bool {
    let limit = PARALLEL * PARALLEL * way.length_squared();
    list.iter()
        .any(|other| other.cross(way).length_squared() <= limit)
}
