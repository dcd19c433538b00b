//! The gas stub inside the chase.
//!
//! # What it finds
//! How far inside the chase's finished faces the end of the gas stub is, in plan, to the nearest of them; below zero
//! it is in the open room.
//!
//! # Why
//! A chase that is moved along its wall leaves the stub behind. The connector to the unit begins at the stub, and it
//! must not pass through a wall of the chase; a stub left outside is in the room, in everybody's way. Where rigid
//! pipe goes on into the chase, the stub is where that pipe ends.
//!
//! # Datum
//! The middle of the stub's end; the finished faces of sides and front. Across a corner the sides' place counts
//! along the chase's face.
//!
//! # Source
//! IFGC 2018 411.1.3.3 (IRC G2422.1.2.3): no connector through walls, from memory; the local code decides.

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, inside_by, point};
use crate::params::StubFrom;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "gas stub",
    concern: Concern::FireAndGas,
    text: include_str!("gas_stub.rs"),
    keys: &[
        "chase.left",
        "gas.stub_from",
        "gas.stub_right",
        "gas.stub_out",
        "gas.stub_up",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::GasStub) else {
        return;
    };
    let Some(gas) = &design.params.gas else {
        return;
    };
    let row = Row {
        subject: Measure("end of the gas stub inside the chase").into(),
        parts: vec![part.id.clone()],
        location: Some(point(gas.stub_right, gas.stub_out, gas.stub_up)),
        source: "IFGC 2018 411.1.3.3, from memory; the local code decides".to_owned(),
        levers: match gas.stub_from {
            // what stands in the slab is not moved
            StubFrom::Floor => &["chase.left"],
            StubFrom::Wall => &["chase.left", "gas.stub_right", "gas.stub_out"],
        },
        ..Row::default()
    };
    let inside = inside_by(design, gas.stub_right, gas.stub_out);
    report.judge(row, Numbers::at_least(inside, Length::ZERO));
}
