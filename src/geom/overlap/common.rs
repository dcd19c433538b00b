//! Two bodies in, the mesh of what both fill out.
//!
//! *Units and frame*: millimetres, in the world's frame. The mesh is one closed shell for each pair of
//! convex pieces. Flat faces are exact; a tube has facets inscribed in its outside; bores are filled.

use glam::DVec3;

use super::polyhedra::depth;
use super::tubes::walls;
use crate::geom::{Body, Convex, Mesh, Shape, TOLERANCE, Triangle};

/// The mesh of what two bodies have in common; empty when they are apart or only touch.
pub fn common(first: &Body, second: &Body) -> Mesh {
    let mut mesh = Mesh::default();
    let others = pieces(second);
    for a in pieces(first) {
        for b in others.iter().filter(|b| a.bounds.touches(&b.bounds)) {
            if depth(&a, b) <= TOLERANCE {
                continue;
            }
            let mut rest = b.faces.iter();
            let rest = rest.try_fold(a.clone(), |rest, face| rest.clip(&face.plane));
            if let Some(shared) = rest {
                add(&mut mesh, &shared);
            }
        }
    }
    mesh
}

fn pieces(body: &Body) -> Vec<Convex> {
    match &body.shape {
        Shape::Swept(_) => body.pieces.clone(),
        Shape::Tube(tube) => walls((tube, &body.frame)),
    }
}

/// Appends a convex body as a closed shell.
fn add(mesh: &mut Mesh, body: &Convex) {
    let first = mesh.vertices.len();
    mesh.vertices.extend(&body.vertices);
    for face in &body.faces {
        // A face on one line, as on the inside of a tight bend, looks no way; the shell needs it, and a writer a unit.
        mesh.normals.push(face.plane.normal.normalize_or(DVec3::Z));
        let normals = [mesh.normals.len() - 1; 3];
        for pair in face.corners[1..].windows(2) {
            let corners = [face.corners[0], pair[0], pair[1]].map(|corner| first + corner);
            mesh.triangles.push(Triangle { corners, normals });
        }
    }
    let edges = body.edges.iter();
    mesh.edges
        .extend(edges.map(|edge| edge.map(|end| first + end)));
}
