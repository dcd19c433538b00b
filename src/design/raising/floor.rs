//! The floor that a wall may lie on: the room's, or that of the enclosure behind the wall that a flush chase is set into.
//!
//! What lies outside an enclosure is not in the parameter file, so it is no floor.

use glam::{DVec2, DVec3};

use crate::design::Design;
use crate::geom::{Frame, TOLERANCE};
use crate::units::Length;

/// A rectangle of floor.
pub(super) struct Floor {
    /// The room's frame; z does not count.
    frame: Frame,
    low: DVec2,
    high: DVec2,
}

impl Floor {
    /// The floor beside a wall with this box.
    pub(super) fn under(design: &Design, (low, _): (DVec3, DVec3)) -> Self {
        let (params, layout) = (&design.params, &design.layout);
        let is_behind =
            layout.site.opens_wall && low.y >= -layout.faces.front_back.to_mm() - TOLERANCE;
        if is_behind {
            let back = if layout.site.is_enclosed() {
                layout.site.lining + params.chase.stud.depth()
            } else {
                Length::ZERO
            };
            return Self {
                frame: Frame::WORLD,
                low: DVec2::new(
                    layout.site.chase.low.to_mm(),
                    -layout.faces.front_back.to_mm(),
                ),
                high: DVec2::new(layout.site.chase.high.to_mm(), back.to_mm()),
            };
        }
        Self::of_room(design)
    }

    /// The room's.
    pub(super) fn of_room(design: &Design) -> Self {
        let room = &design.params.room;
        Self {
            frame: design.layout.site.room,
            low: DVec2::new(0.0, -room.depth.to_mm()),
            high: DVec2::new(room.width.to_mm(), 0.0),
        }
    }

    /// How far it reaches from a place, one level way.
    pub(super) fn ahead(&self, from: DVec3, way: DVec3) -> f64 {
        let from = self.frame.local_point(from).truncate();
        let way = self.frame.local_vector(way).truncate();
        let reach = |axis: usize| {
            if way[axis] > TOLERANCE {
                (self.high[axis] - from[axis]) / way[axis]
            } else if way[axis] < -TOLERANCE {
                (self.low[axis] - from[axis]) / way[axis]
            } else {
                f64::INFINITY
            }
        };
        reach(0).min(reach(1))
    }

    /// From corner to corner.
    pub(super) fn diagonal(&self) -> Length {
        Length::mm(self.low.distance(self.high))
    }
}
