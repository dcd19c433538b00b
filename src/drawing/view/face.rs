//! A standing wall seen square to it, from the room or from outside, in the wall's own numbers.

use glam::{DVec2, DVec3};

use crate::design::StandingWall;
use crate::drawing::eye::Eye;
use crate::drawing::subject::at;
use crate::params::RoomWall;
use crate::units::{Angle, Length};

/// Sides of the polygon that an ellipse is drawn as.
const SIDES: u32 = 72;

/// A wall and the side that it is looked at from.
pub(super) struct WallFace<'a> {
    pub(super) wall: &'a StandingWall,
    pub(super) eye: Eye,
    from_outside: bool,
}

impl<'a> WallFace<'a> {
    /// From the room: to the right is along the wall from its left end.
    pub(super) fn inside(wall: &'a StandingWall) -> Self {
        Self {
            wall,
            eye: Eye::new(wall.frame.x, DVec3::Z, -wall.frame.y),
            from_outside: false,
        }
    }

    /// From outside: what counts to the right from the room counts to the left.
    pub(super) fn outside(wall: &'a StandingWall) -> Self {
        Self {
            wall,
            eye: Eye::new(-wall.frame.x, DVec3::Z, wall.frame.y),
            from_outside: true,
        }
    }

    /// Where a place along the wall lies in the view.
    pub(super) fn along(&self, u: Length) -> Length {
        let place = u + Length::mm(self.wall.frame.x.dot(self.wall.frame.origin));
        if self.from_outside { -place } else { place }
    }

    /// A point of the view from a place along the wall and a height.
    pub(super) fn at(&self, u: Length, height: Length) -> DVec2 {
        at(self.along(u), height)
    }

    /// The pipe where it goes through a face: a circle, or longer along the wall where it crosses at an angle.
    pub(super) fn pipe(
        &self,
        center: (Length, Length),
        diameter: Length,
        crossing: Angle,
    ) -> Vec<DVec2> {
        let radius = diameter.to_mm() / 2.0;
        let wide = radius / libm::cos(crossing.to_radians());
        let middle = self.at(center.0, center.1);
        let corner = |side: u32| {
            let turn = std::f64::consts::TAU * f64::from(side) / f64::from(SIDES);
            middle + DVec2::new(wide * libm::cos(turn), radius * libm::sin(turn))
        };
        (0..SIDES).map(corner).collect()
    }

    /// From where places along the wall count, and from which end the proof does.
    pub(super) const fn ends(&self) -> (&'static str, &'static str) {
        match self.wall.place {
            RoomWall::Back => ("left corner of the room", "right corner"),
            RoomWall::Behind => ("left end of the wall behind the chase", "right end"),
            RoomWall::Left => ("left end of the left wall", "right end"),
            RoomWall::Right => ("left end of the right wall", "right end"),
        }
    }
}
