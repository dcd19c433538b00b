//! The ways out of a clearance volume.

use glam::DVec3;

/// A way out of a clearance volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Direction {
    /// Along this unit vector of the world.
    Along(DVec3),
    /// Away from the centre line of a tube, square to it.
    Radial,
}
