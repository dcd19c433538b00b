//! Windows, doors, switches and registers of the room, and what covers or blocks them.
//!
//! # What it finds
//! For each thing of `room.fixed`, the part of chase, mantel, screen or cabinet (a cabinet's door open square, too)
//! that comes nearest: how far it stays beside the thing along its wall and vertically, against `room.clear_beside`,
//! or how far in front of its wall, against the thing's depth and `room.clear_before`. One of the two is enough; of
//! two parts the worse counts. A block inside the wall may lie beside the thing; it counts only where it runs behind
//! the thing itself. Where the distance in front is enough only if the thing does not project, and no depth is given,
//! it asks.
//!
//! # Why
//! A switch behind a cabinet is discovered when the cabinet is already hung; a window behind a mantel does not open.
//!
//! # Datum
//! The thing's edges, casing included; the finished face of its wall.
//!
//! # Source
//! `room.clear_beside` and `room.clear_before`; common practice, no source.

use glam::DVec3;

use super::parts_of;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, FixedPlace, Group, Kind, Part, cabinets, fixed_place, point};
use crate::geom::{Body, Direction, Frame, Swept, TOLERANCE, exit, nearest, overlaps};
use crate::params::{DoorHinge, FixedThing};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "fixed things",
    concern: Concern::Framing,
    text: include_str!("fixed_things.rs"),
    keys: &[
        "room.fixed",
        "room.clear_beside",
        "room.clear_before",
        "chase.left",
        "chase.width",
        "mantel.length",
        "cabinets.width",
        "cabinets.door",
        "cabinets.hinge",
    ],
    check,
};

/// Thickness of a cabinet's door (common practice, no source).
const LEAF: Length = Length::inches(0.75);

/// How near a body comes to a fixed thing.
struct Near {
    part: String,
    numbers: Numbers,
    location: DVec3,
    before: bool,
}

fn check(design: &Design, report: &mut Report<'_>) {
    if design.params.room.fixed.is_empty() {
        return;
    }
    let built = |part: &&Part| {
        matches!(
            part.group,
            Group::Framing | Group::Platform | Group::Skins | Group::Unit
        ) && !part.body.is_empty()
    };
    let (in_wall, before): (Vec<&Part>, Vec<&Part>) = design
        .parts
        .iter()
        .filter(built)
        .partition(|it| it.branch.is_in_the_room());
    let all = |parts: Vec<&Part>| -> Vec<(String, Body)> {
        let bodies = parts.into_iter().map(|it| (it.id.clone(), it.body.clone()));
        bodies.collect()
    };
    let (in_wall, mut bodies) = (all(in_wall), all(before));
    bodies.extend(doors(design));
    for thing in &design.params.room.fixed {
        let place = fixed_place(&design.params, thing);
        let behind = in_wall.iter().filter(|it| lies_behind(&place, &it.1));
        let near = bodies
            .iter()
            .chain(behind)
            .map(|(id, body)| nearness(design, thing, id, body));
        let worst = near.min_by(|a, b| a.numbers.margin.total_cmp(&b.numbers.margin));
        let Some(worst) = worst else { continue };
        let (way, measure) = if worst.before {
            ("before", Measure("{} in front of the {}"))
        } else {
            ("beside", Measure("{} beside the {}"))
        };
        let row = Row {
            subject: measure.of([
                Thing::Part(worst.part.clone()),
                Thing::Named(thing.name.clone()),
            ]),
            parts: vec![worst.part, format!("fixed/{}", thing.name)],
            location: Some(worst.location),
            source: format!("room.clear_{way}; common practice, no source"),
            levers: &[
                "chase.left",
                "chase.width",
                "mantel.length",
                "cabinets.width",
            ],
            detail: None,
        };
        let rests_on_depth = worst.before && thing.depth.is_none();
        if rests_on_depth && worst.numbers.margin > -TOLERANCE {
            let question = format!(
                "How far does the {} project from its wall, open if it opens (room.fixed, `depth`)?",
                thing.name
            );
            report.ask(row, None, question);
        } else {
            report.judge(row, worst.numbers);
        }
    }
}

/// The room's depth of a body that stands for everything before a thing.
const FAR: Length = Length::mm(100_000.0);

fn nearness(design: &Design, thing: &FixedThing, id: &str, body: &Body) -> Near {
    let room = &design.params.room;
    let place = fixed_place(&design.params, thing);
    let inward = place.wall.y;
    let nearest_point = body.farthest(inward);
    let out = Length::mm(-place.wall.local_point(nearest_point).y);
    let depth = thing.drawn_depth(design.params.project.unit);
    let before = Numbers::at_least(out, depth + room.clear_before);
    let (gap, location) = beside(&place, body);
    let beside = Numbers::at_least(gap, room.clear_beside);
    let is_before = before.margin > beside.margin;
    Near {
        part: id.to_owned(),
        numbers: if is_before { before } else { beside },
        location: if is_before { nearest_point } else { location },
        before: is_before,
    }
}

/// How far a body stays from a thing along its wall and upward; below zero it is in front of it.
fn beside(place: &FixedPlace, body: &Body) -> (Length, DVec3) {
    let shape = Swept::block(place.sides.size(), FAR, place.heights.size());
    let volume = Body::new(shape, place.before(FAR));
    let apart = nearest(&volume, body);
    if apart.distance > 0.0 {
        return (Length::mm(apart.distance), apart.on_second);
    }
    let wall = &place.wall;
    let ways = [wall.x, -wall.x, wall.z, -wall.z].map(Direction::Along);
    let inside = exit(body, &volume, &ways);
    let middle = volume.bounds.common(&body.bounds).center();
    (Length::mm(-inside), middle)
}

/// Whether a body inside the wall lies behind a thing, as seen from the room.
fn lies_behind(place: &FixedPlace, body: &Body) -> bool {
    let shape = Swept::block(place.sides.size(), FAR, place.heights.size());
    overlaps(body, &Body::new(shape, place.before(Length::ZERO)))
}

/// The cabinets' doors, open square.
fn doors(design: &Design) -> Vec<(String, Body)> {
    let (params, layout) = (&design.params, &design.layout);
    let Some(keys) = params.cabinets.as_ref().filter(|it| it.door.is_positive()) else {
        return Vec::new();
    };
    let built = parts_of(design, Kind::Cabinet);
    let all = cabinets(layout).into_iter().zip(built);
    all.map(|(cabinet, id)| {
        let away = match keys.hinge {
            DoorHinge::Near => Length::ZERO,
            DoorHinge::Far => keys.door,
        };
        let left = if cabinet.on_the_left {
            cabinet.sides.high - away - LEAF
        } else {
            cabinet.sides.low + away
        };
        let corner = point(left, cabinet.outs.high + keys.door, cabinet.heights.low);
        let shape = Swept::block(LEAF, keys.door, cabinet.heights.size());
        (id, Body::new(shape, Frame::at(corner)))
    })
    .collect()
}
