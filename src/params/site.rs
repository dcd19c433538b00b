//! Where the chase stands, as one value: whatever depends on its placement is asked here.
//!
//! *Frame*: a design is made in the chase's own frame: x right along its face as seen from the room, y inward, z
//! up from the floor datum. The room stands in it by [`Site::room`]: in the same frame before a wall, farther back
//! behind a divider, farther out round a chase that is set into a wall, turned by half the corner's angle behind
//! one across a corner. Whatever belongs to the room (its surfaces, its walls, its ceiling, readings) is placed by
//! that frame; whatever belongs to the chase never asks where it stands, but for what its ends end against, where
//! its sides begin, and what closes its back.

use glam::DVec3;

use super::room_wall::RoomWall;
use crate::geom::Frame;
use crate::units::{Length, Span};

/// What an end of the chase ends against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum End {
    /// Nothing: it is seen, and has board and finish.
    #[default]
    Free,
    /// A wall of the room, square to the face.
    Wall,
    /// A wall of the room at half the corner's angle to the way out, so that the chase widens toward the room: there
    /// is no side wall.
    Corner,
    /// The back of the wall that the chase is set into: the enclosure's side is not seen from the room.
    Behind,
}

/// What closes the chase at its back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Back {
    /// A wall that stands already.
    Standing,
    /// A framed wall with a face of its own, away from the wall of the room.
    Faced,
    /// A framed wall, part of an enclosure that stands behind a wall of the room.
    Enclosed,
}

/// Where the chase stands.
#[derive(Debug, Clone)]
pub struct Site {
    /// The room's frame, in the chase's: its origin is the left corner of the fireplace wall.
    pub room: Frame,
    /// Left and right edge of the chase's framing.
    pub chase: Span,
    /// Width of the chase's framing.
    pub width: Length,
    /// What its left and its right end end against.
    pub ends: [End; 2],
    /// How far the room's walls to the left and to the right go out from the fireplace wall.
    pub side_walls: Length,
    /// The wall that "back wall" means to a vent and to the rules.
    pub behind: RoomWall,
    /// What closes the chase at its back.
    pub back: Back,
    /// Where the inside of the chase begins, out from the wall: before a back with a face of its own.
    pub inside_begins: Length,
    /// Board on the inside of the side walls and the back: of an enclosure outdoors.
    pub lining: Length,
    /// Whether the front stands in the fireplace wall, which is opened for it; the chase lies behind that wall.
    pub opens_wall: bool,
    /// Finished face of the fireplace wall, out from the chase's own back; nothing unless that wall is opened. The
    /// studs of the front stand in one plane with the wall's own.
    pub wall_face: Length,
    /// The height of the flat ceiling behind the wall that is opened, where it is one of its own.
    pub ceiling_behind: Option<Length>,
    /// How far behind the fireplace wall's finished face the room's ceiling runs on.
    pub ceiling_runs_on: Length,
    /// The way between the wall and the back of a chase that stands away from it.
    pub way_behind: Option<Length>,
    /// The side wall of the corner that the chase stands across, its face at one angle to both walls.
    pub across: Option<RoomWall>,
    /// How far the walls of that corner go to either side for each step out: 1 where it is square.
    pub spread: f64,
}

impl Site {
    /// Whether the room's walls stand at an angle to the chase, and meet behind its middle.
    pub const fn is_turned(&self) -> bool {
        self.across.is_some()
    }

    /// Whether the chase stands away from the wall of the room behind it.
    pub const fn stands_off(&self) -> bool {
        self.way_behind.is_some()
    }

    /// Whether the chase is closed by the back of an enclosure of its own.
    pub fn is_enclosed(&self) -> bool {
        self.back == Back::Enclosed
    }

    /// Whether a wall is the back of the chase's own enclosure, framed with it.
    pub fn frames(&self, wall: RoomWall) -> bool {
        wall == RoomWall::Behind && self.is_enclosed()
    }

    /// The chase's framing so far out from the wall; across a corner from wall to wall it widens.
    pub fn framing_at(&self, out: Length) -> Span {
        self.with_skins(Length::ZERO, out)
    }

    /// The same with skins of this thickness on the ends that stand free.
    pub fn with_skins(&self, thickness: Length, out: Length) -> Span {
        let reach = |end: End, edge: Length| match end {
            End::Free => edge + thickness,
            End::Wall | End::Behind => edge,
            End::Corner => out * self.spread,
        };
        let middle = self.chase.center();
        let half = self.chase.size() / 2.0;
        Span::new(
            middle - reach(self.ends[0], half),
            middle + reach(self.ends[1], half),
        )
    }

    /// Where a side of the chase meets the wall behind it, so far outside (or, below zero, inside) of
    /// its framing; out from the wall or the corner.
    pub fn side_begins(&self, outside: Length) -> Length {
        if self.is_turned() {
            (self.chase.size() / 2.0 + outside) / self.spread
        } else {
            // a side wall butts against the studs of the back, whose lining lies between the sides
            self.inside_begins - self.lining
        }
    }

    /// How far out the wall behind the chase comes, so far to either side of the chase's middle.
    pub fn wall_comes(&self, aside: Length) -> Length {
        if self.is_turned() {
            aside / self.spread
        } else {
            self.inside_begins
        }
    }

    /// How far out the wall behind the chase comes at most between two places.
    pub fn wall_comes_between(&self, sides: Span) -> Length {
        let middle = self.chase.center();
        self.wall_comes((sides.low - middle).abs().max((sides.high - middle).abs()))
    }

    /// The way straight back to the wall behind the chase, for each step square to that wall.
    pub fn wall_stretch(&self) -> f64 {
        if self.is_turned() {
            (1.0 + 1.0 / (self.spread * self.spread)).sqrt()
        } else {
            1.0
        }
    }

    /// From wall to wall of a room of this width, so far out.
    pub fn between_walls(&self, out: Length, width: Length) -> Span {
        if self.is_turned() {
            Span::about(self.chase.center(), out * (2.0 * self.spread))
        } else {
            Span::new(Length::ZERO, width)
        }
    }

    /// How far a place is from the walls of a room of this width and depth that the front looks at, square to the
    /// nearest: the one opposite, and across a corner also the side wall that is no wall of that corner.
    pub fn way_before(&self, place: DVec3, (width, depth): (Length, Length)) -> Length {
        let place = self.room.local_point(place);
        let right = Length::mm(place.x);
        let opposite = depth + Length::mm(place.y);
        match self.across {
            None => opposite,
            Some(RoomWall::Left) => opposite.min(width - right),
            Some(_) => opposite.min(right),
        }
    }
}
