//! How the vent's runs rise toward the cap.
//!
//! # What it finds
//! The rise of each run over its own length, against the slope that the manual asks for: a level run and one that falls
//! toward the cap fail. A vent that goes straight down is a question. A run that a path leaves without a slope rises as
//! the manual says.
//!
//! # Why
//! Exhaust is wet when it is cold: in a run that falls away from the unit water collects, or hot gas stands still.
//!
//! # Datum
//! The pipe's middle line, the straight alone without its elbows.
//!
//! # Source
//! The unit's manual, `vent.slope`. A run is shimmed on its straps until it rises so, so that zero margin passes.

use super::page;
use crate::check::{Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind};
use crate::geom::{CenterLine, TOLERANCE};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "run slope",
    text: include_str!("run_slope.rs"),
    keys: &["vent.path", "vent.slope"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let slope = &design.params.vent.slope;
    let straights = design
        .layout
        .path
        .pieces
        .iter()
        .filter(|it| matches!(it.line, CenterLine::Segment { .. }));
    let pipes = design.parts.iter().filter(|it| it.kind == Kind::Pipe);
    for (pipe, straight) in pipes.zip(straights) {
        let way = straight.end() - straight.frame.origin;
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
