//! What the finish is made of.
//!
//! # What it finds
//! A combustible finish where every surface must be noncombustible, though it is too thin to be drawn; and, once, a
//! finish whose material is not given. A combustible one that is drawn is measured by `clearance` against the facing
//! zone; one whose material is not given is drawn as stone, and what would pass in front of the unit and in the zone
//! waits for the answer and is not listed.
//!
//! # Why
//! Wood, fiberboard and wallpaper beside a hot opening char and catch fire, however well the board behind them is
//! chosen.
//!
//! # Source
//! The unit's manual, `appliance.facing_zone_top`. Which finishes are combustible is common practice, no source; the
//! manual says which paint may be used.

use super::{clearance, clearances_of, finish_backing, page, side_backing, veneer};
use crate::check::{
    Concern, Finding, Measure, Report, Row, Rule, Subject, Thing, Verdict, Waiting,
};
use crate::design::{ClearanceKind, Design, finish_burns, point};
use crate::params::{FinishMaterial, Skins};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "finish material",
    concern: Concern::FireAndGas,
    text: include_str!("finish_material.rs"),
    keys: &[
        "skins.lower_finish",
        "skins.upper_finish",
        "skins.side_finish",
        "skins.lower_material",
        "skins.upper_material",
        "skins.side_material",
        "appliance.facing_zone_top",
    ],
    check,
};

/// A finish of one of the faces.
struct Finish {
    about: &'static str,
    thickness: Length,
    material: Option<FinishMaterial>,
    key: &'static str,
    /// Whether its face reaches into the facing zone.
    in_zone: bool,
}

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let row = |subject: Subject| Row {
        subject,
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.opening_top,
        )),
        source: page(&design.params.appliance.facing_zone_top),
        ..Row::default()
    };
    let finishes = finishes(design);
    for it in &finishes {
        let burns = it.material.is_some_and(finish_burns);
        if burns && it.in_zone && !it.thickness.is_positive() {
            let burning = Measure("combustible finish {}, in the facing zone");
            report.fail(row(burning.of([Thing::Word(it.about)])), None);
        }
    }
    let keys = unnamed(&finishes);
    if !keys.is_empty() {
        let question = format!(
            "What is the finish made of ({})? Until that is known it is drawn as stone.",
            keys.join(", ")
        );
        let row = row(Measure("material of the finish").into());
        report.ask_for(row, None, question, keys);
    }
}

/// Takes out what would pass in front of the unit and in its facing zone while a finish there has no material; the
/// question covers it.
pub(in crate::check) fn hold_back(design: &Design, findings: &mut Vec<Finding>) {
    if unnamed(&finishes(design)).is_empty() {
        return;
    }
    let zones = clearances_of(
        design,
        &[ClearanceKind::FacingZone, ClearanceKind::UnitFront],
    );
    let waits = |it: &Finding| {
        it.rule == clearance::RULE.name && it.parts.iter().any(|it| zones.contains(it))
    };
    findings.retain(|it| it.verdict <= Verdict::Ask || !waits(it));
    let mut rules = vec![&clearance::RULE, &veneer::RULE, &finish_backing::RULE];
    let skins = &design.params.skins;
    if skins.side_material.is_none() && skins.side_finish.is_positive() {
        rules.push(&side_backing::RULE);
    }
    for question in findings.iter_mut().filter(|it| it.rule == RULE.name) {
        let waiting = rules.iter().map(|it| Waiting::on(it.name));
        question.waiting.extend(waiting);
    }
}

/// The keys of the finishes that are drawn and have no name.
fn unnamed(finishes: &[Finish]) -> Vec<&'static str> {
    let unnamed = finishes
        .iter()
        .filter(|it| it.thickness.is_positive() && it.material.is_none());
    unnamed.map(|it| it.key).collect()
}

fn finishes(design: &Design) -> Vec<Finish> {
    let layout = &design.layout;
    let Skins {
        lower_finish,
        upper_finish,
        side_finish,
        lower_material,
        upper_material,
        side_material,
        ..
    } = design.params.skins;
    let zone = layout.heights.opening_top + design.params.appliance.facing_zone_top.value;
    let lower = Finish {
        about: "around the unit",
        thickness: lower_finish,
        material: lower_material,
        key: "skins.lower_material",
        in_zone: true,
    };
    let upper = Finish {
        about: "above the ledge",
        thickness: upper_finish,
        material: upper_material,
        key: "skins.upper_material",
        in_zone: (zone - layout.heights.framing_top).is_positive(),
    };
    let sides = Finish {
        about: "on the sides",
        thickness: side_finish,
        material: side_material,
        key: "skins.side_material",
        in_zone: false,
    };
    let stepped = layout.is_stepped().then_some(upper);
    [lower].into_iter().chain(stepped).chain([sides]).collect()
}
