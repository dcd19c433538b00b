//! A chase that stands across a corner of the room, its face at one angle to both walls.
//!
//! The room's corner lies behind the middle of the face, and x counts from the face's left end; the room is what is
//! turned, by half the corner's angle. Square to the face, both walls go as far to either side as the corner spreads.

use glam::{DVec2, DVec3};

use super::Placed;
use super::projecting;
use crate::geom::Frame;
use crate::params::consistent::{LEAST_SIDE_WALL, Rule, ledge_depth, unless_fits};
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::room_wall::RoomWall;
use crate::params::site::{End, Site};
use crate::params::text::length_text;
use crate::units::{Length, Span, TOLERANCE};

pub(super) static LEFT: Placed = Placed {
    site: |params| site(params, RoomWall::Left),
    rules: RULES,
    elsewhere: &[],
};

pub(super) static RIGHT: Placed = Placed {
    site: |params| site(params, RoomWall::Right),
    rules: RULES,
    elsewhere: &[],
};

const RULES: &[Rule] = &[
    no_left_edge,
    face,
    wings,
    along_the_walls,
    centers,
    no_steel,
];

fn site(params: &Params, across: RoomWall) -> Site {
    let sine = params.corner_sine(across);
    // the tangent of half the corner's angle
    let spread = ((1.0 + sine) / (1.0 - sine)).sqrt();
    let width = width(params, spread);
    let left = params.chase.left.unwrap_or_default();
    let chase = Span::new(left, left + width);
    // wings stand free; without them the face goes from wall to wall
    let wing = params.chase.depth - chase.size() / (2.0 * spread);
    let end = if wing.is_positive() {
        End::Free
    } else {
        End::Corner
    };
    Site {
        room: room(params, across, (width, spread)),
        chase,
        width,
        ends: [end; 2],
        across: Some(across),
        spread,
        ..projecting::site(params)
    }
}

/// From wall to wall the face is as wide as the corner makes it.
fn width(params: &Params, spread: f64) -> Length {
    let (width, whole) = (params.chase.width, params.chase.depth * 2.0);
    if (width - whole).abs().to_mm() <= TOLERANCE {
        width * spread
    } else {
        width
    }
}

fn room(params: &Params, across: RoomWall, (width, spread): (Length, f64)) -> Frame {
    let corner = DVec3::X * (width / 2.0).to_mm();
    let turned = |right: DVec2| {
        let right = right.extend(0.0) * (1.0 / (1.0 + spread * spread)).sqrt();
        Frame::new(corner, right, DVec3::Z.cross(right))
    };
    if across == RoomWall::Left {
        return turned(DVec2::new(spread, -1.0));
    }
    let room = turned(DVec2::new(spread, 1.0));
    Frame {
        origin: corner - room.x * params.room.width.to_mm(),
        ..room
    }
}

/// The left edge is a matter of course.
fn no_left_edge(params: &Params) -> Vec<Fault> {
    if params.chase.left.is_none() {
        return Vec::new();
    }
    let word = params.chase.placement.word();
    vec![
        Fault::new(
            "chase.left",
            "a chase across a corner has no left edge to choose",
        )
        .found(format!("`left` with placement = \"{word}\""))
        .expected("width and depth only: the corner is behind the middle of the face")
        .way_out("take `left` out"),
    ]
}

/// From wall to wall the face is twice as wide as it is deep; with wings less.
fn face(params: &Params) -> Vec<Fault> {
    let site = params.site();
    unless_fits(
        params,
        "chase.width",
        ("the width of the face", site.width),
        (
            "the width that the corner leaves at this depth, twice the depth where it is square",
            params.chase.depth * 2.0 * site.spread,
        ),
        "make the chase deeper: a face from wall to wall is just twice as wide as deep",
    )
}

/// A wing has to be long enough to be framed.
fn wings(params: &Params) -> Vec<Fault> {
    let (chase, site) = (&params.chase, params.site());
    let wing = chase.depth - site.width / (2.0 * site.spread);
    let least = ledge_depth(params)
        + params.front_stud().depth()
        + LEAST_SIDE_WALL
        + chase.stud.breadth() * 2.0;
    if wing.to_mm() <= TOLERANCE || wing >= least {
        return Vec::new();
    }
    let text = |length| length_text(length, params.project.unit);
    vec![
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
    ]
}

/// How far a corner of the face lies along either wall.
fn along_the_walls(params: &Params) -> Vec<Fault> {
    let (room, site) = (&params.room, params.site());
    let scale = (1.0 / (1.0 + site.spread * site.spread)).sqrt();
    let along = (params.chase.depth + site.width * site.spread / 2.0) * scale;
    let sizes = [
        ("the room's width", room.width),
        ("the room's depth", room.depth),
    ];
    let within = |(name, size)| {
        unless_fits(
            params,
            "chase.depth",
            (
                "the distance along the wall to the chase's far corner",
                along,
            ),
            (name, size),
            "make the chase less deep, or less wide",
        )
    };
    sizes.into_iter().flat_map(within).collect()
}

/// The unit stands in the middle, with the corner behind it.
fn centers(params: &Params) -> Vec<Fault> {
    let width = params.site().width;
    let recess = params.recess.as_ref().and_then(|it| it.center);
    let given = [
        ("appliance.center", params.appliance.center),
        ("recess.center", recess),
    ];
    let outside = given
        .into_iter()
        .filter(|(_, center)| center.is_some_and(|center| center > width));
    outside
        .map(|(key, _)| {
            Fault::new(key, "the center lies beyond the right end of the face")
                .found(format!("`{key}` above `chase.width`"))
                .expected("a center counted from the left end of the chase's face")
                .way_out("take it out for the middle, or count it from the face's left end")
        })
        .collect()
}

/// A C-shaped stud is not ripped to lie along a wall at 45°.
fn no_steel(params: &Params) -> Vec<Fault> {
    let studs = [
        ("chase.stud", Some(&params.chase.stud)),
        ("front.stud", params.front.stud.as_ref()),
        ("front.bump_out_stud", params.front.bump_out_stud.as_ref()),
    ];
    let steel = studs
        .into_iter()
        .filter_map(|(key, stud)| stud?.steel().map(|_| key));
    steel
        .map(|key| {
            Fault::new(key, "steel studs across a corner are not modeled")
                .found("steel studs, and `chase.placement` across a corner")
                .expected("walls whose ends are square")
                .way_out("frame it of lumber, or have the ends at the room's walls designed")
        })
        .collect()
}
