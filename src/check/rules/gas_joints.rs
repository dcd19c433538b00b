//! Joints of the gas line that the chase hides.
//!
//! # What it finds
//! A union, a compression fitting or a valve of the gas line where the finished chase covers it and no panel opens.
//! It asks where nobody has said that there is none.
//!
//! # Why
//! Unions and valves are what leaks first, and what the fitter has to reach.
//!
//! # Source
//! IFGC 2018 404.5 (IRC G2415.5): fittings in concealed places; IFGC 2018 409.1.3: access to valves. Both from memory;
//! the local code decides.

use super::first_of;
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "gas joints",
    concern: Concern::FireAndGas,
    text: include_str!("gas_joints.rs"),
    keys: &[
        "gas.hidden_joints",
        "gas.stub_right",
        "gas.stub_out",
        "gas.stub_up",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(gas) = &design.params.gas else {
        return;
    };
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: first_of(design, Kind::GasStub),
        location: Some(point(gas.stub_right, gas.stub_out, gas.stub_up)),
        source: "IFGC 2018 404.5, from memory; the local code decides".to_owned(),
        ..Row::default()
    };
    match gas.hidden_joints {
        Some(false) => {}
        Some(true) => {
            let about = "the finished chase hides a union, compression fitting or valve";
            report.fail(row(Measure(about)), None);
        }
        None => {
            let question = "Can every union, compression fitting and valve of the gas line still be reached once the chase is finished (gas.hidden_joints)?";
            let row = row(Measure("joints of the gas line that the chase hides"));
            report.ask_for(row, None, question, vec!["gas.hidden_joints"]);
        }
    }
}
