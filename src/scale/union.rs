//! Meshes that touch in, closed bodies out. The only file that talks to the mesh library.
//!
//! *Units*: millimetres at full size. Bodies that only touch do not stay one through the 32 bits of a
//! printer's file, so each is grown a little first, each by another amount: 0.3 mm and more at full size.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use boolmesh::prelude::{Manifold, OpType, compute_boolean};
use glam::DVec3;

use super::ScaleError;
use super::figure::around;
use super::flat::divided_anew;
use crate::geom::{Bounds, Mesh, Shape, Swept, Triangle};
use crate::units::Length;

/// By how much the first body grows on each side, and by how much more the next, in millimetres.
const GROWTH: [f64; 2] = [0.3, 0.004];

/// The bodies that meshes become, one for each group that touches.
pub(super) fn bodies<'a>(
    name: &str,
    meshes: impl IntoIterator<Item = &'a Mesh>,
) -> Result<Vec<Mesh>, ScaleError> {
    bodies_without(name, meshes, &[])
}

/// The same with boxes taken out of them, which must not touch each other.
pub(super) fn bodies_without<'a>(
    name: &str,
    meshes: impl IntoIterator<Item = &'a Mesh>,
    boxes: &[Bounds],
) -> Result<Vec<Mesh>, ScaleError> {
    let failed = |error: String| ScaleError::Union(name.to_owned(), error);
    let mut level = Vec::new();
    for (number, mesh) in meshes.into_iter().enumerate() {
        let grown = grown(mesh, GROWTH[0] + GROWTH[1] * number as f64);
        level.push(manifold(&grown).map_err(failed)?);
    }
    // In pairs, so that every body goes through few unions.
    while level.len() > 1 {
        let mut next = Vec::new();
        let mut rest = level.into_iter();
        while let Some(first) = rest.next() {
            next.push(match rest.next() {
                Some(second) => made(&first, &second, OpType::Add).map_err(failed)?,
                None => first,
            });
        }
        level = next;
    }
    let Some(mut whole) = level.pop() else {
        return Ok(Vec::new());
    };
    if !boxes.is_empty() {
        let mut taken = Mesh::default();
        for it in boxes {
            add(&mut taken, block(it));
        }
        let taken = manifold(&taken).map_err(failed)?;
        whole = made(&whole, &taken, OpType::Subtract).map_err(failed)?;
    }
    Ok(shells(&whole))
}

fn block(bounds: &Bounds) -> Mesh {
    let [x, y, z] = bounds.size().to_array().map(Length::mm);
    let mesh = Mesh::new(&Shape::Swept(Swept::block(x, y, z)), Mesh::CHORD_ERROR);
    let shift = bounds.low - around(&mesh).low;
    mesh.scaled(1.0, shift)
}

/// What becomes of two bodies. The library's order of corners, and how it divides flat faces, changes
/// from run to run, so both are made anew before they go on.
fn made(first: &Manifold, second: &Manifold, how: OpType) -> Result<Manifold, String> {
    let joined = compute_boolean(first, second, how)?;
    let mut order: Vec<usize> = (0..joined.ps.len()).collect();
    let key = |place: &usize| joined.ps[*place].to_array();
    order.sort_by(|a, b| {
        let pairs = key(a).into_iter().zip(key(b));
        pairs.fold(Ordering::Equal, |order, (a, b)| order.then(a.total_cmp(&b)))
    });
    let mut places = vec![0; order.len()];
    for (place, old) in order.iter().enumerate() {
        places[*old] = place;
    }
    let triangles: Vec<[usize; 3]> = joined
        .hs
        .chunks_exact(3)
        .map(|half| [half[0].tail, half[1].tail, half[2].tail].map(|it| places[it]))
        .collect();
    let points: Vec<DVec3> = order.iter().map(|it| DVec3::from(key(it))).collect();
    let positions: Vec<f64> = points.iter().flat_map(DVec3::to_array).collect();
    let corners: Vec<usize> = divided_anew(&points, &triangles)
        .into_iter()
        .flatten()
        .collect();
    Manifold::new(&positions, &corners)
}

