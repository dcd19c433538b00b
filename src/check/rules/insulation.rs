//! Insulation and wires near unit and vent.
//!
//! # What it finds
//! Where the manual's distance is given, the distance from the pipe to whatever fills the wall around the framed
//! hole: the hole's nearest edge and the frame's own thickness. Without it, it asks; and with it too, where the vent
//! does not go square through the wall behind the chase.
//!
//! # Why
//! Air spaces must stay empty. Insulation pushed against a pipe or the unit's body traps the heat that the clearance
//! is there to shed.
//!
//! # Datum
//! The pipe's skin; the far face of the frame round the hole, where the wall's insulation begins.
//!
//! # Source
//! The unit's manual, `appliance.insulation_distance`.

use super::{clearances_of, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design};
use crate::units::{Length, Rounding, TOLERANCE};

pub(super) const RULE: Rule = Rule {
    name: "insulation",
    concern: Concern::FireAndGas,
    text: include_str!("insulation.rs"),
    keys: &[
        "wall.stud",
        "left_wall.stud",
        "right_wall.stud",
        "far_wall.stud",
        "appliance.insulation_distance",
        "vent.pipe_diameter",
        "vent.slope",
        "vent.pass_ease",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let passes = [ClearanceKind::WallPass, ClearanceKind::RoofPass];
    let hole = design
        .clearances
        .iter()
        .find(|it| passes.contains(&it.kind));
    let row = Row {
        subject: Measure("insulation in the wall beside the vent").into(),
        parts: clearances_of(design, &passes),
        location: hole.map(|it| it.body.bounds.center()),
        source: "the unit's manual".to_owned(),
        ..Row::default()
    };
    // measured where the pipe goes square through the wall behind the chase
    let square = layout.pass.wall == Some(design.layout.site.behind)
        && layout.pass.angle.to_radians().abs() <= TOLERANCE;
    let asked = design.params.appliance.insulation_distance.as_ref();
    let Some(asked) = asked else {
        let question = "How far must insulation and wires stay from unit and vent, by the manual? Until that is known, keep them out of every clearance.";
        let keys = vec!["appliance.insulation_distance"];
        report.ask_for(row, None, question, keys);
        return;
    };
    if !square {
        let away = asked.value.tape(design.params.project.unit, Rounding::Up);
        let question = format!(
            "The manual keeps insulation and wires {away} from unit and vent: will they be that far away where the vent goes through?"
        );
        let source = page(asked);
        report.ask(Row { source, ..row }, None, question);
        return;
    }
    let frame = layout
        .pass_wall()
        .map_or(Length::ZERO, |wall| wall.stud.breadth());
    let numbers = Numbers::at_least(hole_to_pipe(design) + frame, asked.value);
    let row = Row {
        source: page(asked),
        levers: &["vent.pass_ease"],
        ..row
    };
    report.judge(row, numbers);
}

/// The least distance between the pipe's skin and an edge of the framed hole.
fn hole_to_pipe(design: &Design) -> Length {
    let (params, layout) = (&design.params, &design.layout);
    let (radius, pass) = (params.vent.pipe_diameter / 2.0, &layout.pass);
    let upright = radius / params.vent.slope.value.angle().cos();
    let lowest = layout.run_height(layout.wall.studs) - upright;
    let highest = layout.run_height(layout.wall.sheathing) + upright;
    let beside = pass.sides.size() / 2.0 - radius;
    beside
        .min(lowest - pass.heights.low)
        .min(pass.heights.high - highest)
}
