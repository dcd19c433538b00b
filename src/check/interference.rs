//! A design in, every pair of parts out that are in one another.
//!
//! Touching is no clash. Parts of the room are not held against one another.

use glam::DVec3;

use super::sieve;
use crate::design::Design;
use crate::geom::{Mesh, common, overlap};
use crate::units::Length;

/// Two parts in the same place.
#[derive(Debug, Clone, PartialEq)]
pub struct Clash {
    /// Id of the part that comes first in the design.
    pub first: String,
    /// Id of the other.
    pub second: String,
    /// How far one has to be pushed out of the other; see [`crate::geom::Overlap::depth`].
    pub depth: Length,
    /// What they share, in cubic millimetres; see [`crate::geom::Overlap::volume`].
    pub volume: f64,
    /// Middle of the box that both have in common.
    pub location: DVec3,
}

/// Every pair of parts that overlap, in the order of the design.
pub fn interference(design: &Design) -> Vec<Clash> {
    let parts = &design.parts;
    let clash = |(a, b): (usize, usize)| {
        let (first, second) = (&parts[a], &parts[b]);
        let found = overlap(&first.body, &second.body)?;
        Some(Clash {
            first: first.id.clone(),
            second: second.id.clone(),
            depth: Length::mm(found.depth),
            volume: found.volume,
            location: first.body.bounds.common(&second.body.bounds).center(),
        })
    };
    sieve::pairs(parts).into_iter().filter_map(clash).collect()
}

/// What two parts both fill.
#[derive(Debug, Clone)]
pub struct Shared {
    /// Id of the part that comes first in the design.
    pub first: String,
    /// Id of the other.
    pub second: String,
    /// Its closed mesh in the world's frame; see [`common`].
    pub mesh: Mesh,
}

/// The body that each pair of overlapping parts has in common, in the order of the design.
pub fn shared(design: &Design) -> Vec<Shared> {
    let parts = &design.parts;
    let body = |(a, b): (usize, usize)| {
        let (first, second) = (&parts[a], &parts[b]);
        overlap(&first.body, &second.body)?;
        let mesh = common(&first.body, &second.body);
        (!mesh.triangles.is_empty()).then(|| Shared {
            first: first.id.clone(),
            second: second.id.clone(),
            mesh,
        })
    };
    sieve::pairs(parts).into_iter().filter_map(body).collect()
}