fn grown(mesh: &Mesh, by: f64) -> Mesh {
    let bounds = around(mesh);
    let middle = (bounds.low + bounds.high) / 2.0;
    let half = (bounds.high - bounds.low) / 2.0;
    let factor = (half + DVec3::splat(by)) / half;
    let mut mesh = mesh.clone();
    for corner in &mut mesh.vertices {
        *corner = middle + (*corner - middle) * factor;
    }
    mesh
}

fn manifold(mesh: &Mesh) -> Result<Manifold, String> {
    let positions: Vec<f64> = mesh.vertices.iter().flat_map(DVec3::to_array).collect();
    let corners: Vec<usize> = mesh.triangles.iter().flat_map(|it| it.corners).collect();
    Manifold::new(&positions, &corners)
}

/// The shells of a mesh, each as a mesh with flat normals, in the order of their first corner.
fn shells(whole: &Manifold) -> Vec<Mesh> {
    let mut group: Vec<usize> = (0..whole.ps.len()).collect();
    let triangles: Vec<[usize; 3]> = whole
        .hs
        .chunks_exact(3)
        .map(|half| [half[0].tail, half[1].tail, half[2].tail])
        .collect();
    for [a, b, c] in &triangles {
        for other in [b, c] {
            let (first, second) = (root(&mut group, *a), root(&mut group, *other));
            group[first.max(second)] = first.min(second);
        }
    }
    let mut parts: BTreeMap<usize, (Mesh, BTreeMap<usize, usize>)> = BTreeMap::new();
    for triangle in triangles {
        let (mesh, places) = parts.entry(root(&mut group, triangle[0])).or_default();
        let corners = triangle.map(|corner| {
            *places.entry(corner).or_insert_with(|| {
                let point = whole.ps[corner];
                mesh.vertices.push(DVec3::new(point.x, point.y, point.z));
                mesh.vertices.len() - 1
            })
        });
        let [a, b, c] = corners.map(|corner| mesh.vertices[corner]);
        mesh.normals.push((b - a).cross(c - a).normalize_or_zero());
        let normals = [mesh.normals.len() - 1; 3];
        mesh.triangles.push(Triangle { corners, normals });
    }
    with_hollows(parts.into_values().map(|(mesh, _)| mesh))
}

/// Outer shells, each with the hollows in it: a shell that is inside out bounds a hollow of the smallest
/// body round it.
fn with_hollows(shells: impl Iterator<Item = Mesh>) -> Vec<Mesh> {
    let (mut outer, hollows): (Vec<Mesh>, Vec<Mesh>) = shells.partition(|it| it.volume() > 0.0);
    for hollow in hollows {
        let inner = around(&hollow);
        let holds = |it: &&mut Mesh| {
            let bounds = around(it);
            bounds.low.cmple(inner.low).all() && inner.high.cmple(bounds.high).all()
        };
        let body = outer.iter_mut().filter(holds);
        if let Some(body) = body.min_by(|a, b| a.volume().total_cmp(&b.volume())) {
            add(body, hollow);
        }
    }
    outer
}

/// Adds the faces of a mesh to another's.
fn add(mesh: &mut Mesh, other: Mesh) {
    let (corners, normals) = (mesh.vertices.len(), mesh.normals.len());
    mesh.vertices.extend(other.vertices);
    mesh.normals.extend(other.normals);
    let moved = other.triangles.into_iter().map(|it| Triangle {
        corners: it.corners.map(|place| place + corners),
        normals: it.normals.map(|place| place + normals),
    });
    mesh.triangles.extend(moved);
}

fn root(group: &mut [usize], mut place: usize) -> usize {
    while group[place] != place {
        group[place] = group[group[place]];
        place = group[place];
    }
    place
}
