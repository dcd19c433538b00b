//! Who runs and tests the gas line.
//!
//! # What it finds
//! One question, always: gas work is done and tested by a licensed fitter. It states the pressure and duration of the
//! test as the parameters give them, or, where there is no [gas], asks where the line will be.
//!
//! # Why
//! A leak kills. The test comes before the cover.
//!
//! # Source
//! IFGC 2018 406.4: at least 1.5 times the working pressure (from memory) and at least 3 psi, for 10 minutes in a
//! house for one family, without loss; the gauge reads at most 5 times the test pressure; air or inert gas, never
//! oxygen (these read in a secondary copy). Many codes require more: `gas.test_pressure` and `gas.test_minutes`.

use super::first_of;
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "gas line",
    concern: Concern::FireAndGas,
    text: include_str!("gas_line.rs"),
    keys: &[
        "gas.stub_right",
        "gas.stub_out",
        "gas.stub_up",
        "gas.test_pressure",
        "gas.test_minutes",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let row = Row {
        subject: Measure("the gas line").into(),
        source: "IFGC 2018 406.4, read in a secondary copy; the local code decides".to_owned(),
        ..Row::default()
    };
    let Some(gas) = &design.params.gas else {
        let question = "Where will the gas stub and shutoff be ([gas]), and which licensed fitter runs and tests the line?";
        report.ask_for(row, None, question, vec!["gas"]);
        return;
    };
    let tape = design.params.project.unit;
    let question = format!(
        "Which licensed fitter runs the line and pressure-tests it at {} for {} minutes, with the unit isolated, before anything is covered?",
        gas.test_pressure.text(tape),
        gas.test_minutes
    );
    let row = Row {
        parts: [Kind::GasStub, Kind::Shutoff]
            .map(|it| first_of(design, it))
            .concat(),
        location: Some(point(gas.stub_right, gas.stub_out, gas.stub_up)),
        ..row
    };
    report.ask(row, None, question);
}
