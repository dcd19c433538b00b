//! An exact shape in, its boundary of true planes, cylinders, tori, lines and circles out.
//!
//! *Units and frame*: millimetres, in the shape's own frame. Loops run counter-clockwise round their
//! face as seen from outside the body. A round wall is two half faces, so that no face meets itself.
//!
//! *Errors*: none. A shape without volume has no faces.

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use super::tube;
use crate::geom::{Faceted, Frame, Shape, Swept, edges};

/// What an edge runs along.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Curve {
    /// A straight line between the edge's ends.
    Line,
    /// Part of a circle, counter-clockwise about its axis.
    Circle {
        /// Middle of the circle.
        center: DVec3,
        /// Unit vector square to the circle's plane.
        axis: DVec3,
        /// Unit vector from the middle to the edge's start.
        start: DVec3,
        /// Radius in millimetres.
        radius: f64,
    },
}

/// What a face lies in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// A plane; its normal points out of the body.
    Plane {
        /// A point of it.
        origin: DVec3,
        /// Unit vector square to it.
        normal: DVec3,
        /// Unit vector in it.
        along: DVec3,
    },
    /// A cylinder; its normal points away from its axis.
    Cylinder {
        /// A point of its axis.
        origin: DVec3,
        /// Unit vector along its axis.
        axis: DVec3,
        /// Unit vector square to the axis, where turning starts.
        reference: DVec3,
        /// Radius in millimetres.
        radius: f64,
    },
    /// A torus; its normal points away from the circle that its tube runs along.
    Torus {
        /// Its middle.
        center: DVec3,
        /// Unit vector along its axis.
        axis: DVec3,
        /// Unit vector square to the axis, where turning starts.
        reference: DVec3,
        /// Radius in millimetres of the circle that its tube runs along.
        major: f64,
        /// Radius in millimetres of its tube.
        minor: f64,
    },
}

/// An edge between two vertices.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Where it starts, as a place in [`Brep::vertices`].
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// What it runs along.
    pub curve: Curve,
}

/// An edge as a loop uses it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// The place in [`Brep::edges`].
    pub edge: usize,
    /// Whether the loop runs from the edge's start to its end.
    pub forward: bool,
    /// On a round face, the edge in the surface's own coordinates.
    pub trace: Option<Trace>,
}

/// A straight line in a surface's own coordinates, at the pace of the edge's curve: a turn about the
/// surface's axis, then the way along a cylinder's axis or the turn round a torus's tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trace {
    /// Where the edge's curve starts.
    pub start: DVec2,
    /// Unit vector of its way.
    pub way: DVec2,
}

/// A face of a body.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// What it lies in.
    pub surface: Surface,
    /// Whether the surface's own normal points out of the body.
    pub outward: bool,
    /// The outline, then each opening.
    pub loops: Vec<Vec<Use>>,
}

/// The whole boundary of a body.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Brep {
    /// Where edges meet.
    pub vertices: Vec<DVec3>,
    /// Every edge once.
    pub edges: Vec<Edge>,
    /// Every face.
    pub faces: Vec<Face>,
}

impl Brep {
    /// The boundary of a shape.
    pub fn new(shape: &Shape) -> Self {
        match shape {
            Shape::Swept(swept) => planar(swept),
            Shape::Tube(tube) => tube::boundary(tube),
        }
    }

    /// Appends another boundary, given in a frame.
    fn join(&mut self, other: Self, frame: &Frame) {
        let (vertices, edges) = (self.vertices.len(), self.edges.len());
        let placed = other.vertices.iter().map(|it| frame.point(*it));
        self.vertices.extend(placed);
        self.edges.extend(other.edges.into_iter().map(|it| Edge {
            from: vertices + it.from,
            to: vertices + it.to,
            curve: it.curve.placed(frame),
        }));
        self.faces.extend(other.faces.into_iter().map(|mut it| {
            for used in it.loops.iter_mut().flatten() {
                used.edge += edges;
            }
            it.surface = it.surface.placed(frame);
            it
        }));
    }
}

impl Curve {
    fn placed(self, frame: &Frame) -> Self {
        match self {
            Self::Line => self,
            Self::Circle {
                center,
                axis,
                start,
                radius,
            } => Self::Circle {
                center: frame.point(center),
                axis: frame.vector(axis),
                start: frame.vector(start),
                radius,
            },
        }
    }
}

impl Surface {
    fn placed(self, frame: &Frame) -> Self {
        let (point, vector) = (|it| frame.point(it), |it| frame.vector(it));
        match self {
            Self::Plane {
                origin,
                normal,
                along,
            } => Self::Plane {
                origin: point(origin),
                normal: vector(normal),
                along: vector(along),
            },
            Self::Cylinder {
                origin,
                axis,
                reference,
                radius,
            } => Self::Cylinder {
                origin: point(origin),
                axis: vector(axis),
                reference: vector(reference),
                radius,
            },
            Self::Torus {
                center,
                axis,
                reference,
                major,
                minor,
            } => Self::Torus {
                center: point(center),
                axis: vector(axis),
                reference: vector(reference),
                major,
                minor,
            },
        }
    }
}

fn planar(swept: &Swept) -> Brep {
    let body = Faceted::new(swept);
    let ends = body.edges();
    let places: BTreeMap<[usize; 2], usize> =
        ends.iter().enumerate().map(|(i, e)| (*e, i)).collect();
    let loop_uses = |corners: &Vec<usize>| -> Vec<Use> {
        let uses = edges(corners).map(|(a, b)| Use {
            edge: places
                .get(&[a.min(b), a.max(b)])
                .copied()
                .unwrap_or(usize::MAX),
            forward: a < b,
            trace: None,
        });
        uses.collect()
    };
    let faces = body.facets.iter().map(|facet| {
        let outline = &facet.loops[0];
        let origin = body.vertices[outline[0]];
        Face {
            surface: Surface::Plane {
                origin,
                normal: facet.normal,
                along: (body.vertices[outline[1]] - origin).normalize(),
            },
            outward: true,
            loops: facet.loops.iter().map(loop_uses).collect(),
        }
    });
    let edges = ends.iter().map(|[from, to]| Edge {
        from: *from,
        to: *to,
        curve: Curve::Line,
    });
    let mut brep = Brep {
        faces: faces.collect(),
        edges: edges.collect(),
        vertices: body.vertices.clone(),
    };
    for bore in &swept.bores {
        let (bar, frame) = bore.bar();
        let (wall, rims) = tube::bore(&bar);
        let known = brep.edges.len();
        brep.join(wall, &frame);
        for (way, rim) in [-frame.z, frame.z].into_iter().zip(rims) {
            let rim = rim.into_iter().map(|used| Use {
                edge: known + used.edge,
                ..used
            });
            if let Some(face) = body.facing(way) {
                brep.faces[face].loops.push(rim.collect());
            }
        }
    }
    brep
}
