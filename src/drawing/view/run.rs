//! The section along the vent's last run, where that leaves the plane of the unit's center: the pass as the run crosses
//! it, with its clearances.

use glam::DVec3;

use super::section::{ROUND_UNIT_AND_VENT, center_lines, is_in_plane};
use crate::design::{ClearanceKind, Kind};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Rect;
use crate::drawing::subject::{Subject, at};
use crate::params::{Exit, Leg, Lie};
use crate::units::Length;

/// How much is shown past the riser that the run comes from, and beyond the cap.
const BEFORE: Length = Length::inches(26.0);
const BEYOND: Length = Length::inches(3.0);
/// How much of the roof is shown beside the cap over it.
const BESIDE: Length = Length::inches(16.0);

/// The section along the run.
pub(in crate::drawing) fn along(subject: &Subject<'_>) -> Vec<Figure> {
    let layout = subject.layout();
    let is_run = |leg: &&Leg| leg.direction.truncate().length() > 0.1;
    let Some(leg) = layout.path.legs.iter().rev().find(is_run) else {
        return Vec::new();
    };
    if is_in_plane(subject) {
        return Vec::new();
    }
    let level = leg.direction.with_z(0.0).normalize_or_zero();
    let mut figure = Figure::new(
        "Section along the vent's run",
        "Nothing enters a clearance, insulation included; do not flatten the unit's spacers.",
    );
    // outside at the left, as in the section through the unit's center
    let right = -level;
    let eye = Eye::new(right, DVec3::Z, right.cross(DVec3::Z));
    let plane = eye.plane(leg.start);
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    for kind in ROUND_UNIT_AND_VENT {
        // the body's own numbers are in the other section
        if matches!(kind, ClearanceKind::UnitTop | ClearanceKind::UnitBack) {
            continue;
        }
        for volume in subject.volumes(kind) {
            subject.draw_volume(&mut figure, &eye, &plane, volume);
        }
    }
    center_lines(subject, &mut figure, &eye);
    let place = |point: DVec3| Length::mm(eye.see(point).x);
    let end = leg.start + leg.direction * leg.length.to_mm();
    let over = |at: DVec3| {
        let (right, out) = (Length::mm(at.x), Length::mm(-at.y));
        layout.ceiling_to(out).height_at(right, out)
    };
    let caps = subject.parts(|it| it.kind == Kind::Cap);
    let caps = caps.iter().flat_map(|(_, solid)| &solid.vertices);
    let caps: Vec<DVec3> = caps.map(|it| eye.see(*it)).collect();
    let leftmost = caps
        .iter()
        .map(|it| Length::mm(it.x))
        .fold(place(end), Length::min);
    let mut highest = over(leg.start).max(over(end));
    let is_through_roof = layout.path.exit == Exit::Roof;
    if is_through_roof {
        highest = caps
            .iter()
            .map(|it| Length::mm(it.y))
            .fold(highest, Length::max);
    }
    let beyond = if is_through_roof { BESIDE } else { BEYOND };
    figure.crop(&Rect {
        low: at(leftmost - beyond, layout.slab - Length::inches(3.0)),
        high: at(place(leg.start) + BEFORE, highest + Length::inches(2.0)),
    });
    dimensions(subject, &mut figure, (&eye, leg), over(leg.start));
    let turned = libm::acos(level.y.clamp(-1.0, 1.0)).to_degrees();
    let vent = &subject.params().vent;
    let rises = match leg.lie {
        Lie::Run(_) => format!(
            " Run: {} up toward the cap, manual p. {}.",
            vent.slope.value.text(),
            vent.slope.page
        ),
        Lie::Plumb | Lie::Inclined => String::new(),
    };
    figure.notes.push(format!(
        "Cut upright along the run, {turned:.1}° off the unit's center line. At the right: where its center line and the riser's meet. \
         Dash and dot: clearances.{rises}"
    ));
    vec![figure]
}

fn dimensions(
    subject: &Subject<'_>,
    figure: &mut Figure,
    (eye, leg): (&Eye, &Leg),
    ceiling: Length,
) {
    let layout = subject.layout();
    let place = |point: DVec3| Length::mm(eye.see(point).x);
    let meets = Length::mm(leg.start.z);
    let start = place(leg.start);
    figure.chains = vec![Chain::new(Side::Right, [layout.slab, meets, ceiling])];
    let (Some(wall), pass) = (layout.pass_wall(), &layout.pass) else {
        let end = place(leg.start + leg.direction * leg.length.to_mm());
        figure.chains.push(Chain::new(Side::Below, [end, start]));
        return;
    };
    let through = [
        (pass.inside, Length::ZERO),
        (pass.outside, wall.depths.outside),
    ];
    let [inside, outside] =
        through.map(|((along, up), deep)| place(wall.point(along, deep, up - layout.slab)));
    let hole = [layout.slab, pass.heights.low, pass.heights.high];
    figure.chains.extend([
        Chain::new(Side::Below, [outside, inside, start]),
        Chain::new(Side::Left, hole).around(layout.slab, pass.heights),
        Chain::new(Side::Left, [layout.slab, pass.outside.1]),
    ]);
    figure.notes.push(format!(
        "Outside at the left. The run crosses the wall {:.1}° from square. Heights at the left: the hole's edges, and the pipe's center \
         on the outside face.",
        pass.angle.to_degrees().abs()
    ));
}
