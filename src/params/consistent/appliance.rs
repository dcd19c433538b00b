//! Whether the unit's opening, its vent and the chase go together.

use super::{Rule, fits, unless_fits};
use crate::params::choice::Collar;
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::text::length_text;
use crate::units::{Angle, Length};

pub(super) static RULES: &[Rule] = &[
    opening_in_body,
    collar_on_body,
    elbow_wider_than_pipe,
    elbow_under_its_rise,
    elbow_before_wall,
];

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

/// The collar's center has to be on the body, at its top or behind it.
fn collar_on_body(params: &Params) -> Vec<Fault> {
    let unit = &params.appliance;
    let (body, way_out) = match params.vent.collar {
        Collar::Up => (
            ("the depth of the body", unit.body_depth),
            "measure `collar_offset` from the unit's face back to the collar's center",
        ),
        Collar::Back => (
            ("the height of the body", unit.body_height),
            "measure `collar_offset` from the body's base up to the collar's center",
        ),
    };
    let offset = ("the collar's offset", params.vent.collar_offset);
    unless_fits(params, "vent.collar_offset", offset, body, way_out)
}

fn elbow_wider_than_pipe(params: &Params) -> Vec<Fault> {
    let vent = &params.vent;
    let radius = vent.pipe_diameter / 2.0;
    if !fits(vent.bend_radius, radius) {
        return Vec::new();
    }
    let text = |length| length_text(length, params.project.unit);
    vec![
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
    ]
}

/// How much of either leg the elbow takes, from its start to where the two center lines meet.
fn elbow_leg(params: &Params) -> Length {
    let slope = params.vent.slope.value.angle().to_radians();
    let half_turn = Angle::radians((std::f64::consts::FRAC_PI_2 - slope) / 2.0);
    params.vent.bend_radius * half_turn.tan()
}

fn elbow_under_its_rise(params: &Params) -> Vec<Fault> {
    let leg = elbow_leg(params);
    let Some(rise) = params.vent.rise.filter(|rise| !(*rise - leg).is_positive()) else {
        return Vec::new();
    };
    let text = |length| length_text(length, params.project.unit);
    vec![
        Fault::new(
            "vent.rise",
            "the rise leaves no straight pipe below the elbow",
        )
        .found(text(rise))
        .expected(format!("more than the elbow's own leg, {}", text(leg)))
        .way_out(
            "measure the rise to where the two center lines meet, or take a smaller `bend_radius`",
        ),
    ]
}

fn elbow_before_wall(params: &Params) -> Vec<Fault> {
    if params.vent.path.is_some() {
        return Vec::new();
    }
    let reach = params.vent.collar_offset + elbow_leg(params);
    unless_fits(
        params,
        "vent.collar_offset",
        ("the collar's offset with the elbow's leg", reach),
        (
            "the distance from the unit's face to the wall",
            params.chase.depth + params.appliance.face_offset,
        ),
        "make the chase deeper, or take a smaller `bend_radius`",
    )
}
