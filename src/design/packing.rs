//! Where the room is not as it is drawn: how far plates and walls stay from it, and what packs the space.
//!
//! Plates are straight, plumb and square whatever they stand before; what is left between them and the room is
//! packed with shims, or closed by a board that is scribed to it.
//!
//! The room is drawn plumb, level and square too, where it comes farthest toward the chase: the slab at its highest place,
//! the back wall and a side wall at the place farthest into the room. Only across a corner the side wall is drawn at its
//! own angle, and the chase cut to it. So nothing cuts into the room, and every distance is held where it is least; what
//! lies behind is a [`Packing`], one row for each reading. Only the vent's run asks how far the wall lies behind
//! ([`Layout::vent_goes_on`]).
//!
//! A ceiling is one plane. Plates along readings lie under it by a straight line of each wall's own (`geom::line_under`):
//! never over the plane, nor under the lowest reading over the wall, so that `Params::plates_drop` bounds them.

use std::fmt;

use glam::{DVec2, DVec3};

use crate::geom::{EndPlane, Frame, TOLERANCE, Underside, line_under};
use crate::layout::{Layout, point};
use crate::params::{ChaseWall, End, FloorReading, Params, PlatesAlong, RoomWall};
use crate::units::Length;

/// The space between a straight part and the room at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Packing {
    /// What is packed.
    pub of: Packed,
    /// From where the place counts.
    pub from: Whence,
    /// The place.
    pub at: Length,
    /// How much is packed there.
    pub thickness: Length,
    /// Where it was read.
    pub read: ReadAt,
    /// Where it is.
    pub place: DVec3,
}

/// What is packed against what.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Packed {
    /// The top plate of a wall, under the ceiling.
    TopPlate(ChaseWall),
    /// The sole plate of a wall, on the slab.
    SolePlate(ChaseWall),
    /// The ends of the chase's walls, at the wall behind them.
    Ends,
    /// The chase, at a side wall of the room.
    Side(RoomWall),
}

/// From where the place of a packing counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whence {
    /// The left end of a wall, or of a plate.
    LeftEnd,
    /// The right end.
    RightEnd,
    /// The end toward the room.
    RoomEnd,
    /// The end at the wall behind the chase.
    WallEnd,
    /// Where heights count from.
    Datum,
    /// The fireplace wall.
    FireplaceWall,
}

/// What says how thick a packing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadAt {
    /// A reading of the ceiling, by its number from 1.
    Ceiling(usize),
    /// A reading of the floor, by its number from 1.
    Floor(usize),
    /// A reading of the wall behind, by its number from 1.
    Plumb(usize),
    /// The readings across the room's left corner.
    LeftCorner,
    /// The readings across its right corner.
    RightCorner,
}

impl Packed {
    /// Whether it lies between a top plate and the ceiling.
    pub const fn is_over(self) -> bool {
        matches!(self, Self::TopPlate(_))
    }

    /// Whether it lies between a sole plate and the slab.
    pub const fn is_under(self) -> bool {
        matches!(self, Self::SolePlate(_))
    }

    /// Whether it lies between the ends of the chase's walls and the wall behind them.
    pub const fn is_behind(self) -> bool {
        matches!(self, Self::Ends)
    }

    /// Whether it lies between the chase and this side wall of the room.
    pub fn is_beside(self, wall: RoomWall) -> bool {
        self == Self::Side(wall)
    }
}

impl fmt::Display for Packed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TopPlate(wall) => write!(f, "{wall}, top plate"),
            Self::SolePlate(wall) => write!(f, "{wall}, sole plate"),
            Self::Ends => f.write_str("walls' ends, back wall"),
            Self::Side(wall) => write!(f, "chase, {}", wall.name()),
        }
    }
}

impl Whence {
    /// The words for it, without an article.
    pub const fn name(self) -> &'static str {
        match self {
            Self::LeftEnd => "left end",
            Self::RightEnd => "right end",
            Self::RoomEnd => "room end",
            Self::WallEnd => "wall end",
            Self::Datum => "heights' datum",
            Self::FireplaceWall => "fireplace wall",
        }
    }
}

