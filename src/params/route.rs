//! Parameters in, the middle line of the vent out: straight legs, the elbows between them, and where it ends.
//!
//! *Frame*: the world's. A leg runs from where two center lines meet to where the next two meet; an
//! elbow takes a part of either leg. A level run rises as its step or the manual says, so that the
//! elbow before it turns by that much less than its own angle.
//!
//! *Errors*: steps that make no pipe are reported one by one, and the rest is followed as well as possible.
//!
//! The common vent and any other are one code: `rise` is short for a path (`Params::vent_steps`). A pass is the box round
//! the four edges of the clearance's rectangle between the wall's two faces, so it holds at any crossing angle.

mod leg;
mod walk;

pub use leg::{Exit, Leg, Lie, Route};

use glam::DVec3;

use super::choice::{Collar, SpaceBehind};
use super::layer::Layer;
use super::list::Params;
use super::room_wall::RoomWall;
use super::vent_step::{Heading, Toward, VentStep};
use crate::geom::EndPlane;
use crate::units::{Angle, Length};
use leg::Flaw;
use walk::Walk;

impl Params {
    /// The vent's steps: as they are written, or those of the common case: up, one elbow, out behind.
    pub fn vent_steps(&self) -> Vec<VentStep> {
        if let Some(path) = &self.vent.path {
            return path.clone();
        }
        vec![
            VentStep::Go {
                length: self.vent.rise.unwrap_or_default(),
                rising: None,
            },
            VentStep::Turn {
                by: Angle::radians(std::f64::consts::FRAC_PI_2),
                toward: Toward::Level {
                    side: Heading::Back,
                    clockwise: Angle::radians(0.0),
                },
            },
            VentStep::ThroughWall {
                wall: RoomWall::Back,
                rising: None,
            },
        ]
    }

    /// Where the collar's middle stands on the body.
    pub fn collar(&self) -> DVec3 {
        let (unit, chase) = (&self.appliance, &self.chase);
        let base = self.slab() + self.platform.layers.iter().map(Layer::height).sum();
        let face = chase.depth + unit.face_offset;
        let (out, height) = match self.vent.collar {
            Collar::Up => (face - self.vent.collar_offset, base + unit.body_height),
            Collar::Back => (face - unit.body_depth, base + self.vent.collar_offset),
        };
        let right = unit.center.unwrap_or_else(|| {
            let site = self.site();
            site.chase.low + site.width / 2.0
        });
        DVec3::new(right.to_mm(), -out.to_mm(), height.to_mm())
    }

    /// The vent's middle line.
    pub fn route(&self) -> Route {
        self.walk().0
    }

    /// The middle line, and what is wrong with its steps.
    pub(super) fn walk(&self) -> (Route, Vec<Flaw>) {
        let mut walk = Walk::new(self);
        let steps = self.vent_steps();
        walk.inside_room();
        for (index, step) in steps.iter().enumerate() {
            walk.step = index;
            walk.take(step, &steps[index + 1..]);
        }
        walk.finish(steps.last())
    }

    /// Height of the roof's surface over a place.
    fn roof_over(&self, place: DVec3) -> Length {
        let ceiling = self.underside();
        let plane = ceiling.planes().first();
        let under = Length::mm(plane.map_or(0.0, |it| it.z(place.truncate())));
        let steepness = plane.map_or(1.0, EndPlane::steepness);
        let thickness = self
            .roof
            .as_ref()
            .map_or(Length::ZERO, |roof| roof.thickness);
        under + thickness * steepness
    }

    /// Thickness of a wall of the room; nothing where it is not described.
    fn thickness(&self, wall: RoomWall) -> Option<Length> {
        match (self.existing_wall(wall), &self.behind) {
            (Some(it), _) => Some(it.thickness()),
            (None, Some(it)) if wall == RoomWall::Behind && it.space == SpaceBehind::Outdoors => {
                Some(it.lining + self.chase.stud.depth() + it.cover)
            }
            (None, _) => None,
        }
    }
}
