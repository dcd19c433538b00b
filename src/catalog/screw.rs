//! Screws as they are sold.
//!
//! # Source
//! Kinds and lengths: common practice, no source. Screws of gypsum board are hardened and thin, those of cement board
//! have a coat against its alkali and a head with ribs that cuts itself in (ASTM C1002 type W and ANSI A108.11, from
//! memory); neither is a screw for framing.

use crate::units::Length;

/// A kind of screw into wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screw {
    /// For gypsum board.
    GypsumBoard,
    /// For cement board.
    CementBoard,
    /// For panels, sticks and steel bars.
    Wood,
}

impl Screw {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::GypsumBoard, Self::CementBoard, Self::Wood];

    /// Its name at the yard.
    pub const fn name(self) -> &'static str {
        match self {
            Self::GypsumBoard => "gypsum board screws",
            Self::CementBoard => "cement board screws",
            Self::Wood => "wood screws",
        }
    }

    /// The lengths it is sold in, in inches, shortest first.
    const fn inches(self) -> &'static [f64] {
        match self {
            Self::GypsumBoard => &[1.0, 1.125, 1.25, 1.625, 1.875, 2.0, 2.5, 3.0],
            Self::CementBoard => &[1.25, 1.625, 2.0, 2.25],
            Self::Wood => &[
                1.0, 1.25, 1.5, 1.625, 1.75, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 8.0, 10.0,
                12.0,
            ],
        }
    }

    /// The lengths it is sold in, shortest first.
    pub fn lengths(self) -> impl DoubleEndedIterator<Item = Length> {
        self.inches().iter().map(|it| Length::inches(*it))
    }

    /// The shortest that is at least so long; `None` where none is sold that long.
    pub fn at_least(self, length: Length) -> Option<Length> {
        self.lengths()
            .find(|it| !(length - *it - Length::mm(crate::units::TOLERANCE)).is_positive())
    }

    /// The longest that is sold.
    pub fn longest(self) -> Length {
        self.lengths().next_back().unwrap_or_default()
    }
}
