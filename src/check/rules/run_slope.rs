//! How the vent's runs rise toward the cap.
//!
//! # What it finds
//! How far each straight run of pipe rises toward the cap, against the slope that the manual requires. A level run
//! fails, and so does one that falls toward the cap. About pipe that goes straight down it asks. A run without a
//! slope of its own in the path rises as the manual says.
//!
//! # Why
//! Cold exhaust drips: water collects in a run that falls toward the cap or lies level.
//!
//! # Datum
//! The pipe's center line, along the straight alone, without its elbows.
//!
//! # Source
//! The unit's manual, `vent.slope`. A run is adjusted at its straps, so a margin of zero passes.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind};
use crate::geom::{CenterLine, Shape, TOLERANCE, Tube};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "run slope",
    concern: Concern::FireAndGas,
    text: include_str!("run_slope.rs"),
    keys: &["vent.path", "vent.slope"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let slope = &design.params.vent.slope;
    for pipe in design.parts.iter().filter(|it| it.kind == Kind::Pipe) {
        let Shape::Tube(Tube {
            center_line: CenterLine::Segment { length },
            ..
        }) = pipe.body.shape
        else {
            continue;
        };
        let way = pipe.body.frame.z * length;
        let level = Length::mm(way.truncate().length());
        let rise = Length::mm(way.z);
        let is_plumb = level.to_mm() <= TOLERANCE;
        let row = |measure: Measure| Row {
            subject: measure.of([Thing::Part(pipe.id.clone())]),
            parts: vec![pipe.id.clone()],
            location: Some(pipe.body.bounds.center()),
            source: page(slope),
            levers: &["vent.path"],
            ..Row::default()
        };
        if !is_plumb {
            let needed = slope.value.rise(level);
            let row = row(Measure("rise toward the cap of {} over its length"));
            report.limit(row, Numbers::at_least(rise, needed));
        } else if !rise.is_positive() {
            report.ask(
                row(Measure("{}, straight down")),
                None,
                "Does the manual allow the vent to go down?",
            );
        }
    }
}
