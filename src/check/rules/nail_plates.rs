//! Nail plates on bored studs.
//!
//! # What it finds
//! Where plates are not wanted (`fasteners.nail_plates`), the wood between each bore and the stud's nearer edge
//! against what keeps screws from a cable or from gas tubing. Where they are, they are counted and bought. Where a
//! gas line passes that near to an edge and its material is not given, it asks.
//!
//! # Why
//! Board screws are an inch longer than the board is thick; one in a cable starts a fire inside the wall, one in gas
//! tubing a leak.
//!
//! # Datum
//! From the edge of the bore, as wide as it is bored, to the stud's edge.
//!
//! # Source
//! NEC 300.4(A), from memory: 1-1/4 in to a cable. IRC 2015 G2415.7, read in a checklist: 1-1/2 in to gas pipe other
//! than steel, and 4 in past flexible tubing.

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind, NailPlate, bored_edges};

pub(super) const RULE: Rule = Rule {
    name: "nail plates",
    concern: Concern::FireAndGas,
    text: include_str!("nail_plates.rs"),
    keys: &["gas.material", "cables.route", "fasteners.nail_plates"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let edges = bored_edges(design);
    let untold = design.params.gas.as_ref();
    let untold = untold.is_some_and(|it| it.material.is_none());
    let is_gas = |it: &NailPlate| {
        let mut parts = design.parts.iter();
        parts.any(|part| part.kind == Kind::GasStub && part.id == it.service)
    };
    if !design.params.fasteners.nail_plates {
        let told = nearer(&edges).into_iter();
        for edge in told.filter(|it| !(untold && is_gas(it))) {
            let measure = Measure("wood over {} in {}");
            report.limit(row(measure, edge), Numbers::at_least(edge.wood, edge.least));
        }
    }
    let mut near = edges.iter().filter(|it| is_gas(it) && it.wood < it.least);
    if let Some(edge) = near.next().filter(|_| untold) {
        let question = "What is the gas line made of (gas.material)? Through a stud, anything but steel pipe needs a nail plate.";
        report.ask(row(Measure("{} in {}"), edge), None, question);
    }
}

fn row(measure: Measure, edge: &NailPlate) -> Row {
    let things = [&edge.service, &edge.stud].map(|it| Thing::Part(it.clone()));
    Row {
        subject: measure.of(things),
        parts: vec![edge.service.clone(), edge.stud.clone()],
        location: Some(edge.location),
        source: "NEC 300.4(A), from memory; IRC 2015 G2415.7, read in a checklist; the local code decides".to_owned(),
        levers: &["fasteners.nail_plates"],
        ..Row::default()
    }
}

/// Of the two edges of each bore the one with less wood.
fn nearer(edges: &[NailPlate]) -> Vec<&NailPlate> {
    let pairs = edges.chunks_exact(2);
    let least = pairs.filter_map(|it| {
        let [a, b] = it else { return None };
        Some(if a.wood <= b.wood { a } else { b })
    });
    least.collect()
}
