//! A chase that stands in the room, its back against the fireplace wall.
//!
//! It shares the room's frame: what counts out from its back counts out from the wall.

use super::Placed;
use crate::geom::Frame;
use crate::params::consistent::{Rule, unless_fits};
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::room_wall::RoomWall;
use crate::params::site::{Back, End, Site};
use crate::units::{Length, Span};

pub(super) static PLACED: Placed = Placed {
    site,
    rules: RULES,
    elsewhere: &[],
};

/// What is asked of whatever stands in the room and is square to its walls.
pub(super) const RULES: &[Rule] = &[left_edge, within_the_width, within_the_depth];

pub(super) fn site(params: &Params) -> Site {
    let (left, width) = (params.chase.left.unwrap_or_default(), params.chase.width);
    let chase = Span::new(left, left + width);
    let end = |free: bool| if free { End::Free } else { End::Wall };
    Site {
        room: Frame::WORLD,
        chase,
        width,
        ends: [
            end(chase.low.is_positive()),
            end((params.room.width - chase.high).is_positive()),
        ],
        side_walls: params.room.depth,
        behind: RoomWall::Back,
        back: Back::Standing,
        inside_begins: Length::ZERO,
        lining: Length::ZERO,
        opens_wall: false,
        wall_face: Length::ZERO,
        ceiling_behind: None,
        ceiling_runs_on: Length::ZERO,
        way_behind: None,
        across: None,
        spread: 1.0,
    }
}

/// The left edge has to be known along a wall.
pub(super) fn left_edge(params: &Params) -> Vec<Fault> {
    if params.chase.left.is_some() {
        return Vec::new();
    }
    let word = params.chase.placement.word();
    vec![
        Fault::new(
            "chase.placement",
            "where along the wall does the chase begin?",
        )
        .found(format!("placement = \"{word}\" without `left`"))
        .expected("the left edge of the framing, such as left = \"50 in\"")
        .way_out("add `left` to [chase]; left = 0 is in the corner"),
    ]
}

pub(super) fn within_the_width(params: &Params) -> Vec<Fault> {
    unless_fits(
        params,
        "chase.width",
        ("the chase's right edge", params.site().chase.high),
        ("the room's width", params.room.width),
        "make the chase narrower, or move its left edge",
    )
}

pub(super) fn within_the_depth(params: &Params) -> Vec<Fault> {
    let (chase, skins) = (&params.chase, &params.skins);
    unless_fits(
        params,
        "chase.depth",
        (
            "the chase's depth with its skins",
            chase.way_behind.unwrap_or_default() + chase.depth + skins.board + skins.lower_finish,
        ),
        ("the room's depth", params.room.depth),
        "make the chase less deep",
    )
}
