//! The vent's run under the ceiling.
//!
//! # What it finds
//! The least height of the ceiling over the run's clearance, inside the room, against the clearance's height
//! there; over the whole of the volume as the wall cuts it, not only over the pipe.
//!
//! # Why
//! A ceiling that falls toward the wall is lowest just where the run is highest.
//!
//! # Datum
//! The ceiling's surface, plumb over the corners of the clearance volume.
//!
//! # Source
//! The unit's manual, `vent.top_clearance`.

use super::{clearances_of, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, point};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "run under the ceiling",
    concern: Concern::FireAndGas,
    text: include_str!("run_under_ceiling.rs"),
    keys: &["vent.rise", "vent.top_clearance"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (vent, layout) = (&design.params.vent, &design.layout);
    let volumes = design.clearances.iter();
    let runs = volumes.filter(|it| it.kind == ClearanceKind::HorizontalPipe);
    // the volume's faces are planes and what is under the ceiling is convex, so the least gap lies over a corner
    let corners = runs.flat_map(|it| it.body.pieces.iter().flat_map(|piece| &piece.vertices));
    let measured = corners.map(|corner| {
        let (right, out) = (Length::mm(corner.x), Length::mm(-corner.y));
        let ceiling = layout.ceiling_to(out).height_at(right, out);
        (ceiling, Length::mm(corner.z), right, out)
    });
    let Some((ceiling, top, right, out)) =
        measured.min_by(|a, b| (a.0 - a.1).to_mm().total_cmp(&(b.0 - b.1).to_mm()))
    else {
        return;
    };
    let place = point(right, out, top);
    let mut parts = clearances_of(design, &[ClearanceKind::HorizontalPipe]);
    parts.push(design.ceiling_over(place));
    let row = Row {
        subject: Measure("ceiling over the run's clearance").into(),
        parts,
        location: Some(place),
        source: page(&vent.top_clearance),
        levers: &["vent.rise"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(ceiling, top));
}
