//! Where the room is not as it is drawn: how far plates and walls stay from it, and what packs the space.
//!
//! Plates are straight, plumb and square whatever they stand before; what is left between them and the room is
//! packed with shims, or closed by a board that is scribed to it.

use glam::{DVec2, DVec3};

use super::layout::{Layout, Side};
use super::span::point;
use crate::geom::{EndPlane, Frame, TOLERANCE, Underside, line_under};
use crate::params::{ChaseWall, FloorReading, Params, PlatesAlong, RoomWall};
use crate::units::Length;

/// The space between a straight part and the room at one place.
#[derive(Debug, Clone, PartialEq)]
pub struct Packing {
    /// What is packed, such as "front, top plate".
    pub of: String,
    /// From where the place counts.
    pub from: &'static str,
    /// The place.
    pub at: Length,
    /// How much is packed there.
    pub thickness: Length,
    /// Where it was read, such as "ceiling reading 3".
    pub read: String,
    /// Where it is.
    pub place: DVec3,
}

impl Packing {
    /// Whether it lies between a top plate and the ceiling.
    pub fn is_over(&self) -> bool {
        self.of.ends_with("top plate")
    }

    /// Whether it lies between the chase and this side wall of the room.
    pub fn is_beside(&self, wall: RoomWall) -> bool {
        self.of == format!("chase, {}", wall.name())
    }

    /// Whether it lies between the ends of the chase's walls and the wall behind them.
    pub fn is_behind(&self) -> bool {
        self.of.ends_with("back wall")
    }

    /// Whether it lies between a sole plate and the slab.
    pub fn is_under(&self) -> bool {
        self.of.ends_with("sole plate")
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
    fn begins(&self) -> &'static str {
        let along = self.frame.x;
        match (along.x.abs() >= along.y.abs(), along.x > 0.0, along.y > 0.0) {
            (true, true, _) => "left end",
            (true, false, _) => "right end",
            (false, _, true) => "room end",
            (false, _, false) => "wall end",
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
    fn sole_packing(&self, params: &Params, layout: &Layout) -> Vec<Packing> {
        let read = params.floor_readings();
        let place = |it: &FloorReading| layout.room.point(point(it.right, it.out, layout.slab));
        let places: Vec<DVec3> = read.iter().map(place).collect();
        let near = self.near(params, &places).into_iter();
        near.map(|(index, along)| Packing {
            of: format!("{}, sole plate", self.wall),
            from: self.begins(),
            at: Length::mm(along),
            thickness: read[index].below,
            read: format!("floor reading {}", index + 1),
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
    pub(super) fn under(&self, params: &Params, layout: &Layout) -> Underside {
        let line = self.top_line(params);
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
    pub(super) fn top_packing(&self, params: &Params, layout: &Layout) -> Vec<Packing> {
        if params.ceiling.plates == PlatesAlong::Plane {
            return Vec::new();
        }
        let line = self.top_line(params);
        let read = self.read_over(params).into_iter();
        read.map(|(index, it)| {
            let thickness = it.y - (line.x + line.y * it.x) + params.ceiling.gap.to_mm();
            let on_face = self.frame.point(DVec3::X * it.x);
            let over = layout.ceiling.z(on_face.truncate());
            Packing {
                of: format!("{}, top plate", self.wall),
                from: self.begins(),
                at: Length::mm(it.x),
                thickness: Length::mm(thickness),
                read: format!("ceiling reading {}", index + 1),
                place: on_face.with_z(over + it.y),
            }
        })
        .collect()
    }
}

/// Everything that is packed in a design.
pub(super) fn all(params: &Params, layout: &Layout) -> Vec<Packing> {
    let walls = super::framing::places(params, layout).into_iter();
    let tops = walls.flat_map(|wall| wall.top_packing(params, layout));
    let soles = super::framing::standing_places(params, layout).into_iter();
    let soles = soles.flat_map(|wall| wall.sole_packing(params, layout));
    let beside = [RoomWall::Left, RoomWall::Right]
        .into_iter()
        .flat_map(|wall| beside(wall, params, layout));
    tops.chain(soles)
        .chain(at_the_wall(params, layout))
        .chain(beside)
        .collect()
}

/// What the plumb ends of the chase's walls leave before a wall that leans, at each reading.
fn at_the_wall(params: &Params, layout: &Layout) -> Vec<Packing> {
    let Some(lean) = layout.lean.as_ref().filter(|_| !params.is_divider()) else {
        return Vec::new();
    };
    let read = lean.read.iter().enumerate();
    let packing = |(index, (height, behind, _)): (usize, &(Length, Length, Length))| Packing {
        of: "walls' ends, back wall".to_owned(),
        from: "heights' datum",
        at: *height,
        thickness: *behind,
        read: format!("plumb reading {}", index + 1),
        place: point(
            layout.chase.center(),
            layout.wall_behind(Length::ZERO),
            *height,
        ),
    };
    read.map(packing).collect()
}

/// What a chase that stands square against a side wall of the room leaves there, where that is not square to the
/// fireplace wall: at the corner, and at the chase's finished face.
fn beside(wall: RoomWall, params: &Params, layout: &Layout) -> Vec<Packing> {
    let opens = params.corner_opens(wall);
    let (index, right) = match wall {
        RoomWall::Left => (0, Length::ZERO),
        _ => (1, params.room.width),
    };
    let stands = layout.sides[index] == Side::Wall && !params.is_divider();
    if opens.abs() <= TOLERANCE || !stands {
        return Vec::new();
    }
    let reach = layout.lower_finished;
    let gap = |out: Length| {
        if opens > 0.0 {
            out * opens
        } else {
            (reach - out) * -opens
        }
    };
    let packing = |out: Length| Packing {
        of: format!("chase, {}", wall.name()),
        from: "fireplace wall",
        at: out,
        thickness: gap(out),
        read: format!("across the {} corner", ["left", "right"][index]),
        place: layout.room.point(point(right, out, layout.slab)),
    };
    [Length::ZERO, reach].map(packing).to_vec()
}
