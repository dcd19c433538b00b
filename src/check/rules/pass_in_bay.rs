//! The hole through the wall in the bay between two existing studs.
//!
//! # What it finds
//! The clear width of the bay that the vent runs through, against the width of the framed hole. It gives the hole's
//! size, its edges at the next tape marks outward, and where the pipe's center goes through either face of the wall.
//! A hole that runs past an end of its wall is found too, with how far it does.
//!
//! # Why
//! A hole wider than its bay cuts a stud wherever it is moved; one that is off the bay's middle is a matter for
//! "existing stud cut".
//!
//! # Datum
//! Faces of the existing studs, as `wall.first_stud` and `wall.stud_spacing` place them.
//!
//! # Source
//! The unit's manual, `vent.side_clearance`; the firestop's own frame where that is larger.

use super::{clearances_of, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, PassLayout};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "pass in its bay",
    concern: Concern::FireAndGas,
    text: include_str!("pass_in_bay.rs"),
    keys: &[
        "wall.first_stud",
        "wall.stud_spacing",
        "left_wall.first_stud",
        "left_wall.stud_spacing",
        "right_wall.first_stud",
        "right_wall.stud_spacing",
        "far_wall.first_stud",
        "far_wall.stud_spacing",
        "appliance.center",
        "vent.side_clearance",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, pass) = (&design.params, &design.layout.pass);
    let Some(wall) = design.layout.pass_wall() else {
        return;
    };
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: clearances_of(design, &[ClearanceKind::WallPass]),
        location: Some(wall.point(
            pass.sides.center(),
            wall.depths.studs,
            pass.heights.center() - design.layout.slab,
        )),
        source: page(&params.vent.side_clearance),
        levers: &["appliance.center"],
        detail: Some(sizes(pass, design.layout.slab, params.project.unit)),
    };
    report.judge(
        row(Measure("clear bay for the hole through the wall")),
        Numbers::at_least(pass.bay.size(), pass.sides.size()),
    );
    let within = pass.sides.low.min(wall.length - pass.sides.high);
    if (-within).is_positive() {
        report.judge(
            row(Measure(
                "hole through the wall to the nearer end of that wall",
            )),
            Numbers::at_least(within, Length::ZERO),
        );
    }
}

/// The hole's sizes, and the pipe's middle on both faces: from the wall's left end, and up.
fn sizes(pass: &PassLayout, slab: Length, unit: TapeUnit) -> String {
    let text = |length: Length| length.tape(unit, Rounding::Nearest);
    let place = |(along, height): (Length, Length)| {
        format!("{} along and {} up", text(along), text(height))
    };
    let (sides, heights) = pass.on_marks(slab, unit);
    format!(
        "hole {} wide and {} high; pipe's center inside {}, outside {}",
        text(sides.size()),
        text(heights.size()),
        place(pass.inside),
        place(pass.outside)
    )
}