impl fmt::Display for Whence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl fmt::Display for ReadAt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ceiling(number) => write!(f, "ceiling reading {number}"),
            Self::Floor(number) => write!(f, "floor reading {number}"),
            Self::Plumb(number) => write!(f, "plumb reading {number}"),
            Self::LeftCorner => f.write_str("across the left corner"),
            Self::RightCorner => f.write_str("across the right corner"),
        }
    }
}

/// Where a framed wall stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct WallPlace {
    pub(super) wall: ChaseWall,
    /// u along it from its left end as seen from the room side, v inward, w up from the slab.
    pub(super) frame: Frame,
    pub(super) length: Length,
    pub(super) depth: Length,
    /// How far each end runs to the right for each step inward.
    pub(super) skew: [f64; 2],
}

impl WallPlace {
    /// From its first to its last point along u.
    fn ends(&self) -> (f64, f64) {
        let [low, high] = self.skew.map(|skew| skew * self.depth.to_mm());
        (low.min(0.0), self.length.to_mm() + high.max(0.0))
    }

    /// The end that u counts from, as layout marks call it.
    fn begins(&self) -> Whence {
        let along = self.frame.x;
        match (along.x.abs() >= along.y.abs(), along.x > 0.0, along.y > 0.0) {
            (true, true, _) => Whence::LeftEnd,
            (true, false, _) => Whence::RightEnd,
            (false, _, true) => Whence::RoomEnd,
            (false, _, false) => Whence::WallEnd,
        }
    }

    /// Which of these places lie over it or within a stud spacing of it: their number, and where along u.
    fn near(&self, params: &Params, places: &[DVec3]) -> Vec<(usize, f64)> {
        let (low, high) = self.ends();
        let near = params.chase.stud_spacing.to_mm();
        let places = places.iter().map(|it| self.frame.local_point(*it));
        let over = places.enumerate().filter(|(_, it)| {
            let along = low - near..=high + near;
            let across = -near..=self.depth.to_mm() + near;
            along.contains(&it.x) && across.contains(&it.y)
        });
        over.map(|(index, it)| (index, it.x.clamp(low, high)))
            .collect()
    }

    /// The readings of the ceiling near it: their number, place along u, and how far the ceiling lies over the
    /// plane through all.
    fn read_over(&self, params: &Params) -> Vec<(usize, DVec2)> {
        let (places, off): (Vec<_>, Vec<_>) = params.off_the_plane().into_iter().unzip();
        let near = self.near(params, &places).into_iter();
        near.map(|(index, along)| (index, DVec2::new(along, off[index].to_mm())))
            .collect()
    }

    /// What its sole plate is packed with, at each reading of the floor near it.
    fn sole_packing(&self, layout: &Layout) -> Vec<Packing> {
        let read = layout.params.floor_readings();
        let place =
            |it: &FloorReading| layout.site.room.point(point(it.right, it.out, layout.slab));
        let places: Vec<DVec3> = read.iter().map(place).collect();
        let near = self.near(&layout.params, &places).into_iter();
        near.map(|(index, along)| Packing {
            of: Packed::SolePlate(self.wall),
            from: self.begins(),
            at: Length::mm(along),
            thickness: read[index].below,
            read: ReadAt::Floor(index + 1),
            place: self.frame.point(DVec3::X * along),
        })
        .collect()
    }

    /// How far its top lies under the ceiling's plane less the gap: the height at its left end, below zero, and
    /// the slope along u.
    fn top_line(&self, params: &Params) -> DVec2 {
        if params.ceiling.plates == PlatesAlong::Plane {
            return DVec2::ZERO;
        }
        let read: Vec<DVec2> = self.read_over(params).into_iter().map(|it| it.1).collect();
        line_under(&read, self.ends())
    }

