//! Access to the unit for service.
//!
//! # What it finds
//! Whether the manual wants access to the unit through the chase, and whether there is an access panel. It asks where
//! the manual's answer is not given.
//!
//! # Why
//! Valve, fan and igniter fail in time; if nobody can get at them, the stone is broken out.
//!
//! # Source
//! The unit's manual, `appliance.service`.

use super::{page, parts_of};
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::params::ServiceFrom;

pub(super) const RULE: Rule = Rule {
    name: "access for service",
    concern: Concern::FireAndGas,
    text: include_str!("service.rs"),
    keys: &["appliance.service", "chase.access_panel"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let row = |measure: Measure, source: String| Row {
        subject: measure.into(),
        parts: parts_of(design, Kind::UnitBody),
        location: Some(point(
            layout.unit_center,
            layout.faces.unit,
            layout.heights.platform_top,
        )),
        source,
        levers: &["chase.access_panel"],
        ..Row::default()
    };
    match &params.appliance.service {
        None => {
            let question = "Does the manual allow all service from the front, or does it want an access panel in the chase (appliance.service)?";
            let source = "the unit's manual".to_owned();
            let row = row(Measure("access to the unit"), source);
            report.ask_for(row, None, question, vec!["appliance.service"]);
        }
        Some(from) if from.value == ServiceFrom::Panel && !params.chase.access_panel => {
            let about = Measure("the manual wants an access panel, and the chase has none");
            report.fail(row(about, page(from)), None);
        }
        Some(_) => {}
    }
}
