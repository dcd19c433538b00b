//! Inspections before the framing is covered.
//!
//! # What it finds
//! An inspection of the framing after board or finish covers it; a gas test, or an inspection of wiring or vent,
//! after that of the framing. It asks whether the inspector wants it so; the inspector's word wins.
//!
//! # Why
//! What is covered before it is inspected is opened again, at the builder's cost.
//!
//! # Source
//! IRC 2018 R109.1.4, from memory: framing is inspected after the rough-ins are approved, with fireblocking in place.

use super::first_of;
use crate::check::{Concern, Measure, Report, Row, Rule, Thing};
use crate::design::{Design, Hold, Kind};
use crate::params::JobStep;

pub(super) const RULE: Rule = Rule {
    name: "visits",
    concern: Concern::FireAndGas,
    text: include_str!("visits.rs"),
    keys: &[
        "visits.gas_test",
        "visits.wiring",
        "visits.vent",
        "visits.framing",
        "visits.board",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let visits = &design.params.visits;
    for (hold, before) in Hold::all(visits) {
        let (latest, question) = match hold {
            Hold::FramingInspection => (
                JobStep::Board,
                "The framing is covered before it is inspected: does the inspector want it so?",
            ),
            Hold::BoardInspection => (
                JobStep::Finish,
                "The board's screws are covered before they are inspected: does the inspector want it so?",
            ),
            Hold::GasTest | Hold::WiringInspection | Hold::VentInspection => (
                visits.framing,
                "It comes after the inspection of the framing: does the inspector want it so?",
            ),
        };
        if before > latest {
            let row = Row {
                subject: Measure("order of visits, {}").of([Thing::Word(hold.name())]),
                parts: first_of(design, Kind::UnitBody),
                source: "IRC 2018 R109.1.4, from memory; the inspector's word wins".to_owned(),
                ..Row::default()
            };
            report.ask(row, None, question);
        }
    }
}
