//! The section through the unit's center: body, spacers, clearances, pipe, header, ledge, mantel and recess.

use glam::DVec3;

use super::side::crop;
use crate::design::ClearanceKind;
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Pen;
use crate::drawing::subject::{Subject, at};
use crate::units::Length;

/// How much of the room is shown before the chase.
const BEFORE: Length = Length::inches(14.0);

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
    let kinds = [
        ClearanceKind::UnitTop,
        ClearanceKind::UnitBack,
        ClearanceKind::VerticalPipe,
        ClearanceKind::Bend,
        ClearanceKind::HorizontalPipe,
        ClearanceKind::WallPass,
    ];
    for kind in kinds {
        for volume in subject.volumes(kind) {
            subject.draw_volume(&mut figure, &eye, &plane, volume);
        }
    }
    crop(subject, &mut figure, BEFORE, true);
    let pipe = layout.pipe_out;
    figure.line(
        Pen::Center,
        at(pipe, layout.body_top),
        at(pipe, layout.elbow_height),
    );
    figure.line(
        Pen::Center,
        at(pipe, layout.elbow_height),
        at(-layout.wall.outside, layout.run_height(layout.wall.outside)),
    );
    words(subject, &mut figure);
    dimensions(subject, &mut figure);
    vec![figure]
}

fn words(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let body = (layout.unit_back + layout.unit_face) / 2.0;
    figure.call(
        at(body, (layout.platform_top + layout.body_top) / 2.0),
        "the unit's body".to_owned(),
    );
    let header = params.lower_stud().width / 2.0;
    figure.call(
        at(
            layout.upper_stud_face - header,
            (layout.header_bottom + layout.header_top) / 2.0,
        ),
        if layout.opened.as_ref().is_some_and(|it| !it.is_settled) {
            "room for the header that a licensed designer sizes".to_owned()
        } else {
            "header".to_owned()
        },
    );
    if layout.is_stepped() {
        let half = (layout.framing_top - layout.header_top) / 2.0;
        figure.call(
            at(layout.lower_stud_face - header, layout.framing_top - half),
            "ledge".to_owned(),
        );
    }
    if let Some(mantel) = &params.mantel {
        figure.call(
            at(
                layout.lower_finished + mantel.projection / 2.0,
                mantel.underside + mantel.thickness / 2.0,
            ),
            format!("mantel; rule on manual p. {}", mantel.rule.page),
        );
    }
    if let Some(recess) = &layout.recess {
        let out = (recess.back + layout.upper_finished) / 2.0;
        figure.call(
            at(out, recess.finished_height.low + Length::inches(1.0)),
            "recess".to_owned(),
        );
    }
    figure.notes.push(format!(
        "Run: {} up toward the cap, manual p. {}. Dash and dot: clearances.",
        params.vent.slope.value.text(),
        params.vent.slope.page
    ));
}

fn dimensions(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let ceiling = layout.ceiling.height_at(layout.unit_center, Length::ZERO);
    let outside = layout.wall.outside;
    let run = layout.run_height(outside);
    let mut finished = vec![Length::ZERO, layout.opening_top];
    if let Some(mantel) = &params.mantel {
        finished.extend([mantel.underside, mantel.underside + mantel.thickness]);
    }
    if let Some(recess) = &layout.recess {
        finished.extend([recess.finished_height.low, recess.finished_height.high]);
    }
    figure.chains = vec![
        Chain::new(
            Side::Below,
            [
                -outside,
                Length::ZERO,
                layout.unit_back,
                layout.pipe_out,
                layout.unit_face,
            ],
        ),
        Chain::new(
            Side::Below,
            [
                Length::ZERO,
                layout.upper_stud_face,
                layout.lower_stud_face,
                layout.lower_finished,
            ],
        ),
        Chain::new(
            Side::Left,
            [
                layout.slab,
                layout.platform_top,
                layout.body_top,
                layout.header_bottom,
                layout.header_top,
            ],
        ),
        Chain::new(Side::Left, finished),
        Chain::new(Side::Left, [layout.slab, run, ceiling]),
    ];
}
