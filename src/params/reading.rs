//! Readings of ceiling and floor: where the tape or the laser stood, and what it read. One level line serves both.

use glam::DVec3;

use super::choice::FloorDatum;
use super::fault::Fault;
use super::grid::Columns;
use super::list::Params;
use super::sound::{limits_text, out_of_range, within};
use super::value::length_text;
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

/// Readings of the bare slab from the level line: right, out, and down to it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FloorRows(pub Vec<[Length; 3]>);

impl FloorRows {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["right", "out", "down"],
        grows: false,
        least_rows: 0,
    };
}

/// The floor at a place that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FloorReading {
    /// From the left corner.
    pub right: Length,
    /// Out from the fireplace wall.
    pub out: Length,
    /// How far the floor lies there under its highest place that was read.
    pub below: Length,
}

impl Params {
    /// From the level line down to the bare slab, wherever that was read: with the ceiling, then alone.
    fn downs(&self) -> impl Iterator<Item = [Length; 3]> {
        let with_ceiling = self.ceiling.readings.iter();
        let with_ceiling = with_ceiling.filter_map(|it| Some([it.right, it.out, it.down?]));
        with_ceiling.chain(self.room.floor.0.iter().copied())
    }

    /// Height of the bare slab; where it was read, of its highest place.
    pub fn slab(&self) -> Length {
        match self.project.floor_datum {
            FloorDatum::BareSlab => Length::ZERO,
            FloorDatum::FinishedFloor => -self.project.floor_buildup,
        }
    }

    /// From the level line down to the highest place of the slab that was read.
    fn least_down(&self) -> Length {
        let downs = self.downs().map(|[_, _, down]| down);
        downs.reduce(Length::min).unwrap_or_default()
    }

    /// The floor wherever it was read.
    pub fn floor_readings(&self) -> Vec<FloorReading> {
        let least = self.least_down();
        let reading = |[right, out, down]: [Length; 3]| FloorReading {
            right,
            out,
            below: down - least,
        };
        self.downs().map(reading).collect()
    }

    /// Where the ceiling was read, as points of the room's frame; the level line's height counts from the highest
    /// place of the slab.
    pub fn ceiling_points(&self) -> Vec<DVec3> {
        let line = self.slab() + self.least_down();
        let point = |it: &Reading| {
            let from = it.down.map_or(Length::ZERO, |_| line);
            DVec3::new(it.right.to_mm(), -it.out.to_mm(), (it.up + from).to_mm())
        };
        self.ceiling.readings.iter().map(point).collect()
    }
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
