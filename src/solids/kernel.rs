//! Boundaries and meshes in, the kernel's verdict on them out. The only file that talks to it.
//!
//! *Errors*: [`Fault`], for a boundary that the kernel does not take for one closed solid, and for a
//! mesh that is open or encloses no volume from the outside.

use glam::DVec3;
use truck_meshalgo::prelude::{
    CalcVolume, Faces, Point3, PolygonMesh, StandardAttributes, StandardVertex, Topology,
};
use truck_modeling::{ParametricSurface3D, builder};
use truck_topology::shell::ShellCondition;
use truck_topology::{Edge, Face, Shell, Solid, Vertex, Wire};

use super::Fault;
use super::brep::{self, Brep, Surface};
use crate::geom::{Mesh, TOLERANCE};

/// Has the kernel build a solid over a boundary.
///
/// # Errors
/// When the boundary is empty, open, inside out, or not the skin of one body.
pub(super) fn prove(brep: &Brep) -> Result<(), Fault> {
    if brep.faces.is_empty() {
        return Err(Fault::Empty);
    }
    let flat = |face: &brep::Face| matches!(face.surface, Surface::Plane { .. });
    if brep.faces.iter().all(flat) {
        built_by_kernel(brep)
    } else {
        held_by_kernel(brep)
    }
}

/// A plane-faced body, made by the kernel's own builder from nothing but its corners: the planes are
/// found a second time and have to look the same way.
fn built_by_kernel(brep: &Brep) -> Result<(), Fault> {
    // The builder finds a plane the more exactly the nearer it is to the origin.
    let count = brep.vertices.len() as f64;
    let middle = brep.vertices.iter().sum::<DVec3>() / count;
    let corners: Vec<truck_modeling::Vertex> = brep
        .vertices
        .iter()
        .map(|corner| builder::vertex(point(*corner - middle)))
        .collect();
    let lines = |edge: &brep::Edge| builder::line(&corners[edge.from], &corners[edge.to]);
    let edges: Vec<truck_modeling::Edge> = brep.edges.iter().map(lines).collect();
    let mut shell = truck_modeling::Shell::new();
    for face in &brep.faces {
        let plane = builder::try_attach_plane(&wires(face, &edges))
            .map_err(|error| Fault::Refused(error.to_string()))?;
        if let Surface::Plane { normal, .. } = face.surface
            && vector(plane.surface().normal(0.0, 0.0)).distance(normal) > TOLERANCE
        {
            return Err(Fault::InsideOut);
        }
        shell.push(plane);
    }
    closed(shell)
}

/// A body with round faces: the kernel has no such surfaces, so it judges how ours hang together.
fn held_by_kernel(brep: &Brep) -> Result<(), Fault> {
    let corners = Vertex::news(&brep.vertices);
    let edges = brep
        .edges
        .iter()
        .map(|edge| Edge::try_new(&corners[edge.from], &corners[edge.to], edge.curve));
    let edges = edges.collect::<Result<Vec<_>, _>>().map_err(refused)?;
    let faces = brep
        .faces
        .iter()
        .map(|face| Face::try_new(wires(face, &edges), face.surface));
    let shell: Shell<_, _, _> = faces
        .collect::<Result<Vec<_>, _>>()
        .map_err(refused)?
        .into();
    closed(shell)
}

/// The loops of a face over the kernel's edges.
fn wires<P, C>(face: &brep::Face, edges: &[Edge<P, C>]) -> Vec<Wire<P, C>> {
    let wires = face.loops.iter().map(|uses| {
        let used = uses.iter().filter_map(|used| {
            let edge = edges.get(used.edge)?;
            Some(if used.forward {
                edge.clone()
            } else {
                edge.inverse()
            })
        });
        used.collect()
    });
    wires.collect()
}

/// Whether a shell is the skin of one solid.
fn closed<P, C, S>(shell: Shell<P, C, S>) -> Result<(), Fault> {
    if shell.shell_condition() != ShellCondition::Closed {
        return Err(Fault::Open);
    }
    Solid::try_new(vec![shell]).map_err(refused)?;
    Ok(())
}

#[expect(clippy::needless_pass_by_value, reason = "it stands in `map_err`")]
fn refused(error: truck_topology::errors::Error) -> Fault {
    Fault::Refused(error.to_string())
}

fn point(point: DVec3) -> Point3 {
    Point3::new(point.x, point.y, point.z)
}

fn vector(vector: truck_modeling::Vector3) -> DVec3 {
    DVec3::new(vector.x, vector.y, vector.z)
}

/// The volume inside a mesh, in cubic millimetres, by the kernel's own reckoning.
///
/// # Errors
/// When the mesh is open or inside out.
pub(super) fn volume(mesh: &Mesh) -> Result<f64, Fault> {
    let positions = mesh.vertices.iter().map(|corner| point(*corner));
    let attributes = StandardAttributes {
        positions: positions.collect(),
        ..StandardAttributes::default()
    };
    let corner = |place: usize| StandardVertex::from((place, None, None));
    let triangles = mesh.triangles.iter().map(|t| t.corners.map(corner));
    let faces = Faces::from_tri_and_quad_faces(triangles.collect(), Vec::new());
    let polygons = PolygonMesh::try_new(attributes, faces)
        .map_err(|error| Fault::Refused(error.to_string()))?;
    if polygons.shell_condition() != ShellCondition::Closed {
        return Err(Fault::Open);
    }
    let volume = polygons.volume();
    if volume > 0.0 {
        Ok(volume)
    } else {
        Err(Fault::InsideOut)
    }
}
