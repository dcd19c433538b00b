//! Walls of the room as the parameters describe them, and where their studs stand.

use crate::catalog::FramingMember;
use crate::params::{Bearing, Params, RoomWall};
use crate::units::Length;

/// A wall as the parameters describe it.
pub(super) struct Described<'a> {
    pub(super) layers: (Length, &'a FramingMember, Length),
    /// Center of the first stud and the spacing.
    layout: (Length, Length),
    /// Whether the layout counts from the wall's right end.
    from_right: bool,
    pub(super) bearing: Bearing,
}

pub(super) fn described(params: &Params, place: RoomWall) -> Option<Described<'_>> {
    match (params.existing_wall(place), &params.behind) {
        (Some(wall), _) => Some(Described {
            layers: (wall.board, &wall.stud, wall.sheathing),
            layout: (wall.first_stud, wall.stud_spacing),
            // both side walls count from the wall behind the chase
            from_right: place == RoomWall::Left,
            bearing: wall.bearing,
        }),
        (None, Some(behind)) if place == RoomWall::Behind => Some(Described {
            layers: (params.site().lining, &params.chase.stud, behind.cover),
            layout: (params.chase.stud_spacing, params.chase.stud_spacing),
            from_right: false,
            bearing: Bearing::No,
        }),
        (None, _) => None,
    }
}

/// Centers of a wall's studs along u, those that stand between its ends.
pub(super) fn centers(wall: &Described<'_>, length: Length) -> Vec<Length> {
    let half = wall.layers.1.breadth() / 2.0;
    let (mut center, spacing) = wall.layout;
    let mut found = Vec::new();
    while center + half <= length {
        if center >= half {
            found.push(if wall.from_right {
                length - center
            } else {
                center
            });
        }
        center += spacing;
    }
    if wall.from_right {
        found.reverse();
    }
    found
}

/// Centers of the studs of an enclosure's own back: one at each end, and those of its layout between.
pub(super) fn framed_centers(wall: &Described<'_>, length: Length) -> Vec<Length> {
    let thickness = wall.layers.1.breadth();
    let ends = [thickness / 2.0, length - thickness / 2.0];
    let between = |center: &Length| {
        !(ends[0] + thickness - *center).is_positive()
            && !(*center + thickness - ends[1]).is_positive()
    };
    let laid = centers(wall, length).into_iter().filter(between);
    [ends[0]].into_iter().chain(laid).chain([ends[1]]).collect()
}
