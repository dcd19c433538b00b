//! The depth of the chase, and what governs it.
//!
//! # What it finds
//! The chase's depth against the larger of two stacks from the wall's finished face: rear clearance
//! and body; clearance and the pipe behind the unit's face. It says which of them governs.
//!
//! # Why
//! Whoever wants a shallower chase has to know what to change: another unit, or another collar.
//!
//! # Datum
//! The wall's finished face and the front stud face.
//!
//! # Source
//! The unit's manual, `appliance.rear_clearance` and `vent.vertical_clearance`.

use super::page;
use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Design, point};
use crate::params::Collar;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "chase depth",
    text: include_str!("chase_depth.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let (unit, vent) = (&params.appliance, &params.vent);
    let half = unit.body_width / 2.0 + unit.side_clearance.value;
    let body =
        unit.body_depth + unit.rear_clearance.value - unit.face_offset + layout.wall_behind(half);
    let pipe = match vent.collar {
        Collar::Up => {
            // a wall at an angle comes less near to the pipe than it lies behind it
            let clear = vent.pipe_diameter / 2.0 + vent.vertical_clearance.value;
            params.chase.depth + (clear - layout.pipe_to_wall()) * layout.wall_stretch()
        }
        // what turns behind the body is judged by its clearances
        Collar::Back => Length::ZERO,
    };
    let (needed, by, source) = if body >= pipe {
        (
            body,
            "the body and its rear clearance",
            page(&unit.rear_clearance),
        )
    } else {
        (
            pipe,
            "the pipe and its clearance",
            page(&vent.vertical_clearance),
        )
    };
    let row = Row {
        about: "chase's depth for what stands in it".to_owned(),
        parts: vec!["unit/body/1".to_owned()],
        location: Some(point(
            layout.unit_center,
            params.chase.depth,
            layout.body_top,
        )),
        source,
        levers: &["chase.depth", "appliance.face_offset"],
        detail: Some(format!("governed by {by}")),
    };
    report.judge(row, Numbers::at_least(params.chase.depth, needed));
}
