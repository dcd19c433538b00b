//! The vent's rise before its first elbow.
//!
//! # What it finds
//! The rise from the collar to the elbow's center, against the manual's least rise.
//!
//! # Why
//! With less, the unit may not draw.
//!
//! # Datum
//! The top of the body, where the collar sits; the point where the two center lines meet.
//!
//! # Source
//! The unit's manual, `vent.least_rise`.

use super::page;
use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Design, point};

pub(super) const RULE: Rule = Rule {
    name: "vent rise",
    text: include_str!("vent_rise.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (vent, layout) = (&design.params.vent, &design.layout);
    let Some(rise) = layout.rise() else { return };
    let row = Row {
        about: "rise from the collar to the elbow's center".to_owned(),
        parts: vec!["vent/elbow/1".to_owned()],
        location: Some(point(
            layout.unit_center,
            layout.pipe_out,
            layout.elbow_height,
        )),
        source: page(&vent.least_rise),
        levers: &["vent.rise"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(rise, vent.least_rise.value));
}
