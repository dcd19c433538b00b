//! Params in, Design out: every part, clearance volume and note, named and placed. Pure, and it cannot fail.
//!
//! What [`Params`] accepts is built; what is unwise becomes a finding later, and what has no room
//! is left out with a [`Note`].

mod behind;
mod beside;
mod blocking;
mod bores;
mod branch;
mod builder;
mod ceiling;
mod clearances;
mod enclosure;
mod fixed;
mod framing;
mod layout;
mod mantel;
mod names;
mod opened;
mod order;
mod packing;
mod part;
mod platform;
mod room;
mod services;
mod skins;
mod span;
mod standing;
mod unit;
mod vent;
mod wall;

pub use beside::{CabinetLayout, cabinets};
pub use blocking::{Backing, Band, LEAST_BAY, LONGEST_HOLLOW, bands, hollow, section, wall_behind};
pub use bores::{Crossing, crossings};
pub use branch::{Branch, Face, Flank, Own};
pub use ceiling::{
    CeilingMembers, LEAST_HOLD, PLATE_HELD, PlateRun, longest_free, passed_by_ceiling_screw,
};
pub use clearances::{height_datum, projection_datum};
pub use fixed::{FixedPlace, fixed_place};
pub use framing::longest_board;
pub use layout::{Layout, PassLayout, RecessLayout, Side, UnderCeiling, WallLayout};
pub use mantel::{mantel_back, mantel_beyond, mantel_front, mantel_sides};
pub use opened::OpenedWall;
pub use order::{Hold, ORDER, Step};
pub use packing::Packing;
pub use part::{Bars, Clearance, ClearanceKind, Group, Kind, Note, Part, Reach, Stage, Stock};
pub use span::{Span, point};
pub use standing::{StandingWall, WallHole};
pub use vent::{Path, Piece, RoofPass, Sections};

use glam::DVec3;

use crate::params::Params;
use crate::units::Length;

/// The whole model of one chase.
#[derive(Debug, Clone)]
pub struct Design {
    /// The parameters that it was made from.
    pub params: Params,
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
    /// The id of the part of the ceiling that lies over a place.
    pub fn ceiling_over(&self, place: DVec3) -> String {
        let (layout, out) = (&self.layout, Length::mm(-place.y));
        let is_own = self.params.own_ceiling_behind().is_some();
        if is_own && layout.ceiling_to(out) == &layout.ceiling_behind {
            return "behind/ceiling/1".to_owned();
        }
        let plane = layout.ceiling.plane_at(place.truncate());
        format!("room/ceiling/{}", plane + 1)
    }

    /// Where the vent's joints lie on its middle line, the collar's first.
    pub fn vent_joints(&self) -> Vec<DVec3> {
        let collar = unit::collar_height(&self.layout);
        vent::joints(&self.params, &self.layout.path, collar)
    }
}

/// Whether a point of the floor lies inside the chase's finished faces, where nobody sees it.
pub fn hidden(design: &Design, right: Length, out: Length) -> bool {
    services::inside_chase(&design.params, &design.layout, right, out)
}

/// Builds the model.
pub fn design(params: &Params) -> Design {
    let layout = Layout::new(params);
    let mut builder = builder::Builder::default();
    framing::frame(params, &layout, &mut builder);
    platform::build(params, &layout, &mut builder);
    skins::build(params, &layout, &mut builder);
    enclosure::build(params, &layout, &mut builder);
    unit::build(params, &layout, &mut builder);
    vent::build(params, &layout, &mut builder);
    room::build(params, &layout, &mut builder);
    fixed::build(params, &mut builder);
    beside::build(params, &layout, &mut builder);
    services::build(params, &layout, &mut builder);
    clearances::build(params, &layout, &mut builder);
    blocking::build(params, &layout, &mut builder);
    behind::build(params, &layout, &mut builder);
    ceiling::build(params, &layout, &mut builder);
    bores::drill(params, &mut builder);
    let packing = packing::all(params, &layout);
    Design {
        params: params.clone(),
        packing,
        layout,
        parts: builder.parts,
        clearances: builder.clearances,
        notes: builder.notes,
    }
}
