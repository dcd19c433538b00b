//! A tape's reading across a corner of the room in, how far the corner is off square out.
//!
//! Marks lie 3 ft (900 mm) from the corner along the fireplace wall and 4 ft (1200 mm) along the side wall; from
//! mark to mark a square corner reads 5 ft (1500 mm).

use glam::DVec3;

use super::list::Params;
use super::room_wall::RoomWall;
use crate::units::{Length, TapeUnit};

/// A tape that reads 5 steps within this share of a step reads a square corner.
const SQUARE: f64 = 1e-9;

/// A third of the shorter leg; the legs are 3 and 4 of them, and the diagonal 5 where the corner is square.
const fn step(unit: TapeUnit) -> Length {
    match unit {
        TapeUnit::Inch => Length::inches(12.0),
        TapeUnit::Millimeter => Length::mm(300.0),
    }
}

impl Params {
    /// The sine of how much wider than square a corner of the room is; below zero it is narrower.
    ///
    /// By the law of cosines (d² − 3² − 4²) / (2 · 3 · 4).
    pub(super) fn corner_sine(&self, wall: RoomWall) -> f64 {
        let diagonal = match wall {
            RoomWall::Back | RoomWall::Behind => return 0.0,
            RoomWall::Left => self.room.left_corner,
            RoomWall::Right => self.room.right_corner,
        };
        let steps = diagonal / step(self.project.unit);
        if (steps - 5.0).abs() <= SQUARE {
            return 0.0;
        }
        (steps * steps - 25.0) / 24.0
    }

    /// How far a side wall of the room goes away from square, for each step out from the fireplace wall; below
    /// zero it comes into the room. Zero for the fireplace wall itself.
    pub fn corner_opens(&self, wall: RoomWall) -> f64 {
        let sine = self.corner_sine(wall);
        sine / (1.0 - sine * sine).sqrt()
    }

    /// The way along a side wall of the room from its corner out, in the room's frame. A side wall is square to the
    /// fireplace wall but where the chase stands across its corner.
    pub fn way_out_along(&self, wall: RoomWall) -> DVec3 {
        let across = self.site().across.filter(|it| *it == wall);
        let sine = across.map_or(0.0, |it| self.corner_sine(it));
        if sine.abs() <= f64::MIN_POSITIVE {
            return DVec3::NEG_Y;
        }
        let away = if wall == RoomWall::Left { -sine } else { sine };
        DVec3::new(away, -(1.0 - sine * sine).sqrt(), 0.0)
    }
}
