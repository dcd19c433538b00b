//! A placed body in, what a drawing needs of it out: corners, flat faces, edges, and the convex pieces that hide.
//!
//! *Units and frame*: millimetres in the world. A round surface is met by chords whose error stays far under
//! the width of the thinnest pen at any scale in use.

use std::f64::consts::TAU;

use glam::DVec3;

use crate::geom::{Body, Bore, CenterLine, Faceted, Plane, Shape, Tube};

/// Chords round a tube: a multiple of four, so that its outermost points are true.
const AROUND: usize = 64;

/// The largest turn of a bend between two rings, in radians.
const BEND_STEP: f64 = 0.06;

/// A body as lines and planes.
#[derive(Debug, Clone, Default)]
pub(super) struct Solid {
    /// Corners.
    pub(super) vertices: Vec<DVec3>,
    /// Flat faces, each as its outline and openings.
    pub(super) faces: Vec<Vec<Vec<usize>>>,
    /// Edges.
    pub(super) edges: Vec<Edge>,
    /// The convex pieces, as the planes that they lie under.
    pub(super) pieces: Vec<Piece>,
}

/// An edge between two faces.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    pub(super) ends: [usize; 2],
    /// The faces' normals where a round surface goes on; such an edge shows only where it is an outline.
    pub(super) round: Option<[DVec3; 2]>,
}

/// A convex piece.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    pub(super) planes: Vec<Plane>,
    pub(super) corners: Vec<DVec3>,
}

impl Solid {
    /// The solid of a body, moved by a vector.
    pub(super) fn new(body: &Body, moved: DVec3) -> Self {
        let mut solid = match &body.shape {
            Shape::Swept(swept) => {
                let faceted = Faceted::new(swept);
                let edges = faceted.edges().into_iter();
                let mut solid = Self {
                    vertices: faceted
                        .vertices
                        .iter()
                        .map(|it| body.frame.point(*it))
                        .collect(),
                    faces: faceted.facets.iter().map(|it| it.loops.clone()).collect(),
                    edges: edges.map(|ends| Edge { ends, round: None }).collect(),
                    pieces: flat_pieces(body),
                };
                for bore in &swept.bores {
                    solid.rims(bore, body);
                }
                solid
            }
            Shape::Tube(tube) => round(tube, body),
        };
        solid.shift(moved);
        solid
    }

    /// The circles where a bore begins and ends.
    fn rims(&mut self, bore: &Bore, body: &Body) {
        let (bar, frame) = bore.bar();
        let placed = Body::new(bar, body.frame.place(&frame));
        for ring in rings(&bar, bar.outer, &placed) {
            let first = self.vertices.len();
            let ends = (0..ring.len()).map(|it| [first + it, first + (it + 1) % ring.len()]);
            self.edges
                .extend(ends.map(|ends| Edge { ends, round: None }));
            self.vertices.extend(ring);
        }
    }

    fn shift(&mut self, by: DVec3) {
        self.vertices.iter_mut().for_each(|it| *it += by);
        for piece in &mut self.pieces {
            piece.corners.iter_mut().for_each(|it| *it += by);
            for plane in &mut piece.planes {
                plane.offset += plane.normal.dot(by);
            }
        }
    }
}

fn flat_pieces(body: &Body) -> Vec<Piece> {
    let pieces = body.pieces.iter();
    pieces
        .map(|piece| Piece {
            planes: piece.faces.iter().map(|face| face.plane).collect(),
            corners: piece.vertices.clone(),
        })
        .collect()
}

/// The rings of a wall: one for each station along the center line.
fn rings(tube: &Tube, radius: f64, body: &Body) -> Vec<Vec<DVec3>> {
    let mut stations = 1_u32;
    if let CenterLine::Arc { angle, .. } = tube.center_line {
        while angle / f64::from(stations) > BEND_STEP {
            stations += 1;
        }
    }
    let ring = |station: u32| {
        let (center, along) = tube
            .center_line
            .at(f64::from(station) / f64::from(stations));
        let across = DVec3::new(along.z, 0.0, -along.x);
        let corner = |step: usize| {
            let (sin, cos) = libm::sincos(TAU * step as f64 / AROUND as f64);
            body.frame
                .point(center + (across * cos + DVec3::Y * sin) * radius)
        };
        (0..AROUND).map(corner).collect()
    };
    (0..=stations).map(ring).collect()
}

