//! Whether parameters that are sound one by one go together: what no design could be built from is a fault.
//!
//! What can be built but is unwise is no fault; the checks say so. Every rule here is a small function in [`RULES`],
//! and all of them are asked, so that all faults come at once. Heights are taken from the slab.

use super::choice::{FloorDatum, FrontForm};
use super::fault::Fault;
use super::list::Params;
use super::value::length_text;
use crate::catalog::Lumber;
use crate::geom::TOLERANCE;
use crate::units::{Angle, Length};

/// One rule: the faults it finds in these parameters.
type Rule = fn(&Params) -> Vec<Fault>;

/// Every rule, in the order in which a carpenter would ask.
static RULES: &[Rule] = &[
    ledge_with_step,
    ledge_wide_enough,
    chase_in_room,
    ceiling_high_enough,
    unit_between_studs,
    header_under_ceiling,
    room_behind_front,
    opening_in_body,
    pipe_sound,
    elbow_under_its_rise,
    elbow_before_wall,
    screen_with_recess,
    recess_deeper_than_skin,
    recess_in_chase,
];

/// Least room between the back of the front walls and the wall behind, so that side walls exist.
const LEAST_SIDE_WALL: Length = Length::mm(50.0);
/// Least height of the ceiling over the chase.
const LEAST_CEILING: Length = Length::mm(1000.0);
/// How far above the ceiling a recess may be drawn before it is a slip of the pen and no finding.
const ABSURD: Length = Length::mm(1000.0);

/// Every fault of how the parameters go together; none has a place.
pub(super) fn faults(params: &Params) -> Vec<Fault> {
    RULES.iter().flat_map(|rule| rule(params)).collect()
}

/// Whether `small` fits into `large`, touching included.
fn fits(small: Length, large: Length) -> bool {
    (small - large).to_mm() <= TOLERANCE
}

/// A fault unless `small` fits into `large`.
fn unless_fits(
    params: &Params,
    key: &str,
    (small_name, small): (&str, Length),
    (large_name, large): (&str, Length),
    way_out: &str,
) -> Vec<Fault> {
    if fits(small, large) {
        return Vec::new();
    }
    let text = |length| length_text(length, params.project.unit);
    let fault = Fault::new(key, format!("{small_name} exceeds {large_name}"))
        .found(format!("{small_name}: {}", text(small)))
        .expected(format!("at most {}, {large_name}", text(large)))
        .way_out(way_out);
    vec![fault]
}

fn stepped(params: &Params) -> bool {
    params.front.form == FrontForm::Stepped
}

fn bump_out_stud(params: &Params) -> &Lumber {
    params
        .front
        .bump_out_stud
        .as_ref()
        .unwrap_or(&params.chase.stud)
}

/// Depth that the ledge takes; nothing for one wall.
fn ledge_depth(params: &Params) -> Length {
    params
        .front
        .ledge
        .as_ref()
        .map_or(Length::ZERO, |ledge| ledge.width)
}

/// The thicker of the studs that stand beside the unit.
fn front_stud(params: &Params) -> Length {
    let chase = params.chase.stud.thickness;
    if stepped(params) {
        chase.max(bump_out_stud(params).thickness)
    } else {
        chase
    }
}

/// The lower of the distances from a point to the two ends of the chase.
fn to_nearer_end(params: &Params, center: Option<Length>) -> Length {
    let half = params.chase.width / 2.0;
    let middle = params.chase.left + half;
    half - center.map_or(Length::ZERO, |center| (center - middle).abs())
}

/// How far the slab lies below the level that heights count from.
fn slab_below_datum(params: &Params) -> Length {
    match params.project.floor_datum {
        FloorDatum::BareSlab => Length::ZERO,
        FloorDatum::FinishedFloor => params.project.floor_buildup,
    }
}

/// Height of the ceiling above the slab, at a distance from the left corner and out from the wall.
fn ceiling_at(params: &Params, x: Length, out: Length) -> Length {
    let ceiling = &params.ceiling;
    ceiling.height
        + slab_below_datum(params)
        + ceiling.rise_right.rise(x)
        + ceiling.rise_out.rise(out)
}

/// The lowest ceiling over a rectangle of the floor; it is a plane, so over one of the corners.
fn lowest_ceiling(params: &Params, (left, right): (Length, Length), out: Length) -> Length {
    let corners = [
        (left, Length::ZERO),
        (right, Length::ZERO),
        (left, out),
        (right, out),
    ];
    let heights = corners.map(|(x, out)| ceiling_at(params, x, out));
    heights.into_iter().fold(Length::mm(f64::MAX), Length::min)
}

/// The lowest ceiling over the chase's framing.
fn ceiling_over_chase(params: &Params) -> Length {
    let chase = &params.chase;
    lowest_ceiling(params, (chase.left, chase.left + chase.width), chase.depth)
}

fn platform_height(params: &Params) -> Length {
    params
        .platform
        .layers
        .iter()
        .map(super::Layer::height)
        .sum()
}

