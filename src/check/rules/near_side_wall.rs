//! The room's own wall beside the unit's opening.
//!
//! # What it finds
//! A side wall of the room that the chase stands against and that comes forward of its face: how far it is from the
//! opening's side.
//!
//! # Why
//! A wall that comes forward beside the opening is a side wall in the manual's sense, and it burns.
//! Manuals give a table of projection against distance for such walls; it is theirs to say.
//!
//! # Datum
//! The opening's nearer side; the wall's finished face.
//!
//! # Source
//! The unit's own manual, its table for side walls.

use crate::check::{Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, point};
use crate::params::End;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "near side wall",
    text: include_str!("near_side_wall.rs"),
    keys: &[
        "chase.left",
        "chase.alcove_depth",
        "appliance.center",
        "appliance.opening_width",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let face = layout.faces.lower_finished;
    if !(layout.site.side_walls - face).is_positive() {
        return;
    }
    let half = design.params.appliance.opening_width / 2.0;
    let walls = layout.site.framing_at(face);
    let sides = [
        (
            layout.site.ends[0],
            walls.low,
            layout.unit_center - half - walls.low,
        ),
        (
            layout.site.ends[1],
            walls.high,
            walls.high - layout.unit_center - half,
        ),
    ];
    for (side, wall, distance) in sides {
        if !matches!(side, End::Wall | End::Corner) {
            continue;
        }
        let row = Row {
            subject: Measure("the room's wall beside the opening").into(),
            location: Some(point(wall, face, layout.heights.opening_top)),
            source: "the unit's manual, side walls".to_owned(),
            levers: &["appliance.center", "chase.left"],
            ..Row::default()
        };
        let question = "What distance does the manual ask of a side wall that comes forward beside the opening?";
        report.ask(
            row,
            Some(Numbers::at_least(distance, Length::ZERO)),
            question,
        );
    }
}
