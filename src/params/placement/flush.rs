//! A chase whose front stands in a wall of the room: the wall is opened for the unit, and the enclosure lies behind it.
//!
//! The inside begins at 0 out, at the enclosure's back or at the far wall that it reaches; the fireplace wall lies
//! before it, at the front. What is behind, [`RoomWall::Behind`], is that far wall or the enclosure's own back. The
//! ceiling over what stands wholly behind the opened wall is the room's run on, unless `behind.ceiling` is written.

use glam::DVec3;

use super::{Placed, projecting};
use crate::geom::Frame;
use crate::params::choice::{FrontForm, PlatesAlong, SpaceBehind};
use crate::params::consistent::Rule;
use crate::params::fault::Fault;
use crate::params::list::{Behind, Params};
use crate::params::room_wall::RoomWall;
use crate::params::site::{Back, End, Site};
use crate::params::vent_step::VentStep;
use crate::units::Length;

pub(super) static PLACED: Placed = Placed {
    site,
    rules: RULES,
    elsewhere: &[nothing_behind, no_far_wall],
};

const RULES: &[Rule] = &[
    projecting::left_edge,
    projecting::within_the_width,
    space_behind,
    far_wall,
    vent_gets_out,
    roof_over_the_room,
    one_ceiling_behind,
    one_plain_front,
    readings_of_the_room,
    all_of_wood,
];

fn site(params: &Params) -> Site {
    let behind = params.behind.as_ref();
    let lining = behind.filter(|it| it.space == SpaceBehind::Outdoors);
    let lining = lining.map_or(Length::ZERO, |it| it.lining);
    let back = match params.far_wall {
        Some(_) => Back::Standing,
        None => Back::Enclosed,
    };
    let wall_face = params.chase.depth + params.wall.board;
    Site {
        room: Frame::at(DVec3::NEG_Y * wall_face.to_mm()),
        ends: [End::Behind; 2],
        behind: RoomWall::Behind,
        back,
        lining,
        opens_wall: true,
        wall_face,
        ceiling_behind: behind.and_then(|it| it.ceiling),
        ceiling_runs_on: match behind {
            Some(it) if it.ceiling.is_some() => params.wall.thickness(),
            Some(it) if back == Back::Enclosed => wall_face + enclosing(params, lining, it),
            _ => wall_face,
        },
        ..projecting::site(params)
    }
}

/// Thickness of the enclosure's own back.
fn enclosing(params: &Params, lining: Length, behind: &Behind) -> Length {
    lining + params.chase.stud.depth() + behind.cover
}

fn is_indoors(params: &Params) -> bool {
    params.behind.as_ref().map(|it| it.space) == Some(SpaceBehind::Indoors)
}

fn space_behind(params: &Params) -> Vec<Fault> {
    if params.behind.is_some() {
        return Vec::new();
    }
    vec![
        Fault::new(
            "chase.placement",
            "what lies behind the wall that the chase is set into?",
        )
        .found("placement = \"flush\" without [behind]")
        .expected("a table [behind] with space = \"outdoors\" or \"indoors\"")
        .way_out("add [behind]"),
    ]
}

fn nothing_behind(params: &Params) -> Vec<Fault> {
    if params.behind.is_none() {
        return Vec::new();
    }
    let word = params.chase.placement.word();
    vec![
        Fault::new(
            "behind.space",
            "only a flush chase has its enclosure behind a wall",
        )
        .found(format!("[behind] with placement = \"{word}\""))
        .expected("no [behind]: a chase in the room needs none")
        .way_out("take [behind] out, or write placement = \"flush\""),
    ]
}

/// Only an enclosure indoors reaches an outside wall; the bay outdoors is past it.
fn far_wall(params: &Params) -> Vec<Fault> {
    if is_indoors(params) {
        return Vec::new();
    }
    no_far_wall(params)
}

fn no_far_wall(params: &Params) -> Vec<Fault> {
    if params.far_wall.is_none() {
        return Vec::new();
    }
    vec![
        Fault::new(
            "far_wall.first_stud",
            "only a flush chase indoors reaches a far wall",
        )
        .found("[far_wall] without an inside space between it and the room")
        .expected("placement = \"flush\" and space = \"indoors\" in [behind]")
        .way_out("take [far_wall] out; the wall behind an ordinary chase is [wall]"),
    ]
}

