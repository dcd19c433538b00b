//! A side of the chase that is seen, the left one where both are, with floor, wall and ceiling cut beside it.

use glam::DVec3;

use crate::design::Side::Free;
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
    let skins = params.skins.board + params.skins.side_finish;
    // what stands against a wall of the room has no side to show there
    let free = layout.sides.map(|it| it == Free);
    let (title, eye, from_left, edge) = match free {
        [true, _] => {
            let edge = layout.chase.low - skins;
            ("Side, seen from the left", Eye::LEFT, true, edge)
        }
        [false, true] => {
            let edge = layout.chase.high + skins;
            ("Side, seen from the right", Eye::RIGHT, false, edge)
        }
        [false, false] => return Vec::new(),
    };
    let mut figure = Figure::new(title, "");
    // out from the wall is to the right where it is seen from the left
    let out = |length: Length| if from_left { length } else { -length };
    let built = subject
        .design
        .parts
        .iter()
        .filter(|part| !part.group.stands_already());
    let outermost = built.fold(edge.to_mm(), |near, part| {
        if from_left {
            near.min(part.body.bounds.low.x)
        } else {
            near.max(part.body.bounds.high.x)
        }
    });
    let plane = eye.plane(DVec3::X * (outermost + if from_left { -1.0 } else { 1.0 }));
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    crop(subject, &mut figure, BEFORE, from_left);
    let projection = params
        .mantel
        .as_ref()
        .map_or(Length::ZERO, |it| it.projection);
    let front = layout.lower_finished + projection;
    let ceiling = |out| layout.ceiling.height_at(edge, out);
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
            ]
            .map(out),
        ),
        Chain::new(Side::Below, [Length::ZERO, front].map(out)),
        Chain::new(Side::Left, heights),
        Chain::new(Side::Right, [Length::ZERO, ceiling(layout.upper_finished)]),
    ];
    if let Some(mantel) = &params.mantel {
        let middle = mantel.underside + mantel.thickness / 2.0;
        figure.call(at(out(front), middle), "mantel");
    }
    if layout.is_stepped() {
        let middle = (layout.framing_top + ceiling(layout.upper_finished)) / 2.0;
        figure.call(
            at(out(layout.upper_finished), middle),
            "upper finished face",
        );
    }
    figure.call(
        at(
            out(layout.lower_finished),
            layout.platform_top + params.appliance.opening_bottom,
        ),
        "finished face around the unit",
    );
    let over = subject.tape(ceiling(layout.upper_finished));
    // one plane may have been laid through readings, whose slope nobody has written
    let slope = match layout.ceiling.planes() {
        [plane] => Slope::ratio(-plane.slope.y),
        _ => params.ceiling.rise_out,
    };
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

/// Leaves the fireplace wall, the chase and a part of the room, seen from the left or from the right.
pub(super) fn crop(subject: &Subject<'_>, figure: &mut Figure, before: Length, from_left: bool) {
    let (params, layout) = (subject.params(), subject.layout());
    let front = (layout.lower_finished + before).min(params.room.depth + layout.wall_face);
    let ceiling = |out| {
        let left = layout.ceiling.height_at(layout.chase.low, out);
        left.max(layout.ceiling.height_at(layout.chase.high, out))
    };
    let highest = ceiling(Length::ZERO).max(ceiling(front)) + Length::inches(2.0);
    let behind = layout.wall.outside + params.vent.cap_depth + Length::inches(2.0);
    let (low, high) = if from_left {
        (-behind, front)
    } else {
        (-front, behind)
    };
    figure.crop(&Rect {
        low: at(low, layout.slab - Length::inches(3.0)),
        high: at(high, highest),
    });
}
