//! Word for word what is told of each demo, and where each of its parts is: `snapshots/demos`.
//!
//! Whoever changes one of them reads in the difference which verdict and which stick it moved. Whether they are
//! right, the other tests say.

use std::fmt::Write as _;

use chasewright::check::{Finding, check, try_remedies};
use chasewright::design::{Design, Note, design};
use chasewright::geom::Direction;
use glam::DVec3;

use crate::support::demos;

/// To a thousandth of a millimeter, without −0.
fn number(value: f64) -> String {
    let rounded = (value * 1000.0).round() / 1000.0 + 0.0;
    format!("{rounded}")
}

fn place(at: DVec3) -> String {
    at.to_array().map(number).join(" ")
}

/// A finding on as many lines as it has to say, indented.
pub(crate) fn told(finding: &Finding) -> String {
    let mut text = format!(
        "{} {}: {}\n",
        finding.verdict.word(),
        finding.rule,
        finding.subject
    );
    let mut line = |words: String| {
        if !words.is_empty() {
            writeln!(text, "    {words}").unwrap();
        }
    };
    line(finding.numbers.map_or(String::new(), |it| {
        let [measured, required, margin] = [it.measured, it.required, it.margin].map(number);
        let (unit, sense) = (it.quantity.unit(), it.sense.words());
        format!("{measured} {unit}, {sense} {required}: {margin}")
    }));
    line(finding.parts.join(", "));
    line(finding.location.map(place).unwrap_or_default());
    line(finding.source.clone());
    line(finding.question.clone().unwrap_or_default());
    line(finding.levers.join(" "));
    line(finding.detail.clone().unwrap_or_default());
    line(
        finding
            .remedy
            .as_ref()
            .map_or(String::new(), |it| format!("{it:?}")),
    );
    text
}

fn parts(design: &Design) -> String {
    let mut text = String::new();
    for part in &design.parts {
        let bounds = &part.body.bounds;
        let [low, high] = [bounds.low, bounds.high].map(place);
        let (volume, stock) = (number(part.body.volume() / 1000.0), &part.stock);
        writeln!(
            text,
            "{}: {stock}, {}; {low} to {high}; {volume} cm3",
            part.id, part.material.name
        )
        .unwrap();
    }
    for clearance in &design.clearances {
        let bounds = &clearance.body.bounds;
        let [low, high] = [bounds.low, bounds.high].map(place);
        let bars = clearance.bars;
        writeln!(
            text,
            "{}: {bars:?}, {}; {low} to {high}",
            clearance.id, clearance.datum
        )
        .unwrap();
        for reach in &clearance.reaches {
            let required = number(reach.required.to_mm());
            let way = match reach.direction {
                Direction::Along(way) => place(way),
                Direction::Radial => "away from its middle".to_owned(),
            };
            writeln!(text, "    {way}: {required}, {}", reach.source).unwrap();
        }
    }
    for note in &design.notes {
        match note {
            Note::LeftOut { id, why } => writeln!(text, "{id} left out: {why}"),
            Note::Unproved { id, why } => writeln!(text, "{id} unproved: {why}"),
            Note::Assumed { key, value } => writeln!(text, "{key} assumed: {value}"),
            Note::Dropped { wall, center } => {
                writeln!(text, "{wall}: no stud at {}", number(center.to_mm()))
            }
        }
        .unwrap();
    }
    text
}

pub(crate) fn hold(name: &str, text: &str) {
    insta::with_settings!({ snapshot_path => "snapshots/demos", prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!(name, text);
    });
}

#[test]
fn the_parts_of_every_demo() {
    for (name, params) in demos() {
        hold(&format!("{name} parts"), &parts(&design(&params)));
    }
}

#[test]
fn the_verdicts_on_every_demo() {
    for (name, params) in demos() {
        let findings = check(&design(&params));
        let text: String = findings.iter().map(told).collect();
        hold(&format!("{name} verdicts"), &text);
    }
}

#[test]
fn the_remedies_for_every_demo() {
    for (name, params) in demos() {
        let mut findings = check(&design(&params));
        try_remedies(&params, &mut findings);
        findings.retain(|it| it.remedy.is_some());
        let text: String = findings.iter().map(told).collect();
        if !text.is_empty() {
            hold(&format!("{name} remedies"), &text);
        }
    }
}
