//! The cap outside, in the terms in which places outside are given: along the wall that the vent goes through, from
//! the room's left corner or, of a side wall, from the fireplace wall; and up from the heights' datum.

use glam::DVec3;

use crate::design::{Design, Kind, StandingWall};
use crate::params::RoomWall;
use crate::units::{Length, Span};

/// The cap's outline.
pub(super) struct Cap<'a> {
    /// The wall that the vent goes through, and the cap's sides along it; nothing of a cap on the roof.
    pub(super) on_wall: Option<(&'a StandingWall, Span)>,
    /// Its underside and its top.
    pub(super) heights: Span,
    /// Its middle, on the wall's outside face where it is on one.
    pub(super) middle: DVec3,
}

impl<'a> Cap<'a> {
    /// The cap of a design, where the vent ends in one.
    pub(super) fn of(design: &'a Design) -> Option<Self> {
        let caps = || design.parts.iter().filter(|it| it.kind == Kind::Cap);
        let bounds = caps().map(|it| it.body.bounds);
        let bounds = bounds.reduce(|a, b| a.union(&b))?;
        let along = |wall: &StandingWall| {
            let way = wall.frame.x;
            let ends = caps().map(|it| [-way, way].map(|way| it.body.farthest(way)));
            let ends = ends.map(|it| it.map(|it| told_along(design, wall, it)));
            let spans = ends.map(|[a, b]| Span::new(a.min(b), a.max(b)));
            spans.reduce(|a, b| Span::new(a.low.min(b.low), a.high.max(b.high)))
        };
        let wall = design.layout.pass_wall();
        let on_face = |wall: &StandingWall| {
            let middle = wall.frame.local_point(bounds.center());
            wall.frame.point(middle.with_y(wall.depths.outside.to_mm()))
        };
        Some(Self {
            on_wall: wall.and_then(|wall| Some((wall, along(wall)?))),
            heights: Span::new(Length::mm(bounds.low.z), Length::mm(bounds.high.z)),
            middle: wall.map_or(bounds.center(), on_face),
        })
    }

    /// From its outline to a rectangle of the wall that it is on: left, bottom, right, top.
    pub(super) fn distance(&self, sides: Span, [left, bottom, right, top]: &[Length; 4]) -> Length {
        let apart = |span: Span, low: Length, high: Length| {
            (low - span.high).max(span.low - high).max(Length::ZERO)
        };
        let across = apart(sides, *left, *right).to_mm();
        let up = apart(self.heights, *bottom, *top).to_mm();
        Length::mm((across * across + up * up).sqrt())
    }
}

/// How far along a wall a place is, as it is entered.
fn told_along(design: &Design, wall: &StandingWall, place: DVec3) -> Length {
    match wall.place {
        RoomWall::Back | RoomWall::Behind => {
            Length::mm(design.layout.site.room.local_point(place).x)
        }
        RoomWall::Left => wall.length - Length::mm(wall.frame.local_point(place).x),
        RoomWall::Right => Length::mm(wall.frame.local_point(place).x),
    }
}
