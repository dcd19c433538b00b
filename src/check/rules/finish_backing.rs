//! Studs behind a heavy finish.
//!
//! # What it finds
//! Where stone, tile or brick is adhered to board on studs more than 16 in (400 mm) apart: their spacing against what
//! the board's maker allows under such a finish. It asks where that is not given.
//!
//! # Why
//! Board flexes between two studs; what is adhered to it does not, and cracks or comes off.
//!
//! # Source
//! The sheet of the board's maker, `skins.board_spacing`. That 16 in is what is usual: common practice, no source.

use super::veneer::{self, Veneer};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind, point};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "studs behind the finish",
    concern: Concern::Framing,
    text: include_str!("finish_backing.rs"),
    keys: &["chase.stud_spacing", "skins.board_spacing"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let unit = params.project.unit;
    let usual = match unit {
        TapeUnit::Inch => Length::inches(16.0),
        TapeUnit::Millimeter => Length::mm(400.0),
    };
    let spacing = params.chase.stud_spacing;
    let stuck = veneer::veneers(design);
    if stuck.is_empty() || !(spacing - usual).is_positive() {
        return;
    }
    let finishes: Vec<&str> = stuck.iter().map(Veneer::name).collect();
    let parts = design.parts.iter().filter(|it| it.kind == Kind::Finish);
    let row = Row {
        subject: Measure("spacing of the studs behind the finish {}")
            .of([Thing::Named(finishes.join(", "))]),
        parts: parts.map(|it| it.id.clone()).collect(),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.opening_top,
        )),
        source: "the sheet of the board's maker".to_owned(),
        levers: &["chase.stud_spacing"],
        ..Row::default()
    };
    if let Some(widest) = &params.skins.board_spacing {
        let source = format!("the sheet of the board's maker, p. {}", widest.page);
        report.limit(
            Row { source, ..row },
            Numbers::at_most(spacing, widest.value),
        );
    } else {
        let question = format!(
            "Studs {} apart: how far apart does the board's maker allow them under this finish (skins.board_spacing)? {} is usual.",
            spacing.tape(unit, Rounding::Up),
            usual.tape(unit, Rounding::Down)
        );
        report.ask_for(row, None, question, vec!["skins.board_spacing"]);
    }
}
