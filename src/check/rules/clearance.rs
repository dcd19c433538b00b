//! Clearance volumes and what comes near them.
//!
//! # What it finds
//! For every clearance volume the part that comes nearest, and every other within 2 in: the gap to the volume's true
//! shape, or, for a part that reaches into it, minus the smallest move along the volume's own directions that clears
//! it. It is always measured, not only when it fails. A cylinder is measured as a cylinder and a bend as a bend; the
//! rectangle around a pipe with directional numbers has square corners, which is the strict reading. What lies on a
//! side where the number does not apply, such as the platform under the unit's sides, is not judged by it. A part
//! that reaches into the unit, or into several of its clearances, is judged by the one that the smallest move clears,
//! if that clears the others too: the wall behind a chase that is too shallow is too near behind the unit, and not
//! too low over it.
//!
//! # Why
//! The unit's listing is valid only where its clearances are kept.
//!
//! # Datum
//! Each volume's own: the body's skin, the pipe's skin, the opening's edges.
//!
//! # Source
//! The unit's manual, with the page of each number.

use crate::check::{Concern, Margin, Measure, Numbers, Report, Row, Rule, Thing, clearances};
use crate::design::{Clearance, ClearanceKind, Design, Kind};
use crate::geom::{Body, Direction, TOLERANCE, exit, overlaps};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "clearance",
    concern: Concern::FireAndGas,
    text: include_str!("clearance.rs"),
    keys: &[
        "roof.pass_clearance",
        "chase.width",
        "chase.depth",
        "front.opening_ease",
        "front.header_ease",
        "front.ledge",
        "front.bump_out_stud",
        "skins.noncombustible_to",
        "appliance.center",
        "appliance.face_offset",
        "appliance.side_clearance",
        "appliance.rear_clearance",
        "appliance.top_clearance",
        "appliance.front_clearance",
        "appliance.front_clearance_height",
        "appliance.facing_zone_side",
        "appliance.facing_zone_top",
        "appliance.wood_behind_facing",
        "vent.rise",
        "vent.vertical_clearance",
        "vent.bend_clearance",
        "vent.top_clearance",
        "vent.side_clearance",
        "vent.bottom_clearance",
        "vent.pass_ease",
        "mantel.projection",
        "mantel.underside",
        "recess.depth",
        "recess.sill",
        "gas.shutoff_right",
        "gas.shutoff_out",
        "gas.shutoff_up",
        "gas.reached_from",
        "gas.hand_room",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let margins: Vec<Margin> = clearances(design)
        .into_iter()
        .filter(|it| it.faces)
        .collect();
    let volume = |margin: &Margin| {
        let mut volumes = design.clearances.iter();
        let volume = volumes.find(|it| it.id == margin.clearance)?;
        (!leaves_with_another(design, &margins, volume, margin)).then_some(volume)
    };
    let volumes: Vec<Option<&Clearance>> = margins.iter().map(volume).collect();
    for (margin, volume) in margins.into_iter().zip(volumes) {
        let Some(volume) = volume else { continue };
        let row = Row {
            subject: Measure("{} to {}")
                .of([Thing::Part(margin.part.clone()), Thing::Volume(volume.kind)]),
            parts: vec![margin.part, margin.clearance],
            location: Some(margin.location),
            source: margin.source,
            levers: levers(volume.kind),
            detail: None,
        };
        report.judge(row, Numbers::at_least(margin.measured, margin.required));
    }
}

/// Whether a part inside one of the unit's clearances leaves it, too, by a smaller move out of another that is
/// judged, or out of the unit itself to the other's number.
fn leaves_with_another(
    design: &Design,
    margins: &[Margin],
    volume: &Clearance,
    margin: &Margin,
) -> bool {
    if !is_of_unit(volume.kind) || margin.margin >= Length::ZERO {
        return false;
    }
    let Some(part) = design.parts.iter().find(|it| it.id == margin.part) else {
        return false;
    };
    let unit = design.parts.iter().find(|it| it.kind == Kind::UnitBody);
    let others = design.clearances.iter();
    let others = others.filter(|it| is_of_unit(it.kind) && it.id != volume.id);
    let mut reaches = others.flat_map(|it| it.reaches.iter().map(move |reach| (it, reach)));
    reaches.any(|(other, reach)| {
        let Direction::Along(way) = reach.direction else {
            return false;
        };
        let out_of = |body: &Body| exit(&part.body, body, &[reach.direction]);
        let is_judged = margins
            .iter()
            .any(|it| it.part == margin.part && it.clearance == other.id);
        let through_other = if is_judged { out_of(&other.body) } else { 0.0 };
        let through_unit = unit.map(|it| out_of(&it.body)).filter(|it| *it > 0.0);
        let through_unit = through_unit.map_or(0.0, |it| it + reach.required.to_mm());
        let by = through_other.max(through_unit);
        let is_less = by > 0.0 && by < -margin.margin.to_mm() - TOLERANCE;
        is_less && !overlaps(&part.body.moved(way * by), &volume.body)
    })
}

const fn is_of_unit(kind: ClearanceKind) -> bool {
    matches!(
        kind,
        ClearanceKind::UnitSide
            | ClearanceKind::UnitBack
            | ClearanceKind::UnitTop
            | ClearanceKind::UnitFront
    )
}

/// What a builder can move to leave a volume more room.
const fn levers(kind: ClearanceKind) -> &'static [&'static str] {
    match kind {
        ClearanceKind::UnitSide => &["front.opening_ease", "chase.width"],
        ClearanceKind::UnitBack => &["chase.depth", "appliance.face_offset"],
        ClearanceKind::UnitTop => &["front.header_ease"],
        ClearanceKind::UnitFront => &["mantel.underside", "mantel.projection"],
        ClearanceKind::VerticalPipe => &[
            "recess.depth",
            "front.ledge",
            "front.bump_out_stud",
            "front.bump_out_stud",
            "appliance.face_offset",
        ],
        ClearanceKind::Bend => &["recess.depth", "recess.sill", "vent.rise"],
        ClearanceKind::HorizontalPipe => &["recess.sill", "vent.rise"],
        ClearanceKind::WallPass | ClearanceKind::RoofPass => {
            &["vent.pass_ease", "appliance.center"]
        }
        ClearanceKind::FacingZone => &["skins.noncombustible_to", "mantel.underside"],
        ClearanceKind::HandRoom => &["gas.shutoff_right", "gas.shutoff_out", "gas.shutoff_up"],
        ClearanceKind::MantelRule => &[],
    }
}
