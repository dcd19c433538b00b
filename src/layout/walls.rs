//! The walls of the room round the chase: those that stand, and what becomes of the one that is opened.

use super::opened::OpenedWall;
use super::standing::StandingWall;
use crate::params::{Params, RoomWall, Site};
use crate::units::Span;

/// Every wall that the parameters describe, the fireplace wall always and first; and what becomes of that one where
/// it is opened. Of an opened wall's studs those that stay whole are listed.
pub(super) fn standing(
    params: &Params,
    site: &Site,
    rough_opening: Span,
) -> (Vec<StandingWall>, Option<OpenedWall>) {
    let behind = (site.behind == RoomWall::Behind).then_some(RoomWall::Behind);
    let mut walls: Vec<StandingWall> = [RoomWall::Back, RoomWall::Left, RoomWall::Right]
        .into_iter()
        .chain(behind)
        .filter_map(|place| StandingWall::new(params, site, place))
        .collect();
    let front = walls.first_mut().filter(|_| site.opens_wall);
    let opened = front.map(|wall| {
        let opened = OpenedWall::new(wall, site.chase, rough_opening);
        wall.centers = opened.whole();
        opened
    });
    (walls, opened)
}
