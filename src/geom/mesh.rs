//! A shape in, its closed triangle mesh out, with as few triangles as the shape allows.
//!
//! *Units and frame*: millimetres, in the shape's own frame. Triangles run counter-clockwise as seen
//! from outside, so the volume is positive. What is flat is exact; a round surface is met at the
//! corners of the mesh and missed by no more than the chord error between them.
//!
//! *Errors*: none. A shape without volume has an empty mesh.

use glam::{DVec2, DVec3};

use super::{Bore, CenterLine, Facet, Faceted, Shape, Swept, TOLERANCE, Tube, triangulate};
use crate::units::Length;

/// A closed triangle mesh with its crisp edges.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mesh {
    /// Corners; each is listed once, so that neighbors share them.
    pub vertices: Vec<DVec3>,
    /// Unit vectors out of the true surface.
    pub normals: Vec<DVec3>,
    /// The triangles.
    pub triangles: Vec<Triangle>,
    /// Where the surface turns sharply, as places in [`Self::vertices`].
    pub edges: Vec<[usize; 2]>,
}

/// One triangle of a mesh.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Triangle {
    /// Places in [`Mesh::vertices`], counter-clockwise from outside.
    pub corners: [usize; 3],
    /// Places in [`Mesh::normals`], one for each corner.
    pub normals: [usize; 3],
}

impl Mesh {
    /// The chord error that serves when nobody asks for another.
    pub const CHORD_ERROR: Length = Length::mm(0.1);

    /// The mesh of a shape; no round surface is missed by more than the chord error.
    pub fn new(shape: &Shape, chord_error: Length) -> Self {
        match shape {
            Shape::Swept(swept) => flat(swept, chord_error.to_mm()),
            Shape::Tube(tube) => round(tube, chord_error.to_mm()),
        }
    }

    /// The same mesh smaller or larger, then moved.
    #[must_use]
    pub fn scaled(&self, factor: f64, shift: DVec3) -> Self {
        let mut mesh = self.clone();
        for corner in &mut mesh.vertices {
            *corner = *corner * factor + shift;
        }
        mesh
    }

    /// The volume inside, in cubic millimetres; negative for a mesh that is inside out.
    pub fn volume(&self) -> f64 {
        let Some(apex) = self.vertices.first() else {
            return 0.0;
        };
        let six: f64 = self
            .triangles
            .iter()
            .map(|triangle| {
                let [a, b, c] = triangle.corners.map(|corner| self.vertices[corner] - *apex);
                a.dot(b.cross(c))
            })
            .sum();
        six / 6.0
    }
}

fn flat(swept: &Swept, chord_error: f64) -> Mesh {
    let body = Faceted::new(swept);
    let mut mesh = Mesh {
        triangles: Vec::new(),
        edges: body.edges(),
        normals: body.facets.iter().map(|facet| facet.normal).collect(),
        vertices: body.vertices.clone(),
    };
    let mut openings = vec![Vec::new(); body.facets.len()];
    for bore in &swept.bores {
        drill(&mut mesh, &body, (bore, chord_error), &mut openings);
    }
    for (place, (facet, openings)) in body.facets.iter().zip(openings).enumerate() {
        let triangles = if openings.is_empty() {
            facet_triangles(&body.vertices, facet)
        } else {
            bored(&mesh.vertices, facet, openings)
        };
        let triangles = triangles.into_iter().map(|corners| Triangle {
            corners,
            normals: [place; 3],
        });
        mesh.triangles.extend(triangles);
    }
    mesh
}

/// Appends the wall of a bore, and adds its two ends to the openings of the faces that they are in.
fn drill(
    mesh: &mut Mesh,
    body: &Faceted,
    (bore, chord_error): (&Bore, f64),
    openings: &mut [Vec<Vec<usize>>],
) {
    let (bar, frame) = bore.bar();
    let grid = Grid {
        around: chords(bar.outer, chord_error),
        along: 1,
    };
    let (first, first_normal) = (mesh.vertices.len(), mesh.normals.len());
    wall(mesh, &bar, bar.outer, &grid, true);
    for vertex in &mut mesh.vertices[first..] {
        *vertex = frame.point(*vertex);
    }
    for normal in &mut mesh.normals[first_normal..] {
        *normal = frame.vector(*normal);
    }
    for (end, way) in [-frame.z, frame.z].into_iter().enumerate() {
        let mut ring: Vec<usize> = grid.ring(first, end).collect();
        if end == 1 {
            ring.reverse();
        }
        if let Some(place) = body.facing(way) {
            openings[place].push(ring);
        }
    }
}

/// Triangles of an upright face with openings.
fn bored(vertices: &[DVec3], facet: &Facet, openings: Vec<Vec<usize>>) -> Vec<[usize; 3]> {
    let loops: Vec<Vec<usize>> = facet.loops.iter().cloned().chain(openings).collect();
    let right = DVec3::Z.cross(facet.normal);
    triangulate::polygon(&loops, |it| {
        DVec2::new(vertices[it].dot(right), vertices[it].z)
    })
}

