//! The side of the chase, seen from the left, with floor, wall and ceiling cut beside it.

use glam::DVec3;

use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Rect;
use crate::drawing::subject::{Subject, at};
use crate::units::{Length, Slope};

/// How much of the room is shown before the chase.
const BEFORE: Length = Length::inches(20.0);

/// The side elevation.
pub(in crate::drawing) fn side(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let mut figure = Figure::new("Side, seen from the left", "");
    let eye = Eye::LEFT;
    let skins = params.skins.board + params.skins.side_finish;
    let left = layout.chase.low - skins;
    let built = subject
        .design
        .parts
        .iter()
        .filter(|part| !part.group.stands_already());
    let outermost = built.fold(left.to_mm(), |near, part| near.min(part.body.bounds.low.x));
    let plane = eye.plane(DVec3::X * (outermost - 1.0));
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    crop(subject, &mut figure, BEFORE);
    let projection = params
        .mantel
        .as_ref()
        .map_or(Length::ZERO, |it| it.projection);
    let front = layout.lower_finished + projection;
    let ceiling = |out| layout.ceiling.height_at(left, out);
    let mut heights = vec![Length::ZERO, ceiling(Length::ZERO)];
    if let Some(mantel) = &params.mantel {
        heights.extend([mantel.underside, mantel.underside + mantel.thickness]);
    }
    figure.chains = vec![
        Chain::new(
            Side::Below,
            [
                Length::ZERO,
                layout.upper_finished,
                layout.lower_finished,
                front,
            ],
        ),
        Chain::new(Side::Below, [Length::ZERO, front]),
        Chain::new(Side::Left, heights),
        Chain::new(Side::Right, [Length::ZERO, ceiling(layout.upper_finished)]),
    ];
    if let Some(mantel) = &params.mantel {
        let middle = mantel.underside + mantel.thickness / 2.0;
        figure.call(at(front, middle), "mantel");
    }
    if layout.is_stepped() {
        let middle = (layout.framing_top + ceiling(layout.upper_finished)) / 2.0;
        figure.call(at(layout.upper_finished, middle), "upper finished face");
    }
    figure.call(
        at(
            layout.lower_finished,
            layout.platform_top + params.appliance.opening_bottom,
        ),
        "finished face around the unit",
    );
    let over = subject.tape(ceiling(layout.upper_finished));
    let slope = params.ceiling.rise_out;
    figure.notes.push(if slope == Slope::LEVEL {
        format!("Ceiling: {over} over the upper face, level out from the wall.")
    } else {
        format!(
            "Ceiling: {} at the wall, {over} over the upper face; slope {} out from the wall.",
            subject.tape(ceiling(Length::ZERO)),
            slope.text()
        )
    });
    vec![figure]
}

/// Leaves the fireplace wall, the chase and a part of the room.
pub(super) fn crop(subject: &Subject<'_>, figure: &mut Figure, before: Length) {
    let (params, layout) = (subject.params(), subject.layout());
    let front = (layout.lower_finished + before).min(params.room.depth);
    let ceiling = |out| {
        let left = layout.ceiling.height_at(layout.chase.low, out);
        left.max(layout.ceiling.height_at(layout.chase.high, out))
    };
    let highest = ceiling(Length::ZERO).max(ceiling(front)) + Length::inches(2.0);
    let behind = layout.wall.outside + params.vent.cap_depth + Length::inches(2.0);
    figure.crop(&Rect {
        low: at(-behind, layout.slab - Length::inches(3.0)),
        high: at(front, highest),
    });
}