/// A vent that goes through the back comes out outdoors.
fn vent_gets_out(params: &Params) -> Vec<Fault> {
    let steps = params.vent_steps();
    let through_back = matches!(
        steps.last(),
        Some(VentStep::ThroughWall {
            wall: RoomWall::Back,
            ..
        })
    );
    if !(is_indoors(params) && through_back && params.far_wall.is_none()) {
        return Vec::new();
    }
    vec![
        Fault::new("behind.space", "the vent would end indoors")
            .found("a vent through the back, space = \"indoors\" and no [far_wall]")
            .expected("an outside wall that the enclosure reaches, or a way up through the roof")
            .way_out("describe that wall in [far_wall], or write path = [\"through roof\"]"),
    ]
}

/// The roof is described from the room's ceiling up, so a vent goes up through that one.
fn roof_over_the_room(params: &Params) -> Vec<Fault> {
    let ends = params.vent_steps();
    let through_roof = matches!(ends.last(), Some(VentStep::ThroughRoof));
    let own = params.behind.as_ref().and_then(|it| it.ceiling);
    if own.is_none() || !through_roof {
        return Vec::new();
    }
    vec![
        Fault::new(
            "behind.ceiling",
            "[roof] lies over the room's ceiling, and the vent would go through another",
        )
        .found("`ceiling` in [behind] with a vent through the roof")
        .expected("a vent through the roof where the room's ceiling runs on, or one through a wall")
        .way_out("take `ceiling` out of [behind], or end the path in \"through back wall\""),
    ]
}

/// Over the enclosure there is one ceiling.
fn one_ceiling_behind(params: &Params) -> Vec<Fault> {
    let both = |it: &&Behind| it.ceiling.is_some() && it.ceiling_runs_on == Some(true);
    if params.behind.as_ref().as_ref().is_none_or(|x| !both(x)) {
        return Vec::new();
    }
    vec![
        Fault::new(
            "behind.ceiling_runs_on",
            "the ceiling behind the wall is given twice",
        )
        .found("`ceiling` with ceiling_runs_on = true")
        .expected("one of the two")
        .way_out("leave out `ceiling` where the room's runs on there"),
    ]
}

/// The wall that is opened gets one opening, for the unit.
fn one_plain_front(params: &Params) -> Vec<Fault> {
    let stepped = (params.front.form == FrontForm::Stepped).then(|| {
        Fault::new("front.form", "a face that lies in a wall has no step")
            .found("form = \"stepped\" with placement = \"flush\"")
            .expected("form = \"one_wall\"")
            .way_out("write form = \"one_wall\"; a mantel hangs on the wall's studs")
    });
    let recess = params.recess.as_ref().map(|_| {
        Fault::new(
            "recess.width",
            "a wall that is opened for the unit gets no recess as well",
        )
        .found("[recess] with placement = \"flush\"")
        .expected(
            "no [recess]: a second opening in a wall that may be bearing has to be designed by somebody",
        )
        .way_out("take [recess] and [screen] out; a screen hangs in front of the wall")
    });
    stepped.into_iter().chain(recess).collect()
}

/// What was read stands in the room before the wall; behind it nobody has read anything.
fn readings_of_the_room(params: &Params) -> Vec<Fault> {
    let read = [
        ("wall.plumb", !params.fireplace_wall.plumb.0.is_empty()),
        ("room.floor", !params.room.floor.0.is_empty()),
        (
            "ceiling.plates",
            params.ceiling.plates == PlatesAlong::Readings,
        ),
    ];
    let read = read.iter().filter(|it| it.1);
    read.map(|(key, _)| {
        Fault::new(
            key,
            "a flush chase is behind the surface that was measured here",
        )
        .found(format!("{key} with placement = \"flush\""))
        .expected("readings for a chase in the room")
        .way_out("take it out, and pack the enclosure's plates on site")
    })
    .collect()
}

/// The wall that is opened is framed as it stands, and its enclosure with it, in lumber.
fn all_of_wood(params: &Params) -> Vec<Fault> {
    let front = &params.front;
    let steel = [
        params.chase.stud.steel().map(|_| "chase.stud"),
        front.stud.as_ref().map(|_| "front.stud"),
        front.header.steel().map(|_| "front.header"),
    ];
    let steel = steel.into_iter().flatten();
    steel
        .map(|key| {
            Fault::new(key, "a wall that is opened keeps its own studs of lumber")
                .found(format!("{key} with placement = \"flush\""))
                .expected("studs of the wall, wall.stud; lumber for the enclosure and the header")
                .way_out("take it out, or write lumber")
        })
        .collect()
}
