//! Parts that overlap.
//!
//! # What it finds
//! Every two parts that share space, with the volume they share and how far one has to be moved to clear the other.
//! Parts that touch share nothing. What the vent's pipe overlaps is not reported a second time for the flue within
//! it. Where a cable or the gas pipe passes straight through a stud, the stud is bored: see the rule `bores and
//! notches`.
//!
//! # Why
//! Two sticks cannot be in one place; on site one of them gets cut.
//!
//! # Source
//! Arithmetic on the exact shapes.

use super::ARITHMETIC;
use super::bores::is_cut;
use crate::check::{
    Clash, Concern, Measure, Numbers, Quantity, Report, Row, Rule, Thing, interference,
};
use crate::design::{Branch, Design, Kind, Part};

pub(super) const RULE: Rule = Rule {
    name: "part in part",
    concern: Concern::Structure,
    text: include_str!("part_in_part.rs"),
    keys: &[
        "cables.shelf",
        "gas.shutoff_right",
        "gas.shutoff_out",
        "gas.shutoff_up",
        "mantel.underside",
        "mantel.projection",
        "cabinets.gap",
        "cabinets.width",
        "recess.depth",
        "recess.sill",
        "vent.rise",
        "appliance.center",
        "appliance.face_offset",
        "front.opening_ease",
        "front.header_ease",
        "chase.left",
        "chase.width",
        "chase.depth",
    ],
    check,
};

/// What moves the one of two branches that is moved more easily.
fn levers(a: Branch, b: Branch) -> &'static [&'static str] {
    let [(first, its), (second, other)] = [a, b].map(moved);
    if first <= second { its } else { other }
}

/// How hard it is to move a branch, and what moves it.
fn moved(branch: Branch) -> (u8, &'static [&'static str]) {
    match branch {
        Branch::Cables => (0, &["cables.shelf"]),
        Branch::Gas => (
            1,
            &["gas.shutoff_right", "gas.shutoff_out", "gas.shutoff_up"],
        ),
        Branch::Mantel | Branch::Face(_) => (2, &["mantel.underside", "mantel.projection"]),
        Branch::Cabinets => (3, &["cabinets.gap", "cabinets.width"]),
        Branch::Recess => (4, &["recess.depth", "recess.sill", "vent.rise"]),
        Branch::Vent | Branch::WallPass | Branch::RoofPass => (
            5,
            &["vent.rise", "appliance.center", "appliance.face_offset"],
        ),
        Branch::Wall(_) => (
            6,
            &[
                "front.opening_ease",
                "front.header_ease",
                "chase.width",
                "chase.depth",
            ],
        ),
        Branch::Unit => (
            7,
            &["appliance.center", "appliance.face_offset", "chase.depth"],
        ),
        Branch::Platform
        | Branch::Cover(_)
        | Branch::Lining(_)
        | Branch::Fireblock
        | Branch::ExistingWall
        | Branch::Ceiling
        | Branch::Room
        | Branch::Behind
        | Branch::Fixed => (8, &["chase.left", "chase.width", "chase.depth"]),
    }
}

/// Whether a flue is in something that a pipe or elbow of the vent is in too.
fn is_told_of_pipe<'a>(
    clash: &Clash,
    all: &[Clash],
    part: impl Fn(&str) -> Option<&'a Part>,
) -> bool {
    let kind = |id: &str| part(id).map(|it| it.kind);
    let ids = [&clash.first, &clash.second];
    let Some(flue) = ids.iter().position(|id| kind(id) == Some(Kind::Flue)) else {
        return false;
    };
    let other = ids[1 - flue];
    let is_pipe = |id: &str| matches!(kind(id), Some(Kind::Pipe | Kind::Elbow));
    all.iter().any(|it| {
        (it.first == *other && is_pipe(&it.second)) || (it.second == *other && is_pipe(&it.first))
    })
}

/// Cubic millimetres in a cubic centimetre.
const CUBIC_CENTIMETRE: f64 = 1000.0;

fn check(design: &Design, report: &mut Report<'_>) {
    let part = |id: &str| design.parts.iter().find(|it| it.id == id);
    let clashes = interference(design);
    let told: Vec<bool> = clashes
        .iter()
        .map(|it| !is_told_of_pipe(it, &clashes, part))
        .collect();
    for (clash, _) in clashes.into_iter().zip(told).filter(|it| it.1) {
        let both = part(&clash.first).zip(part(&clash.second));
        if both.is_some_and(|(first, second)| is_cut(first, second, design.params.project.unit)) {
            continue;
        }
        let row = Row {
            subject: Measure("{} in {}")
                .of([&clash.first, &clash.second].map(|it| Thing::Part(it.clone()))),
            parts: vec![clash.first, clash.second],
            location: Some(clash.location),
            source: ARITHMETIC.to_owned(),
            levers: both.map_or(&[], |(a, b)| levers(a.branch, b.branch)),
            detail: Some(format!(
                "they share {:.1} cm³",
                clash.volume / CUBIC_CENTIMETRE
            )),
        };
        report.fail(
            row,
            Some(Numbers::none(Quantity::Length, clash.depth.to_mm())),
        );
    }
}
