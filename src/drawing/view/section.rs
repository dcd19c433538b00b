//! The section through the unit's center: body, spacers, clearances, pipe, header, ledge, mantel and recess. The
//! vent's last run is cut along in [`super::run`], where it leaves that plane.

use std::fmt::Write as _;

use glam::DVec3;

use super::side::{crop, own_ceiling};
use crate::design::{ClearanceKind, Kind, Part};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Pen;
use crate::drawing::subject::{Subject, at};
use crate::params::{Exit, Lie, RoomWall};
use crate::units::Length;

/// How much of the room is shown in front of the chase.
const BEFORE: Length = Length::inches(14.0);

/// What is kept clear round the unit and the vent.
pub(super) const ROUND_UNIT_AND_VENT: [ClearanceKind; 7] = [
    ClearanceKind::UnitTop,
    ClearanceKind::UnitBack,
    ClearanceKind::VerticalPipe,
    ClearanceKind::Bend,
    ClearanceKind::HorizontalPipe,
    ClearanceKind::WallPass,
    ClearanceKind::RoofPass,
];

/// The center line of every straight of the vent, from where two meet to where the next two do.
pub(super) fn center_lines(subject: &Subject<'_>, figure: &mut Figure, eye: &Eye) {
    for leg in &subject.layout().path.legs {
        let end = leg.start + leg.direction * leg.length.to_mm();
        let ends = [leg.start, end].map(|it| eye.see(it).truncate());
        if ends[0].distance(ends[1]) > 1.0 {
            figure.line(Pen::Center, ends[0], ends[1]);
        }
    }
}

/// The highest place that has to be seen: of a vent through the roof its cap.
fn highest(subject: &Subject<'_>) -> Length {
    let caps = subject.parts(|it| it.kind == Kind::Cap);
    let tops = caps.iter().map(|it| it.0.heights().high);
    if subject.layout().path.exit == Exit::Roof {
        tops.fold(Length::ZERO, Length::max)
    } else {
        Length::ZERO
    }
}

/// Whether the vent goes out through the wall behind the chase, in the plane of the unit's center.
pub(super) fn is_in_plane(subject: &Subject<'_>) -> bool {
    let layout = subject.layout();
    layout.path.legs.iter().all(|leg| {
        let aside = leg.start.x - layout.unit_center.to_mm();
        aside.abs() < 1.0 && leg.direction.x.abs() < 1e-6
    })
}

/// The section on the unit's center plane.
pub(in crate::drawing) fn section(subject: &Subject<'_>) -> Vec<Figure> {
    let layout = subject.layout();
    let mut figure = Figure::new(
        "Section through the unit's center",
        "Nothing enters a clearance, insulation included; do not flatten the unit's spacers.",
    );
    let eye = Eye::LEFT;
    let plane = eye.plane(DVec3::X * layout.unit_center.to_mm());
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    for kind in ROUND_UNIT_AND_VENT {
        for volume in subject.volumes(kind) {
            subject.draw_volume(&mut figure, &eye, &plane, volume);
        }
    }
    center_lines(subject, &mut figure, &eye);
    crop(subject, &mut figure, (BEFORE, true), highest(subject));
    words(subject, &mut figure);
    dimensions(subject, &mut figure);
    vec![figure]
}

