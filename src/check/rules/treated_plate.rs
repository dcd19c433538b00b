//! Wood on the slab.
//!
//! # What it finds
//! Sticks and panels of wood that touch the floor and are not treated. A track of steel is no wood.
//!
//! # Why
//! A slab wicks damp from below; untreated wood on it rots. Fasteners in treated wood are galvanized or
//! stainless.
//!
//! # Source
//! IRC 2015 to 2021, R317.1 item 3 (read): sills and sleepers on a slab in contact with the ground are
//! treated or durable wood, unless an impervious barrier lies between. R317.3 on fasteners, from memory.

use crate::catalog::Material;
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule};
use crate::design::{Design, Group, Kind, Part};
use crate::geom::contact;

pub(super) const RULE: Rule = Rule {
    name: "treated plate",
    concern: Concern::Structure,
    text: include_str!("treated_plate.rs"),
    keys: &["platform.layers"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(floor) = design.parts.iter().find(|it| it.kind == Kind::Floor) else {
        return;
    };
    let stands = |part: &&Part| {
        matches!(part.group, Group::Framing | Group::Platform)
            && part.material != Material::TREATED
            && part.material != Material::STEEL
            && part.body.bounds.touches(&floor.body.bounds)
            && contact(&part.body, &floor.body).is_some()
    };
    let bare: Vec<&Part> = design.parts.iter().filter(stands).collect();
    let Some(first) = bare.first() else { return };
    let row = Row {
        subject: Measure("untreated wood on the slab").into(),
        parts: bare.iter().map(|it| it.id.clone()).collect(),
        location: Some(first.body.bounds.center()),
        source: "IRC 2021 R317.1 item 3".to_owned(),
        levers: &["platform.layers"],
        ..Row::default()
    };
    let question =
        "Does an impervious barrier lie between slab and wood? Without one it has to be treated.";
    let numbers = Numbers::none(Quantity::Count, bare.len() as f64);
    report.ask(row, Some(numbers), question);
}
