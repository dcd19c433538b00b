//! What the heights of the story pole and the plumb lines are of.

use std::fmt;

use crate::design::{Branch, Kind, Stage};

use crate::params::{Hand, RoomWall};

/// What a height on the story pole is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PoleWhat {
    /// An edge of a part that is built to a height.
    Part {
        /// What it belongs to.
        branch: Branch,
        /// What the trade calls it.
        kind: Kind,
        /// Which edge.
        edge: LevelEdge,
    },
    /// The top of the platform.
    Platform,
    /// The sill of the finished recess.
    RecessSill,
    /// Its head.
    RecessHead,
    /// Halfway between the two.
    RecessMiddle,
    /// An edge of the hole for the vent through a wall of the room.
    Hole(RoomWall, LevelEdge),
}

/// A level edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LevelEdge {
    /// The lower one.
    Bottom,
    /// The upper one.
    Top,
}

/// What a plumb line on an existing wall is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineWhat {
    /// Where the old board is cut off.
    BoardCut(Hand),
    /// A side of the rough opening.
    Opening(Hand),
    /// The center of the unit.
    UnitCenter,
    /// The center of the unit, and of the pipe at the wall's face.
    UnitAndPipe,
    /// A face of a side wall's framing.
    SideWall(Hand, WallSide),
    /// A side of the hole for the vent.
    Hole(Hand),
    /// The center of the pipe at the wall's face.
    Pipe,
}

/// A face of the framing of a side wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WallSide {
    /// Turned away from the chase.
    Outside,
    /// Turned into it.
    Inside,
}

impl LineWhat {
    /// When the line's place can be measured.
    pub const fn stage(self) -> Stage {
        match self {
            Self::Hole(_) | Self::Pipe => Stage::WallPass,
            Self::BoardCut(_)
            | Self::Opening(_)
            | Self::UnitCenter
            | Self::UnitAndPipe
            | Self::SideWall(..) => Stage::Plates,
        }
    }
}

impl fmt::Display for PoleWhat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Part { branch, kind, edge } => write!(f, "{branch} {}, {edge}", kind.name()),
            Self::Platform => f.write_str("platform, top"),
            Self::RecessSill => f.write_str("finished recess, sill"),
            Self::RecessHead => f.write_str("finished recess, head"),
            Self::RecessMiddle => f.write_str("finished recess, middle"),
            Self::Hole(wall, edge) => match wall {
                RoomWall::Back | RoomWall::Behind => write!(f, "hole through the wall, {edge}"),
                RoomWall::Left | RoomWall::Right => {
                    write!(f, "hole through the {}, {edge}", wall.name())
                }
            },
        }
    }
}

impl fmt::Display for LevelEdge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
        })
    }
}

impl fmt::Display for LineWhat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BoardCut(hand) => write!(f, "old board cut off, {hand}"),
            Self::Opening(hand) => write!(f, "opening for the unit, {hand}"),
            Self::UnitCenter => f.write_str("center of the unit"),
            Self::UnitAndPipe => f.write_str("center of the unit and of the pipe"),
            Self::SideWall(hand, side) => write!(f, "{hand} side wall, {side}"),
            Self::Hole(hand) => write!(f, "hole through the wall, {hand}"),
            Self::Pipe => f.write_str("center of the pipe at the wall's face"),
        }
    }
}

impl fmt::Display for WallSide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Outside => "outside",
            Self::Inside => "inside",
        })
    }
}
