//! Parameters in, where chase, room and the room's walls stand to each other out.
//!
//! A design is made in the *chase's frame*: x right along its face as seen from the room, y inward, z up. A
//! chase before the wall shares the room's frame. A divider's back lies at y = 0, the wall behind it farther.
//! Across a corner the room's corner lies behind the middle of the face, and x counts from the left end of the
//! face; the room is what is turned.

use glam::{DVec2, DVec3};

use super::choice::Placement;
use super::list::Params;
use crate::geom::Frame;
use crate::units::{Length, TOLERANCE};

impl Params {
    /// Whether the chase stands across a corner of the room, its face at one angle to both walls.
    pub fn is_across_corner(&self) -> bool {
        matches!(
            self.chase.placement,
            Placement::LeftCorner | Placement::RightCorner
        )
    }

    /// Whether the chase stands free of the wall behind it.
    pub fn is_divider(&self) -> bool {
        self.chase.placement == Placement::Divider
    }

    /// Width of the chase's framing; from wall to wall across a corner it is what the corner makes it.
    pub fn chase_width(&self) -> Length {
        let (width, whole) = (self.chase.width, self.chase.depth * 2.0);
        if self.is_across_corner() && (width - whole).abs().to_mm() <= TOLERANCE {
            width * self.corner_spread()
        } else {
            width
        }
    }

    /// Left edge of the chase's framing, in the chase's frame.
    pub fn chase_left(&self) -> Length {
        self.chase.left.unwrap_or_default()
    }

    /// The room's frame, in the chase's: its origin is the left corner of the fireplace wall.
    pub fn room_frame(&self) -> Frame {
        let corner = DVec3::X * (self.chase_width() / 2.0).to_mm();
        let spread = self.corner_spread();
        let turned = |origin: DVec3, right: DVec2| {
            let right = right.extend(0.0) * (1.0 / (1.0 + spread * spread)).sqrt();
            Frame::new(origin, right, DVec3::Z.cross(right))
        };
        match self.chase.placement {
            Placement::Projecting => Frame::WORLD,
            Placement::Divider => {
                let behind = self.chase.way_behind.unwrap_or_default();
                Frame::at(DVec3::Y * behind.to_mm())
            }
            Placement::LeftCorner => turned(corner, DVec2::new(spread, -1.0)),
            Placement::RightCorner => {
                let room = turned(corner, DVec2::new(spread, 1.0));
                Frame {
                    origin: corner - room.x * self.room.width.to_mm(),
                    ..room
                }
            }
        }
    }
}

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
    /// The words of a fixed thing's wall.
    pub const WORDS: &'static [&'static str] = &["back", "left", "right"];

    /// The wall that such a word stands for.
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "back" => Some(Self::Back),
            "left" => Some(Self::Left),
            "right" => Some(Self::Right),
            _ => None,
        }
    }

    /// The wall's name in texts and in the parameter file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Back => "back wall",
            Self::Left => "left wall",
            Self::Right => "right wall",
        }
    }
}

/// The frame of a wall, in the room's frame, and its length: u along it from its left end as seen from the room, v from its
/// finished face inward, w up from the floor datum.
fn wall_in_room(params: &Params, wall: RoomWall) -> (Frame, Length) {
    let (width, depth) = (params.room.width, params.room.depth);
    let out = params.way_out_along(wall);
    match wall {
        RoomWall::Back => (Frame::WORLD, width),
        RoomWall::Left => {
            let far = out * depth.to_mm();
            let along = if out == DVec3::NEG_Y { DVec3::Y } else { -out };
            (Frame::new(far, along, DVec3::Z.cross(along)), depth)
        }
        RoomWall::Right => {
            let corner = DVec3::new(width.to_mm(), 0.0, 0.0);
            (Frame::new(corner, out, DVec3::Z.cross(out)), depth)
        }
    }
}

/// The frame of a wall, in the chase's own frame, and its length: u along it from its left end as seen from the room, v from its
/// finished face inward, w up from the floor datum.
pub fn wall_frame(params: &Params, wall: RoomWall) -> (Frame, Length) {
    let (frame, length) = wall_in_room(params, wall);
    (params.room_frame().place(&frame), length)
}

/// The room's plan in its own frame, counter-clockwise from the far end of the left wall.
pub fn room_plan(params: &Params) -> [DVec2; 4] {
    let (width, depth) = (params.room.width.to_mm(), params.room.depth.to_mm());
    let far = |wall| (params.way_out_along(wall) * depth).truncate();
    let right = DVec2::new(width, 0.0);
    [
        far(RoomWall::Left),
        right + far(RoomWall::Right),
        right,
        DVec2::ZERO,
    ]
}
