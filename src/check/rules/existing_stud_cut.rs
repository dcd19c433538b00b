//! An existing stud in the way of the vent.
//!
//! # What it finds
//! Studs of the existing wall that the hole for the vent would cut.
//!
//! # Why
//! An outside wall carries load until somebody who knows says that it does not: a stud cut in it
//! needs a header that somebody designs. In a wall that carries nothing, the stud is headed off
//! above and below the hole.
//!
//! # Datum
//! Faces of the existing studs, as `wall.first_stud` and `wall.stud_spacing` place them.
//!
//! # Source
//! Common practice, no source; the local code decides.

use crate::check::{Numbers, Quantity, Report, Row, Rule};
use crate::design::{Design, StandingWall, WallHole};
use crate::params::Bearing;

pub(super) const RULE: Rule = Rule {
    name: "existing stud cut",
    text: include_str!("existing_stud_cut.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let walls = design.layout.standing.iter();
    for wall in walls {
        if let Some(hole) = design.layout.hole_in(wall) {
            judge(wall, hole, report);
        }
    }
}

fn judge(wall: &StandingWall, hole: WallHole, report: &mut Report<'_>) {
    let cut = wall.cut_studs(hole.sides);
    let Some(first) = cut.first() else { return };
    let numbers = Numbers::none(Quantity::Count, cut.len() as f64);
    let row = Row {
        about: "existing studs cut by the hole through the wall".to_owned(),
        parts: vec!["clearance/wall pass".to_owned()],
        location: Some(wall.point(*first, wall.depths.studs, hole.heights.center())),
        source: "local code; a designer where the wall carries load".to_owned(),
        levers: &["appliance.center"],
        ..Row::default()
    };
    let question = match wall.bearing {
        Bearing::No => {
            "The wall carries nothing, as you say: may the stud be headed off above and below the hole?"
        }
        Bearing::Yes => "The wall carries load: who designs the header over the cut stud?",
        Bearing::Unknown => {
            "Does this outside wall carry load? Until it is known not to, who designs the header over the cut stud?"
        }
    };
    report.ask(row, Some(numbers), question);
}
