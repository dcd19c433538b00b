//! Whether the chase goes together with its front wherever it is placed.

use super::{LEAST_SIDE_WALL, Rule, ledge_depth, unless_fits};
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::placement;

pub(super) static RULES: &[Rule] = &[
    placement::faults,
    room_behind_front,
    crate::params::lean::faults,
];

/// Between the back of the front walls and the wall behind there are side walls.
fn room_behind_front(params: &Params) -> Vec<Fault> {
    let site = params.site();
    let front = if site.opens_wall {
        params.wall.stud.depth() + params.wall.sheathing
    } else {
        ledge_depth(params) + params.front_stud().depth() + site.inside_begins
    };
    unless_fits(
        params,
        "chase.depth",
        (
            "the depth of front and back, and 50 mm of side wall between",
            front + LEAST_SIDE_WALL,
        ),
        ("the depth of the chase", params.chase.depth),
        "make the chase deeper",
    )
}
