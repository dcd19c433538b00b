//! A room and its mirror image have the same margins: no verdict knows left from right.
//!
//! Studs of a layout count from the left, so what depends on where they fall is left out.

use std::collections::BTreeMap;

use chasewright::check::check;
use chasewright::design::design;
use chasewright::params::{
    BesideSides, Ceiling, Exit, Heading, MantelHold, Params, Placement, Rafters, Reach, Ridge,
    RidgeRun, RoomWall, Toward, VentStep,
};
use chasewright::units::{Angle, Length, Slope};

use crate::generate::random_params;
use crate::support::{is_quick, seeds};

/// Rules that judge studs of a layout, and findings that name a side.
const OF_LAYOUTS: [&str; 18] = [
    "attachment",
    "bores and notches",
    "blocking",
    "board joint",
    "brackets",
    "fireblocking",
    "plates",
    "existing stud cut",
    "held",
    "mantel hold",
    "part in part",
    "part without room",
    "pass in its bay",
    "rafter cut",
    "recess header",
    "stud spacing",
    "tilt-up",
    "unit header",
];

fn mirrored(params: &Params) -> Params {
    let mut image = params.clone();
    let (room, chase) = (params.room.width, &params.chase);
    let rise = params.ceiling.rise_right;
    let turned = |rise: Slope| Slope::ratio(-rise.to_ratio());
    let height = params.room_underside().height_at(room, Length::ZERO);
    image.ceiling.height = params.ceiling.height.map(|_| height);
    for reading in &mut image.ceiling.readings {
        reading.right = room - reading.right;
    }
    image.ceiling.rise_right = rise.map(turned);
    if let Some(ridge) = &mut image.ridge {
        mirror_ridge(ridge, &mut image.ceiling, params);
    }
    image.chase.left = chase.left.map(|left| room - left - chase.width);
    image.chase.placement = match chase.placement {
        Placement::LeftCorner => Placement::RightCorner,
        Placement::RightCorner => Placement::LeftCorner,
        other => other,
    };
    // across a corner centers count along the face
    let across = if params.site().is_turned() {
        params.site().width
    } else {
        room
    };
    image.appliance.center = params.appliance.center.map(|center| across - center);
    if let Some(recess) = &mut image.recess {
        recess.center = recess.center.map(|center| across - center);
    }
    for place in &mut image.blocking.across {
        *place = across - *place;
    }
    mirror_what_has_a_place(&mut image, room, across);
    let last = |first: Length, spacing: Length, thickness: Length| {
        let mut last = first;
        while last + spacing + thickness / 2.0 <= room {
            last += spacing;
        }
        last
    };
    let wall = &params.wall;
    image.wall.first_stud = room - last(wall.first_stud, wall.stud_spacing, wall.stud.breadth());
    if let Some(rafters) = &mut image.rafters
        && rafters.runs == Rafters::Out
    {
        let (spacing, thickness) = (rafters.spacing, rafters.stock.breadth());
        rafters.first = rafters.first.map(|it| room - last(it, spacing, thickness));
    }
    if let Some(roof) = &mut image.roof
        && roof.rafters == Rafters::Out
    {
        let thickness = roof.rafter.breadth();
        roof.first_rafter = room - last(roof.first_rafter, roof.rafter_spacing, thickness);
    }
    if let Some(path) = &mut image.vent.path {
        path.iter_mut().for_each(mirror_step);
    }
    // both side walls count from the wall behind the chase
    image.left_wall.clone_from(&params.right_wall);
    image.right_wall.clone_from(&params.left_wall);
    image
}

fn mirror_step(step: &mut VentStep) {
    match step {
        VentStep::Turn { toward, .. } | VentStep::Offset { toward, .. } => match toward {
            Toward::Level { side, clockwise } => {
                *side = match *side {
                    Heading::Left => Heading::Right,
                    Heading::Right => Heading::Left,
                    other => other,
                };
                *clockwise = Angle::radians(-clockwise.to_radians());
            }
            Toward::Wall(wall) => *wall = other_side(*wall),
            Toward::Up | Toward::Down => {}
        },
        VentStep::ThroughWall { wall, .. } => *wall = other_side(*wall),
        VentStep::Go { .. } | VentStep::ThroughRoof => {}
    }
}

const fn other_side(wall: RoomWall) -> RoomWall {
    match wall {
        RoomWall::Back => RoomWall::Back,
        RoomWall::Behind => RoomWall::Behind,
        RoomWall::Left => RoomWall::Right,
        RoomWall::Right => RoomWall::Left,
    }
}