fn round(tube: &Tube, body: &Body) -> Solid {
    let outer = rings(tube, tube.outer, body);
    let mut solid = Solid::default();
    solid.wall(&outer, true);
    let mut ends: Vec<Vec<Vec<usize>>> = vec![
        vec![Solid::ring(0, 0)],
        vec![Solid::ring(0, outer.len() - 1)],
    ];
    if tube.inner > 0.0 {
        let first = solid.vertices.len();
        solid.wall(&rings(tube, tube.inner, body), false);
        ends[0].push(Solid::ring(first, 0));
        ends[1].push(Solid::ring(first, outer.len() - 1));
    }
    solid.faces.extend(ends);
    solid.pieces = outer
        .windows(2)
        .map(|pair| slice(&pair[0], &pair[1]))
        .collect();
    solid
}

impl Solid {
    fn ring(first: usize, station: usize) -> Vec<usize> {
        let first = first + station * AROUND;
        (first..first + AROUND).collect()
    }

    /// Adds a round wall; the edges of the outer one only, since nobody looks into a pipe.
    fn wall(&mut self, rings: &[Vec<DVec3>], edges: bool) {
        let first = self.vertices.len();
        self.vertices.extend(rings.iter().flatten());
        let place = |station: usize, step: usize| first + station * AROUND + step % AROUND;
        for station in 0..rings.len() - 1 {
            for step in 0..AROUND {
                self.faces.push(vec![vec![
                    place(station, step),
                    place(station, step + 1),
                    place(station + 1, step + 1),
                    place(station + 1, step),
                ]]);
            }
        }
        if !edges {
            return;
        }
        for station in 0..rings.len() {
            for step in 0..AROUND {
                self.round_edges(rings, (station, step), place);
            }
        }
    }

    fn round_edges(
        &mut self,
        rings: &[Vec<DVec3>],
        (station, step): (usize, usize),
        place: impl Fn(usize, usize) -> usize,
    ) {
        let normal = |station: usize, step: usize| quad_normal(rings, station, step);
        let last = rings.len() - 1;
        let before = (step + AROUND - 1) % AROUND;
        let around = (station > 0 && station < last)
            .then(|| [normal(station - 1, step), normal(station, step)]);
        self.edges.push(Edge {
            ends: [place(station, step), place(station, step + 1)],
            round: around,
        });
        if station < last {
            self.edges.push(Edge {
                ends: [place(station, step), place(station + 1, step)],
                round: Some([normal(station, before), normal(station, step)]),
            });
        }
    }
}

fn quad_normal(rings: &[Vec<DVec3>], station: usize, step: usize) -> DVec3 {
    let next = (step + 1) % AROUND;
    let (a, b) = (rings[station][step], rings[station + 1][next]);
    let (c, d) = (rings[station][next], rings[station + 1][step]);
    (b - a).cross(d - c).normalize_or_zero()
}

/// The convex piece between two rings.
fn slice(low: &[DVec3], high: &[DVec3]) -> Piece {
    let middle = |ring: &[DVec3]| ring.iter().sum::<DVec3>() / ring.len() as f64;
    let (bottom, top) = (middle(low), middle(high));
    let inside = (bottom + top) / 2.0;
    let outward = |point: DVec3, normal: DVec3| {
        let normal = normal.normalize_or_zero();
        let normal = if normal.dot(inside - point) > 0.0 {
            -normal
        } else {
            normal
        };
        Plane::through(point, normal)
    };
    let square = |ring: &[DVec3]| (ring[AROUND / 4] - ring[0]).cross(ring[AROUND / 2] - ring[0]);
    let mut planes = vec![outward(bottom, square(low)), outward(top, square(high))];
    for step in 0..AROUND {
        let next = (step + 1) % AROUND;
        let normal = (high[next] - low[step]).cross(high[step] - low[next]);
        planes.push(outward(low[step], normal));
    }
    Piece {
        planes,
        corners: low.iter().chain(high).copied().collect(),
    }
}
