//! The ways in which a wall can go up.

use glam::DVec3;

use crate::geom::TOLERANCE;
use crate::params::{ChaseWall, Fit};
use crate::units::Length;

/// The side of its place that a wall is raised from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RaisedFrom {
    /// From outside the chase: of a front, the room.
    Outside,
    /// From inside the chase.
    Inside,
}

/// As what a wall is raised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lifted {
    /// With its top plates.
    Whole,
    /// Without them: they are fixed first.
    UnderPlate,
}

/// A wall's way from lying to plumb.
#[derive(Debug, Clone, PartialEq)]
pub struct WayUp {
    /// The side that it lies on.
    pub from: RaisedFrom,
    /// What is lifted.
    pub lifted: Lifted,
    /// The part that comes nearest to the ceiling.
    pub part: String,
    /// Where it does.
    pub place: DVec3,
    /// The height that it reaches there.
    pub height: Length,
    /// Height of the ceiling there.
    pub ceiling: Length,
    /// Floor from the foot to the room's wall, where least is left of it.
    pub floor: Length,
    /// How much of it the frame takes lying.
    pub lies: Length,
    /// Where it ends lying.
    pub end: DVec3,
    /// Whether the top plates let it slide under them from this side.
    pub slides: bool,
    /// What it lies over, seen from above: low and high corner.
    pub(super) area: (DVec3, DVec3),
}

/// How a wall is built in its place.
#[derive(Debug, Clone, PartialEq)]
pub enum Method {
    /// Framed lying, and raised.
    Raised(WayUp),
    /// Stick by stick.
    InPlace,
}

/// A wall and how it goes up.
#[derive(Debug, Clone, PartialEq)]
pub struct Raising {
    /// The wall.
    pub wall: ChaseWall,
    /// What the file asks for.
    pub asked: Fit,
    /// How it goes up.
    pub method: Method,
    /// Every way there would be, whether there is room for it or not.
    pub ways: Vec<WayUp>,
    /// The longest upright, and its length.
    pub longest: (String, Length),
    /// The longest straight way over the room's floor, on which an upright is laid and stood up.
    pub across: Length,
    /// Whether it lies where the platform will be, and so goes up before that is laid.
    pub before_platform: bool,
}

impl RaisedFrom {
    /// In words, for a wall.
    pub const fn words(self, wall: ChaseWall) -> &'static str {
        match self {
            Self::Inside => "from inside the chase",
            Self::Outside if wall.has_opening() => "from the room",
            Self::Outside => "from outside the chase",
        }
    }
}

impl WayUp {
    /// What is left under the ceiling.
    pub fn under_ceiling(&self) -> Length {
        self.ceiling - self.height
    }

    /// What is left of the floor.
    pub fn floor_left(&self) -> Length {
        self.floor - self.lies
    }

    pub(super) fn margin(&self) -> Length {
        self.under_ceiling().min(self.floor_left())
    }

    /// Whether the wall can be raised so.
    pub fn has_room(&self) -> bool {
        self.slides && self.margin().to_mm() >= -TOLERANCE
    }

    pub(super) fn lies_over(&self, (low, high): (DVec3, DVec3)) -> bool {
        let overlap = self.area.1.min(high) - self.area.0.max(low);
        overlap.truncate().min_element() > TOLERANCE
    }
}

impl Method {
    /// The way that it is raised, if it is.
    pub const fn way(&self) -> Option<&WayUp> {
        match self {
            Self::Raised(way) => Some(way),
            Self::InPlace => None,
        }
    }

    /// How sticks of the wall are cut and nailed.
    pub const fn fit(&self) -> Fit {
        match self {
            Self::InPlace => Fit::InPlace,
            Self::Raised(way) => match way.lifted {
                Lifted::Whole => Fit::TiltUp,
                Lifted::UnderPlate => Fit::PlateFirst,
            },
        }
    }
}