fn ledge_with_step(params: &Params) -> Vec<Fault> {
    match (params.front.form, &params.front.ledge) {
        (FrontForm::Stepped, None) => vec![
            Fault::new("front.form", "a stepped front needs its ledge")
                .found("form = \"stepped\" without `ledge`")
                .expected("the stock of the ledge, such as ledge = \"2x6\"")
                .way_out("add `ledge` to [front], or write form = \"one_wall\""),
        ],
        (FrontForm::OneWall, Some(ledge)) => vec![
            Fault::new("front.ledge", "one wall has no ledge")
                .found(format!(
                    "ledge = \"{}\" with form = \"one_wall\"",
                    ledge.name
                ))
                .expected("a ledge only with form = \"stepped\"")
                .way_out("take `ledge` out, or write form = \"stepped\""),
        ],
        _ => Vec::new(),
    }
}

fn ledge_wide_enough(params: &Params) -> Vec<Fault> {
    if !stepped(params) || params.front.ledge.is_none() {
        return Vec::new();
    }
    unless_fits(
        params,
        "front.ledge",
        (
            "the width of the bump-out's studs",
            bump_out_stud(params).width,
        ),
        ("the width of the ledge over them", ledge_depth(params)),
        "take a wider ledge, or narrower `bump_out_stud`",
    )
}

fn chase_in_room(params: &Params) -> Vec<Fault> {
    let (room, chase, skins) = (&params.room, &params.chase, &params.skins);
    let mut faults = unless_fits(
        params,
        "chase.width",
        ("the chase's right edge", chase.left + chase.width),
        ("the room's width", room.width),
        "make the chase narrower, or move its left edge",
    );
    faults.extend(unless_fits(
        params,
        "chase.depth",
        (
            "the chase's depth with its skins",
            chase.depth + skins.board + skins.lower_finish,
        ),
        ("the room's depth", room.depth),
        "make the chase less deep",
    ));
    faults
}

fn ceiling_high_enough(params: &Params) -> Vec<Fault> {
    let mut faults = unless_fits(
        params,
        "ceiling.height",
        ("the least height over the chase", LEAST_CEILING),
        ("the lowest ceiling over it", ceiling_over_chase(params)),
        "check the slopes' signs: `rise_right` rises to the right, `rise_out` into the room",
    );
    let room = (Length::ZERO, params.room.width);
    let lowest = lowest_ceiling(params, room, params.room.depth);
    if !lowest.is_positive() {
        let fault = Fault::new(
            "ceiling.height",
            "the ceiling meets the floor inside the room",
        )
        .found(format!(
            "{} over a corner of the room",
            length_text(lowest, params.project.unit)
        ))
        .expected("a ceiling above the floor over the whole room")
        .way_out(
            "check the slopes' signs: `rise_right` rises to the right, `rise_out` into the room",
        );
        faults.push(fault);
    }
    faults
}

/// The rough opening with a jack, a king and an end stud each side, about the unit's own center.
fn unit_between_studs(params: &Params) -> Vec<Fault> {
    let appliance = &params.appliance;
    let rough =
        appliance.body_width + appliance.side_clearance.value * 2.0 + params.front.opening_ease;
    let half = rough / 2.0 + front_stud(params) * 3.0;
    let key = if appliance.center.is_some() {
        "appliance.center"
    } else {
        "chase.width"
    };
    unless_fits(
        params,
        key,
        ("half the rough opening with jack, king and end stud", half),
        (
            "the way from the unit's center to the chase's nearer end",
            to_nearer_end(params, appliance.center),
        ),
        "make the chase wider, or move the unit toward its middle",
    )
}

fn header_under_ceiling(params: &Params) -> Vec<Fault> {
    let appliance = &params.appliance;
    let header = platform_height(params)
        + appliance.body_height
        + appliance.top_clearance.value
        + params.front.header.width;
    let ledge = params
        .front
        .ledge
        .as_ref()
        .map_or(Length::ZERO, |ledge| ledge.thickness);
    let plate = params.chase.stud.thickness + params.ceiling.gap;
    unless_fits(
        params,
        "ceiling.height",
        (
            "the top of the header with ledge, top plate and gap",
            header + ledge + plate,
        ),
        (
            "the lowest ceiling over the chase",
            ceiling_over_chase(params),
        ),
        "lower the platform, or take a header of less width",
    )
}

fn room_behind_front(params: &Params) -> Vec<Fault> {
    let front = ledge_depth(params) + params.chase.stud.width;
    unless_fits(
        params,
        "chase.depth",
        (
            "the front's depth and 50 mm of side wall behind it",
            front + LEAST_SIDE_WALL,
        ),
        ("the depth of the chase", params.chase.depth),
        "make the chase deeper",
    )
}

