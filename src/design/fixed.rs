//! What is fixed to the walls of the room: windows, doors, switches, registers, each as the box that it fills
//! in the room.

use glam::DVec3;

use super::builder::{Builder, Make};
use super::{Branch, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{Frame, Swept};
use crate::params::{FixedThing, Params, RoomWall, wall_frame};
use crate::units::{Length, Span};

/// Where a fixed thing lies on its wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FixedPlace {
    /// The wall's frame: u along it from its left end, v from its finished face inward, w up from the datum.
    pub wall: Frame,
    /// Its sides along u.
    pub sides: Span,
    /// Its lower and upper edge along w.
    pub heights: Span,
}

/// Where a thing of `room.fixed` lies.
pub fn fixed_place(params: &Params, thing: &FixedThing) -> FixedPlace {
    let (wall, length) = wall_frame(params, thing.wall);
    let near = Span::new(thing.from, thing.from + thing.width);
    FixedPlace {
        wall,
        // the wall to the left ends at the fireplace wall
        sides: match thing.wall {
            RoomWall::Left => Span::new(length - near.high, length - near.low),
            RoomWall::Back | RoomWall::Right | RoomWall::Behind => near,
        },
        heights: Span::new(thing.sill, thing.sill + thing.height),
    }
}

/// Builds every fixed thing, under its own name.
pub(super) fn build(params: &Params, builder: &mut Builder) {
    for thing in &params.room.fixed {
        let place = fixed_place(params, thing);
        let depth = thing.drawn_depth(params.project.unit);
        let make = Make {
            kind: Kind::FixedThing,
            group: Group::Fixed,
            material: Material::FIXED,
            stock: Stock::Existing,
            stage: Stage::Existing,
        };
        builder.add(
            (Branch::Fixed, format!("{}/{}", Branch::Fixed, thing.name)),
            make,
            Swept::block(place.sides.size(), depth, place.heights.size()),
            place.before(depth),
        );
    }
}

impl FixedPlace {
    /// The frame of a box that reaches so far into the room: its left, front, lower corner.
    pub fn before(&self, depth: Length) -> Frame {
        let corner = DVec3::new(
            self.sides.low.to_mm(),
            -depth.to_mm(),
            self.heights.low.to_mm(),
        );
        self.wall.place(&Frame::at(corner))
    }
}
