//! The thickness of the wall that the vent goes through.
//!
//! # What it finds
//! The wall's thickness against the thinnest and the thickest that the thimble or firestop fits. It asks once where
//! one of them is not given.
//!
//! # Why
//! A thimble is made for a range of walls: in a thinner one it sticks out, in a thicker one it does not reach, and
//! the air space around the pipe is open to the hollow of the wall.
//!
//! # Datum
//! From the finished face inside to the outside face, cladding with it, square to the wall.
//!
//! # Source
//! The unit's manual, `vent.thinnest_wall` and `vent.thickest_wall`.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::Design;
use crate::units::Rounding;

pub(super) const RULE: Rule = Rule {
    name: "thickness of the wall",
    concern: Concern::FireAndGas,
    text: include_str!("pass_thickness.rs"),
    keys: &["vent.thinnest_wall", "vent.thickest_wall"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (vent, layout) = (&design.params.vent, &design.layout);
    let Some(wall) = layout.pass_wall() else {
        return;
    };
    let thickness = wall.depths.outside;
    let (along, up) = layout.pass.outside;
    let row = |measure: Measure, source: String| Row {
        subject: measure.into(),
        parts: vec!["clearance/wall pass".to_owned()],
        location: Some(wall.point(along, thickness, up - layout.slab)),
        source,
        ..Row::default()
    };
    if let Some(least) = &vent.thinnest_wall {
        report.judge(
            row(
                Measure("wall against the thimble's thinnest wall"),
                page(least),
            ),
            Numbers::at_least(thickness, least.value),
        );
    }
    if let Some(most) = &vent.thickest_wall {
        report.judge(
            row(
                Measure("wall against the thimble's thickest wall"),
                page(most),
            ),
            Numbers::at_most(thickness, most.value),
        );
    }
    let missing = [
        (vent.thinnest_wall.is_none(), "vent.thinnest_wall"),
        (vent.thickest_wall.is_none(), "vent.thickest_wall"),
    ];
    let missing: Vec<&str> = missing.iter().filter(|it| it.0).map(|it| it.1).collect();
    if !missing.is_empty() {
        let question = format!(
            "The wall is {} thick: what walls does the thimble fit ({})?",
            thickness.tape(design.params.project.unit, Rounding::Up),
            missing.join(", ")
        );
        let source = "the unit's manual".to_owned();
        let row = row(Measure("the wall for the thimble"), source);
        let keys = vec!["vent.thinnest_wall", "vent.thickest_wall"];
        report.ask_for(row, None, question, keys);
    }
}
