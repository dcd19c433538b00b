//! A design in, every part out that reaches beyond the room: its walls, its floor, its ceiling.
//!
//! The room itself, the vent with its cap, the framed pass, and blocks in its walls and over its ceiling may leave it.
//! Behind a wall that a flush chase is set into, what counts is the far wall; an enclosure with a back of its own has
//! none.

use glam::DVec3;

use crate::design::{Design, Group, Kind, Part};
use crate::geom::{Plane, TOLERANCE, Underside};
use crate::params::RoomWall;
use crate::units::Length;

/// A side of the room.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Boundary {
    /// The wall to the left, as seen from the room toward the chase.
    Left,
    /// The wall to the right.
    Right,
    /// The wall behind the chase, at its finished face.
    Wall,
    /// The wall opposite to it.
    Opposite,
    /// The bare floor.
    Floor,
    /// The ceiling.
    Ceiling,
}

impl Boundary {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "the wall to the left",
            Self::Right => "the wall to the right",
            Self::Wall => "the wall behind",
            Self::Opposite => "the wall opposite",
            Self::Floor => "the floor",
            Self::Ceiling => "the ceiling",
        }
    }
}

/// A part that reaches beyond the room.
#[derive(Debug, Clone, PartialEq)]
pub struct Outside {
    /// The part's id.
    pub part: String,
    /// What it reaches through.
    pub boundary: Boundary,
    /// How far, square to the boundary.
    pub by: Length,
    /// The point that is farthest out.
    pub location: DVec3,
}

/// Every part that reaches beyond a side of the room, in the order of the design.
pub fn outside(design: &Design) -> Vec<Outside> {
    let own_back = design.layout.site.is_enclosed();
    let mut sides = sides(design);
    sides.retain(|it| it.0 != Boundary::Wall || !own_back);
    let ceilings = [&design.layout.ceiling, &design.layout.ceiling_behind].map(under);
    let parts = design.parts.iter().filter(|part| stays_inside(part));
    parts
        .filter(|part| !part.body.is_empty())
        .flat_map(|part| {
            let behind = is_behind(design, part);
            let ceiling = &ceilings[usize::from(behind)];
            let sides = sides.iter().chain(ceiling);
            let sides = sides
                .filter(move |it| !behind || !matches!(it.0, Boundary::Left | Boundary::Right));
            sides.filter_map(|side| beyond(part, side))
        })
        .collect()
}

/// Whether a part stands wholly behind the wall that a flush chase is set into, where the room has no sides.
fn is_behind(design: &Design, part: &Part) -> bool {
    let front = -design.layout.faces.front_back.to_mm();
    design.layout.opened.is_some() && part.body.bounds.low.y >= front - TOLERANCE
}

fn stays_inside(part: &Part) -> bool {
    let leaves = matches!(
        part.kind,
        Kind::PassFrame | Kind::Pipe | Kind::Elbow | Kind::Cap | Kind::Firestop | Kind::Collar
    );
    // between the studs of the room's walls, and between what carries its ceiling
    let in_the_room = part.kind == Kind::Blocking && part.branch.is_in_the_room();
    !leaves && !in_the_room && !part.group.stands_already() && part.group != Group::Vent
}

/// The room but for its ceiling as half-spaces, the normals outward.
fn sides(design: &Design) -> Vec<(Boundary, Plane)> {
    let room = &design.params.room;
    let frame = &design.layout.site.room;
    let side = |normal: DVec3, offset: Length| {
        let normal = frame.vector(normal);
        Plane {
            normal,
            offset: offset.to_mm() + normal.dot(frame.origin),
        }
    };
    // a wall's normal lies to the left of the way out along it, or to the right
    let outward = |wall| {
        let along = design.params.way_out_along(wall);
        match wall {
            RoomWall::Right => DVec3::Z.cross(along),
            RoomWall::Left | RoomWall::Back | RoomWall::Behind => along.cross(DVec3::Z),
        }
    };
    let right = outward(RoomWall::Right);
    [
        (Boundary::Left, side(outward(RoomWall::Left), Length::ZERO)),
        (Boundary::Right, side(right, room.width * right.x)),
        (Boundary::Wall, side(DVec3::Y, design.layout.site.wall_face)),
        (Boundary::Opposite, side(DVec3::NEG_Y, room.depth)),
        (Boundary::Floor, side(DVec3::NEG_Z, -design.layout.slab)),
    ]
    .into()
}

/// The half-spaces under a ceiling.
fn under(ceiling: &Underside) -> Vec<(Boundary, Plane)> {
    let planes = ceiling.planes().iter().map(|plane| {
        let through = Plane::through(DVec3::Z * plane.height, plane.up());
        (Boundary::Ceiling, through)
    });
    planes.collect()
}

fn beyond(part: &Part, (boundary, plane): &(Boundary, Plane)) -> Option<Outside> {
    // most parts lie inside with all of their box
    if part.body.bounds.reach(plane.normal) - plane.offset <= TOLERANCE {
        return None;
    }
    let location = part.body.farthest(plane.normal);
    let height = plane.height(location);
    (height > TOLERANCE).then(|| Outside {
        part: part.id.clone(),
        boundary: *boundary,
        by: Length::mm(height),
        location,
    })
}
