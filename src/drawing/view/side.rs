//! A side of the chase that is seen, the left one where both are, with floor, wall and ceiling cut beside it.

use glam::DVec3;

use crate::design::{Branch, Flank, cabinets, fixed_place, mantel_front};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Rect;
use crate::drawing::subject::{Subject, at};
use crate::params::{ChaseWall, End, RoomWall, SpaceBehind};
use crate::units::{Length, Slope};

/// How much of the room is shown in front of the chase.
const BEFORE: Length = Length::inches(20.0);

/// The side elevation.
pub(in crate::drawing) fn side(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    if layout.opened.is_some() {
        return vec![flush(subject)];
    }
    let skins = params.skins.board + params.skins.side_finish;
    // what stands against a wall of the room has no side to show there
    let free = layout.site.ends.map(|it| it == End::Free);
    let (title, eye, from_left, edge) = match free {
        [true, _] => {
            let edge = layout.site.chase.low - skins;
            ("Side, seen from the left", Eye::LEFT, true, edge)
        }
        [false, true] => {
            let edge = layout.site.chase.high + skins;
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
    crop(subject, &mut figure, (BEFORE, from_left), Length::ZERO);
    let front = front(subject);
    let ceiling = |out| layout.ceiling.height_at(edge, out);
    let mut heights = vec![Length::ZERO, ceiling(Length::ZERO)];
    if let Some(mantel) = &params.mantel {
        heights.extend([mantel.underside, mantel.underside + mantel.thickness]);
    }
    // across a corner the side begins at a wall beside it, and only the corner is a fixed place
    let begins = layout.site.side_begins(skins).max(Length::ZERO);
    let begins = if layout.site.is_turned() {
        begins
    } else {
        Length::ZERO
    };
    if layout.site.is_turned() {
        figure.call(
            at(Length::ZERO, layout.heights.body_top),
            "corner of the room, where its walls meet",
        );
    }
    figure.chains = vec![
        Chain::new(
            Side::Below,
            [
                begins,
                layout.faces.upper_finished,
                layout.faces.lower_finished,
                front,
            ]
            .map(out),
        ),
        Chain::new(Side::Below, [Length::ZERO, begins, front].map(out)),
        Chain::new(Side::Left, heights),
        Chain::new(
            Side::Right,
            [Length::ZERO, ceiling(layout.faces.upper_finished)],
        ),
    ];
    words(subject, &mut figure, (&eye, from_left), edge);
    let over = subject.tape(ceiling(layout.faces.upper_finished));
    figure
        .notes
        .push(slope_in_words(subject, &over, ceiling(Length::ZERO)));
    vec![figure]
}

/// What comes farthest out: the mantel, or the finished face.
fn front(subject: &Subject<'_>) -> Length {
    let (mantel, layout) = (subject.params().mantel.as_ref(), subject.layout());
    mantel.map_or(layout.faces.lower_finished, |it| mantel_front(it, layout))
}

/// The ceiling's heights and slope, in words.
fn slope_in_words(subject: &Subject<'_>, over: &str, at_wall: Length) -> String {
    let (params, layout) = (subject.params(), subject.layout());
    let slopes = match layout.ceiling.planes() {
        [plane] => Some([-plane.slope.y, plane.slope.x].map(Slope::ratio)),
        _ => None,
    };
    if let Some([out, right]) = slopes.filter(|_| !params.ceiling.readings.is_empty()) {
        // laid through readings: its slope is not entered, so it is shown both ways
        return format!(
            "Ceiling as measured: {} at the wall, {over} over the upper face; slope {} out from the wall, {} to the right.",
            subject.tape(at_wall),
            out.in_twelve(),
            right.in_twelve()
        );
    }
    let slope = slopes.map_or_else(
        || params.ceiling.rise_out.unwrap_or(Slope::LEVEL),
        |[out, _]| out,
    );
    if params.missing_rises().contains(&"ceiling.rise_out") {
        return format!(
            "Ceiling: {over} over the upper face, drawn level out from the wall; its rise is still an open question."
        );
    }
    if slope == Slope::LEVEL {
        return format!("Ceiling: {over} over the upper face, level out from the wall.");
    }
    format!(
        "Ceiling: {} at the wall, {over} over the upper face; slope {} out from the wall.",
        subject.tape(at_wall),
        slope.text()
    )
}

/// Names of what is seen.
fn words(subject: &Subject<'_>, figure: &mut Figure, (eye, from_left): (&Eye, bool), edge: Length) {
    let (params, layout) = (subject.params(), subject.layout());
    let out = |length: Length| if from_left { length } else { -length };
    let ceiling = |out| layout.ceiling.height_at(edge, out);
    if let Some(mantel) = &params.mantel {
        let middle = mantel.underside + mantel.thickness / 2.0;
        figure.call(at(out(mantel_front(mantel, layout)), middle), "mantel");
    }
    if layout.is_stepped() {
        let middle = (layout.heights.framing_top + ceiling(layout.faces.upper_finished)) / 2.0;
        figure.call(
            at(out(layout.faces.upper_finished), middle),
            "upper finished face",
        );
    }
    let cabinet = cabinets(layout)
        .into_iter()
        .find(|it| it.on_the_left == from_left);
    if let Some(cabinet) = &cabinet {
        figure.call(
            at(out(cabinet.outs.center()), cabinet.heights.center()),
            "cabinet",
        );
    }
    // a cabinet may stand before it
    if cabinet.is_none_or(|it| it.outs.high < layout.faces.lower_finished) {
        figure.call(
            at(
                out(layout.faces.lower_finished),
                layout.heights.platform_top + params.appliance.opening_bottom,
            ),
            "finished face around the unit",
        );
    }
    things(
        subject,
        figure,
        (eye, from_left),
        layout.faces.lower_finished + BEFORE,
    );
}

/// Names of the fixed things on the wall that is seen beyond the chase.
fn things(
    subject: &Subject<'_>,
    figure: &mut Figure,
    (eye, from_left): (&Eye, bool),
    farthest: Length,
) {
    let params = subject.params();
    let beyond = if from_left {
        RoomWall::Right
    } else {
        RoomWall::Left
    };
    let across = subject.layout().site.is_turned();
    let there = params.room.fixed.iter();
    for thing in there.filter(|it| it.wall == beyond && !across) {
        let place = fixed_place(params, thing);
        let middle = place.wall.point(DVec3::new(
            place.sides.center().to_mm(),
            0.0,
            (thing.sill + thing.height / 2.0).to_mm(),
        ));
        if -middle.y < farthest.to_mm() && -middle.y > subject.layout().faces.lower_finished.to_mm()
        {
            figure.call(eye.see(middle).truncate(), thing.name.clone());
        }
    }
}

/// A flush chase seen from the left: its enclosure behind the wall of the room, which is cut beside it.
fn flush(subject: &Subject<'_>) -> Figure {
    let (params, layout) = (subject.params(), subject.layout());
    let is_outdoors = params
        .behind
        .as_ref()
        .is_some_and(|it| it.space == SpaceBehind::Outdoors);
    let own_ceiling_there = layout.site.ceiling_behind.is_some();
    let (caution, note) = if own_ceiling_there && is_outdoors {
        (
            "The outdoor bay's support and flashing are drawn by whoever designs it.",
            "Outdoors: the room's floor is simply continued under the enclosure here. Its support, its flashing and what closes it below are not drawn; you are asked about them.",
        )
    } else if own_ceiling_there {
        (
            "",
            "Indoors: the floor of the space behind is drawn as the room's, continued.",
        )
    } else if is_outdoors {
        (
            "The outdoor bay's support, roof and flashing are drawn by whoever designs it.",
            "Outdoors: the room's floor and ceiling are simply continued at the enclosure here. Its support, its roof, its flashing and what closes it below are not drawn; you are asked about them.",
        )
    } else {
        (
            "",
            "Indoors: the floor and the ceiling of the space behind are drawn as the room's, continued.",
        )
    };
    let mut figure = Figure::new("Side of the enclosure, seen from the left", caution);
    let eye = Eye::LEFT;
    let own =
        subject.parts(|it| it.is_of(ChaseWall::LeftSide) || it.is_of(Branch::Cover(Flank::Left)));
    let outermost = own.iter().map(|it| it.0.sides().low);
    let edge = outermost.fold(layout.site.chase.low, Length::min);
    let plane = eye.plane(DVec3::X * (edge.to_mm() - 1.0));
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    crop(subject, &mut figure, (BEFORE, true), Length::ZERO);
    let covered = subject
        .parts(|it| it.is_of(Branch::Cover(Flank::Left)) || it.is_of(Branch::Cover(Flank::Back)));
    let back = covered.iter().chain(&own).map(|it| it.0.body.bounds.high.y);
    let back = -Length::mm(back.fold(0.0, f64::max));
    let far = if layout.site.is_enclosed() {
        back
    } else {
        -layout.wall.outside
    };
    let front = front(subject);
    let ceiling = |out| layout.ceiling_to(out).height_at(edge, out);
    let mut heights = vec![Length::ZERO, ceiling(layout.faces.lower_finished)];
    if let Some(mantel) = &params.mantel {
        heights.extend([mantel.underside, mantel.underside + mantel.thickness]);
        let middle = mantel.underside + mantel.thickness / 2.0;
        figure.call(at(front, middle), "mantel");
    }
    let middle = ceiling(Length::ZERO) / 2.0;
    figure.call(
        at(layout.faces.front_back / 2.0, middle),
        "side of the enclosure",
    );
    figure.call(
        at(
            layout.faces.lower_finished - Length::inches(1.0),
            middle * 1.5,
        ),
        "wall of the room, which is opened for the chase",
    );
    figure.call(
        at(
            layout.faces.lower_finished,
            layout.heights.platform_top + params.appliance.opening_bottom,
        ),
        "finished face around the unit",
    );
    figure.chains = vec![
        Chain::new(
            Side::Below,
            [
                far,
                Length::ZERO,
                layout.faces.front_back,
                layout.faces.lower_finished,
                front,
            ],
        ),
        Chain::new(Side::Below, [far, layout.faces.front_back]),
        Chain::new(Side::Left, [layout.slab, ceiling(far)]),
        Chain::new(Side::Right, heights),
    ];
    own_ceiling(subject, &mut figure);
    figure.notes.push(note.to_owned());
    figure
}

/// Leaves the fireplace wall, the chase and a part of the room, seen from the left or from the right, up to the ceiling
/// or to a place over it.
pub(super) fn crop(
    subject: &Subject<'_>,
    figure: &mut Figure,
    (before, from_left): (Length, bool),
    highest: Length,
) {
    let (params, layout) = (subject.params(), subject.layout());
    let front =
        (layout.faces.lower_finished + before).min(params.room.depth + layout.site.wall_face);
    let ceiling = |out| {
        let ceiling = layout.ceiling_to(out);
        let left = ceiling.height_at(layout.site.chase.low, out);
        left.max(ceiling.height_at(layout.site.chase.high, out))
    };
    let highest = highest.max(ceiling(Length::ZERO)).max(ceiling(front)) + Length::inches(2.0);
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

/// The name of a ceiling of its own behind the wall that is opened.
pub(super) fn own_ceiling(subject: &Subject<'_>, figure: &mut Figure) {
    let behind = subject.layout().faces.front_back / 2.0;
    if let Some(height) = subject.layout().site.ceiling_behind {
        figure.call(at(behind, height), "ceiling behind the wall");
    }
}
