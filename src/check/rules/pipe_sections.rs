//! Straight runs of the vent that the maker's sections do not make up.
//!
//! # What it finds
//! For each straight run of pipe what is left over when the sections of [pipe], less their overlap, and the
//! adjustable one are set in: sections are not cut. A run that they make up is not listed, nor any run without
//! [pipe].
//!
//! # Why
//! Better to find out now that a run is an inch longer than the pieces than when the wall is closed.
//!
//! # Source
//! Arithmetic, with the sections and their overlap of the unit's manual.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Part, Sections};
use crate::geom::{CenterLine, Shape};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "pipe sections",
    concern: Concern::FireAndGas,
    text: include_str!("pipe_sections.rs"),
    keys: &[
        "pipe.sections",
        "pipe.overlap",
        "pipe.adjustable",
        "vent.rise",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let straight = design.parts.iter().filter(|it| it.kind == Kind::Pipe);
    let straight: Vec<&Part> = straight.collect();
    let Some(kit) = &design.params.pipe else {
        ask_for_kit(&straight, report);
        return;
    };
    for (number, part) in straight.iter().enumerate() {
        let beyond = if number + 1 == straight.len() {
            design.layout.vent_goes_on()
        } else {
            Length::ZERO
        };
        let Some(length) = length(part) else { continue };
        let left = Sections::of(kit, length + beyond).rest;
        if left.is_positive() {
            let row = Row {
                subject: Measure("{}: length not covered by any pipe section").of([(*part).into()]),
                parts: vec![part.id.clone()],
                location: Some(part.body.bounds.center()),
                source: page(&kit.overlap),
                levers: &["vent.rise"],
                ..Row::default()
            };
            let left_text = left.tape(design.params.project.unit, Rounding::Up);
            let question = format!(
                "The sections leave {left_text} of this run open: will the run change by that much, or does the maker have another section?"
            );
            report.ask(row, Some(Numbers::at_most(left, Length::ZERO)), question);
        }
    }
}

/// Without the maker's sections nobody knows whether they make up the run.
fn ask_for_kit(straight: &[&Part], report: &mut Report<'_>) {
    let Some(first) = straight.first() else {
        return;
    };
    let row = Row {
        subject: Measure("the vent pipe as sold").into(),
        parts: straight.iter().map(|it| it.id.clone()).collect(),
        location: Some(first.body.bounds.center()),
        source: "the unit's manual, parts of the vent".to_owned(),
        ..Row::default()
    };
    let question = "In what lengths is the vent pipe sold, how are its joints made, and how far apart are its straps ([pipe])?";
    report.ask_for(row, None, question, vec!["pipe"]);
}

/// Along its middle, of a straight.
fn length(part: &Part) -> Option<Length> {
    match &part.body.shape {
        Shape::Tube(tube) => match tube.center_line {
            CenterLine::Segment { length } => Some(Length::mm(length)),
            CenterLine::Arc { .. } => None,
        },
        Shape::Swept(_) => None,
    }
}
