//! What holds the vent's pipe together and up.
//!
//! # What it finds
//! Joints with neither screws, sealant nor a clamp, and straps without a spacing: it asks about both. If [pipe] is left
//! out, `pipe sections` asks for all of it.
//!
//! # Why
//! An unfastened joint can open as the pipe heats up, inside a closed wall. A run without straps sags and loses the
//! slope that drains it.
//!
//! # Source
//! The unit's manual, parts of the vent.

use super::{page, parts_of};
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind};
use crate::params::{Permission, PipeKit};

pub(super) const RULE: Rule = Rule {
    name: "pipe joints",
    concern: Concern::FireAndGas,
    text: include_str!("pipe_joints.rs"),
    keys: &[
        "pipe.joint_screws",
        "pipe.joint_sealant",
        "pipe.joint_clamp",
        "pipe.strap_spacing",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(kit) = &design.params.pipe else {
        return;
    };
    let row = |measure: Measure, source: String| Row {
        subject: measure.into(),
        parts: parts_of(design, Kind::Pipe),
        location: design.first(Kind::Pipe).map(|it| it.body.bounds.center()),
        source,
        ..Row::default()
    };
    if is_loose(kit) {
        report.ask(
            row(Measure("joints of the vent's pipe"), page(&kit.joint_screws)),
            None,
            "What holds the joints of the pipe? As entered, neither screws nor sealant nor a clamp does.",
        );
    }
    if kit.strap_spacing.is_none() {
        report.ask_for(
            row(Measure("straps of the vent's pipe"), "the unit's manual, parts of the vent".to_owned()),
            None,
            "How far apart may the pipe's straps be (pipe.strap_spacing)? Without it none are counted or bought.",
            vec!["pipe.strap_spacing"],
        );
    }
}

fn is_loose(kit: &PipeKit) -> bool {
    kit.joint_screws.value == 0
        && kit.joint_sealant.value == Permission::No
        && kit.joint_clamp.value == Permission::No
}