/// What stands somewhere along the wall on its own.
fn mirror_what_has_a_place(image: &mut Params, room: Length, across: Length) {
    for thing in &mut image.room.fixed {
        thing.wall = other_side(thing.wall);
        if thing.wall == RoomWall::Back {
            thing.from = room - thing.from - thing.width;
        }
    }
    for [right, _, _] in &mut image.room.floor.0 {
        *right = room - *right;
    }
    std::mem::swap(&mut image.room.left_corner, &mut image.room.right_corner);
    if let Some(gas) = &mut image.gas {
        gas.stub_right = across - gas.stub_right;
        gas.shutoff_right = across - gas.shutoff_right;
        gas.reached_from = match gas.reached_from {
            Reach::Left => Reach::Right,
            Reach::Right => Reach::Left,
            Reach::Front => Reach::Front,
        };
    }
    // in a side wall they count from the fireplace wall, which stays where it is
    let exit = image.route().exit;
    let behind = !matches!(exit, Exit::Wall(RoomWall::Left | RoomWall::Right));
    if let Some(outside) = image.outside.as_mut().filter(|_| behind) {
        for [left, _, right, _] in outside.openings.iter_mut().flat_map(|it| &mut it.0) {
            (*left, *right) = (room - *right, room - *left);
        }
        outside.corner = outside.corner.map(|corner| room - corner);
    }
    for [right, _, _] in image.cables.iter_mut().flat_map(|it| &mut it.route.0) {
        *right = across - *right;
    }
    if let Some(cabinets) = &mut image.cabinets {
        cabinets.sides = match cabinets.sides {
            BesideSides::Left => BesideSides::Right,
            BesideSides::Right => BesideSides::Left,
            BesideSides::Both => BesideSides::Both,
        };
    }
}

fn mirror_ridge(ridge: &mut Ridge, ceiling: &mut Ceiling, params: &Params) {
    let room = params.room.width;
    match ridge.runs {
        RidgeRun::Along => {
            let across = params
                .ceiling
                .rise_right
                .map_or(Length::ZERO, |it| it.rise(room));
            ridge.height = ridge.height.map(|height| height + across);
            ridge.far_height = ridge.far_height.map(|height| height + across);
        }
        RidgeRun::Out => {
            let planes = params.room_underside();
            let [left, right] = [0, 1].map(|at| planes.planes()[at].slope.x);
            ceiling.rise_right = Some(Slope::ratio(-right));
            ridge.at = room - ridge.at;
            ridge.fall = Some(Slope::ratio(left));
            ridge.height = None;
            ridge.far_height = None;
        }
    }
}

/// The least margin of everything that is judged, the sides not told apart.
fn margins(params: &Params) -> BTreeMap<String, f64> {
    let mut least = BTreeMap::new();
    for finding in check(&design(params)) {
        let of_layout = |part: &String| {
            ["stud", "cripple", "blocking"]
                .iter()
                .any(|it| part.contains(it))
        };
        let Some(numbers) = finding.numbers else {
            continue;
        };
        if OF_LAYOUTS.contains(&finding.rule) || finding.parts.first().is_some_and(of_layout) {
            continue;
        }
        let about = match (finding.rule, finding.parts.last()) {
            ("clearance", Some(volume)) => volume.as_str(),
            ("inside the room", _) => "",
            _ => &finding.subject.to_string(),
        };
        let about = about.replace("left", "side").replace("right", "side");
        let margin = least
            .entry(format!("{}: {about}", finding.rule))
            .or_insert(f64::INFINITY);
        *margin = margin.min(numbers.margin);
    }
    least
}

#[test]
fn the_mirror_image_of_a_room_has_the_same_margins() {
    let mut compared = 0;
    for seed in seeds(0..400) {
        let mut params = random_params(seed);
        // brackets lie on the studs of a layout
        if let Some(mantel) = &mut params.mantel {
            mantel.held_by = mantel.held_by.filter(|it| *it != MantelHold::Brackets);
        }
        let (here, there) = (margins(&params), margins(&mirrored(&params)));
        for (about, margin) in &here {
            // Near a clearance, the nearest other part may be a stud of a layout on one side only.
            let Some(image) = there.get(about) else {
                continue;
            };
            // A part that just touches a volume may face it with one of its convex pieces, and none of its image's.
            let touches = |it: &f64| it.abs() < 1e-6;
            if about.starts_with("clearance:") && touches(margin) != touches(image) {
                continue;
            }
            compared += 1;
            let apart = (margin - image).abs();
            assert!(apart < 1e-4, "seed {seed}: {about}: {margin} and {image}");
        }
    }
    assert!(is_quick() || compared > 4000, "{compared}");
}
