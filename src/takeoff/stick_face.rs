//! The ends and faces of a stick, by where they look.

use std::fmt;

use glam::DVec3;

/// An end or a face of a stick, by the side of the world that it is turned to most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StickFace {
    /// Down.
    Bottom,
    /// Up.
    Top,
    /// To the left, as seen from the room toward the chase.
    Left,
    /// To the right.
    Right,
    /// To the wall behind the chase.
    Wall,
    /// Into the room.
    Room,
}

impl StickFace {
    /// The side that a direction of the world points to most.
    pub(super) fn of(direction: DVec3) -> Self {
        let size = direction.abs();
        if size.z >= size.x && size.z >= size.y {
            if direction.z > 0.0 {
                Self::Top
            } else {
                Self::Bottom
            }
        } else if size.x >= size.y {
            if direction.x > 0.0 {
                Self::Right
            } else {
                Self::Left
            }
        } else if direction.y > 0.0 {
            Self::Wall
        } else {
            Self::Room
        }
    }

    /// Whether an end that faces there is listed after the other one.
    pub(super) const fn is_last(self) -> bool {
        match self {
            Self::Top | Self::Right | Self::Wall => true,
            Self::Bottom | Self::Left | Self::Room => false,
        }
    }

    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
            Self::Left => "left",
            Self::Right => "right",
            Self::Wall => "wall",
            Self::Room => "room",
        }
    }
}

/// Several of them in words: "left and top".
pub fn faces_text(faces: &[StickFace]) -> String {
    let names: Vec<&str> = faces.iter().map(|it| it.name()).collect();
    names.join(" and ")
}

impl fmt::Display for StickFace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
