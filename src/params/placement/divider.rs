//! A chase that stands free of the wall behind it, and has a back of its own that is seen.
//!
//! Its framed back lies at 0 out, the wall of the room so far behind it as the way is wide.

use glam::DVec3;

use super::{Placed, projecting};
use crate::geom::Frame;
use crate::params::consistent::Rule;
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::site::{Back, Site};

pub(super) static PLACED: Placed = Placed {
    site,
    rules: RULES,
    elsewhere: &[no_way_behind],
};

const RULES: &[Rule] = &[
    projecting::left_edge,
    way_behind,
    projecting::within_the_width,
    projecting::within_the_depth,
];

fn site(params: &Params) -> Site {
    let way = params.chase.way_behind.unwrap_or_default();
    Site {
        room: Frame::at(DVec3::Y * way.to_mm()),
        back: Back::Faced,
        inside_begins: params.chase.stud.depth(),
        way_behind: Some(way),
        ..projecting::site(params)
    }
}

/// It stands away from the wall.
fn way_behind(params: &Params) -> Vec<Fault> {
    if params.chase.way_behind.is_some() {
        return Vec::new();
    }
    vec![
        Fault::new(
            "chase.placement",
            "how far from the wall is the divider?",
        )
        .found("placement = \"divider\" without `way_behind`")
        .expected("the distance from the wall to the back of its framing, such as way_behind = \"6 ft\"")
        .way_out("add `way_behind` to [chase]"),
    ]
}

/// And nothing else does.
fn no_way_behind(params: &Params) -> Vec<Fault> {
    if params.chase.way_behind.is_none() {
        return Vec::new();
    }
    let word = params.chase.placement.word();
    vec![
        Fault::new("chase.way_behind", "only a divider has a space behind it")
            .found(format!("`way_behind` with placement = \"{word}\""))
            .expected("a chase against its wall")
            .way_out("take `way_behind` out, or write placement = \"divider\""),
    ]
}
