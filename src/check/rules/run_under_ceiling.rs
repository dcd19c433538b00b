//! The vent's run under the ceiling.
//!
//! # What it finds
//! The least height of the ceiling over the run's clearance, inside the room, against the top of
//! that clearance there; over the clearance's whole width, not only over the pipe.
//!
//! # Why
//! A ceiling that falls toward the wall comes down on the run just where the run is highest.
//!
//! # Datum
//! The ceiling's surface; the pipe's skin.
//!
//! # Source
//! The unit's manual, `vent.top_clearance`.

use glam::DVec3;

use super::{clearances_of, page};
use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, point};
use crate::params::Lie;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "run under the ceiling",
    text: include_str!("run_under_ceiling.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let vent = &params.vent;
    let radius = vent.pipe_diameter / 2.0;
    let beside = (radius + vent.side_clearance.value).to_mm();
    let legs = layout.path.legs.iter();
    let runs = legs.filter(|leg| leg.lie != Lie::Plumb);
    // both the ceiling and a run are planes, so the least gap lies over a corner
    let corners = runs.flat_map(|leg| {
        let across = leg.direction.cross(DVec3::Z).normalize() * beside;
        [leg.start, layout.inside_end(leg)]
            .into_iter()
            .flat_map(move |end| [end - across, end + across])
    });
    let measured = corners.map(|place| {
        let (right, out) = (Length::mm(place.x), Length::mm(-place.y));
        let top = Length::mm(place.z) + radius + vent.top_clearance.value;
        let ceiling = layout.ceiling_to(out).height_at(right, out);
        (ceiling, top, right, out)
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
        about: "ceiling over the run's clearance".to_owned(),
        parts,
        location: Some(place),
        source: page(&vent.top_clearance),
        levers: &["vent.rise"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(ceiling, top));
}
