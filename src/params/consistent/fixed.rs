//! Whether a mantel has the length that its extent asks, and fixed things lie on their walls.

use super::{Rule, unless_fits};
use crate::params::choice::MantelExtent;
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::room_wall::RoomWall;
use crate::params::walls::wall_frame;
use crate::units::Length;

pub(super) static RULES: &[Rule] = &[mantel_length, mantel_between_walls, on_their_walls];

fn mantel_length(params: &Params) -> Vec<Fault> {
    let Some(mantel) = &params.mantel else {
        return Vec::new();
    };
    match (mantel.extent, mantel.length) {
        (MantelExtent::Length, None) => vec![
            Fault::new("mantel.extent", "how long is the mantel?")
                .found("extent = \"length\" without `length`")
                .expected("its length, such as length = \"9 ft\"")
                .way_out("add `length` to [mantel]"),
        ],
        (MantelExtent::Chase | MantelExtent::Room, Some(_)) => vec![
            Fault::new(
                "mantel.length",
                "only a mantel of a set length has `length`",
            )
            .found(format!(
                "`length` with extent = \"{}\"",
                mantel.extent.word()
            ))
            .expected("a length that follows from chase or room")
            .way_out("take `length` out, or write extent = \"length\""),
        ],
        _ => Vec::new(),
    }
}

/// The mantel ends inside the room.
fn mantel_between_walls(params: &Params) -> Vec<Fault> {
    let own = params.mantel.as_ref().and_then(|it| it.length);
    let site = params.site();
    let Some(length) = own.filter(|_| !site.is_turned()) else {
        return Vec::new();
    };
    let center = params
        .appliance
        .center
        .unwrap_or(site.chase.low + site.width / 2.0);
    let room = params.room.width;
    let nearer = center.min(room - center);
    unless_fits(
        params,
        "mantel.length",
        ("half of the mantel's length", length / 2.0),
        (
            "the distance from the unit's center to the nearer wall",
            nearer,
        ),
        "make it shorter, or write extent = \"room\"",
    )
}

fn on_their_walls(params: &Params) -> Vec<Fault> {
    let things = params.room.fixed.iter();
    things
        .flat_map(|thing| {
            let (_, length) = wall_frame(params, thing.wall);
            let across: Length = match thing.wall {
                RoomWall::Back | RoomWall::Behind => params.room.depth,
                RoomWall::Left | RoomWall::Right => params.room.width,
            };
            let far = unless_fits(
                params,
                "room.fixed",
                ("the far side of a fixed thing", thing.from + thing.width),
                ("the length of its wall", length),
                "measure it again: `from` counts to its near side",
            );
            let deep = unless_fits(
                params,
                "room.fixed",
                (
                    "the depth of a fixed thing",
                    thing.drawn_depth(params.project.unit),
                ),
                ("the distance across the room", across),
                "`depth` is how far it comes into the room",
            );
            far.into_iter().chain(deep)
        })
        .collect()
}
