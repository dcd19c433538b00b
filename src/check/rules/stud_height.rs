//! The height of studs in a nonbearing wall.
//!
//! # What it finds
//! The longest stud of the chase against the height and the spacing that the code gives for its stock; of
//! steel, whose height its maker's table limits, it asks.
//!
//! # Why
//! A stud that is too slender bows under board, stone and a screen.
//!
//! # Datum
//! The stud's long point.
//!
//! # Source
//! IRC 2021, table R602.3(5), nonbearing walls: 2x3 10 ft at 16 in, 2x4 14 ft at 24 in, 2x6 20 ft at
//! 24 in (2x6 read in a secondary copy, the others from memory). The local code decides.

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Part, Stock};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "stud height",
    concern: Concern::Structure,
    text: include_str!("stud_height.rs"),
    keys: &["chase.stud", "chase.stud_spacing", "front.stud"],
    check,
};

/// Stock, greatest height and greatest spacing on center.
const TABLE: [(&str, Length, Length); 3] = [
    ("2x3", Length::inches(120.0), Length::inches(16.0)),
    ("2x4", Length::inches(168.0), Length::inches(24.0)),
    ("2x6", Length::inches(240.0), Length::inches(24.0)),
];

const STEEL: &str = "the maker's table of limiting heights, as AISI S220 asks for one";
const SOURCE: &str = "IRC 2021 table R602.3(5), nonbearing, from memory; the local code decides";

/// The longest upright among these.
fn longest(design: &Design, among: impl Fn(&Part) -> bool) -> Option<&Part> {
    let uprights = design
        .parts
        .iter()
        .filter(|it| matches!(it.kind, Kind::Stud | Kind::King) && among(it));
    uprights.max_by(|a, b| {
        let height = |it: &Part| it.body.bounds.size().z;
        height(a).total_cmp(&height(b))
    })
}

/// How tall a steel stud may be is in its maker's table, by gauge, spacing and board.
fn steel(design: &Design, report: &mut Report<'_>) {
    let Some(longest) = longest(design, |it| matches!(it.stock, Stock::Steel(_))) else {
        return;
    };
    let unit = design.params.project.unit;
    let height = Length::mm(longest.body.bounds.size().z).tape(unit, Rounding::Up);
    let spacing = design.params.chase.stud_spacing.tape(unit, Rounding::Up);
    let row = Row {
        subject: Measure("longest stud of steel").into(),
        parts: vec![longest.id.clone()],
        location: Some(longest.body.bounds.center()),
        source: STEEL.to_owned(),
        levers: &["front.stud", "chase.stud"],
        ..Row::default()
    };
    let question = format!(
        "Does the maker's table of limiting heights allow {} at {height} and {spacing} on center, with your board?",
        longest.stock
    );
    report.ask(row, None, question);
}

fn check(design: &Design, report: &mut Report<'_>) {
    let chase = &design.params.chase;
    steel(design, report);
    let Some(longest) = longest(design, |it| !matches!(it.stock, Stock::Steel(_))) else {
        return;
    };
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: vec![longest.id.clone()],
        location: Some(longest.body.bounds.center()),
        source: SOURCE.to_owned(),
        levers: &["chase.stud"],
        ..Row::default()
    };
    let height = Length::mm(longest.body.bounds.size().z);
    match TABLE.iter().find(|it| it.0 == chase.stud.name()) {
        Some((_, tallest, widest)) => {
            let numbers = Numbers::at_most(height, *tallest);
            report.judge(row(Measure("longest stud for its stock")), numbers);
            let numbers = Numbers::at_most(chase.stud_spacing, *widest);
            report.limit(row(Measure("spacing of studs for their stock")), numbers);
        }
        None => report.ask(
            row(Measure("longest stud for its stock")),
            None,
            "How tall may studs of this stock be in a nonbearing wall?",
        ),
    }
}
