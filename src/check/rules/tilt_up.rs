//! Walls on their way from lying to plumb.
//!
//! # What it finds
//! For every wall that could be framed on the floor and tilted up toward its place: how near the
//! corners of its top come to the ceiling on the way. A corner at height H, a depth t behind the edge
//! that the wall turns about, swings through √(H² + t²), which is more than it needs when it stands;
//! under a ceiling that falls toward the side from which the wall is raised it needs more still.
//!
//! # Why
//! A wall that fits standing may not fit standing up. Then it is built in place, stick by stick.
//!
//! # Datum
//! The wall turns about the lower edge of its room side; the slab.
//!
//! # Source
//! Arithmetic.

use glam::DVec3;

use super::ARITHMETIC;
use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Branch, Design, Kind, Part};
use crate::geom::EndPlane;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "tilt-up",
    text: include_str!("tilt_up.rs"),
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let mut walls: Vec<(Branch, Vec<&Part>)> = Vec::new();
    let tops = design
        .parts
        .iter()
        .filter(|it| matches!(it.kind, Kind::TopPlate | Kind::Ledge));
    for top in tops {
        let wall = top.branch;
        match walls.iter_mut().find(|it| it.0 == wall) {
            Some((_, tops)) => tops.push(top),
            None => walls.push((wall, vec![top])),
        }
    }
    for (wall, tops) in walls {
        let Some((top, nearest)) = nearest(design, &tops) else {
            continue;
        };
        let row = Row {
            about: format!("{wall}: ceiling on the way up, as one frame"),
            parts: vec![top.id.clone()],
            location: Some(nearest.place),
            source: ARITHMETIC.to_owned(),
            levers: &["ceiling.gap"],
            ..Row::default()
        };
        let numbers = Numbers::at_least(nearest.ceiling, nearest.height);
        if nearest.ceiling < nearest.height - Length::mm(crate::geom::TOLERANCE) {
            let question =
                "This wall does not tilt up as one frame: build it in place, stick by stick?";
            report.ask(row, Some(numbers), question);
        } else {
            report.judge(row, numbers);
        }
    }
}

/// The point of the way up that comes nearest to the ceiling.
struct Pass {
    place: DVec3,
    /// Height reached there, above the slab.
    height: Length,
    /// Height of the ceiling there, above the slab.
    ceiling: Length,
}

/// The plate or ledge that comes nearest, and where.
fn nearest<'a>(design: &Design, tops: &[&'a Part]) -> Option<(&'a Part, Pass)> {
    // plates and ledges lie along the wall with x across it, from the room side inward
    let inward = tops.first()?.body.frame.x;
    let corners = |top: &'a Part| top.body.pieces.iter().flat_map(|piece| &piece.vertices);
    let face = tops
        .iter()
        .flat_map(|top| corners(top))
        .map(|it| it.dot(inward))
        .fold(f64::INFINITY, f64::min);
    let passes = tops.iter().flat_map(|top| {
        let ways = corners(top).flat_map(move |corner| {
            let planes = design.layout.ceiling_of(top).planes().iter();
            planes.map(move |plane| way_up(design, plane, *corner, inward, face))
        });
        ways.map(|pass| (*top, pass))
    });
    passes.min_by(|a, b| {
        let left = |it: &Pass| (it.ceiling - it.height).to_mm();
        left(&a.1).total_cmp(&left(&b.1))
    })
}

/// Where a corner comes nearest to a plane of the ceiling while the wall turns about the foot of its face.
fn way_up(design: &Design, plane: &EndPlane, corner: DVec3, inward: DVec3, face: f64) -> Pass {
    let slab = design.layout.slab.to_mm();
    let behind = corner.dot(inward) - face;
    let height = corner.z - slab;
    let foot = (corner - inward * behind).with_z(slab);
    let outward = -inward;
    // per millimetre toward the room side
    let rise = plane.slope.dot(outward.truncate());
    let radius = height.hypot(behind);
    // nearest where the circle runs parallel to the ceiling, if the wall gets there before it stands
    let steep = (1.0 + rise * rise).sqrt();
    let parallel = (-rise / steep * radius, radius / steep);
    let (out, up) = if parallel.0 > -behind {
        parallel
    } else {
        (-behind, height)
    };
    let place = foot + outward * out + DVec3::Z * up;
    Pass {
        place,
        height: Length::mm(up),
        ceiling: Length::mm(plane.z(place.truncate()) - slab),
    }
}
