//! Clearance volumes and what comes near them.
//!
//! # What it finds
//! For every clearance volume the part that comes nearest, and every other within 2 in: the gap to
//! the volume's true shape, or, for a part that reaches into it, minus the smallest move along the
//! volume's own directions that clears it. Measured always, not only when it fails. A cylinder is a
//! cylinder and a bend is a bend; the rectangle round a pipe with directional numbers has square
//! corners, which is the strict reading. What lies on a side where the number does not count, such as
//! the platform under the unit's sides, is not judged by it.
//!
//! # Why
//! The listing of the unit holds only where its clearances are kept.
//!
//! # Datum
//! Each volume's own: the body's skin, the pipe's skin, the opening's edges.
//!
//! # Source
//! The unit's manual, with the page of each number.

use crate::check::{Numbers, Report, Row, Rule, clearances};
use crate::design::{ClearanceKind, Design};

pub(super) const RULE: Rule = Rule {
    name: "clearance",
    text: include_str!("clearance.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    for margin in clearances(design).into_iter().filter(|it| it.faces) {
        let volume = design
            .clearances
            .iter()
            .find(|it| it.id == margin.clearance);
        let Some(volume) = volume else { continue };
        let row = Row {
            about: format!("{} to {}", margin.part, volume.kind.name()),
            parts: vec![margin.part, margin.clearance],
            location: Some(margin.location),
            source: margin.source,
            levers: levers(volume.kind),
            detail: None,
        };
        report.judge(row, Numbers::at_least(margin.measured, margin.required));
    }
}

/// What a builder can move to leave a volume more room.
const fn levers(kind: ClearanceKind) -> &'static [&'static str] {
    match kind {
        ClearanceKind::UnitSide => &["front.opening_ease", "chase.width"],
        ClearanceKind::UnitBack => &["chase.depth", "appliance.face_offset"],
        ClearanceKind::UnitTop => &["front.header_ease"],
        ClearanceKind::UnitFront => &["mantel.underside", "mantel.projection"],
        ClearanceKind::VerticalPipe => &["recess.depth", "front.ledge", "appliance.face_offset"],
        ClearanceKind::Bend => &["recess.depth", "recess.sill", "vent.rise"],
        ClearanceKind::HorizontalPipe => &["recess.sill", "vent.rise"],
        ClearanceKind::WallPass | ClearanceKind::RoofPass => {
            &["vent.pass_ease", "appliance.center"]
        }
        ClearanceKind::FacingZone => &["skins.noncombustible_to", "mantel.underside"],
        ClearanceKind::HandRoom => &["gas.shutoff_right", "gas.shutoff_out", "gas.shutoff_up"],
        ClearanceKind::MantelRule => &[],
    }
}
