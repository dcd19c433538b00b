//! A chase that fills an alcove: its back against the fireplace wall, both its ends against the alcove's side walls.
//!
//! The room is the alcove as far as its side walls go, and what lies before it: its width is the way between them.
//! Nothing of the chase stands out of the alcove, so its sides are not seen.

use super::{Placed, projecting};
use crate::params::consistent::{Rule, unless_fits};
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::site::{End, Site};
use crate::params::text::length_text;
use crate::units::TOLERANCE;

pub(super) static PLACED: Placed = Placed {
    site,
    rules: RULES,
    elsewhere: &[no_alcove],
};

const RULES: &[Rule] = &[
    no_left_edge,
    from_wall_to_wall,
    depth_of_the_alcove,
    within_the_alcove,
    projecting::within_the_depth,
];

fn site(params: &Params) -> Site {
    let site = projecting::site(params);
    Site {
        ends: [End::Wall; 2],
        side_walls: params.chase.alcove_depth.unwrap_or(site.side_walls),
        ..site
    }
}

/// The left edge is the alcove's left wall.
fn no_left_edge(params: &Params) -> Vec<Fault> {
    let left = params.chase.left.filter(|it| it.to_mm() > TOLERANCE);
    let fault = left.map(|left| {
        Fault::new(
            "chase.left",
            "a chase in an alcove has no left edge to choose",
        )
        .found(format!("left = {}", length_text(left, params.project.unit)))
        .expected("a chase from the alcove's left wall to its right one")
        .way_out("take `left` out")
    });
    fault.into_iter().collect()
}

/// It goes from one wall to the other.
fn from_wall_to_wall(params: &Params) -> Vec<Fault> {
    let (width, room) = (params.chase.width, params.room.width);
    if (width - room).abs().to_mm() <= TOLERANCE {
        return Vec::new();
    }
    let text = |length| length_text(length, params.project.unit);
    vec![
        Fault::new("chase.width", "the chase does not fill the alcove")
            .found(format!("a width of {}", text(width)))
            .expected(format!("{}, the room's width", text(room)))
            .way_out("write the alcove's width in both, or placement = \"projecting\" with `left`"),
    ]
}

/// How deep the alcove is only a tape can say.
fn depth_of_the_alcove(params: &Params) -> Vec<Fault> {
    if params.chase.alcove_depth.is_some() {
        return Vec::new();
    }
    vec![
        Fault::new("chase.placement", "how deep is the alcove?")
            .found("placement = \"alcove\" without `alcove_depth`")
            .expected(
                "how far its side walls come out from its back, such as alcove_depth = \"30 in\"",
            )
            .way_out("add `alcove_depth` to [chase]"),
    ]
}

/// Beyond the alcove's side walls the chase would have sides of its own.
fn within_the_alcove(params: &Params) -> Vec<Fault> {
    let Some(alcove) = params.chase.alcove_depth else {
        return Vec::new();
    };
    let skins = &params.skins;
    let face = params.chase.depth + skins.board + skins.lower_finish;
    let make = "make the chase less deep, or write placement = \"projecting\"";
    let inside = [
        (
            "chase.depth",
            ("the chase's depth with its skins", face),
            ("the alcove's depth", alcove),
            make,
        ),
        (
            "chase.alcove_depth",
            ("the alcove's depth", alcove),
            ("the room's depth", params.room.depth),
            "measure the room from the alcove's back",
        ),
    ];
    inside
        .into_iter()
        .flat_map(|(key, small, large, way_out)| unless_fits(params, key, small, large, way_out))
        .collect()
}

/// And nothing else has that depth.
fn no_alcove(params: &Params) -> Vec<Fault> {
    if params.chase.alcove_depth.is_none() {
        return Vec::new();
    }
    let word = params.chase.placement.word();
    vec![
        Fault::new(
            "chase.alcove_depth",
            "only a chase in an alcove has an alcove's depth",
        )
        .found(format!("`alcove_depth` with placement = \"{word}\""))
        .expected("a chase that does not fill an alcove")
        .way_out("take `alcove_depth` out, or write placement = \"alcove\""),
    ]
}
