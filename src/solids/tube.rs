//! A tube in, its boundary out: half cylinders or half tori between two flat ends.
//!
//! *Frame*: the tube's own. Each end circle is cut at two points, on the line that points at the
//! middle of the bend, so the seams between the halves of a bend are circles about that middle.

use std::f64::consts::{PI, TAU};

use glam::{DVec2, DVec3};

use super::brep::{Brep, Curve, Edge, Face, Surface, Trace, Use};
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

/// The wall that a bar leaves in what it was bored out of, and its two rims as the faces there have them.
pub(super) fn bore(bar: &Tube) -> (Brep, [Vec<Use>; 2]) {
    let mut brep = Brep::default();
    let hole = wall(&mut brep, bar, bar.outer);
    faces_of_wall(&mut brep, bar, bar.outer, &hole, false);
    let rims = [0, 1].map(|end| circle(&hole, end, end == 0));
    (brep, rims)
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
            (wall.halves[0][half], true, circle_trace(tube, half, 0)),
            (wall.seams[1 - half], true, seam_trace(tube, half, 1 - half)),
            (wall.halves[1][half], false, circle_trace(tube, half, 1)),
            (wall.seams[half], false, seam_trace(tube, half, half)),
        ];
        let ahead = ahead.map(|(edge, forward, trace)| Use {
            edge,
            forward,
            trace: Some(trace),
        });
        brep.faces.push(Face {
            surface,
            outward,
            loops: vec![run(&ahead, outward)],
        });
    }
}

/// The half circle at an end, on the half face that it bounds.
fn circle_trace(tube: &Tube, half: usize, end: usize) -> Trace {
    let (half, end) = (half as f64, end as f64);
    match tube.center_line {
        CenterLine::Segment { length } => Trace {
            start: DVec2::new(PI * half, length * end),
            way: DVec2::X,
        },
        // Round the tube a torus counts from its outermost circle, and the other way about.
        CenterLine::Arc { angle, .. } => Trace {
            start: DVec2::new(angle * end, PI * (1.0 + half)),
            way: DVec2::NEG_Y,
        },
    }
}

/// A seam on one of the two half faces that it parts.
fn seam_trace(tube: &Tube, half: usize, seam: usize) -> Trace {
    let full = if half == 1 { TAU } else { 0.0 };
    match tube.center_line {
        CenterLine::Segment { .. } => Trace {
            start: DVec2::new(if seam == 0 { full } else { PI }, 0.0),
            way: DVec2::Y,
        },
        CenterLine::Arc { .. } => Trace {
            start: DVec2::new(0.0, if seam == 0 { PI } else { full }),
            way: DVec2::X,
        },
    }
}

fn end_face(tube: &Tube, end: usize, outer: &Wall, inner: Option<&Wall>) -> Face {
    let (origin, axis, along) = station(tube, end);
    let mut loops = vec![circle(outer, end, end == 1)];
    loops.extend(inner.map(|wall| circle(wall, end, end == 0)));
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

/// The circle at an end of a wall.
fn circle(wall: &Wall, end: usize, ahead: bool) -> Vec<Use> {
    let uses = wall.halves[end].map(|edge| Use {
        edge,
        forward: true,
        trace: None,
    });
    run(&uses, ahead)
}

/// A loop over these edges, or the same loop the other way round.
fn run(uses: &[Use], ahead: bool) -> Vec<Use> {
    let uses = uses.iter().map(|used| Use {
        forward: used.forward == ahead,
        ..*used
    });
    if ahead {
        uses.collect()
    } else {
        uses.rev().collect()
    }
}
