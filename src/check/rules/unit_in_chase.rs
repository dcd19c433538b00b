//! The unit's body inside the chase.
//!
//! # What it finds
//! The gap behind the body, to the wall's finished face, against the manual's rear clearance; and
//! the width between the side walls against the body with its side clearances. Where the gap and not the pipe governs
//! how deep the chase has to be, it gives the least depth.
//!
//! # Why
//! That a chase is too shallow or too narrow is otherwise noticed only when the unit is already in the room. Whoever
//! wants a shallower one has to know what to change: another unit, or another collar.
//!
//! # Datum
//! The body's skin, not its spacers.
//!
//! # Source
//! The unit's manual, `appliance.rear_clearance` and `appliance.side_clearance`.

use super::{first_of, governs_depth, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::params::End;

pub(super) const RULE: Rule = Rule {
    name: "unit in the chase",
    concern: Concern::FireAndGas,
    text: include_str!("unit_in_chase.rs"),
    keys: &[
        "chase.width",
        "chase.depth",
        "appliance.body_width",
        "appliance.face_offset",
        "appliance.side_clearance",
        "appliance.rear_clearance",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let unit = &params.appliance;
    let [least, by_pipe] = layout.least_depths();
    let rear = Row {
        subject: Measure("gap behind the unit's body").into(),
        parts: first_of(design, Kind::UnitBody),
        location: Some(point(
            layout.unit_center,
            layout.faces.unit_back,
            layout.heights.body_top,
        )),
        source: page(&unit.rear_clearance),
        levers: &["chase.depth", "appliance.face_offset"],
        detail: governs_depth(least, by_pipe, params),
    };
    let needed = unit.body_width + 2.0 * unit.side_clearance.value;
    let gap = layout.faces.unit_back - layout.wall_comes_out(needed / 2.0);
    report.judge(rear, Numbers::at_least(gap, unit.rear_clearance.value));
    let inside = if layout.site.ends.contains(&End::Corner) {
        layout.site.framing_at(layout.faces.unit_back).size()
    } else {
        layout.site.chase.size() - 2.0 * layout.side_taken()
    };
    let wide = Row {
        subject: Measure("width between the side walls").into(),
        parts: first_of(design, Kind::UnitBody),
        location: Some(point(
            layout.unit_center,
            layout.faces.unit_back,
            layout.heights.platform_top,
        )),
        source: page(&unit.side_clearance),
        levers: &["chase.width"],
        ..Row::default()
    };
    report.judge(wide, Numbers::at_least(inside, needed));
}
