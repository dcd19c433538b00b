//! The vertical pipe behind the front wall.
//!
//! # What it finds
//! Whether the pipe, with its clearance, rises behind the back of the wall that goes up to the
//! ceiling: pipe offset at least ledge + that wall's depth + radius + clearance (and the face
//! offset).
//!
//! # Why
//! That wall has a header over the unit and continues above it; the pipe has to pass behind. With a ledge the wall is
//! farther back, so the least pipe offset grows with the ledge.
//!
//! # Datum
//! The wall's finished face behind the chase; the pipe's skin.
//!
//! # Source
//! The unit's manual, `vent.vertical_clearance`.

use super::{clearances_of, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, point};

pub(super) const RULE: Rule = Rule {
    name: "pipe behind the front",
    concern: Concern::Heat,
    text: include_str!("pipe_behind_front.rs"),
    keys: &[
        "chase.stud",
        "front.ledge",
        "front.bump_out_stud",
        "appliance.face_offset",
        "vent.pipe_diameter",
        "vent.vertical_clearance",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    if layout.rise().is_none() {
        return;
    }
    let needed = layout.path.pipe_out()
        + params.vent.pipe_diameter / 2.0
        + params.vent.vertical_clearance.value;
    let row = Row {
        subject: Measure("back of the front wall to the vertical pipe's clearance").into(),
        parts: clearances_of(design, &[ClearanceKind::VerticalPipe]),
        location: Some(point(
            layout.unit_center,
            layout.faces.front_back,
            layout.heights.header_bottom,
        )),
        source: page(&params.vent.vertical_clearance),
        levers: &[
            "front.ledge",
            "front.bump_out_stud",
            "chase.stud",
            "appliance.face_offset",
        ],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(layout.faces.front_back, needed));
}
