//! The recess and the vent behind or below it.
//!
//! # What it finds
//! A vent may turn below the recess or rise behind it, and one of the two is enough: the sill's
//! underside against the top of the vent's clearance, or the back of the recess's framing against the
//! front of the vertical pipe's clearance. The way with more margin is the one that is judged.
//!
//! # Why
//! Margin behind = upper skin − ledge − recess − board − framing + pipe offset − radius − clearance.
//! The chase's depth does not appear in it: a deeper chase moves recess and pipe together.
//!
//! # Datum
//! The pipe's skin; the wall's finished face.
//!
//! # Source
//! The unit's manual, `vent.vertical_clearance` and `vent.top_clearance`.

use super::{clearances_of, first_of, page};
use crate::check::{Measure, Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "recess and pipe",
    text: include_str!("recess_and_pipe.rs"),
    keys: &[
        "skins.upper_finish",
        "vent.rise",
        "vent.vertical_clearance",
        "vent.top_clearance",
        "recess.depth",
        "recess.sill",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let Some(recess) = &layout.recess else { return };
    let vent = &params.vent;
    let underside = recess.rough_height.low - params.front_stud().lying();
    let below = Numbers::at_least(underside, layout.vent_clearance_top());
    let front = layout.pipe_clearance_front();
    let behind = Numbers::at_least(recess.framing_back, front);
    if below.margin >= behind.margin {
        let row = Row {
            subject: Measure("recess's underside over the vent's clearance").into(),
            parts: clearances_of(design, &[ClearanceKind::HorizontalPipe]),
            location: Some(point(recess.rough.center(), recess.framing_back, underside)),
            source: page(&vent.top_clearance),
            levers: &["recess.sill", "vent.rise"],
            ..Row::default()
        };
        report.judge(row, below);
    } else {
        let row = Row {
            subject: Measure("recess's framing before the vertical pipe's clearance").into(),
            parts: [
                first_of(design, Kind::RecessFraming),
                clearances_of(design, &[ClearanceKind::VerticalPipe]),
            ]
            .concat(),
            location: Some(point(layout.unit_center, recess.framing_back, underside)),
            source: page(&vent.vertical_clearance),
            levers: &["recess.depth", "skins.upper_finish", "recess.sill"],
            ..Row::default()
        };
        report.judge(row, behind);
    }
}
