//! A boundary in, its topology and geometry as STEP entities out.

use super::text::{Id, Text};
use crate::solids::{Brep, Curve, Edge, Surface};

/// Adds a solid; its name is already in quotes.
pub(super) fn solid(text: &mut Text, brep: &Brep, name: &str) -> Id {
    let points: Vec<Id> = brep.vertices.iter().map(|v| text.point(*v)).collect();
    let vertices: Vec<Id> = points
        .iter()
        .map(|point| {
            let id = text.begin("VERTEX_POINT('',");
            text.id(*point).put(")").end();
            id
        })
        .collect();
    let edges: Vec<Id> = brep
        .edges
        .iter()
        .map(|edge| add_edge(text, brep, edge, &points, &vertices))
        .collect();
    let faces: Vec<Id> = brep
        .faces
        .iter()
        .map(|face| {
            let bounds = add_bounds(text, &face.loops, &edges);
            let surface = add_surface(text, &face.surface);
            let id = text.begin("ADVANCED_FACE('',");
            text.list(&bounds).put(",").id(surface);
            text.put(if face.outward { ",.T.)" } else { ",.F.)" }).end();
            id
        })
        .collect();
    let shell = text.begin("CLOSED_SHELL('',");
    text.list(&faces).put(")").end();
    let solid = text.begin("MANIFOLD_SOLID_BREP(");
    text.put(name).put(",").id(shell).put(")").end();
    solid
}

fn add_edge(text: &mut Text, brep: &Brep, edge: &Edge, points: &[Id], vertices: &[Id]) -> Id {
    let curve = match edge.curve {
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
    };
    let id = text.begin("EDGE_CURVE('',");
    text.id(vertices[edge.from]).put(",").id(vertices[edge.to]);
    text.put(",").id(curve).put(",.T.)").end();
    id
}

/// The first loop is the outline.
fn add_bounds(text: &mut Text, loops: &[Vec<crate::solids::Use>], edges: &[Id]) -> Vec<Id> {
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
