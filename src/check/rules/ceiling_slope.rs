//! How the ceiling rises.
//!
//! # What it finds
//! A ceiling of which nothing says how it rises along the wall, or out from it: neither both rises, nor
//! `slope = "flat"`, readings, or a ridge with its height. It is drawn level that way, and this rule asks.
//! Rules that rest on the ceiling's height over the chase may still fail under the ceiling as drawn, but
//! what they would pass waits for the answer and is not listed.
//!
//! # Why
//! A rise of 1 in 12 that nobody wrote down is 2 in over a chase 2 ft deep: studs too short, plates that
//! do not meet the ceiling, a wall that does not tilt up.
//!
//! # Source
//! The house: a level and a tape.

use super::{
    attachment, clearance, fireblocking, inside_room, joint_in_reach, parts_of, plates, rafter_cut,
    recess_header, recess_under_ceiling, run_under_ceiling, stud_height, tilt_up,
};
use crate::check::{Finding, Measure, Report, Row, Rule, Verdict};
use crate::design::{Design, Kind, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "ceiling slope",
    text: include_str!("ceiling_slope.rs"),
    keys: &[
        "ceiling.slope",
        "ceiling.rise_right",
        "ceiling.rise_out",
        "ceiling.readings",
        "ridge.runs",
        "ridge.height",
    ],
    check,
};

/// The rules whose verdicts rest on how high the ceiling is over the chase.
const REST_ON_IT: [&str; 11] = [
    plates::RULE.name,
    stud_height::RULE.name,
    tilt_up::RULE.name,
    inside_room::RULE.name,
    attachment::RULE.name,
    fireblocking::RULE.name,
    rafter_cut::RULE.name,
    joint_in_reach::RULE.name,
    run_under_ceiling::RULE.name,
    recess_header::RULE.name,
    recess_under_ceiling::RULE.name,
];

fn check(design: &Design, report: &mut Report<'_>) {
    let missing = design.params.missing_rises();
    if missing.is_empty() {
        return;
    }
    let layout = &design.layout;
    let over = layout.ceiling.height_at(layout.unit_center, Length::ZERO);
    let row = Row {
        subject: Measure("how the ceiling rises over the chase").into(),
        parts: parts_of(design, Kind::Ceiling),
        location: Some(point(layout.unit_center, Length::ZERO, over)),
        source: "the house: a level and a tape".to_owned(),
        levers: &[],
        detail: Some(format!(
            "waiting for it: {}, {} to ceiling and top plates",
            REST_ON_IT.join(", "),
            clearance::RULE.name
        )),
    };
    let question = format!(
        "How does the ceiling rise ({}; 0 where it is level, or ceiling.slope = \"flat\")? It is drawn level that way.",
        missing.join(", ")
    );
    report.ask(row, None, question);
}

/// Takes out what would pass under a ceiling of which nobody said how it rises; the question stands for it.
pub(in crate::check) fn hold_back(design: &Design, findings: &mut Vec<Finding>) {
    if design.params.missing_rises().is_empty() {
        return;
    }
    let high = [Kind::Ceiling, Kind::TopPlate].map(|it| parts_of(design, it));
    let high = high.concat();
    let waits = |it: &Finding| {
        REST_ON_IT.contains(&it.rule)
            || it.rule == clearance::RULE.name && it.parts.iter().any(|it| high.contains(it))
    };
    findings.retain(|it| it.verdict <= Verdict::Ask || !waits(it));
}
