//! A boundary in, its topology and geometry as STEP entities out.

use super::Context;
use super::text::{Id, Text};
use crate::solids::{Brep, Curve, Edge, Surface, Trace, Use};

/// Adds a solid; its name is already in quotes.
pub(super) fn solid(text: &mut Text, context: &Context, brep: &Brep, name: &str) -> Id {
    let points: Vec<Id> = brep.vertices.iter().map(|v| text.point(*v)).collect();
    let vertices: Vec<Id> = points
        .iter()
        .map(|point| {
            let id = text.begin("VERTEX_POINT('',");
            text.id(*point).put(")").end();
            id
        })
        .collect();
    let surfaces: Vec<Id> = brep
        .faces
        .iter()
        .map(|face| add_surface(text, &face.surface))
        .collect();
    let traces = add_traces(text, context, brep, &surfaces);
    let mut edges = Vec::new();
    for (edge, traces) in brep.edges.iter().zip(&traces) {
        let curve = add_curve(text, brep, edge, &points);
        let curve = trace_curve(text, curve, traces);
        let id = text.begin("EDGE_CURVE('',");
        text.id(vertices[edge.from]).put(",").id(vertices[edge.to]);
        text.put(",").id(curve).put(",.T.)").end();
        edges.push(id);
    }
    let mut faces = Vec::new();
    for (face, surface) in brep.faces.iter().zip(&surfaces) {
        let bounds = add_bounds(text, &face.loops, &edges);
        let id = text.begin("ADVANCED_FACE('',");
        text.list(&bounds).put(",").id(*surface);
        text.put(if face.outward { ",.T.)" } else { ",.F.)" }).end();
        faces.push(id);
    }
    let shell = text.begin("CLOSED_SHELL('',");
    text.list(&faces).put(")").end();
    let solid = text.begin("MANIFOLD_SOLID_BREP(");
    text.put(name).put(",").id(shell).put(")").end();
    solid
}

/// For every edge its traces on the round faces beside it, without which some kernels take such a
/// face only after a repair.
fn add_traces(text: &mut Text, context: &Context, brep: &Brep, surfaces: &[Id]) -> Vec<Vec<Id>> {
    let mut traces = vec![Vec::new(); brep.edges.len()];
    for (face, surface) in brep.faces.iter().zip(surfaces) {
        for used in face.loops.iter().flatten() {
            if let Some(trace) = &used.trace {
                let trace = add_trace(text, context, trace, &face.surface, *surface);
                traces[used.edge].push(trace);
            }
        }
    }
    traces
}

fn add_trace(
    text: &mut Text,
    context: &Context,
    trace: &Trace,
    lies_in: &Surface,
    surface: Id,
) -> Id {
    let start = text.begin("CARTESIAN_POINT('',(");
    text.fine(trace.start.x).put(",");
    // Along a cylinder the second coordinate is a length, round a torus it is an angle.
    match lies_in {
        Surface::Cylinder { .. } => text.length(trace.start.y),
        Surface::Plane { .. } | Surface::Torus { .. } => text.fine(trace.start.y),
    };
    text.put("))").end();
    let way = text.begin("DIRECTION('',(");
    text.fine(trace.way.x)
        .put(",")
        .fine(trace.way.y)
        .put("))")
        .end();
    let vector = text.begin("VECTOR('',");
    text.id(way).put(",1.)").end();
    let line = text.begin("LINE('',");
    text.id(start).put(",").id(vector).put(")").end();
    let representation = text.begin("DEFINITIONAL_REPRESENTATION('',");
    text.list(&[line])
        .put(",")
        .id(context.surface)
        .put(")")
        .end();
    let id = text.begin("PCURVE('',");
    text.id(surface).put(",").id(representation).put(")").end();
    id
}

/// A curve together with its traces, if it has any.
fn trace_curve(text: &mut Text, curve: Id, traces: &[Id]) -> Id {
    if traces.is_empty() {
        return curve;
    }
    let id = text.begin("SURFACE_CURVE('',");
    text.id(curve)
        .put(",")
        .list(traces)
        .put(",.CURVE_3D.)")
        .end();
    id
}

fn add_curve(text: &mut Text, brep: &Brep, edge: &Edge, points: &[Id]) -> Id {
    match edge.curve {
        Curve::Line => {
            let along = (brep.vertices[edge.to] - brep.vertices[edge.from]).normalize_or_zero();
            let direction = text.direction(along);
            let vector = text.begin("VECTOR('',");
            text.id(direction).put(",1.)").end();
            let line = text.begin("LINE('',");
            text.id(points[edge.from])
                .put(",")
                .id(vector)
                .put(")")
                .end();
            line
        }
        Curve::Circle {
            center,
            axis,
            start,
            radius,
        } => {
            let frame = text.frame(center, axis, start);
            let circle = text.begin("CIRCLE('',");
            text.id(frame).put(",").length(radius).put(")").end();
            circle
        }
    }
}

/// The first loop is the outline.
fn add_bounds(text: &mut Text, loops: &[Vec<Use>], edges: &[Id]) -> Vec<Id> {
    let mut bounds = Vec::new();
    for (place, uses) in loops.iter().enumerate() {
        let mut oriented = Vec::new();
        for used in uses {
            let id = text.begin("ORIENTED_EDGE('',*,*,");
            text.id(edges[used.edge]);
            text.put(if used.forward { ",.T.)" } else { ",.F.)" }).end();
            oriented.push(id);
        }
        let edge_loop = text.begin("EDGE_LOOP('',");
        text.list(&oriented).put(")").end();
        let bound = text.begin(if place == 0 {
            "FACE_OUTER_BOUND('',"
        } else {
            "FACE_BOUND('',"
        });
        text.id(edge_loop).put(",.T.)").end();
        bounds.push(bound);
    }
    bounds
}

fn add_surface(text: &mut Text, surface: &Surface) -> Id {
    match *surface {
        Surface::Plane {
            origin,
            normal,
            along,
        } => {
            let frame = text.frame(origin, normal, along);
            let id = text.begin("PLANE('',");
            text.id(frame).put(")").end();
            id
        }
        Surface::Cylinder {
            origin,
            axis,
            reference,
            radius,
        } => {
            let frame = text.frame(origin, axis, reference);
            let id = text.begin("CYLINDRICAL_SURFACE('',");
            text.id(frame).put(",").length(radius).put(")").end();
            id
        }
        Surface::Torus {
            center,
            axis,
            reference,
            major,
            minor,
        } => {
            let frame = text.frame(center, axis, reference);
            let id = text.begin("TOROIDAL_SURFACE('',");
            text.id(frame)
                .put(",")
                .length(major)
                .put(",")
                .length(minor)
                .put(")")
                .end();
            id
        }
    }
}
