//! What a finding is about: what is measured, and of which things. Its text is made here and nowhere else.
//!
//! Two findings of a rule are the same finding where their subjects are equal, whatever numbers they bring: so a
//! remedy finds again what it has to clear, and consequences find their cause.

use std::fmt;

use super::inside::Boundary;
use crate::design::{Branch, ClearanceKind, Packed, Part};
use crate::params::{ChaseWall, Hand, RoomWall};

/// What a rule measures, in the words of the trade; each `{}` stands for one of the things that it is measured of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Measure(pub &'static str);

/// Stands for a thing among the words of a measure.
const THING: &str = "{}";

/// One of the things that something is measured of.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Thing {
    /// A part, by its id.
    Part(String),
    /// What a clearance volume keeps clear of.
    Volume(ClearanceKind),
    /// A wall of the chase, or another branch of the model tree.
    Branch(Branch),
    /// What is packed.
    Packed(Packed),
    /// A wall of the room.
    RoomWall(RoomWall),
    /// A side of the room.
    Boundary(Boundary),
    /// The left or the right one of two.
    Hand(Hand),
    /// The place in a list of the parameter file, the first being 1.
    Number(usize),
    /// What the parameter file gives a name of its own.
    Named(String),
    /// One of the few that a rule itself tells apart.
    Word(&'static str),
}

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Subject {
    /// What is measured.
    pub measure: Measure,
    /// Of what, in the order of the words; empty where the chase has only one.
    pub of: Vec<Thing>,
}

impl Measure {
    /// The measure of these things.
    pub fn of(self, things: impl IntoIterator<Item = Thing>) -> Subject {
        Subject {
            measure: self,
            of: things.into_iter().collect(),
        }
    }
}

impl Subject {
    /// Whether a person calls it so: as it is printed.
    pub fn is_called(&self, text: &str) -> bool {
        self.to_string() == text.trim()
    }

    /// Whether it is about this part.
    pub fn names(&self, id: &str) -> bool {
        self.of.iter().any(|it| it.is_part(id))
    }
}

impl Thing {
    fn is_part(&self, id: &str) -> bool {
        if let Self::Part(own) = self {
            own == id
        } else {
            false
        }
    }
}

impl From<Measure> for Subject {
    fn from(measure: Measure) -> Self {
        measure.of([])
    }
}

impl From<&Part> for Thing {
    fn from(part: &Part) -> Self {
        Self::Part(part.id.clone())
    }
}

impl From<ChaseWall> for Thing {
    fn from(wall: ChaseWall) -> Self {
        Self::Branch(wall.into())
    }
}

impl fmt::Display for Thing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Part(text) | Self::Named(text) => f.write_str(text),
            Self::Volume(kind) => f.write_str(kind.name()),
            Self::Branch(branch) => branch.fmt(f),
            Self::Packed(packed) => packed.fmt(f),
            Self::RoomWall(wall) => f.write_str(wall.name()),
            Self::Boundary(boundary) => f.write_str(boundary.name()),
            Self::Hand(hand) => hand.fmt(f),
            Self::Number(number) => number.fmt(f),
            Self::Word(word) => f.write_str(word),
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut words = self.measure.0.split(THING);
        f.write_str(words.next().unwrap_or_default())?;
        let mut things = self.of.iter();
        for after in words {
            if let Some(thing) = things.next() {
                thing.fmt(f)?;
            }
            f.write_str(after)?;
        }
        Ok(())
    }
}
