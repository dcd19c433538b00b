//! Boundaries and meshes in, the kernel's verdict on them out. The only file that talks to it.
//!
//! *Errors*: [`Fault`], for a boundary that the kernel does not take for one closed solid, and for a
//! mesh that is open or encloses no volume from the outside.

use glam::DVec3;
use truck_meshalgo::prelude::{
    CalcVolume, Faces, Point3, PolygonMesh, StandardAttributes, StandardVertex, Topology,
};
use truck_topology::shell::ShellCondition;
use truck_topology::{Edge, Face, Shell, Solid, Vertex, Wire};

use super::Fault;
use super::brep::{Brep, Curve, Surface};
use crate::geom::Mesh;

/// The kernel's own solid over a boundary.
///
/// # Errors
/// When the boundary is empty, open, or not the skin of one body.
pub(super) fn solid(brep: &Brep) -> Result<Solid<DVec3, Curve, Surface>, Fault> {
    if brep.faces.is_empty() {
        return Err(Fault::Empty);
    }
    let refused = |error: truck_topology::errors::Error| Fault::Refused(error.to_string());
    let vertices = Vertex::news(&brep.vertices);
    let edges = brep
        .edges
        .iter()
        .map(|edge| Edge::try_new(&vertices[edge.from], &vertices[edge.to], edge.curve));
    let edges = edges.collect::<Result<Vec<_>, _>>().map_err(refused)?;
    let faces = brep.faces.iter().map(|face| {
        let wires = face.loops.iter().map(|uses| {
            let used = uses.iter().filter_map(|used| {
                let edge = edges.get(used.edge)?;
                Some(if used.forward {
                    edge.clone()
                } else {
                    edge.inverse()
                })
            });
            used.collect::<Wire<_, _>>()
        });
        Face::try_new(wires.collect(), face.surface)
    });
    let shell: Shell<_, _, _> = faces
        .collect::<Result<Vec<_>, _>>()
        .map_err(refused)?
        .into();
    if shell.shell_condition() != ShellCondition::Closed {
        return Err(Fault::Open);
    }
    Solid::try_new(vec![shell]).map_err(refused)
}

/// The volume inside a mesh, in cubic millimetres, by the kernel's own reckoning.
///
/// # Errors
/// When the mesh is open or inside out.
pub(super) fn volume(mesh: &Mesh) -> Result<f64, Fault> {
    let positions = mesh.vertices.iter().map(|v| Point3::new(v.x, v.y, v.z));
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
