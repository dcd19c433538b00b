//! The screen in its recess.
//!
//! # What it finds
//! The recess's width and height against the screen with its air on each side, and its depth
//! against the screen on its mount.
//!
//! # Why
//! A screen without air around it overheats, and one that sticks out of its recess spoils the look.
//!
//! # Datum
//! The recess's finished faces; the screen's outside size.
//!
//! # Source
//! The screen's own sheet; the air is `screen.air` (common practice, no source).

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "screen in the recess",
    concern: Concern::Looks,
    text: include_str!("screen_in_recess.rs"),
    keys: &[
        "recess.width",
        "recess.height",
        "recess.depth",
        "screen.width",
        "screen.height",
        "screen.thickness",
        "screen.mount",
        "screen.air",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Screen) else {
        return;
    };
    let params = &design.params;
    let (Some(screen), Some(recess), Some(layout)) =
        (&params.screen, &params.recess, &design.layout.recess)
    else {
        return;
    };
    let row = |measure: Measure, levers| Row {
        subject: measure.into(),
        parts: vec![part.id.clone()],
        location: Some(point(
            layout.finished.center(),
            layout.back,
            layout.finished_height.center(),
        )),
        source: "the screen's sheet; air: common practice, no source".to_owned(),
        levers,
        ..Row::default()
    };
    let air = 2.0 * screen.air;
    report.judge(
        row(
            Measure("recess's width for the screen with air"),
            &["recess.width"],
        ),
        Numbers::at_least(recess.width, screen.width + air),
    );
    report.judge(
        row(
            Measure("recess's height for the screen with air"),
            &["recess.height"],
        ),
        Numbers::at_least(recess.height, screen.height + air),
    );
    report.judge(
        row(
            Measure("recess's depth for the screen on its mount"),
            &["recess.depth", "screen.mount"],
        ),
        Numbers::at_least(recess.depth, screen.thickness + screen.mount),
    );
}
