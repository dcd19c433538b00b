//! Params in, Design out: every part, clearance volume and note, named and placed. Pure, and it cannot fail.
//!
//! What [`Params`] accepts is built; what is unwise becomes a finding later, and what has no room
//! is left out with a [`Note`].

#![deny(clippy::wildcard_enum_match_arm)]

mod behind;
mod beside;
mod blocking;
mod bores;
mod branch;
mod builder;
mod ceiling;
mod clearances;
mod enclosure;
mod finish;
mod fixed;
mod framing;
mod front_wall;
mod furring;
mod mantel;
mod mantel_fixings;
mod mantel_hold;
mod mass;
mod model;
mod nail_plates;
mod names;
mod opened;
mod order;
mod packing;
mod part;
mod plain_plates;
mod plate_gap;
mod platform;
mod raising;
mod room;
mod services;
pub mod skins;
mod square_cut;
mod standing;
mod unit;
mod vent;
mod wall;

pub use beside::{CabinetLayout, cabinets};
pub use blocking::{Backing, Band, LEAST_BAY, LONGEST_HOLLOW, bands, hollow, section};
pub use bores::{Crossing, crossings};
pub use branch::{Branch, ChaseFace, Flank, Own};
pub use ceiling::{LEAST_HOLD, PLATE_HELD, PlateRun, longest_free, passed_by_ceiling_screw};
pub use clearances::{height_datum, projection_datum};
pub use finish::{finish_burns, is_veneer};
pub use fixed::{FixedPlace, fixed_place};
pub use front_wall::front_wall_at;
pub use mantel::{mantel_back, mantel_beyond, mantel_front, mantel_sides};
pub use mantel_fixings::{MANTEL_BITE, MantelFixing, mantel_fixings};
pub use mass::{LEG, MANTEL, finish_weight};
pub use model::Design;
pub use nail_plates::{NailPlate, bored_edges, nail_plates};
pub use order::{BUILT, Hold, Step, order};
pub use packing::{Packed, Packing, ReadAt, Whence};
pub use part::{Bars, Clearance, ClearanceKind, Group, Kind, Note, Part, Reach, Stage, Stock};
pub use plate_gap::{PlateGap, plate_gaps};
pub use raising::{Lifted, Method, RaisedFrom, Raising, WayUp, fit_of, raising};
pub use services::stub_hole;
pub use square_cut::{Left, Wedge};
pub use vent::Sections;

pub use crate::layout::{
    CeilingMembers, Layout, OpenedWall, PassLayout, Path, Piece, RecessLayout, RoofPass,
    StandingWall, UnderCeiling, WallHole, WallLayout, point,
};
pub use crate::units::Span;

use std::sync::Arc;

use crate::params::{ChaseWall, Params, parameter};
use crate::units::Length;

/// How far a point of the floor lies inside the chase's finished faces, to the nearest of sides and front; below zero
/// it lies outside, in the room.
pub fn inside_by(design: &Design, right: Length, out: Length) -> Length {
    services::inside_by(&design.layout, right, out)
}

/// Builds the model; where top plates as sold lie in the way of something, once more with those of that wall ripped.
pub fn design(params: &Params) -> Design {
    let mut ripped = Vec::new();
    loop {
        let design = built(params, &ripped);
        let more = plain_plates::in_the_way(&design);
        if more.is_empty() {
            return design;
        }
        ripped.extend(more);
    }
}

/// Builds the model, the plates of these walls ripped wherever they lie across a slope.
fn built(params: &Params, ripped: &[ChaseWall]) -> Design {
    let layout = Layout::new(params);
    let mut builder = builder::Builder::new(params.saw.tolerance, ripped);
    framing::frame(&layout, &mut builder);
    platform::build(&layout, &mut builder);
    skins::build(&layout, &mut builder);
    enclosure::build(&layout, &mut builder);
    unit::build(&layout, &mut builder);
    vent::build(&layout, &mut builder);
    room::build(&layout, &mut builder);
    fixed::build(params, &mut builder);
    beside::build(&layout, &mut builder);
    services::build(&layout, &mut builder);
    clearances::build(&layout, &mut builder);
    blocking::build(&layout, &mut builder);
    behind::build(&layout, &mut builder);
    ceiling::build(&layout, &mut builder);
    bores::drill(params, &mut builder);
    builder.notes.extend(assumed(params));
    let packing = packing::all(&layout);
    let mut design = Design {
        params: Arc::clone(&layout.params),
        packing,
        layout,
        parts: builder.parts,
        clearances: builder.clearances,
        notes: builder.notes,
    };
    raising::stage_plates(&mut design);
    design
}

/// What is drawn by assumed values.
fn assumed(params: &Params) -> impl Iterator<Item = Note> {
    let untold = params.untold.iter().filter_map(|key| parameter(key));
    untold.map(|it| Note::Assumed {
        key: it.key,
        value: params.text_of(it),
    })
}
