//! Parameters that are one word out of a few.

use super::value::{Kind, Quantity, Value};
use crate::units::TapeUnit;

/// Gives an enumeration its written words, and with them its place among the kinds of parameter.
macro_rules! words {
    ($choice:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        impl $choice {
            /// The words of the parameter file, in the order they are offered.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The word of the parameter file.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }

            /// The choice that a word of the parameter file stands for.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }

        impl Quantity for $choice {
            const KIND: Kind = Kind::Choice(Self::WORDS);

            fn to_value(&self) -> Option<Value> {
                Some(Value::Choice(self.word()))
            }

            fn from_value(value: &Value) -> Option<Self> {
                match value {
                    Value::Choice(word) => Self::from_word(word),
                    _ => None,
                }
            }
        }
    };
}

/// From where heights count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FloorDatum {
    /// The bare slab.
    BareSlab,
    /// The top of the floor covering.
    FinishedFloor,
}

/// How a ridge of the ceiling runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RidgeRun {
    /// Out from the fireplace wall, into the room.
    Out,
    /// Along the fireplace wall.
    Along,
}

/// Whether the existing wall carries load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bearing {
    /// It does.
    Yes,
    /// It does not.
    No,
    /// Nobody has said; it counts as bearing.
    Unknown,
}

/// How the front of the chase is built.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrontForm {
    /// One wall from slab to ceiling.
    OneWall,
    /// A set-back wall with a bump-out frame before it, whose top plate is the ledge.
    Stepped,
}

/// How studs are cut to the space between plates.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// The wall is framed lying down and stood up: rather short than long.
    TiltUp,
    /// Studs are tapped in between fixed plates: rather long than short.
    InPlace,
}

/// What a sheet of the yard is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetKind {
    /// Paper-faced gypsum board.
    Drywall,
    /// Cement board.
    CementBoard,
    /// Plywood or another structural panel.
    Panel,
}

/// An answer that only the manual can give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Permission {
    /// It may.
    Yes,
    /// It may not.
    No,
}

/// From where the manual counts a mantel's projection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ProjectionDatum {
    /// The finished face around the unit.
    FinishedFace,
    /// The unit's own face.
    UnitFace,
    /// The front of the opening, its lip.
    Opening,
}

/// From where the manual counts a mantel's height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeightDatum {
    /// The top of the opening.
    OpeningTop,
    /// The top of the unit's body.
    BodyTop,
}

words!(TapeUnit { Inch = "inch", Millimeter = "mm" });
words!(FloorDatum { BareSlab = "bare_slab", FinishedFloor = "finished_floor" });
words!(RidgeRun { Out = "out", Along = "along" });
words!(Bearing { Yes = "yes", No = "no", Unknown = "unknown" });
words!(FrontForm { OneWall = "one_wall", Stepped = "stepped" });
words!(Fit { TiltUp = "tilt_up", InPlace = "in_place" });
words!(SheetKind { Drywall = "drywall", CementBoard = "cement_board", Panel = "panel" });
words!(Permission { Yes = "yes", No = "no" });
words!(ProjectionDatum { FinishedFace = "finished_face", UnitFace = "unit_face", Opening = "opening" });
words!(HeightDatum { OpeningTop = "opening_top", BodyTop = "body_top" });
