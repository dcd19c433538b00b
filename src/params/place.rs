//! Where the walls of the room stand.

use glam::DVec3;

use super::list::Params;
use crate::geom::Frame;
use crate::units::Length;

/// A wall of the room, as seen from the room toward the chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RoomWall {
    /// The wall behind the chase.
    Back,
    /// The wall to the left.
    Left,
    /// The wall to the right.
    Right,
}

impl RoomWall {
    /// The wall's name in texts and in the parameter file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Back => "back wall",
            Self::Left => "left wall",
            Self::Right => "right wall",
        }
    }
}

/// The frame of a wall, in the chase's own frame, and its length: u along it from its left end as seen from the room, v from its
/// finished face inward, w up from the floor datum.
pub fn wall_frame(params: &Params, wall: RoomWall) -> (Frame, Length) {
    let (width, depth) = (params.room.width, params.room.depth);
    let (frame, length) = match wall {
        RoomWall::Back => (Frame::WORLD, width),
        RoomWall::Left => {
            let far = DVec3::new(0.0, -depth.to_mm(), 0.0);
            (Frame::new(far, DVec3::Y, DVec3::NEG_X), depth)
        }
        RoomWall::Right => {
            let corner = DVec3::new(width.to_mm(), 0.0, 0.0);
            (Frame::new(corner, DVec3::NEG_Y, DVec3::X), depth)
        }
    };
    (params.room_frame().place(&frame), length)
}