/// A face over an outline with inward corners or openings is an end of its sweep, so it can be
/// seen along z; all others are convex.
fn facet_triangles(vertices: &[DVec3], facet: &Facet) -> Vec<[usize; 3]> {
    let [corners] = facet.loops.as_slice() else {
        return triangulate::facet(vertices, facet);
    };
    if facet.normal.z.abs() > TOLERANCE && corners.len() > 3 {
        return triangulate::facet(vertices, facet);
    }
    let fan = corners.windows(2).skip(1);
    fan.map(|pair| [corners[0], pair[0], pair[1]]).collect()
}

/// Chords round a circle so that none misses it by more than the error; a multiple of four, so
/// that the outermost points lie on the mesh.
fn chords(radius: f64, error: f64) -> usize {
    let needed = core::f64::consts::PI / half_chord(radius, error);
    whole(needed).next_multiple_of(4).max(12)
}

/// Half the angle of the longest chord that misses a circle by no more than the error.
fn half_chord(radius: f64, error: f64) -> f64 {
    let share = (error / radius).clamp(1e-9, 1.0);
    libm::acos(1.0 - share)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a positive count, bounded by the clamp above"
)]
fn whole(needed: f64) -> usize {
    needed.ceil().max(1.0) as usize
}

fn round(tube: &Tube, chord_error: f64) -> Mesh {
    let hollow = tube.inner > TOLERANCE;
    let walls_meet = hollow && tube.outer - tube.inner <= TOLERANCE;
    if tube.center_line.length() <= TOLERANCE || tube.outer <= TOLERANCE || walls_meet {
        return Mesh::default();
    }
    let (around, along) = match tube.center_line {
        CenterLine::Segment { .. } => (chords(tube.outer, chord_error), 1),
        // Both errors meet in the middle of a patch, so each gets half.
        CenterLine::Arc { radius, angle } => {
            let half = half_chord(radius + tube.outer, chord_error / 2.0);
            let steps = whole(angle / (2.0 * half));
            (chords(tube.outer, chord_error / 2.0), steps)
        }
    };
    let mut mesh = Mesh::default();
    let grid = Grid { around, along };
    wall(&mut mesh, tube, tube.outer, &grid, false);
    if hollow {
        wall(&mut mesh, tube, tube.inner, &grid, true);
    }
    for end in [false, true] {
        cap(&mut mesh, tube, &grid, end, hollow);
    }
    mesh
}

/// How a round wall is divided.
struct Grid {
    around: usize,
    along: usize,
}

impl Grid {
    /// Corners of a ring, in order, of the wall whose first corner is `first`.
    fn ring(&self, first: usize, station: usize) -> impl Iterator<Item = usize> + Clone {
        let start = first + station * self.around;
        start..start + self.around
    }
}

/// Appends the corners, triangles and end circles of a wall. Corners and normals run alike.
fn wall(mesh: &mut Mesh, tube: &Tube, radius: f64, grid: &Grid, inner: bool) {
    let first = mesh.vertices.len();
    let first_normal = mesh.normals.len();
    for station in 0..=grid.along {
        let (center, along) = tube.center_line.at(station as f64 / grid.along as f64);
        let across = DVec3::new(along.z, 0.0, -along.x);
        for step in 0..grid.around {
            let turn = core::f64::consts::TAU * step as f64 / grid.around as f64;
            let (sin, cos) = libm::sincos(turn);
            let out = across * cos + DVec3::Y * sin;
            mesh.vertices.push(center + out * radius);
            mesh.normals.push(if inner { -out } else { out });
        }
    }
    for station in 0..grid.along {
        for step in 0..grid.around {
            let next = (step + 1) % grid.around;
            let place = |station: usize, step: usize| station * grid.around + step;
            let quad = [
                place(station, step),
                place(station, next),
                place(station + 1, next),
                place(station + 1, step),
            ];
            let halves = if inner {
                [[2, 1, 0], [3, 2, 0]]
            } else {
                [[0, 1, 2], [0, 2, 3]]
            };
            for half in halves {
                mesh.triangles.push(Triangle {
                    corners: half.map(|corner| first + quad[corner]),
                    normals: half.map(|corner| first_normal + quad[corner]),
                });
            }
        }
    }
    for station in [0, grid.along] {
        let ring = grid.ring(first, station);
        let next = ring.clone().cycle().skip(1);
        mesh.edges.extend(ring.zip(next).map(|(a, b)| [a, b]));
    }
}

/// Closes an end: a ring between two circles, or a disc.
fn cap(mesh: &mut Mesh, tube: &Tube, grid: &Grid, end: bool, hollow: bool) {
    let station = if end { grid.along } else { 0 };
    let along = tube.center_line.at(if end { 1.0 } else { 0.0 }).1;
    mesh.normals.push(if end { along } else { -along });
    let normals = [mesh.normals.len() - 1; 3];
    let outer: Vec<usize> = grid.ring(0, station).collect();
    let second_wall = grid.around * (grid.along + 1);
    let inner: Vec<usize> = grid.ring(second_wall, station).collect();
    let mut add = |[a, b, c]: [usize; 3]| {
        let corners = if end { [a, b, c] } else { [c, b, a] };
        mesh.triangles.push(Triangle { corners, normals });
    };
    if hollow {
        for step in 0..grid.around {
            let next = (step + 1) % grid.around;
            add([inner[step], outer[step], outer[next]]);
            add([inner[step], outer[next], inner[next]]);
        }
    } else {
        for pair in outer[1..].windows(2) {
            add([outer[0], pair[0], pair[1]]);
        }
    }
}
