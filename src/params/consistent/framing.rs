//! Whether ledge, chase, ceiling and header go together.

use super::{
    Rule, ceiling_over_chase, fits, front_stud, ledge_depth, lowest_over_room, platform_height,
    stepped, to_nearer_end, unless_fits,
};
use crate::catalog::Lumber;
use crate::params::choice::FrontForm;
use crate::params::fault::Fault;
use crate::params::layer::Layer;
use crate::params::list::Params;
use crate::params::text::length_text;
use crate::units::Length;

/// Least height of the ceiling over the chase.
const LEAST_CEILING: Length = Length::mm(1000.0);

pub(super) static RULES: &[Rule] = &[
    ledge_with_step,
    ledge_wide_enough,
    ceiling_high_enough,
    unit_between_studs,
    header_under_ceiling,
    sleepers_apart,
];

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
                    ledge.name()
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
            params.bump_out_stud().depth(),
        ),
        ("the width of the ledge over them", ledge_depth(params)),
        "take a wider ledge, or narrower `bump_out_stud`",
    )
}

fn ceiling_high_enough(params: &Params) -> Vec<Fault> {
    let over_room = lowest_over_room(params);
    let over_chase = ceiling_over_chase(params);
    let mut faults = Vec::new();
    let mut low = |problem: &str, found: Length, expected: String| {
        let fault = Fault::new("ceiling.height", problem)
            .found(format!("{} at its lowest there", length_text(found, params.project.unit)))
            .expected(expected)
            .way_out("check the slopes' signs: `rise_right` rises to the right, `rise_out` into the room");
        faults.push(fault);
    };
    if !fits(LEAST_CEILING, over_chase) {
        let least = length_text(LEAST_CEILING, params.project.unit);
        low(
            "the ceiling is too low over the chase",
            over_chase,
            format!("at least {least}"),
        );
    }
    if !over_room.is_positive() {
        let expected = "a ceiling above the floor over the whole room";
        low(
            "the ceiling meets the floor inside the room",
            over_room,
            expected.to_owned(),
        );
    }
    faults
}

/// The rough opening with a jack each side, about the unit's own center; whether a king and an end
/// stud fit beside them too is a finding.
fn unit_between_studs(params: &Params) -> Vec<Fault> {
    let appliance = &params.appliance;
    let rough =
        appliance.body_width + appliance.side_clearance.value * 2.0 + params.front.opening_ease;
    let half = rough / 2.0 + front_stud(params);
    let key = if appliance.center.is_some() {
        "appliance.center"
    } else {
        "chase.width"
    };
    unless_fits(
        params,
        key,
        ("half the rough opening with its jack", half),
        (
            "the distance from the unit's center to the chase's nearer end",
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
        + params.front.header_ease
        + params.header_height();
    let ledge = params
        .front
        .ledge
        .as_ref()
        .map_or(Length::ZERO, Lumber::plate);
    let under = if params.has_ceiling() {
        params.plates_drop()
    } else {
        Length::ZERO
    };
    let plate = match params.behind.as_ref().filter(|_| params.site().opens_wall) {
        Some(behind) => params.wall.stud.breadth() * f64::from(behind.wall_plates),
        None => params.front_stud().plate() + params.ceiling.gap + under,
    };
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

/// Sleepers that lie closer than they are wide would lie in one another.
fn sleepers_apart(params: &Params) -> Vec<Fault> {
    let widths = params
        .platform
        .layers
        .iter()
        .filter_map(|layer| match layer {
            Layer::Flat(lumber) => Some(lumber.depth()),
            Layer::OnEdge(lumber) => Some(lumber.breadth()),
            Layer::Panel(_) => None,
        });
    let Some(widest) = widths.reduce(Length::max) else {
        return Vec::new();
    };
    unless_fits(
        params,
        "platform.sleeper_spacing",
        ("the width of the platform's sticks", widest),
        ("their spacing", params.platform.sleeper_spacing),
        "lay them farther apart, or take narrower sticks",
    )
}
