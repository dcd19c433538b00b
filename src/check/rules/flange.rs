//! The unit's flange and the gap beside its body.
//!
//! # What it finds
//! The gap between body and framing at each side (the manual's clearance and half of what the opening is framed
//! wider), against how far the unit's flange reaches. Where the opening is wider than needed and the flange's reach
//! is not given, it asks.
//!
//! # Why
//! Ease lets in a unit that is a little larger than listed, between studs a little closer than drawn; too much of it
//! leaves the flange's nails in the air, and a slot beside the unit that no trim covers.
//!
//! # Datum
//! The side of the body.
//!
//! # Source
//! The unit's manual, `appliance.flange`.

use super::{first_of, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::units::Rounding;

pub(super) const RULE: Rule = Rule {
    name: "flange",
    concern: Concern::FireAndGas,
    text: include_str!("flange.rs"),
    keys: &[
        "appliance.flange",
        "appliance.side_clearance",
        "front.opening_ease",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let ease = params.front.opening_ease;
    let gap = params.appliance.side_clearance.value + ease / 2.0;
    let flange = params.appliance.flange.as_ref();
    let row = Row {
        subject: Measure("gap beside the body under the unit's flange").into(),
        parts: first_of(design, Kind::UnitBody),
        location: Some(point(
            layout.rough_opening.low,
            layout.faces.lower_stud,
            layout.heights.opening_top,
        )),
        source: flange.map_or("the unit's manual".to_owned(), page),
        levers: &["front.opening_ease"],
        ..Row::default()
    };
    match flange {
        Some(flange) => report.judge(row, Numbers::at_most(gap, flange.value)),
        None if ease.is_positive() => {
            let gap = gap.tape(params.project.unit, Rounding::Up);
            let question = format!(
                "How far does the unit's flange reach past its body (appliance.flange)? The gap to the framing is {gap} at each side."
            );
            report.ask_for(row, None, question, vec!["appliance.flange"]);
        }
        None => {}
    }
}
