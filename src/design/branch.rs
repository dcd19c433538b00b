//! The branches of the model tree under a group: walls, faces, and what else parts belong to. The branch is the
//! first word of a part's id.

use std::fmt;

use super::{Kind, Part};
use crate::catalog::FramingMember;
use crate::params::{ChaseWall, Params};

/// What a part belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Branch {
    /// A framed wall.
    Wall(ChaseWall),
    /// The recess: its lining, the framing behind it, and what is in it.
    Recess,
    /// The hearth platform.
    Platform,
    /// A finished face of the chase.
    Face(ChaseFace),
    /// The side of an enclosure that is turned away from the unit.
    Cover(Flank),
    /// The side of an enclosure that is turned to the unit.
    Lining(Flank),
    /// Boards across the hollow of the chase.
    Fireblock,
    /// Legs under the ends of the mantel.
    Mantel,
    /// The unit.
    Unit,
    /// Pipe, firestops and cap.
    Vent,
    /// The framed hole through an existing wall.
    WallPass,
    /// The framed hole through ceiling and roof.
    RoofPass,
    /// Cabinets beside the chase.
    Cabinets,
    /// The gas line's end.
    Gas,
    /// Cables and their shelf.
    Cables,
    /// Blocks in the walls of the room.
    ExistingWall,
    /// Blocks over the ceiling.
    Ceiling,
    /// The room.
    Room,
    /// Floor and ceiling of an enclosure behind the wall that is opened.
    Behind,
    /// What is fixed to the room's walls.
    Fixed,
}

/// A finished face of the chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ChaseFace {
    /// A front in one plane, and the mantel on any front.
    Front,
    /// Of a stepped front, up to the ledge.
    Lower,
    /// Of a stepped front, above the ledge.
    Upper,
    /// A side that stands free.
    Left,
    /// A side that stands free.
    Right,
    /// The back of a divider.
    Back,
}

/// A side of the enclosure of a flush chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Flank {
    /// At the left.
    Left,
    /// At the right.
    Right,
    /// Its back.
    Back,
}

impl Branch {
    /// The first word of its parts' ids.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wall(wall) => wall.name(),
            Self::Recess => "recess",
            Self::Platform => "platform",
            Self::Face(face) => face.name(),
            Self::Cover(Flank::Left) => "left cover",
            Self::Cover(Flank::Right) => "right cover",
            Self::Cover(Flank::Back) => "back cover",
            Self::Lining(Flank::Left) => "left lining",
            Self::Lining(Flank::Right) => "right lining",
            Self::Lining(Flank::Back) => "back lining",
            Self::Fireblock => "fireblock",
            Self::Mantel => "mantel",
            Self::Unit => "unit",
            Self::Vent => "vent",
            Self::WallPass => "wall pass",
            Self::RoofPass => "roof pass",
            Self::Cabinets => "cabinets",
            Self::Gas => "gas",
            Self::Cables => "cables",
            Self::ExistingWall => "existing wall",
            Self::Ceiling => "ceiling",
            Self::Room => "room",
            Self::Behind => "behind",
            Self::Fixed => "fixed",
        }
    }

    /// The wall that it is; `None` for anything else.
    pub const fn wall(self) -> Option<ChaseWall> {
        match self {
            Self::Wall(wall) => Some(wall),
            Self::Recess
            | Self::Platform
            | Self::Face(_)
            | Self::Cover(_)
            | Self::Lining(_)
            | Self::Fireblock
            | Self::Mantel
            | Self::Unit
            | Self::Vent
            | Self::WallPass
            | Self::RoofPass
            | Self::Cabinets
            | Self::Gas
            | Self::Cables
            | Self::ExistingWall
            | Self::Ceiling
            | Self::Room
            | Self::Behind
            | Self::Fixed => None,
        }
    }

    /// The face that it is; `None` for anything else.
    pub const fn face(self) -> Option<ChaseFace> {
        if let Self::Face(face) = self {
            Some(face)
        } else {
            None
        }
    }

    /// Whether its sticks are blocks in what stands already: in the walls of the room, or over its ceiling.
    pub const fn is_in_the_room(self) -> bool {
        matches!(self, Self::ExistingWall | Self::Ceiling)
    }

    /// Whether it is a wall that the unit's opening is in.
    pub fn has_opening(self) -> bool {
        self.wall().is_some_and(ChaseWall::has_opening)
    }

    /// Whether it is the wall that a recess is in.
    pub fn has_recess(self) -> bool {
        self.wall().is_some_and(ChaseWall::has_recess)
    }

    /// Whether it is the wall of the room that is opened, which stands already.
    pub fn is_opened_wall(self) -> bool {
        self == Self::Wall(ChaseWall::Opened)
    }

    /// Whether it is the recess.
    pub fn is_recess(self) -> bool {
        self == Self::Recess
    }

    /// Whether it is a face at a side of the chase.
    pub const fn is_side_face(self) -> bool {
        matches!(self, Self::Face(ChaseFace::Left | ChaseFace::Right))
    }

    /// The studs that its sticks go with: the wall's, or those that the chase is framed with.
    pub fn stud(self, params: &Params) -> &FramingMember {
        self.wall()
            .map_or(&params.chase.stud, |wall| params.stud_of(wall))
    }
}

impl ChaseFace {
    /// Whether it is a face that the unit's front looks out of, or one above it.
    pub const fn is_front(self) -> bool {
        match self {
            Self::Front | Self::Lower | Self::Upper => true,
            Self::Left | Self::Right | Self::Back => false,
        }
    }

    /// The first word of the ids of its board and finish.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "face",
            Self::Lower => "lower face",
            Self::Upper => "upper face",
            Self::Left => "left face",
            Self::Right => "right face",
            Self::Back => "back face",
        }
    }
}

impl From<ChaseWall> for Branch {
    fn from(wall: ChaseWall) -> Self {
        Self::Wall(wall)
    }
}

impl fmt::Display for Branch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// What a clearance volume belongs to, or is meant to end against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Own {
    /// Every part of a branch.
    All(Branch),
    /// What is of one kind on a branch.
    Only(Branch, Kind),
}

impl Own {
    /// Whether it means this part.
    pub fn holds(self, part: &Part) -> bool {
        match self {
            Self::All(branch) => part.branch == branch,
            Self::Only(branch, kind) => part.branch == branch && part.kind == kind,
        }
    }
}
