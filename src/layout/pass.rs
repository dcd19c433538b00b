//! The framed hole through a standing wall, at any crossing angle.

use super::path::{Path, Piece, crossing};
use super::standing::StandingWall;
use crate::params::{Exit, Params, RoomWall};
use crate::units::{Angle, Length, Span, TapeUnit};

/// The framed hole through the existing wall.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PassLayout {
    /// The wall that the vent goes through.
    pub wall: Option<RoomWall>,
    /// Sides of the hole, from the wall's left end as seen from the room.
    pub sides: Span,
    /// Bottom and top of the hole.
    pub heights: Span,
    /// The clear bay between the existing studs that stand nearest beside the hole's center.
    pub bay: Span,
    /// How far the vent crosses the wall from square; above zero it goes to the right.
    pub angle: Angle,
    /// Where the pipe's middle goes through the finished face: from the wall's left end, and up.
    pub inside: (Length, Length),
    /// Where it goes through the outside face.
    pub outside: (Length, Length),
}

impl PassLayout {
    /// The hole as it is marked out, its sides from the wall's left end and its heights from the bare slab: each edge on
    /// the tape's next mark outward, and its sizes what lies between.
    pub fn on_marks(&self, slab: Length, unit: TapeUnit) -> (Span, Span) {
        let heights = self.heights.moved(-slab);
        (self.sides.on_marks(unit), heights.on_marks(unit))
    }

    /// The framed hole round the last straight: the larger of pipe with clearances and the firestop's own
    /// frame. Nothing where the vent goes through the roof.
    ///
    /// At θ from square it is (diameter + 2·side)/cos θ + thickness·tan θ wide, and higher by what the
    /// run rises within the wall.
    pub(super) fn new(params: &Params, path: &Path, walls: &[StandingWall]) -> Self {
        let Some((wall, straight)) = exit(path, walls) else {
            return Self::default();
        };
        let slab = params.slab();
        let vent = &params.vent;
        let radius = vent.pipe_diameter / 2.0;
        let depths = Span::new(Length::ZERO, wall.depths.outside);
        let room = (
            radius + vent.bottom_clearance.value,
            radius + vent.top_clearance.value,
        );
        let beside = radius + vent.side_clearance.value;
        let (wide, high) = crossing(wall, straight, beside, room, depths);
        let fitted = |needed: Span, own: Length| {
            Span::about(needed.center(), needed.size().max(own)).grown(vent.pass_ease)
        };
        let along = wall.frame.local_vector(straight.frame.z);
        let middle = |depth: Length| {
            let start = wall.frame.local_point(straight.frame.origin);
            start + along * ((depth.to_mm() - start.y) / along.y)
        };
        let (inside, outside) = (middle(Length::ZERO), middle(wall.depths.outside));
        let sides = fitted(wide, vent.firestop_width);
        Self {
            wall: Some(wall.place),
            sides,
            heights: fitted(high, vent.firestop_height).moved(slab),
            bay: wall.bay(sides.center()),
            angle: Angle::radians(libm::atan2(along.x, along.y)),
            inside: (Length::mm(inside.x), Length::mm(inside.z) + slab),
            outside: (Length::mm(outside.x), Length::mm(outside.z) + slab),
        }
    }
}

/// The wall that the vent goes out through, and the straight that does.
pub(crate) fn exit<'a>(
    path: &'a Path,
    walls: &'a [StandingWall],
) -> Option<(&'a StandingWall, &'a Piece)> {
    let Exit::Wall(place) = path.exit else {
        return None;
    };
    let wall = walls.iter().find(|wall| wall.place == place)?;
    let straight = path.last()?;
    // what does not head for the wall was reported already
    (wall.frame.y.dot(straight.frame.z) > 0.0).then_some((wall, straight))
}
