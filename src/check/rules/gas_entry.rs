//! Where the gas line enters the unit.
//!
//! # What it finds
//! How far the gas stub is past the side of the unit that the manual puts the gas entry on, in plan; for an entry in
//! the bottom, how far it is inside the unit's edges. A stub out of the floor under a unit whose entry is elsewhere
//! FAILs. A stub on another side is a question: the line then has to get around the unit.
//!
//! # Why
//! A stub under the unit cannot be reached once the unit is in, and the connector may not run through the unit's
//! air space to get to it.
//!
//! # Datum
//! The center of the stub's end; the sides of the unit's body.
//!
//! # Source
//! The unit's manual, `appliance.gas_entry`.

use glam::DVec3;

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::geom::Bounds;
use crate::params::{GasEntry, StubFrom};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "gas entry",
    concern: Concern::FireAndGas,
    text: include_str!("gas_entry.rs"),
    keys: &[
        "appliance.gas_entry",
        "appliance.center",
        "gas.stub_from",
        "gas.stub_right",
        "gas.stub_out",
        "gas.stub_up",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (Some(gas), Some(unit)) = (&design.params.gas, design.first(Kind::UnitBody)) else {
        return;
    };
    let stub = point(gas.stub_right, gas.stub_out, gas.stub_up);
    let row = |source: String| Row {
        subject: Measure("gas stub at the unit's gas entry").into(),
        parts: [Kind::GasStub, Kind::UnitBody]
            .into_iter()
            .filter_map(|it| design.first(it))
            .map(|it| it.id.clone())
            .collect(),
        location: Some(stub),
        source,
        // what stands in the slab is not moved
        levers: match gas.stub_from {
            StubFrom::Floor => &["appliance.center"],
            StubFrom::Wall => &["appliance.center", "gas.stub_right", "gas.stub_out"],
        },
        ..Row::default()
    };
    let Some(entry) = &design.params.appliance.gas_entry else {
        let question =
            "On which side of the unit does the manual show the gas entry (appliance.gas_entry)?";
        let row = row("the unit's manual".to_owned());
        report.ask_for(row, None, question, vec!["appliance.gas_entry"]);
        return;
    };
    let row = row(page(entry));
    let bounds = &unit.body.bounds;
    let past = past(bounds, stub, entry.value);
    let is_under = gas.stub_from == StubFrom::Floor && inside(bounds, stub) > 0.0;
    if past >= 0.0 || is_under {
        report.judge(row, Numbers::at_least(Length::mm(past), Length::ZERO));
    } else {
        let question = "The gas stub is not on the side of the unit's gas entry: how does the line get around the unit, outside its clearances?";
        report.ask(row, None, question.to_owned());
    }
}

/// How far the stub is past the side with the entry, or, for an entry in the bottom, inside the unit's edges; mm.
fn past(unit: &Bounds, stub: DVec3, entry: GasEntry) -> f64 {
    match entry {
        GasEntry::Left => unit.low.x - stub.x,
        GasEntry::Right => stub.x - unit.high.x,
        GasEntry::Back => stub.y - unit.high.y,
        GasEntry::Bottom => inside(unit, stub),
    }
}

/// How far a point lies inside the unit's edges in plan, to the nearest of them; mm.
fn inside(unit: &Bounds, at: DVec3) -> f64 {
    let along = (at.x - unit.low.x).min(unit.high.x - at.x);
    along.min(at.y - unit.low.y).min(unit.high.y - at.y)
}
