//! The walls of the room, and what stands for one behind a chase.

/// A wall of the room, as seen from the room toward the chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
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
