//! A tape's reading across a corner of the room in, how far the corner is off square out.
//!
//! Marks lie 3 ft (900 mm) from the corner along the fireplace wall and 4 ft (1200 mm) along the side wall; from
//! mark to mark a square corner reads 5 ft (1500 mm).

use super::list::Params;
use super::placement::RoomWall;
use crate::units::{Length, TapeUnit};

/// A third of the shorter leg; the legs are 3 and 4 of them, and the diagonal 5 where the corner is square.
const fn step(unit: TapeUnit) -> Length {
    match unit {
        TapeUnit::Inch => Length::inches(12.0),
        TapeUnit::Millimeter => Length::mm(300.0),
    }
}

impl Params {
    /// How far a side wall of the room goes away from square, for each step out from the fireplace wall; below
    /// zero it comes into the room. Zero for the fireplace wall itself.
    ///
    /// By the law of cosines the sine of the angle beyond a right one is (d² − 3² − 4²) / (2 · 3 · 4).
    pub fn corner_opens(&self, wall: RoomWall) -> f64 {
        let diagonal = match wall {
            RoomWall::Back | RoomWall::Behind => return 0.0,
            RoomWall::Left => self.room.left_corner,
            RoomWall::Right => self.room.right_corner,
        };
        let steps = diagonal / step(self.project.unit);
        let sine = (steps * steps - 25.0) / 24.0;
        sine / (1.0 - sine * sine).max(f64::MIN_POSITIVE).sqrt()
    }
}
