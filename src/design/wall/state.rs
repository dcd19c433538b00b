//! A wall while it is framed: what it is framed to, and its sticks so far.

use crate::catalog::{FramingMember, Lumber};
use crate::design::Kind;
use crate::design::builder::Make;
use crate::geom::{Frame, Swept, Underside};
use crate::params::{ChaseWall, Params, PlateEdges};
use crate::units::{Length, Span};

/// A wall about to be framed.
pub(in crate::design) struct Wall<'a> {
    /// Which wall it is.
    pub(in crate::design) which: ChaseWall,
    /// Where it stands.
    pub(in crate::design) frame: Frame,
    /// Its length along u.
    pub(in crate::design) length: Length,
    /// Studs and plates.
    pub(in crate::design) stud: &'a FramingMember,
    /// Stud spacing on center.
    pub(in crate::design) spacing: Length,
    /// From which end the spacing counts.
    pub(in crate::design) layout_from: LayoutFrom,
    /// Underside of what the wall ends under, over (u, v).
    pub(in crate::design) top: Underside,
    /// How far each end runs to the right for each step inward: 0 is square.
    pub(in crate::design) skew: [f64; 2],
    /// What closes the wall at its top.
    pub(in crate::design) cover: Cover<'a>,
    /// Where its plates keep square edges.
    pub(in crate::design) edges: SquareEdges,
    /// How far its top plates stop short of its left and its right end.
    pub(in crate::design) plates_short: [Length; 2],
    /// The longest board that its plates can be cut from.
    pub(in crate::design) longest: Length,
    /// What sticks leave between them that do not touch, for a hammer.
    pub(in crate::design) hammer_room: Length,
    /// Whether no edge of a board needs the layout, so that the run between the end studs is divided evenly.
    pub(in crate::design) is_even: bool,
    /// Whether what is framed next stands already.
    pub(super) stands_already: bool,
    /// Vertical sticks that stand so far: where along u, between which heights.
    pub(super) standing: Vec<(Span, Reach)>,
    /// Every stick so far, not yet numbered.
    pub(super) sticks: Vec<Stick>,
    /// Layout studs left out for other sticks.
    pub(super) dropped: Vec<Length>,
}

/// A stick before it has a number.
pub(super) struct Stick {
    /// Its left end along u, then its underside.
    pub(super) from_left: (Length, Length),
    pub(super) make: Make,
    pub(super) shape: Swept,
    pub(super) frame: Frame,
}

/// Where plates keep the square edges that they are sold with.
#[derive(Debug, Clone, Copy)]
pub(in crate::design) struct SquareEdges {
    /// Where the bevel of a rip would rise less than this through its thickness.
    pub(in crate::design) below: Length,
    /// Where they cover so much of the studs at least.
    pub(in crate::design) least_cover: Length,
}

impl SquareEdges {
    /// Nowhere.
    pub(super) const NOWHERE: Self = Self {
        below: Length::ZERO,
        least_cover: Length::ZERO,
    };

    /// Where those of a wall do: nowhere, where they would be in the way of something.
    pub(in crate::design) fn of(wall: ChaseWall, params: &Params, ripped: &[ChaseWall]) -> Self {
        let below = match params.chase.plate_edges {
            _ if ripped.contains(&wall) => Length::ZERO,
            PlateEdges::Ripped => params.saw.tolerance,
            PlateEdges::Square => Length::mm(f64::INFINITY),
        };
        Self {
            below,
            least_cover: params.chase.plate_cover,
        }
    }
}

/// The end of a wall that its layout counts from.
#[derive(Clone, Copy)]
pub(in crate::design) enum LayoutFrom {
    /// The left end, as seen from the room side.
    Left,
    /// The right end: so that two side walls are laid out as a pair.
    Right,
}

/// The side of a stud that its web is on, along the wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::design) enum Web {
    /// Toward the wall's left end.
    Left,
    /// Toward its right end.
    Right,
}

/// What closes a wall at its top.
#[derive(Clone, Copy)]
pub(in crate::design) enum Cover<'a> {
    /// This many plates in the plane of the top, made of the wall's own stock.
    Plates(u32),
    /// A level ledge of this stock, flush with the wall's face; its upper side is the wall's top.
    Ledge(&'a Lumber),
}

/// How far up a vertical stick goes.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Reach {
    /// Between two heights.
    Between(Length, Length),
    /// From a height to the underside of the plates.
    ToPlates(Length),
}

/// A stud, or what openings leave of one.
pub(super) fn kind_of(reach: Reach, along: Span, holes: &[Hole]) -> Kind {
    match (reach, holes.iter().any(|hole| hole.sides.overlaps(along))) {
        (Reach::ToPlates(_), false) => Kind::Stud,
        _ => Kind::Cripple,
    }
}

/// A part of the wall that layout studs have to leave free, sticks around it included.
pub(super) struct Hole {
    pub(super) sides: Span,
    pub(super) heights: Span,
}

impl Reach {
    /// The heights that two have in common.
    pub(super) fn common(self, other: Self) -> Self {
        match (self, other) {
            (Self::ToPlates(a), Self::ToPlates(b)) => Self::ToPlates(a.max(b)),
            (Self::ToPlates(low), Self::Between(from, to))
            | (Self::Between(from, to), Self::ToPlates(low)) => Self::Between(from.max(low), to),
            (Self::Between(a, b), Self::Between(c, d)) => Self::Between(a.max(c), b.min(d)),
        }
    }

    pub(super) fn overlaps(self, other: Self) -> bool {
        let span = |reach| match reach {
            Self::Between(low, high) => Span::new(low, high),
            Self::ToPlates(low) => Span::new(low, Length::mm(f64::INFINITY)),
        };
        Span::overlaps(span(self), span(other))
    }
}
