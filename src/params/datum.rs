//! A height or a place written from another thing of the design: the words for it.
//!
//! `on the ledge`, `3 in above the mantel`, `12 in right of the chase's left end`. What is written so is a
//! [`Following`]: a thing and how far from it, up or to the right. Where the thing is, `resolve` says.

use std::fmt;

use super::text::length_text;
use crate::units::{Length, ParseError, TapeUnit};

/// What a length counts along, where it says a height or a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// Up from the heights' datum.
    Height,
    /// To the right along the chase's face, as the unit's center counts.
    Face,
    /// To the right along the fireplace wall, from the left corner of the room.
    Wall,
}

/// The ways from a thing: none at all, and the two along an axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    At,
    More,
    Less,
}

/// The words of each way; those of one axis only say which.
const WAYS: [(&str, Way, bool); 6] = [
    ("on", Way::At, true),
    ("at", Way::At, false),
    ("above", Way::More, true),
    ("below", Way::Less, true),
    ("right of", Way::More, false),
    ("left of", Way::Less, false),
];

/// The one list of things that a length can be written from: a line each.
macro_rules! things {
    ($($thing:ident: $axis:ident, $name:literal, $what:literal;)+) => {
        /// A thing of the design that a height or a place can be written from.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Datum {
            $(
                #[doc = $what]
                $thing,
            )+
        }

        impl Datum {
            /// Every thing, in the order that they are offered.
            pub const ALL: &'static [Self] = &[$(Self::$thing),+];

            /// What it is called.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$thing => $name),+ }
            }

            /// Where it is, in one line.
            pub const fn meaning(self) -> &'static str {
                match self { $(Self::$thing => $what),+ }
            }

            const fn is_height(self) -> bool {
                match self { $(Self::$thing => things!(@ $axis)),+ }
            }
        }
    };
    (@ height) => { true };
    (@ place) => { false };
}

things! {
    Platform: height, "platform", "The top of the platform.";
    UnitTop: height, "unit's top", "The top of the unit's body.";
    OpeningBottom: height, "opening's bottom", "The bottom of the unit's finished opening.";
    OpeningTop: height, "opening's top", "The top of the unit's finished opening.";
    Ledge: height, "ledge", "Stepped front: the top of the ledge's plate.";
    MantelUnderside: height, "mantel's underside", "The underside of the mantel; `below the mantel` counts from it.";
    MantelTop: height, "mantel's top", "The top of the mantel; `above the mantel` and `on the mantel` count from it.";
    RecessSill: height, "recess's sill", "The finished sill of the recess.";
    RecessHead: height, "recess's head", "The finished head of the recess.";
    Ceiling: height, "ceiling", "The lowest place of the ceiling over the chase's framing.";
    ChaseLeft: place, "chase's left end", "The left edge of the chase's framing.";
    ChaseMiddle: place, "chase's middle", "The middle of the chase's framing.";
    ChaseRight: place, "chase's right end", "The right edge of the chase's framing.";
    OpeningLeft: place, "opening's left side", "The left side of the unit's finished opening.";
    UnitCenter: place, "unit's center", "The center of the unit.";
    OpeningRight: place, "opening's right side", "The right side of the unit's finished opening.";
    RecessLeft: place, "recess's left side", "The finished left side of the recess.";
    RecessCenter: place, "recess's center", "The center of the recess.";
    RecessRight: place, "recess's right side", "The finished right side of the recess.";
}

/// What has an underside and a top goes by its own name on either side.
const BOTH_SIDES: &str = "mantel";

impl Datum {
    /// Whether a length along this axis can be written from it.
    pub const fn fits(self, axis: Axis) -> bool {
        self.is_height() == matches!(axis, Axis::Height)
    }

    /// The names that a length along this axis can be written from.
    pub fn names(axis: Axis) -> impl Iterator<Item = &'static str> {
        let own = Self::ALL.iter().filter(move |it| it.fits(axis));
        let both = (axis == Axis::Height).then_some(BOTH_SIDES);
        own.map(|it| it.name()).chain(both)
    }

    fn called(name: &str, way: Way) -> Option<Self> {
        if name == BOTH_SIDES {
            return Some(match way {
                Way::At | Way::More => Self::MantelTop,
                Way::Less => Self::MantelUnderside,
            });
        }
        Self::ALL.iter().copied().find(|it| it.name() == name)
    }
}

