//! The middle line of a vent, leg by leg.

use glam::DVec3;

use crate::params::room_wall::RoomWall;
use crate::units::{Angle, Length, Slope};

/// The middle line of a vent.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// The straights, in order, each from meeting point to meeting point.
    pub legs: Vec<Leg>,
    /// Where it ends.
    pub exit: Exit,
}

/// A straight of the middle line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// Where it begins: the collar, or where it meets the leg before.
    pub start: DVec3,
    /// Unit vector along it.
    pub direction: DVec3,
    /// From meeting point to meeting point; the last one's ends in the cap.
    pub length: Length,
    /// How it lies.
    pub lie: Lie,
    /// How far it turns from the leg before; zero for the first.
    pub turn: Angle,
    /// What the elbow before it takes of it and of the leg before.
    pub elbow_leg: Length,
}

/// How a straight lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lie {
    /// Upright.
    Plumb,
    /// A run, level but for this rise.
    Run(Slope),
    /// In between.
    Inclined,
}

/// Where a vent ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// Outside a wall.
    Wall(RoomWall),
    /// Over the roof.
    Roof,
}

/// What is wrong with a step, counted from 0.
pub(in crate::params) struct Flaw {
    pub(in crate::params) step: usize,
    pub(in crate::params) problem: String,
    pub(in crate::params) expected: &'static str,
}