    /// What its plates lie the gap under, over the world: the ceiling, or its own plane under the readings.
    pub(super) fn under(&self, layout: &Layout) -> Underside {
        let line = self.top_line(&layout.params);
        let slope = self.frame.x.truncate() * line.y;
        let from = slope.dot(self.frame.origin.truncate());
        let ends = [0.0, self.length.to_mm()].map(|u| -self.frame.point(DVec3::X * u).y);
        let ceiling = layout.ceiling_to(Length::mm(ends[0].max(ends[1])));
        let planes = ceiling.planes().iter().map(|plane| EndPlane {
            height: plane.height + line.x - from,
            slope: plane.slope + slope,
        });
        Underside::new(planes.collect())
    }

    /// What its top plate is packed with, at each reading over it.
    pub(super) fn top_packing(&self, layout: &Layout) -> Vec<Packing> {
        if layout.params.ceiling.plates == PlatesAlong::Plane {
            return Vec::new();
        }
        let line = self.top_line(&layout.params);
        let read = self.read_over(&layout.params).into_iter();
        read.map(|(index, it)| {
            let thickness = it.y - (line.x + line.y * it.x) + layout.params.ceiling.gap.to_mm();
            let on_face = self.frame.point(DVec3::X * it.x);
            let over = layout.ceiling.z(on_face.truncate());
            Packing {
                of: Packed::TopPlate(self.wall),
                from: self.begins(),
                at: Length::mm(it.x),
                thickness: Length::mm(thickness),
                read: ReadAt::Ceiling(index + 1),
                place: on_face.with_z(over + it.y),
            }
        })
        .collect()
    }
}

/// Everything that is packed in a design.
pub(super) fn all(layout: &Layout) -> Vec<Packing> {
    let walls = super::framing::places(layout).into_iter();
    let tops = walls.flat_map(|wall| wall.top_packing(layout));
    let soles = super::framing::standing_places(layout).into_iter();
    let soles = soles.flat_map(|wall| wall.sole_packing(layout));
    let sides = [
        (RoomWall::Left, Length::ZERO, ReadAt::LeftCorner),
        (
            RoomWall::Right,
            layout.params.room.width,
            ReadAt::RightCorner,
        ),
    ];
    let beside = sides
        .into_iter()
        .zip(layout.site.ends)
        .filter(|(_, end)| *end == End::Wall && !layout.site.stands_off())
        .flat_map(|(corner, _)| beside(corner, layout));
    tops.chain(soles)
        .chain(at_the_wall(layout))
        .chain(beside)
        .collect()
}

/// What the plumb ends of the chase's walls leave before a wall that leans, at each reading.
fn at_the_wall(layout: &Layout) -> Vec<Packing> {
    let Some(lean) = layout.lean.as_ref().filter(|_| !layout.site.stands_off()) else {
        return Vec::new();
    };
    let read = lean.read.iter().enumerate();
    let packing = |(index, (height, behind, _)): (usize, &(Length, Length, Length))| Packing {
        of: Packed::Ends,
        from: Whence::Datum,
        at: *height,
        thickness: *behind,
        read: ReadAt::Plumb(index + 1),
        place: point(
            layout.site.chase.center(),
            layout.wall_comes_out(Length::ZERO),
            *height,
        ),
    };
    read.map(packing).collect()
}

/// What a chase that stands square against a side wall of the room leaves there, where that is not square to the
/// fireplace wall: at the corner, and at the chase's finished face.
fn beside((wall, right, read): (RoomWall, Length, ReadAt), layout: &Layout) -> Vec<Packing> {
    let opens = layout.params.corner_opens(wall);
    if opens.abs() <= TOLERANCE {
        return Vec::new();
    }
    let reach = layout.faces.lower_finished;
    let gap = |out: Length| {
        if opens > 0.0 {
            out * opens
        } else {
            (reach - out) * -opens
        }
    };
    let packing = |out: Length| Packing {
        of: Packed::Side(wall),
        from: Whence::FireplaceWall,
        at: out,
        thickness: gap(out),
        read,
        place: layout.site.room.point(point(right, out, layout.slab)),
    };
    [Length::ZERO, reach].map(packing).to_vec()
}