fn opening_in_body(params: &Params) -> Vec<Fault> {
    let appliance = &params.appliance;
    let mut faults = unless_fits(
        params,
        "appliance.opening_top",
        ("the top of the opening", appliance.opening_top),
        ("the height of the body", appliance.body_height),
        "check both numbers in the unit's manual",
    );
    if fits(appliance.opening_top, appliance.opening_bottom) {
        let text = |length| length_text(length, params.project.unit);
        let fault = Fault::new("appliance.opening_top", "the opening has no height")
            .found(format!(
                "top {} and bottom {}",
                text(appliance.opening_top),
                text(appliance.opening_bottom)
            ))
            .expected("a top above the bottom")
            .way_out("check both numbers in the unit's manual");
        faults.push(fault);
    }
    faults.extend(unless_fits(
        params,
        "appliance.opening_width",
        (
            "the width of the opening with its lip",
            appliance.opening_width + appliance.lip_thickness * 2.0,
        ),
        ("the width of the body", appliance.body_width),
        "check both numbers in the unit's manual",
    ));
    faults
}

fn pipe_sound(params: &Params) -> Vec<Fault> {
    let vent = &params.vent;
    let radius = vent.pipe_diameter / 2.0;
    let text = |length| length_text(length, params.project.unit);
    let mut faults = Vec::new();
    if fits(radius, vent.pipe_wall) {
        faults.push(
            Fault::new("vent.pipe_wall", "the pipe's wall leaves no bore")
                .found(format!("a wall of {}", text(vent.pipe_wall)))
                .expected(format!(
                    "less than half the pipe's diameter, {}",
                    text(radius)
                ))
                .way_out("write the thickness of the outer metal only"),
        );
    }
    if fits(vent.bend_radius, radius) {
        faults.push(
            Fault::new("vent.bend_radius", "the elbow is tighter than its pipe")
                .found(format!(
                    "a center line of radius {}",
                    text(vent.bend_radius)
                ))
                .expected(format!(
                    "more than half the pipe's diameter, {}",
                    text(radius)
                ))
                .way_out("write the radius of the elbow's center line"),
        );
    }
    faults
}

/// How much of either leg the elbow takes, from its start to where the two center lines meet.
fn elbow_leg(params: &Params) -> Length {
    let slope = params.vent.slope.value.angle().to_radians();
    let half_turn = Angle::radians((std::f64::consts::FRAC_PI_2 - slope) / 2.0);
    params.vent.bend_radius * half_turn.tan()
}

fn elbow_under_its_rise(params: &Params) -> Vec<Fault> {
    let leg = elbow_leg(params);
    if (params.vent.rise - leg).is_positive() {
        return Vec::new();
    }
    let text = |length| length_text(length, params.project.unit);
    vec![
        Fault::new(
            "vent.rise",
            "the rise leaves no straight pipe below the elbow",
        )
        .found(text(params.vent.rise))
        .expected(format!("more than the elbow's own leg, {}", text(leg)))
        .way_out(
            "count the rise to where the two center lines meet, or take a smaller `bend_radius`",
        ),
    ]
}

fn elbow_before_wall(params: &Params) -> Vec<Fault> {
    let reach = params.vent.collar_offset + elbow_leg(params);
    unless_fits(
        params,
        "vent.collar_offset",
        ("the collar's offset with the elbow's leg", reach),
        (
            "the way from the unit's face to the wall",
            params.chase.depth + params.appliance.face_offset,
        ),
        "make the chase deeper, or take a smaller `bend_radius`",
    )
}

fn screen_with_recess(params: &Params) -> Vec<Fault> {
    if params.screen.is_none() || params.recess.is_some() {
        return Vec::new();
    }
    vec![
        Fault::new("screen", "the screen has no recess")
            .found("[screen] without [recess]")
            .expected("a table [recess] to hang it in")
            .way_out("add [recess], or take [screen] out"),
    ]
}

fn recess_deeper_than_skin(params: &Params) -> Vec<Fault> {
    let skins = &params.skins;
    let finish = if stepped(params) {
        skins.upper_finish
    } else {
        skins.lower_finish
    };
    let skin = skins.board + finish;
    let shallow = params
        .recess
        .as_ref()
        .filter(|recess| fits(recess.depth, skin));
    let text = |length| length_text(length, params.project.unit);
    shallow
        .map(|recess| {
            Fault::new(
                "recess.depth",
                "the recess is no deeper than the skin around it",
            )
            .found(text(recess.depth))
            .expected(format!("more than board and finish, {}", text(skin)))
            .way_out("count the depth from the finished face")
        })
        .into_iter()
        .collect()
}

fn recess_in_chase(params: &Params) -> Vec<Fault> {
    let Some(recess) = &params.recess else {
        return Vec::new();
    };
    let half = recess.width / 2.0 + params.skins.board + params.chase.stud.thickness * 2.0;
    let key = if recess.center.is_some() {
        "recess.center"
    } else {
        "recess.width"
    };
    let mut faults = unless_fits(
        params,
        key,
        ("half the recess with its board and two studs", half),
        (
            "the way from its center to the chase's nearer end",
            to_nearer_end(params, recess.center),
        ),
        "make the recess narrower, or move it toward the chase's middle",
    );
    faults.extend(unless_fits(
        params,
        "recess.sill",
        (
            "the head of the recess",
            recess.sill + recess.height + slab_below_datum(params),
        ),
        (
            "what lies 1 m above the lowest ceiling",
            ceiling_over_chase(params) + ABSURD,
        ),
        "lower the sill, or the recess itself",
    ));
    faults
}
