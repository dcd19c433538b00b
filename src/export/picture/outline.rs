//! A mesh in, its edges with the two triangles beside each out: what lines are drawn from.

use crate::geom::{Mesh, Triangle};

/// An edge between two triangles.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ridge {
    /// Its ends, as places in the mesh's vertices.
    pub(super) ends: [usize; 2],
    /// The triangles beside it, as places in the mesh's triangles.
    pub(super) beside: [usize; 2],
    /// Whether the surface turns sharply there.
    pub(super) crisp: bool,
}

/// One side of one triangle.
#[derive(Debug, Clone, Copy, Default)]
struct TriangleSide {
    high: usize,
    triangle: usize,
}

/// Every edge of a closed mesh.
pub(super) fn ridges(mesh: &Mesh) -> Vec<Ridge> {
    let (starts, sides) = sides(mesh);
    let mut found = Vec::with_capacity(sides.len() / 2);
    for (low, range) in starts.windows(2).enumerate() {
        let around = &sides[range[0]..range[1]];
        for (place, side) in around.iter().enumerate() {
            let mut rest = around[place + 1..].iter();
            if let Some(other) = rest.find(|other| other.high == side.high) {
                let beside = [side.triangle, other.triangle];
                let [a, b] = beside.map(|triangle| &mesh.triangles[triangle]);
                let turns = |corner| normal_at(a, corner) != normal_at(b, corner);
                found.push(Ridge {
                    ends: [low, side.high],
                    beside,
                    crisp: turns(low) || turns(side.high),
                });
            }
        }
    }
    found
}

/// The sides of all triangles by their lower corner, and where each corner's sides start.
fn sides(mesh: &Mesh) -> (Vec<usize>, Vec<TriangleSide>) {
    let all = || {
        let numbered = mesh.triangles.iter().enumerate();
        numbered.flat_map(|(triangle, Triangle { corners, .. })| {
            [[0, 1], [1, 2], [2, 0]].map(|[a, b]| {
                let (a, b) = (corners[a], corners[b]);
                let high = a.max(b);
                (a.min(b), TriangleSide { high, triangle })
            })
        })
    };
    let mut starts = vec![0; mesh.vertices.len() + 1];
    for (low, _) in all() {
        starts[low + 1] += 1;
    }
    for place in 1..starts.len() {
        starts[place] += starts[place - 1];
    }
    let mut next = starts.clone();
    let mut sides = vec![TriangleSide::default(); mesh.triangles.len() * 3];
    for (low, side) in all() {
        sides[next[low]] = side;
        next[low] += 1;
    }
    (starts, sides)
}

fn normal_at(triangle: &Triangle, vertex: usize) -> Option<usize> {
    let corner = triangle
        .corners
        .iter()
        .position(|corner| *corner == vertex)?;
    Some(triangle.normals[corner])
}
