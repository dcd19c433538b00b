//! The mantel on a wall of steel studs.
//!
//! # What it finds
//! Where the mantel hangs or lies on a wall of light-gauge steel: what it weighs, by its own size and
//! material, against 100 lb for each foot of its length, or 200 lb in all, whichever is more: a wall that keeps one of
//! the two carries no more than such studs are made for.
//!
//! # Why
//! Studs of this kind are made for walls that carry board and little else; a heavier thing wants studs that
//! somebody has designed, or something of its own to stand on.
//!
//! # Source
//! ASTM C645-04, 3.2.2, read: what nonstructural studs may carry beside their board, 100 lb/ft or 200 lb.

use crate::catalog::FramingMember;
use crate::check::{Measure, Numbers, Quantity, Report, Row, Rule, Sense};
use crate::design::{Design, Kind, front_wall_at};

pub(super) const RULE: Rule = Rule {
    name: "steel load",
    text: include_str!("steel_load.rs"),
    keys: &[
        "chase.stud",
        "front.bump_out_stud",
        "front.stud",
        "mantel.projection",
        "mantel.thickness",
    ],
    check,
};

const SOURCE: &str = "ASTM C645-04 3.2.2; the maker's tables decide";
/// 100 lb/ft in kilograms per millimetre: 1 lb/ft is 1.488164 kg/m (NIST SP 811 (2008), appendix B.8).
const ALONG: f64 = 100.0 * 1.488_164e-3;
/// 200 lb in kilograms: 1 lb is 0.45359237 kg exactly (same).
const IN_ALL: f64 = 200.0 * 0.453_592_37;

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let Some(mantel) = design.parts.iter().find(|it| it.kind == Kind::Mantel) else {
        return;
    };
    let (wall, _) = front_wall_at(layout, mantel.heights().low);
    let FramingMember::Steel(_) = params.stud_of(wall) else {
        return;
    };
    let mass = mantel.body.volume() * 1e-9 * mantel.material.density;
    let along = mantel.sides().size().to_mm() * ALONG;
    let most = along.max(IN_ALL);
    let row = Row {
        subject: Measure("weight of the mantel on the steel studs of the {} wall")
            .of([wall.into()]),
        parts: vec![mantel.id.clone()],
        location: Some(mantel.body.bounds.center()),
        source: SOURCE.to_owned(),
        levers: &["mantel.thickness", "mantel.projection"],
        ..Row::default()
    };
    let numbers = Numbers::new(Quantity::Mass, Sense::AtMost, mass, most);
    report.limit(row, numbers);
}
