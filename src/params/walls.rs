//! Where the walls of the room stand in the chase's frame.

use glam::{DVec2, DVec3};

use super::list::{ExistingWall, Params};
use super::room_wall::RoomWall;
use crate::geom::Frame;
use crate::units::Length;

/// The frame of a wall, in the room's frame, and its length, that of a side wall given: u along it from its left end as seen from the room, v from its
/// finished face inward, w up from the floor datum.
fn wall_in_room(params: &Params, wall: RoomWall, depth: Length) -> (Frame, Length) {
    let width = params.room.width;
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
    let site = params.site();
    if site.frames(wall) {
        let left = DVec3::X * site.chase.low.to_mm();
        return (Frame::at(left), site.width);
    }
    if wall == RoomWall::Behind {
        return (Frame::WORLD, params.room.width);
    }
    let (frame, length) = wall_in_room(params, wall, site.side_walls);
    (site.room.place(&frame), length)
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

impl ExistingWall {
    /// From its finished face to its other side.
    pub fn thickness(&self) -> Length {
        self.board + self.stud.depth() + self.sheathing
    }
}

impl Params {
    /// A wall that stands already, where it is described.
    pub const fn existing_wall(&self, wall: RoomWall) -> Option<&ExistingWall> {
        match wall {
            RoomWall::Back => Some(&self.wall),
            RoomWall::Left => self.left_wall.as_ref(),
            RoomWall::Right => self.right_wall.as_ref(),
            RoomWall::Behind => self.far_wall.as_ref(),
        }
    }

    /// How far a place is, level, from the walls round the hollow that the vent runs in: left, right, behind,
    /// opposite.
    pub fn to_walls(&self, place: DVec3) -> [Length; 4] {
        let site = self.site();
        let room = site.room.local_point(place);
        let behind = wall_frame(self, site.behind).0.local_point(place);
        [
            Length::mm(room.x),
            self.room.width - Length::mm(room.x),
            Length::mm(-behind.y),
            self.room.depth + Length::mm(room.y),
        ]
    }
}
