//! The vent's rise before its first elbow.
//!
//! # What it finds
//! The rise from the collar to the elbow's center, against the manual's least rise; of a vent without an elbow the
//! rise to its end over the roof.
//!
//! # Why
//! With less, the unit may not draw.
//!
//! # Datum
//! The top of the body, where the collar sits; the point where the two center lines meet.
//!
//! # Source
//! The unit's manual, `vent.least_rise`.

use super::{page, parts_of};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "vent rise",
    concern: Concern::FireAndGas,
    text: include_str!("vent_rise.rs"),
    keys: &["vent.rise", "vent.least_rise"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (vent, layout) = (&design.params.vent, &design.layout);
    let Some(rise) = layout.rise() else { return };
    let elbow = parts_of(design, Kind::Elbow).into_iter().take(1);
    let pipe = parts_of(design, Kind::Pipe).into_iter().take(1);
    let measure = if elbow.len() > 0 {
        Measure("rise from the collar to the elbow's center")
    } else {
        Measure("rise from the collar to its end")
    };
    let row = Row {
        subject: measure.into(),
        parts: pipe.chain(elbow).collect(),
        location: Some(point(
            layout.unit_center,
            layout.path.pipe_out(),
            layout.path.elbow_height(),
        )),
        source: page(&vent.least_rise),
        levers: &["vent.rise"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(rise, vent.least_rise.value));
}
