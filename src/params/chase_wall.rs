//! The framed walls that a chase may have.

use std::fmt;

/// A framed wall of the chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ChaseWall {
    /// A front in one wall.
    Front,
    /// The wall of a stepped front that reaches the ceiling.
    SetBack,
    /// The left side wall.
    LeftSide,
    /// The right side wall.
    RightSide,
    /// A back of the chase's own: of a divider, or of the enclosure of a flush chase.
    Back,
    /// The frame in front of a set-back wall.
    BumpOut,
    /// The wall of the room that a flush chase is set into, with what is framed into it.
    Opened,
}

impl ChaseWall {
    /// Every wall that is framed whole, in the order that findings take them.
    pub const FRAMED: [Self; 6] = [
        Self::Front,
        Self::SetBack,
        Self::LeftSide,
        Self::RightSide,
        Self::Back,
        Self::BumpOut,
    ];

    /// The side walls, from the left.
    pub const SIDES: [Self; 2] = [Self::LeftSide, Self::RightSide];

    /// Whether the unit's opening is in it.
    pub const fn has_opening(self) -> bool {
        match self {
            Self::Front | Self::SetBack | Self::BumpOut | Self::Opened => true,
            Self::LeftSide | Self::RightSide | Self::Back => false,
        }
    }

    /// Whether it is the wall of the front that reaches the ceiling, in which a recess is framed.
    pub const fn has_recess(self) -> bool {
        match self {
            Self::Front | Self::SetBack | Self::Opened => true,
            Self::BumpOut | Self::LeftSide | Self::RightSide | Self::Back => false,
        }
    }

    /// Whether it ends below the ceiling, under a ledge.
    pub const fn has_ledge(self) -> bool {
        match self {
            Self::BumpOut => true,
            Self::Front
            | Self::SetBack
            | Self::LeftSide
            | Self::RightSide
            | Self::Back
            | Self::Opened => false,
        }
    }

    /// What the wall is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::SetBack => "set-back",
            Self::LeftSide => "left side",
            Self::RightSide => "right side",
            Self::Back => "back",
            Self::BumpOut => "bump-out",
            Self::Opened => "opened wall",
        }
    }

    /// The same as part of a sentence.
    pub const fn full_name(self) -> &'static str {
        match self {
            Self::Front => "front wall",
            Self::SetBack => "set-back wall",
            Self::LeftSide => "left side wall",
            Self::RightSide => "right side wall",
            Self::Back => "back wall",
            Self::BumpOut => "bump-out wall",
            Self::Opened => "opened wall",
        }
    }
}

impl fmt::Display for ChaseWall {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
