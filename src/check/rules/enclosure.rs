//! The enclosure of a flush chase behind the wall that it is set into.
//!
//! # What it finds
//! Whether anything covers the enclosure (`behind.cover`): a FAIL where nothing does. Outdoors it asks what supports
//! the bay and what covers its top; indoors, whether the floor there, and the ceiling unless it has a height of its
//! own (`behind.ceiling`) or is entered as running on (`behind.ceiling_runs_on`), are as high as in the room.
//!
//! # Why
//! Things kept in a closet must never touch the unit's body or its vent, and outdoors neither may the rain.
//! The enclosure is modelled as if the room's floor ran on under it, and without that height its ceiling over it.
//!
//! # Datum
//! The outer faces of the enclosure's studs.
//!
//! # Source
//! Common practice, no source; the unit's manual and the local code decide.

use super::{COMMON_PRACTICE, first_studs, inside_room};
use crate::check::{Concern, Finding, Measure, Report, Row, Rule, Waiting};
use crate::design::{Design, point};
use crate::params::{ChaseWall, SpaceBehind};

pub(super) const RULE: Rule = Rule {
    name: "enclosure",
    concern: Concern::FireAndGas,
    text: include_str!("enclosure.rs"),
    keys: &[
        "behind.space",
        "behind.cover",
        "behind.ceiling",
        "behind.ceiling_runs_on",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let Some(behind) = params.behind.as_ref().filter(|_| layout.site.opens_wall) else {
        return;
    };
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: first_studs(design, ChaseWall::SIDES),
        location: Some(point(
            layout.unit_center,
            layout.faces.front_back,
            layout.heights.body_top,
        )),
        source: COMMON_PRACTICE.to_owned(),
        ..Row::default()
    };
    if !behind.cover.is_positive() {
        report.fail(row(Measure("enclosure without a cover on its studs")), None);
    }
    let runs_on = behind.ceiling_runs_on == Some(true);
    let (measure, question) = match (behind.space, behind.ceiling) {
        (SpaceBehind::Outdoors, None) => (
            FLOOR_AND_TOP,
            "What supports the bay outside, a footing or the floor joists, who designs that, and what covers its top and flashes it to the wall?",
        ),
        (SpaceBehind::Indoors, None) if !runs_on => (
            FLOOR_AND_TOP,
            "Are floor and ceiling behind the wall as high as in the room? The enclosure is drawn as if they were.",
        ),
        (SpaceBehind::Outdoors, Some(_)) => (
            FLOOR,
            "What supports the bay outside and its platform, a footing or the floor joists, and who designs that, and what closes the joint between it and the soffit?",
        ),
        (SpaceBehind::Indoors, _) => (
            FLOOR,
            "Is the floor behind the wall as high as in the room, and if it is lower, what supports the platform and the enclosure's walls? They are drawn as if it were.",
        ),
    };
    let keys = if behind.ceiling.is_some() || runs_on {
        Vec::new()
    } else {
        vec!["behind.ceiling", "behind.ceiling_runs_on"]
    };
    report.ask_for(row(measure), None, question, keys);
}

/// Lets the question for the ceiling over the enclosure name what is judged by it and not drawn otherwise in every trial:
/// what comes through that ceiling.
pub(in crate::check) fn name_waiting(findings: &mut [Finding]) {
    for question in findings.iter_mut().filter(|it| it.rule == RULE.name) {
        if !question.answered_by.is_empty() {
            question.waiting.push(Waiting::on(inside_room::RULE.name));
        }
    }
}

const FLOOR_AND_TOP: Measure = Measure("floor and top of the enclosure");
const FLOOR: Measure = Measure("floor of the enclosure");
