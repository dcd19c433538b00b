//! Params in, Design out: every part, clearance volume and note, named and placed. Pure, and it cannot fail.

mod names;
mod part;

pub use part::{
    Bars, Clearance, ClearanceKind, Direction, Group, Kind, Note, Part, Reach, Stage, Stock,
};

/// The whole model of one chase.
#[derive(Debug, Clone, Default)]
pub struct Design {
    /// The design's title.
    pub name: String,
    /// Every physical thing, the room included.
    pub parts: Vec<Part>,
    /// Every clearance volume.
    pub clearances: Vec<Clearance>,
    /// What was done otherwise than asked.
    pub notes: Vec<Note>,
}
