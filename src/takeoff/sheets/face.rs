//! The face of a sheet part, and the limits of an outline on it.

use glam::{DVec2, DVec3};

use crate::geom::Profile;

/// The face of a sheet part: its outline, and the directions of that in the part's own frame.
pub(super) struct Face {
    pub(super) profile: Profile,
    pub(super) across: DVec3,
    pub(super) up: DVec3,
    /// Where the outline's own zero lies.
    pub(super) origin: DVec3,
}

pub(super) fn limits(corners: &[DVec2]) -> (DVec2, DVec2) {
    corners
        .iter()
        .fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), it| {
            (low.min(*it), high.max(*it))
        })
}
