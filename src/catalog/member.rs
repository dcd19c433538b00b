//! What a wall is framed with: sticks of wood or members of steel.
//!
//! Both answer the same questions: for wood the breadth of an upright and the height of a plate are one, for steel
//! they are not. What is done to one only is asked by matching on which it is.

use super::lumber::{Lumber, lumber};
use super::section::Steel;
use super::steel::{steel, track_flange};
use crate::units::Length;

/// What a wall, a header or a row of blocks is framed with.
#[derive(Debug, Clone, PartialEq)]
pub enum FramingMember {
    /// A stick of wood.
    Wood(Lumber),
    /// A light-gauge steel stud or track.
    Steel(Steel),
}

/// The member of a nominal size such as `2x4` or a designation such as `362S125-30`; `None` for what is neither.
pub fn member(name: &str) -> Option<FramingMember> {
    let wood = lumber(name).map(FramingMember::Wood);
    wood.or_else(|| steel(name).map(FramingMember::Steel))
}

impl FramingMember {
    /// What the yard calls it, such as `2x4` or `362S125-30`.
    pub fn name(&self) -> &str {
        match self {
            Self::Wood(lumber) => &lumber.name,
            Self::Steel(steel) => &steel.name,
        }
    }

    /// How far an upright of it reaches along its wall: a stick's thickness, or a flange.
    pub const fn breadth(&self) -> Length {
        match self {
            Self::Wood(lumber) => lumber.thickness,
            Self::Steel(steel) => steel.flange,
        }
    }

    /// How deep a wall framed with it is: a stick's width, or what the track measures over its flanges.
    pub fn depth(&self) -> Length {
        match self {
            Self::Wood(lumber) => lumber.width,
            Self::Steel(steel) => steel.wall_depth(),
        }
    }

    /// What a plate of it takes of a wall's height: a stick lying flat, or the web of a track.
    pub const fn plate(&self) -> Length {
        match self {
            Self::Wood(lumber) => lumber.thickness,
            Self::Steel(steel) => steel.thickness,
        }
    }

    /// How high a level member of it is, its flanges with it: a stick lying flat, or a track.
    pub fn lying(&self) -> Length {
        match self {
            Self::Wood(lumber) => lumber.thickness,
            Self::Steel(steel) => track_flange(steel),
        }
    }

    /// How far studs of it stand behind the faces of their wall: the flange of the track laps steel ones.
    pub const fn nested(&self) -> Length {
        match self {
            Self::Wood(_) => Length::ZERO,
            Self::Steel(steel) => steel.thickness,
        }
    }

    /// The stick, where it is of wood.
    pub const fn wood(&self) -> Option<&Lumber> {
        match self {
            Self::Wood(lumber) => Some(lumber),
            Self::Steel(_) => None,
        }
    }

    /// The member, where it is of steel.
    pub const fn steel(&self) -> Option<&Steel> {
        match self {
            Self::Wood(_) => None,
            Self::Steel(steel) => Some(steel),
        }
    }
}

impl From<Lumber> for FramingMember {
    fn from(lumber: Lumber) -> Self {
        Self::Wood(lumber)
    }
}

impl From<Steel> for FramingMember {
    fn from(steel: Steel) -> Self {
        Self::Steel(steel)
    }
}
