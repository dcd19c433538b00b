//! The whole model of one chase.

use std::sync::Arc;

use glam::DVec3;

use super::branch::Branch;
use super::packing::Packing;
use super::part::{Clearance, Kind, Note, Part};
use super::{unit, vent};
use crate::layout::Layout;
use crate::params::Params;
use crate::units::Length;

/// The whole model of one chase.
#[derive(Debug, Clone)]
pub struct Design {
    /// The parameters that it was made from.
    pub params: Arc<Params>,
    /// The numbers that it follows from.
    pub layout: Layout,
    /// Every physical thing, the room included.
    pub parts: Vec<Part>,
    /// Every clearance volume.
    pub clearances: Vec<Clearance>,
    /// What was done otherwise than asked.
    pub notes: Vec<Note>,
    /// What is packed or scribed where the room is not as it is drawn.
    pub packing: Vec<Packing>,
}

impl Design {
    /// The first part of a kind; `None` where there is none, or where it was left out.
    pub fn first(&self, kind: Kind) -> Option<&Part> {
        self.parts.iter().find(|it| it.kind == kind)
    }

    /// The first part of a kind on a wall, or on another branch.
    pub fn first_on(&self, branch: impl Into<Branch>, kind: Kind) -> Option<&Part> {
        let branch = branch.into();
        let mut own = self.parts.iter().filter(|it| it.branch == branch);
        own.find(|it| it.kind == kind)
    }

    /// The id of the part of the ceiling that lies over a place.
    pub fn ceiling_over(&self, place: DVec3) -> String {
        let (layout, out) = (&self.layout, Length::mm(-place.y));
        let is_own = layout.site.ceiling_behind.is_some();
        if is_own && layout.ceiling_to(out) == &layout.ceiling_behind {
            return format!("{}/{}/1", Branch::Behind, Kind::Ceiling.name());
        }
        let plane = layout.ceiling.plane_at(place.truncate());
        format!("{}/{}/{}", Branch::Room, Kind::Ceiling.name(), plane + 1)
    }

    /// Where the vent's joints lie on its middle line, the collar's first.
    pub fn vent_joints(&self) -> Vec<DVec3> {
        let collar = unit::collar_height(&self.layout);
        vent::joints(&self.params, &self.layout.path, collar)
    }
}
