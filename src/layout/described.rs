//! Walls of the room as the parameters describe them, and where their studs stand.

use crate::params::{Bearing, ExistingWall, Params, RoomWall};
use crate::units::Length;

/// A wall as the parameters describe it; the back of an enclosure is framed like one that stands already.
pub(super) fn described(params: &Params, place: RoomWall) -> Option<ExistingWall> {
    let behind = params.behind.as_ref();
    let enclosing = behind.filter(|_| place == RoomWall::Behind);
    let enclosing = enclosing.map(|behind| ExistingWall {
        board: params.site().lining,
        stud: params.chase.stud.clone(),
        sheathing: behind.cover,
        first_stud: params.chase.stud_spacing,
        stud_spacing: params.chase.stud_spacing,
        bearing: Bearing::No,
    });
    params.existing_wall(place).cloned().or(enclosing)
}

/// Centers of a wall's studs along u, those that stand between its ends.
pub(super) fn centers(wall: &ExistingWall, length: Length, from_right: bool) -> Vec<Length> {
    let half = wall.stud.breadth() / 2.0;
    let mut center = wall.first_stud;
    let mut found = Vec::new();
    while center + half <= length {
        if center >= half {
            found.push(if from_right { length - center } else { center });
        }
        center += wall.stud_spacing;
    }
    if from_right {
        found.reverse();
    }
    found
}

/// Centers of the studs of an enclosure's own back: one at each end, and those of its layout between.
pub(super) fn framed_centers(wall: &ExistingWall, length: Length) -> Vec<Length> {
    let thickness = wall.stud.breadth();
    let ends = [thickness / 2.0, length - thickness / 2.0];
    let between = |center: &Length| {
        !(ends[0] + thickness - *center).is_positive()
            && !(*center + thickness - ends[1]).is_positive()
    };
    let laid = centers(wall, length, false).into_iter().filter(between);
    [ends[0]].into_iter().chain(laid).chain([ends[1]]).collect()
}
