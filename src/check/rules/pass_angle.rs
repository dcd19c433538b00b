//! The vent's crossing of a wall at an angle.
//!
//! # What it finds
//! How far from square the vent goes through its wall, in plan.
//!
//! # Why
//! Thimbles and caps are usually made for a square crossing. At an angle the hole is wider, and the
//! plate and the cap may not fit.
//!
//! # Datum
//! The pipe's middle line; the wall's finished face.
//!
//! # Source
//! The unit's manual, `vent.angled_pass`, where the answer is known; where it is not, it asks.

use super::{clearances_of, page};
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Thing};
use crate::design::{ClearanceKind, Design};
use crate::params::Permission;

/// A crossing that is off by less, in degrees, is square.
const SQUARE: f64 = 0.01;

pub(super) const RULE: Rule = Rule {
    name: "pass angle",
    concern: Concern::FireAndGas,
    text: include_str!("pass_angle.rs"),
    keys: &["vent.angled_pass"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let pass = &design.layout.pass;
    let angle = pass.angle.to_degrees().abs();
    let Some(wall) = pass.wall.filter(|_| angle > SQUARE) else {
        return;
    };
    let answer = design.params.vent.angled_pass.as_ref();
    let row = Row {
        subject: Measure("the vent's crossing of the {}, from square").of([Thing::RoomWall(wall)]),
        parts: clearances_of(design, &[ClearanceKind::WallPass]),
        location: None,
        source: answer.map_or_else(|| "the unit's manual".to_owned(), page),
        levers: &[],
        ..Row::default()
    };
    let numbers = Numbers::none(Quantity::Angle, angle);
    match answer.map(|it| it.value) {
        None => report.ask_for(
            row,
            Some(numbers),
            "Does the manual allow the vent to cross the wall at an angle? If not, add an elbow.",
            vec!["vent.angled_pass"],
        ),
        Some(Permission::No) => report.fail(row, Some(numbers)),
        Some(Permission::Yes) => {}
    }
}
