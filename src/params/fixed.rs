//! What is fixed to the room's walls: windows, doors, switches, registers, where they are and how large.

use std::collections::BTreeSet;

use super::fault::Fault;
use super::range::{limits_text, out_of_range, within};
use super::room_wall::RoomWall;
use super::shown::text_fault;
use super::text::length_text;
use crate::units::{Length, TapeUnit};

/// Where a thing can be, and how large.
const SIZES: (Length, Length) = (Length::ZERO, Length::mm(30_000.0));
/// The least width, height and depth.
const LEAST: Length = Length::mm(1.0);

/// A thing that is fixed to a wall of the room.
#[derive(Debug, Clone, PartialEq)]
pub struct FixedThing {
    /// What it is called.
    pub name: String,
    /// The wall that it is in or on.
    pub wall: RoomWall,
    /// Its near side: from the left corner on the fireplace wall, out from the fireplace wall on the others.
    pub from: Length,
    /// Its width along the wall, casing included.
    pub width: Length,
    /// Height of its lower edge.
    pub sill: Length,
    /// From its lower to its upper edge.
    pub height: Length,
    /// How far it comes out of the wall's finished face into the room, where somebody has said it; of a door, its open
    /// leaf.
    pub depth: Option<Length>,
    /// Whether air passes through it to the outside, where somebody has said it.
    pub opens: Option<bool>,
}

/// What is smaller than this in width or height is a switch, an outlet or a register, and no window (common practice,
/// no source).
const WINDOW: Length = Length::inches(12.0);

impl FixedThing {
    /// Whether it may be a window or a door, and its entry does not say whether it opens.
    pub fn may_open(&self) -> bool {
        self.opens.is_none() && self.width >= WINDOW && self.height >= WINDOW
    }

    /// How deep it is drawn: where nothing is written, as a casing or a plate.
    pub fn drawn_depth(&self, unit: TapeUnit) -> Length {
        let usual = match unit {
            TapeUnit::Inch => Length::inches(0.75),
            TapeUnit::Millimeter => Length::mm(20.0),
        };
        self.depth.unwrap_or(usual)
    }

    pub(super) fn text(&self, unit: TapeUnit) -> String {
        let text = |length| length_text(length, unit);
        let deep = self.depth.map(|it| format!(", {} deep", text(it)));
        format!(
            "{} in the {}: {} from the corner, {} wide, {} up, {} high{}",
            self.name,
            self.wall.name(),
            text(self.from),
            text(self.width),
            text(self.sill),
            text(self.height),
            deep.unwrap_or_default()
        )
    }
}

pub(super) fn fixed_fault(key: &str, things: &[FixedThing], unit: TapeUnit) -> Option<Fault> {
    let mut names = BTreeSet::new();
    for thing in things {
        let name = thing.name.trim();
        if name.is_empty() || name.contains('/') || !names.insert(name.to_owned()) {
            return Some(
                Fault::new(key, format!("`{key}` needs a name of its own in each row"))
                    .found(format!("the name \"{name}\""))
                    .expected("names that differ, without a slash, such as \"window 1\"")
                    .way_out("number things of one kind"),
            );
        }
        let fault = text_fault(key, "name", name);
        if fault.is_some() {
            return fault;
        }
        let sizes = [thing.width, thing.height].into_iter().chain(thing.depth);
        let sizes = sizes.map(|it| (it, (LEAST, SIZES.1)));
        let places = [(thing.from, SIZES), (thing.sill, SIZES)];
        let mut all = sizes.chain(places);
        if let Some((length, limits)) = all.find(|(length, limits)| !within(*length, *limits)) {
            let allowed = limits_text(limits.0, limits.1, unit);
            return Some(out_of_range(key, length_text(length, unit), allowed));
        }
    }
    None
}
