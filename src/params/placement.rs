//! Parameters in, where chase, room and the room's walls stand to each other out.
//!
//! A design is made in the *chase's frame*: x right along its face as seen from the room, y inward, z up. A
//! chase before the wall shares the room's frame. A divider's back lies at y = 0, the wall behind it farther.
//! A flush chase's inside begins at y = 0, and the room's wall lies before it, at the front.
//! Across a corner the room's corner lies behind the middle of the face, and x counts from the left end of the
//! face; the room is what is turned.

use glam::{DVec2, DVec3};

use super::choice::{Placement, SpaceBehind};
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

    /// Whether the chase is set into a wall of the room, its enclosure behind it.
    pub fn is_flush(&self) -> bool {
        self.chase.placement == Placement::Flush
    }

    /// Whether a flush chase's enclosure has a framed back of its own.
    pub fn has_own_back(&self) -> bool {
        self.is_flush() && self.far_wall.is_none()
    }

    /// Thickness of the board on the inside of a flush chase's enclosure; nothing indoors.
    pub fn lining(&self) -> Length {
        let outdoors = self.behind.as_ref().filter(|_| self.is_flush());
        let outdoors = outdoors.filter(|it| it.space == SpaceBehind::Outdoors);
        outdoors.map_or(Length::ZERO, |it| it.lining)
    }

    /// How far out from the chase's own back the finished face of the fireplace wall lies; nothing unless the
    /// chase is set into that wall: the studs of the front stand in one plane with the wall's own.
    pub fn wall_face(&self) -> Length {
        if self.is_flush() {
            self.chase.depth + self.wall.board
        } else {
            Length::ZERO
        }
    }

    /// How far behind the fireplace wall's finished face the ceiling runs on: over the enclosure of a flush chase, or
    /// over the opened wall alone where there is another ceiling behind it.
    pub fn ceiling_runs_on(&self) -> Length {
        if self.own_ceiling_behind().is_some() {
            return self.wall.board + self.wall.stud.width + self.wall.sheathing;
        }
        let own = self.behind.as_ref().filter(|_| self.has_own_back());
        let back = own.map_or(Length::ZERO, |it| {
            self.lining() + self.chase.stud.width + it.cover
        });
        self.wall_face() + back
    }

    /// The wall that the vent's "back wall" is: that of the room, or what stands behind a flush chase.
    pub fn wall_behind(&self) -> RoomWall {
        if self.is_flush() {
            RoomWall::Behind
        } else {
            RoomWall::Back
        }
    }

    /// How far a place is, level, from the walls round the hollow that the vent runs in: left, right, behind,
    /// opposite.
    pub fn to_walls(&self, place: DVec3) -> [Length; 4] {
        let room = self.room_frame().local_point(place);
        let behind = if self.is_flush() { place.y } else { room.y };
        [
            Length::mm(room.x),
            self.room.width - Length::mm(room.x),
            Length::mm(-behind),
            self.room.depth + Length::mm(room.y),
        ]
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
            Placement::Flush => Frame::at(DVec3::NEG_Y * self.wall_face().to_mm()),
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
    /// The fireplace wall: behind the chase, or the one that it is set into.
    Back,
    /// The wall to the left.
    Left,
    /// The wall to the right.
    Right,
    /// What stands behind a flush chase: the back of its own enclosure, or the far wall that it reaches.
    Behind,
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
            Self::Behind => "wall behind the chase",
        }
    }
}

/// The frame of a wall, in the room's frame, and its length: u along it from its left end as seen from the room, v from its
/// finished face inward, w up from the floor datum.
fn wall_in_room(params: &Params, wall: RoomWall) -> (Frame, Length) {
    let (width, depth) = (params.room.width, params.room.depth);
    let out = params.way_out_along(wall);
    match wall {
        RoomWall::Back | RoomWall::Behind => (Frame::WORLD, width),
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
    if wall == RoomWall::Behind {
        return if params.has_own_back() {
            let left = DVec3::X * params.chase_left().to_mm();
            (Frame::at(left), params.chase.width)
        } else {
            (Frame::WORLD, params.room.width)
        };
    }
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
