//! The gas shutoff within reach.
//!
//! # What it finds
//! The distance from the shutoff to the unit's body, against 6 ft; and a shutoff that the chase hides without a panel
//! in front of it. The room for the hand is a clearance volume of its own, which other parts must stay out of.
//!
//! # Why
//! Whoever smells gas must find the valve and get a hand on it; behind stone nobody can.
//!
//! # Datum
//! The shutoff's center; the nearest point of the unit's body.
//!
//! # Source
//! IRC G2420.5 (IFGC 409.5): in the same room, within 6 ft, with access; IFGC 2018 409.1.2 and 409.1.3:
//! not in a concealed place. All read in secondary copies. A shutoff inside the unit is the manual's to
//! allow.

use glam::DVec3;

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, inside_by, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "gas shutoff",
    concern: Concern::FireAndGas,
    text: include_str!("gas_shutoff.rs"),
    keys: &[
        "gas.shutoff_right",
        "gas.shutoff_out",
        "gas.shutoff_up",
        "gas.panel",
    ],
    check,
};

const REACH: Length = Length::inches(72.0);

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Shutoff) else {
        return;
    };
    let Some(gas) = &design.params.gas else {
        return;
    };
    let valve = point(gas.shutoff_right, gas.shutoff_out, gas.shutoff_up);
    let row = |measure: Measure, source: &str, levers| Row {
        subject: measure.into(),
        parts: vec![part.id.clone()],
        location: Some(valve),
        source: format!("{source}, read in a secondary copy; the local code decides"),
        levers,
        ..Row::default()
    };
    if let Some(distance) = to_unit(design, valve) {
        let levers = &["gas.shutoff_right", "gas.shutoff_out", "gas.shutoff_up"];
        let measure = Measure("distance of the gas shutoff from the unit");
        report.judge(
            row(measure, "IRC 2018 G2420.5", levers),
            Numbers::at_most(distance, REACH),
        );
    }
    let is_hidden = inside_by(design, gas.shutoff_right, gas.shutoff_out).is_positive();
    if is_hidden && !gas.panel {
        let measure = Measure("the chase hides the gas shutoff, without an access panel");
        report.fail(
            row(
                measure,
                "IFGC 2018 409.1.2",
                &["gas.shutoff_right", "gas.shutoff_out"],
            ),
            None,
        );
    }
}

/// From a point to the nearest one of the unit's body.
fn to_unit(design: &Design, valve: DVec3) -> Option<Length> {
    let body = design.parts.iter().find(|it| it.kind == Kind::UnitBody)?;
    let bounds = &body.body.bounds;
    let nearest = valve.clamp(bounds.low, bounds.high);
    Some(Length::mm(valve.distance(nearest)))
}
