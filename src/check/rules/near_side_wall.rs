//! The room's own walls beside the unit's opening.
//!
//! # What it finds
//! How far each wall of the room that runs forward beside the opening is from the opening's side, whether the chase
//! is built against it or not. Where the manual's number is not given, it asks once, for the nearer wall.
//!
//! # Why
//! A wall that comes forward beside the opening is a side wall in the manual's sense, and it is combustible.
//!
//! # Datum
//! The opening's side; the wall's finished face, at the finished face around the unit.
//!
//! # Source
//! The unit's manual, `appliance.side_wall`.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Span, point};
use crate::params::Hand;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "near side wall",
    concern: Concern::FireAndGas,
    text: include_str!("near_side_wall.rs"),
    keys: &[
        "room.width",
        "chase.left",
        "chase.alcove_depth",
        "appliance.center",
        "appliance.opening_width",
        "appliance.side_wall",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let face = layout.faces.lower_finished;
    // the walls of an alcove may end behind the face
    if !(layout.site.side_walls - face).is_positive() {
        return;
    }
    let walls = layout.site.between_walls(face, params.room.width);
    let opening = Span::about(layout.unit_center, params.appliance.opening_width);
    let row = |side: Hand, wall: Length| Row {
        subject: Measure("the room's wall to the {} of the opening").of([Thing::Hand(side)]),
        location: Some(point(wall, face, layout.heights.opening_top)),
        source: "the unit's manual, side walls".to_owned(),
        levers: &["appliance.center", "chase.left"],
        ..Row::default()
    };
    let left = (row(Hand::Left, walls.low), opening.low - walls.low);
    let right = (row(Hand::Right, walls.high), walls.high - opening.high);
    if let Some(least) = &params.appliance.side_wall {
        for (row, distance) in [left, right] {
            let source = page(least);
            report.judge(
                Row { source, ..row },
                Numbers::at_least(distance, least.value),
            );
        }
        return;
    }
    let (row, distance) = if left.1 <= right.1 { left } else { right };
    let question = "What distance does the manual require to a wall that comes forward beside the opening (appliance.side_wall)?";
    let numbers = Some(Numbers::at_least(distance, Length::ZERO));
    report.ask_for(row, numbers, question, vec!["appliance.side_wall"]);
}
