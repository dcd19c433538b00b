//! The vertical pipe in front of the existing wall.
//!
//! # What it finds
//! The gap between the pipe and the wall's finished face. Where the pipe and not the body governs how deep the chase
//! has to be, it gives the least depth.
//!
//! # Why
//! The wall's studs, and the paper of its board, are combustible.
//!
//! # Datum
//! The pipe's skin; the wall's finished face.
//!
//! # Source
//! The unit's manual, `vent.vertical_clearance`.

use super::{first_of, governs_depth, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "pipe before the wall",
    concern: Concern::Heat,
    text: include_str!("pipe_before_wall.rs"),
    keys: &[
        "chase.depth",
        "appliance.face_offset",
        "vent.pipe_diameter",
        "vent.vertical_clearance",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    if layout.rise().is_none() {
        return;
    }
    let [by_body, by_pipe] = layout.least_depths();
    let gap = layout.pipe_to_wall() - params.vent.pipe_diameter / 2.0;
    let row = Row {
        subject: Measure("gap between the vertical pipe and the wall").into(),
        parts: first_of(design, Kind::Pipe),
        location: Some(point(layout.unit_center, gap, layout.heights.body_top)),
        source: page(&params.vent.vertical_clearance),
        levers: &["chase.depth", "appliance.face_offset"],
        detail: governs_depth(by_pipe, by_body, params),
    };
    report.judge(
        row,
        Numbers::at_least(gap, params.vent.vertical_clearance.value),
    );
}
