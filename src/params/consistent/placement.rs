//! Whether the chase goes where it is placed: before the wall, or across a corner of the room.

use super::{Rule, ledge_depth, unless_fits};
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::value::length_text;
use crate::units::{Length, TOLERANCE};

/// Least room between the back of the front walls and the wall behind, so that side walls exist.
const LEAST_SIDE_WALL: Length = Length::mm(50.0);

pub(super) static RULES: &[Rule] = &[
    left_edge,
    divider,
    before_wall,
    across_corner,
    centers,
    room_behind_front,
    crate::params::lean::faults,
];

/// The left edge has to be known before a wall, and is a matter of course across a corner.
fn left_edge(params: &Params) -> Vec<Fault> {
    let word = params.chase.placement.word();
    match (params.is_across_corner(), params.chase.left) {
        (false, None) => vec![
            Fault::new(
                "chase.placement",
                "where along the wall does the chase begin?",
            )
            .found(format!("placement = \"{word}\" without `left`"))
            .expected("the left edge of the framing, such as left = \"50 in\"")
            .way_out("add `left` to [chase]; left = 0 stands in the corner"),
        ],
        (true, Some(_)) => vec![
            Fault::new(
                "chase.left",
                "a chase across a corner has no left edge to choose",
            )
            .found(format!("`left` with placement = \"{word}\""))
            .expected("width and depth only: the corner is behind the middle of the face")
            .way_out("take `left` out"),
        ],
        _ => Vec::new(),
    }
}

/// A divider stands away from the wall, and only a divider does.
fn divider(params: &Params) -> Vec<Fault> {
    let word = params.chase.placement.word();
    match (params.is_divider(), params.chase.way_behind) {
        (true, None) => vec![
            Fault::new(
                "chase.placement",
                "how far from the wall does the divider stand?",
            )
            .found("placement = \"divider\" without `way_behind`")
            .expected(
                "the way from the wall to the back of its framing, such as way_behind = \"6 ft\"",
            )
            .way_out("add `way_behind` to [chase]"),
        ],
        (false, Some(_)) => vec![
            Fault::new("chase.way_behind", "only a divider has a way behind it")
                .found(format!("`way_behind` with placement = \"{word}\""))
                .expected("a chase that stands against its wall")
                .way_out("take `way_behind` out, or write placement = \"divider\""),
        ],
        _ => Vec::new(),
    }
}

fn before_wall(params: &Params) -> Vec<Fault> {
    if params.is_across_corner() {
        return Vec::new();
    }
    let (room, chase, skins) = (&params.room, &params.chase, &params.skins);
    let mut faults = unless_fits(
        params,
        "chase.width",
        ("the chase's right edge", params.chase_left() + chase.width),
        ("the room's width", room.width),
        "make the chase narrower, or move its left edge",
    );
    if params.is_flush() {
        return faults;
    }
    faults.extend(unless_fits(
        params,
        "chase.depth",
        (
            "the chase's depth with its skins",
            chase.way_behind.unwrap_or_default() + chase.depth + skins.board + skins.lower_finish,
        ),
        ("the room's depth", room.depth),
        "make the chase less deep",
    ));
    faults
}

/// From wall to wall the face is twice as wide as it is deep; with wings less, and a wing has to be
/// long enough to be framed.
fn across_corner(params: &Params) -> Vec<Fault> {
    if !params.is_across_corner() {
        return Vec::new();
    }
    let (chase, room) = (&params.chase, &params.room);
    let (width, spread) = (params.chase_width(), params.corner_spread());
    let mut faults = unless_fits(
        params,
        "chase.width",
        ("the width of the face", params.chase_width()),
        (
            "what the corner leaves so far out, twice the depth where it is square",
            chase.depth * 2.0 * spread,
        ),
        "make the chase deeper: a face from wall to wall is just twice as wide as deep",
    );
    let wing = chase.depth - width / (2.0 * spread);
    let least = ledge_depth(params)
        + params.front_stud().width
        + LEAST_SIDE_WALL
        + chase.stud.thickness * 2.0;
    if wing.to_mm() > TOLERANCE && wing < least {
        let text = |length| length_text(length, params.project.unit);
        faults.push(
            Fault::new(
                "chase.width",
                "the wings beside the face are too short to frame",
            )
            .found(format!(
                "wings of {}: the depth less half the width",
                text(wing)
            ))
            .expected(format!("none, or at least {}", text(least)))
            .way_out(format!(
                "make the width {} to go from wall to wall, or the chase deeper",
                text(chase.depth * 2.0)
            )),
        );
    }
    // how far a corner of the face lies along either wall
    let scale = (1.0 / (1.0 + spread * spread)).sqrt();
    let along = (chase.depth + width * spread / 2.0) * scale;
    for (name, size) in [
        ("the room's width", room.width),
        ("the room's depth", room.depth),
    ] {
        faults.extend(unless_fits(
            params,
            "chase.depth",
            ("the way along the wall to the chase's far corner", along),
            (name, size),
            "make the chase less deep, or less wide",
        ));
    }
    faults
}

/// Across a corner the unit stands in the middle, with the corner behind it.
fn centers(params: &Params) -> Vec<Fault> {
    let across = params.is_across_corner();
    let recess = params.recess.as_ref().and_then(|it| it.center);
    let given = [
        ("appliance.center", params.appliance.center),
        ("recess.center", recess),
    ];
    let outside = given
        .into_iter()
        .filter(|(_, center)| across && center.is_some_and(|center| center > params.chase_width()));
    outside
        .map(|(key, _)| {
            Fault::new(key, "the center lies beyond the right end of the face")
                .found(format!("`{key}` above `chase.width`"))
                .expected("a center counted from the left end of the chase's face")
                .way_out("take it out for the middle, or count it from the face's left end")
        })
        .collect()
}

fn room_behind_front(params: &Params) -> Vec<Fault> {
    let back = if params.is_divider() {
        params.chase.stud.width
    } else {
        Length::ZERO
    };
    let front = if params.is_flush() {
        params.wall.stud.width + params.wall.sheathing
    } else {
        ledge_depth(params) + params.front_stud().width + back
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
