//! Readings of ceiling and floor in, heights out. One level line serves both.

use glam::DVec3;

use super::choice::FloorDatum;
use super::list::Params;
use super::reading::Reading;
use crate::units::Length;

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
