//! A reading of the ceiling: where the tape or the laser stood, and what it read.

use super::fault::Fault;
use super::range::{limits_text, out_of_range, within};
use super::text::length_text;
use crate::units::{Length, TapeUnit};

/// Where a reading can be taken.
const PLACES: (Length, Length) = (Length::ZERO, Length::mm(30_000.0));
/// What can be read.
const HEIGHTS: (Length, Length) = (Length::ZERO, Length::mm(12_000.0));

/// One reading of the ceiling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// From the left corner.
    pub right: Length,
    /// Out from the fireplace wall.
    pub out: Length,
    /// Up to the ceiling: from the level line where there is one, else from the floor datum.
    pub up: Length,
    /// From the level line down to the bare slab.
    pub down: Option<Length>,
}

impl Reading {
    pub(super) fn text(&self, unit: TapeUnit) -> String {
        let text = |length| length_text(length, unit);
        let place = format!("{} right, {} out", text(self.right), text(self.out));
        match self.down {
            Some(down) => format!("{place}: {} up, {} down", text(self.up), text(down)),
            None => format!("{place}: {}", text(self.up)),
        }
    }
}

pub(super) fn readings_fault(key: &str, readings: &[Reading], unit: TapeUnit) -> Option<Fault> {
    let lengths = readings.iter().flat_map(|it| {
        let place = [(it.right, PLACES), (it.out, PLACES), (it.up, HEIGHTS)];
        place.into_iter().chain(it.down.map(|down| (down, HEIGHTS)))
    });
    let mut bad = lengths.filter(|(length, limits)| !within(*length, *limits));
    bad.next().map(|(length, limits)| {
        let allowed = limits_text(limits.0, limits.1, unit);
        out_of_range(key, length_text(length, unit), allowed)
    })
}