/// A height or a place written from another thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Following {
    /// What it is written from.
    pub thing: Datum,
    /// How far above or right of it; below zero, below or left of it.
    pub offset: Length,
}

/// A key and what it is written from.
pub type Follower = (&'static str, Following);

/// Why a text is no [`Following`], at which byte of it, and how many bytes that is about.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Unlike {
    /// The length before the thing.
    Length(ParseError),
    /// A length below zero.
    Below(usize, usize),
    /// The way is one of the other kind of axis.
    Way(usize, usize),
    /// The thing: there is none of this name.
    Unknown(usize, usize),
    /// The thing is one of the other kind of axis.
    OtherAxis(Datum, usize, usize),
}

impl Following {
    /// Reads such a text; `None` where it is a plain length, or nothing of the kind.
    pub(super) fn parse(text: &str, axis: Axis, bare: TapeUnit) -> Option<Result<Self, Unlike>> {
        let words = WAYS.iter().filter_map(|(word, way, up)| {
            let at = starts_of(text, word).next()?;
            Some((at, *word, *way, *up))
        });
        let (at, word, way, up) = words.min_by_key(|it| it.0)?;
        let before = text.get(..at).unwrap_or_default();
        let after = at + word.len();
        if way == Way::At && !before.trim().is_empty() {
            return None;
        }
        let by = match way {
            Way::At => Length::ZERO,
            Way::More | Way::Less => match Length::parse(before, bare) {
                Ok(by) if by < Length::ZERO => {
                    let start = before.len() - before.trim_start().len();
                    return Some(Err(Unlike::Below(start, before.trim().len())));
                }
                Ok(by) => by,
                Err(error) => return Some(Err(Unlike::Length(error))),
            },
        };
        let is_height = axis == Axis::Height;
        if way != Way::At && up != is_height {
            return Some(Err(Unlike::Way(at, word.len())));
        }
        let rest = text.get(after..).unwrap_or_default();
        let start = after + (rest.len() - rest.trim_start().len());
        let named = Self::name_in(rest);
        let place = (start, rest.trim().len());
        Some(match Datum::called(&named, way) {
            None => Err(Unlike::Unknown(place.0, place.1)),
            Some(thing) if !thing.fits(axis) => Err(Unlike::OtherAxis(thing, place.0, place.1)),
            Some(thing) => Ok(Self {
                thing,
                offset: if way == Way::Less { -by } else { by },
            }),
        })
    }

    /// The name as it is looked for: without article, in small letters, with single spaces and straight marks.
    pub(super) fn name_in(text: &str) -> String {
        let folded = text.to_lowercase().replace('\u{2019}', "'");
        let words: Vec<&str> = folded.split_whitespace().collect();
        words.strip_prefix(&["the"]).unwrap_or(&words).join(" ")
    }

    /// As it is written: `on the ledge`, `3" above the mantel`.
    pub fn text(&self, unit: TapeUnit) -> String {
        // what counts up from the top of a thing, or down from its underside, goes by the thing's own name
        let both = if self.offset < Length::ZERO {
            Datum::MantelUnderside
        } else {
            Datum::MantelTop
        };
        let name = if self.thing == both {
            BOTH_SIDES
        } else {
            self.thing.name()
        };
        let is_height = self.thing.is_height();
        let way = if self.offset == Length::ZERO {
            let on = matches!(
                self.thing,
                Datum::Platform | Datum::Ledge | Datum::MantelTop | Datum::UnitTop
            );
            return format!("{} the {name}", if on { "on" } else { "at" });
        } else if self.offset > Length::ZERO {
            Way::More
        } else {
            Way::Less
        };
        let word = WAYS.iter().find(|it| it.1 == way && it.2 == is_height);
        let word = word.map_or("", |it| it.0);
        format!("{} {word} the {name}", length_text(self.offset.abs(), unit))
    }
}

/// Where a word stands in a text by itself.
fn starts_of<'a>(text: &'a str, word: &'a str) -> impl Iterator<Item = usize> + 'a {
    text.match_indices(word).map(|it| it.0).filter(move |at| {
        let before = text.get(..*at).and_then(|it| it.chars().next_back());
        let after = text.get(at + word.len()..);
        let after = after.and_then(|it| it.chars().next());
        before.is_none_or(|it| !it.is_alphabetic()) && after.is_some_and(char::is_whitespace)
    })
}

impl fmt::Display for Datum {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the {}", self.name())
    }
}
