//! Params in, Design out: every part, clearance volume and note, named and placed. Pure, and it cannot fail.
//!
//! What [`Params`] accepts is built; what is unwise becomes a finding later, and what has no room
//! is left out with a [`Note`].

mod builder;
mod clearances;
mod framing;
mod layout;
mod names;
mod order;
mod part;
mod platform;
mod room;
mod skins;
mod unit;
mod vent;
mod wall;

pub use clearances::{height_datum, projection_datum};
pub use layout::{Layout, PassLayout, RecessLayout, Span, UnderCeiling, WallLayout, point};
pub use order::{Hold, ORDER, Step};
pub use part::{Bars, Clearance, ClearanceKind, Group, Kind, Note, Part, Reach, Stage, Stock};
pub use room::cut_studs;
pub use skins::mantel_back;

use glam::DVec3;

use crate::params::Params;

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
}

impl Design {
    /// The id of the part of the ceiling that lies over a place.
    pub fn ceiling_over(&self, place: DVec3) -> String {
        let plane = self.layout.ceiling.plane_at(place.truncate());
        format!("room/ceiling/{}", plane + 1)
    }
}

/// Builds the model.
pub fn design(params: &Params) -> Design {
    let layout = Layout::new(params);
    let mut builder = builder::Builder::default();
    framing::frame(params, &layout, &mut builder);
    platform::build(params, &layout, &mut builder);
    skins::build(params, &layout, &mut builder);
    unit::build(params, &layout, &mut builder);
    vent::build(params, &layout, &mut builder);
    room::build(params, &layout, &mut builder);
    clearances::build(params, &layout, &mut builder);
    Design {
        params: params.clone(),
        layout,
        parts: builder.parts,
        clearances: builder.clearances,
        notes: builder.notes,
    }
}
