//! A tube in, its boundary out: half cylinders or half tori between two flat ends.
//!
//! *Frame*: the tube's own. Each end circle is cut at two points, on the line that points at the
//! middle of the bend, so the seams between the halves of a bend are circles about that middle.

use glam::DVec3;

use super::brep::{Brep, Curve, Edge, Face, Surface, Use};
use crate::geom::{CenterLine, TOLERANCE, Tube};

/// The edges of one round wall, as places in the list of edges.
struct Wall {
    /// At each end the two half circles, the one on the +y side first.
    halves: [[usize; 2]; 2],
    /// The seams, the one toward the middle of the bend first.
    seams: [usize; 2],
}

pub(super) fn boundary(tube: &Tube) -> Brep {
    let mut brep = Brep::default();
    let hollow = tube.inner > TOLERANCE;
    if tube.center_line.length() <= TOLERANCE || tube.outer - tube.inner <= TOLERANCE {
        return brep;
    }
    let outer = wall(&mut brep, tube, tube.outer);
    faces_of_wall(&mut brep, tube, tube.outer, &outer, true);
    let inner = hollow.then(|| wall(&mut brep, tube, tube.inner));
    if let Some(inner) = &inner {
        faces_of_wall(&mut brep, tube, tube.inner, inner, false);
    }
    for end in [0, 1] {
        let face = end_face(tube, end, &outer, inner.as_ref());
        brep.faces.push(face);
    }
    brep
}

/// Middle, direction of travel, and the direction toward the middle of the bend, at an end.
fn station(tube: &Tube, end: usize) -> (DVec3, DVec3, DVec3) {
    let (center, along) = tube.center_line.at(end as f64);
    (center, along, DVec3::new(along.z, 0.0, -along.x))
}

/// Appends the vertices and edges of a round wall.
fn wall(brep: &mut Brep, tube: &Tube, radius: f64) -> Wall {
    let first = brep.vertices.len();
    let halves = [0, 1].map(|end| {
        let (center, axis, across) = station(tube, end);
        [across, -across].map(|start| {
            let from = brep.vertices.len();
            brep.vertices.push(center + start * radius);
            let to = if start == across { from + 1 } else { from - 1 };
            brep.edges.push(Edge {
                from,
                to,
                curve: Curve::Circle {
                    center,
                    axis,
                    start,
                    radius,
                },
            });
            brep.edges.len() - 1
        })
    });
    let seams = [0, 1].map(|side| {
        brep.edges.push(Edge {
            from: first + side,
            to: first + 2 + side,
            curve: seam(tube, radius, side),
        });
        brep.edges.len() - 1
    });
    Wall { halves, seams }
}

fn seam(tube: &Tube, radius: f64, side: usize) -> Curve {
    match tube.center_line {
        CenterLine::Segment { .. } => Curve::Line,
        CenterLine::Arc { radius: bend, .. } => Curve::Circle {
            center: DVec3::X * bend,
            axis: DVec3::Y,
            start: -DVec3::X,
            radius: if side == 0 {
                bend - radius
            } else {
                bend + radius
            },
        },
    }
}

/// Appends the two half faces of a round wall.
fn faces_of_wall(brep: &mut Brep, tube: &Tube, radius: f64, wall: &Wall, outward: bool) {
    let surface = match tube.center_line {
        CenterLine::Segment { .. } => Surface::Cylinder {
            origin: DVec3::ZERO,
            axis: DVec3::Z,
            reference: DVec3::X,
            radius,
        },
        CenterLine::Arc { radius: bend, .. } => Surface::Torus {
            center: DVec3::X * bend,
            axis: DVec3::Y,
            reference: -DVec3::X,
            major: bend,
            minor: radius,
        },
    };
    for half in [0, 1] {
        let ahead = [
            (wall.halves[0][half], true),
            (wall.seams[1 - half], true),
            (wall.halves[1][half], false),
            (wall.seams[half], false),
        ];
        brep.faces.push(Face {
            surface,
            outward,
            loops: vec![run(&ahead, outward)],
        });
    }
}

fn end_face(tube: &Tube, end: usize, outer: &Wall, inner: Option<&Wall>) -> Face {
    let (origin, axis, along) = station(tube, end);
    let circle = |wall: &Wall, ahead: bool| {
        let [first, second] = wall.halves[end];
        run(&[(first, true), (second, true)], ahead)
    };
    let mut loops = vec![circle(outer, end == 1)];
    loops.extend(inner.map(|wall| circle(wall, end == 0)));
    Face {
        surface: Surface::Plane {
            origin,
            normal: if end == 1 { axis } else { -axis },
            along,
        },
        outward: true,
        loops,
    }
}

/// A loop over these edges, or the same loop the other way round.
fn run(edges: &[(usize, bool)], ahead: bool) -> Vec<Use> {
    let uses = edges.iter().map(|&(edge, forward)| Use {
        edge,
        forward: forward == ahead,
    });
    if ahead {
        uses.collect()
    } else {
        uses.rev().collect()
    }
}