fn words(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let body = (layout.faces.unit_back + layout.faces.unit) / 2.0;
    figure.call(
        at(
            body,
            (layout.heights.platform_top + layout.heights.body_top) / 2.0,
        ),
        "the unit's body".to_owned(),
    );
    let header = params.lower_stud().depth() / 2.0;
    figure.call(
        at(
            layout.faces.upper_stud - header,
            (layout.heights.header_bottom + layout.heights.header_top) / 2.0,
        ),
        if layout.opened.as_ref().is_some_and(|it| !it.is_settled) {
            "space for the header that a licensed designer sizes".to_owned()
        } else {
            "header".to_owned()
        },
    );
    if layout.is_stepped() {
        let half = (layout.heights.framing_top - layout.heights.header_top) / 2.0;
        figure.call(
            at(
                layout.faces.lower_stud - header,
                layout.heights.framing_top - half,
            ),
            "ledge".to_owned(),
        );
    }
    if let Some(mantel) = &params.mantel {
        figure.call(
            at(
                layout.faces.lower_finished + mantel.projection / 2.0,
                mantel.underside + mantel.thickness / 2.0,
            ),
            format!("mantel; rule on manual p. {}", mantel.rule.page),
        );
    }
    if let Some(recess) = &layout.recess {
        let out = (recess.back + layout.faces.upper_finished) / 2.0;
        figure.call(
            at(out, recess.finished_height.low + Length::inches(1.0)),
            "recess".to_owned(),
        );
    }
    let center = layout.unit_center.to_mm();
    let is_cut = |part: &Part| {
        let bounds = part.body.bounds;
        matches!(part.kind, Kind::CableShelf | Kind::Cable)
            && bounds.low.x < center
            && bounds.high.x > center
    };
    for (part, solid) in subject.parts(is_cut) {
        figure.call(Eye::LEFT.around(&solid.vertices).center(), part.kind.name());
    }
    let mut notes = "Dash and dot: clearances.".to_owned();
    let is_run = |lie| matches!(lie, Lie::Run(_));
    if layout.path.legs.iter().any(|leg| is_run(leg.lie)) {
        let (slope, page) = (params.vent.slope.value.text(), &params.vent.slope.page);
        let _ = write!(notes, " Run: {slope} up toward the cap, manual p. {page}.");
    }
    if layout.path.exit != Exit::Roof && !is_in_plane(subject) {
        notes.push_str(" The vent leaves this plane: see the section along its run.");
    }
    figure.notes.push(notes);
    if layout.site.is_turned() {
        figure.call(
            at(Length::ZERO, layout.heights.body_top),
            "corner of the room, where its walls meet".to_owned(),
        );
    }
    own_ceiling(subject, figure);
}

fn dimensions(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let ceiling = layout
        .ceiling_behind
        .height_at(layout.unit_center, Length::ZERO);
    let behind = behind(subject);
    let vent = height_of_vent(subject);
    let mut finished = vec![Length::ZERO, layout.heights.opening_top];
    if let Some(mantel) = &params.mantel {
        finished.extend([mantel.underside, mantel.underside + mantel.thickness]);
    }
    if let Some(recess) = &layout.recess {
        finished.extend([recess.finished_height.low, recess.finished_height.high]);
    }
    let unit = [
        layout.faces.unit_back,
        layout.path.pipe_out(),
        layout.faces.unit,
    ];
    figure.chains = vec![
        Chain::new(Side::Below, behind.into_iter().chain(unit)),
        Chain::new(
            Side::Below,
            [
                Length::ZERO,
                layout.faces.upper_stud,
                layout.faces.lower_stud,
                layout.faces.lower_finished,
            ],
        ),
        Chain::new(
            Side::Left,
            [
                layout.slab,
                layout.heights.platform_top,
                layout.heights.body_top,
                layout.heights.header_bottom,
                layout.heights.header_top,
            ],
        ),
        Chain::new(Side::Left, finished),
        Chain::new(
            Side::Left,
            [layout.slab, ceiling]
                .into_iter()
                .chain(vent.filter(|it| *it < ceiling)),
        ),
    ];
}

/// The faces of the wall behind the chase that the section cuts square; across a corner, and before a divider, the
/// place that "out" counts from alone.
fn behind(subject: &Subject<'_>) -> Vec<Length> {
    let layout = subject.layout();
    if layout.site.is_turned() || layout.site.stands_off() {
        return vec![Length::ZERO];
    }
    vec![-layout.wall.outside, Length::ZERO]
}

/// The height of the vent that is shown: on the outside face of the wall behind the chase, or where its first two
/// center lines meet.
fn height_of_vent(subject: &Subject<'_>) -> Option<Length> {
    let layout = subject.layout();
    let through = |wall| matches!(wall, RoomWall::Back | RoomWall::Behind);
    match layout.pass.wall {
        Some(wall) if through(wall) && !layout.site.is_turned() => Some(layout.pass.outside.1),
        _ => (layout.path.legs.len() > 1).then_some(layout.path.elbow_height()),
    }
}
