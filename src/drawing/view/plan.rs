//! The plan: the part of the room with the chase, cut through the unit, seen from above.

use glam::DVec3;

use crate::design::{ClearanceKind, Group, Kind, Part, fixed_place};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::{Subject, at};
use crate::params::{End, Exit, Lie};
use crate::units::Length;

/// How far past the front clearance the room is shown (common practice, no source).
const BEYOND: Length = Length::inches(10.0);

/// The plan.
pub(in crate::drawing) fn plan(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let height = (layout.heights.platform_top + layout.heights.body_top) / 2.0;
    let title = format!("Plan, cut {} above the datum", subject.tape(height));
    let mut figure = Figure::new(
        title,
        "Locate cables and pipes in the slab before drilling into it.",
    );
    let eye = Eye::ABOVE;
    let plane = eye.plane(DVec3::Z * height.to_mm());
    let open = |kind| !matches!(kind, Kind::Floor | Kind::Ceiling);
    subject.draw(&mut figure, &eye, Some(&plane), |part| open(part.kind));
    let above = |kind| matches!(kind, Kind::Pipe | Kind::Elbow | Kind::Cap | Kind::Mantel);
    subject.draw_hidden(&mut figure, &eye, Pen::Hidden, |part| above(part.kind));
    fixed(subject, &mut figure, &eye);
    for volume in subject.volumes(ClearanceKind::UnitFront) {
        subject.draw_volume(&mut figure, &eye, &plane, volume);
    }
    for kind in [ClearanceKind::UnitSide, ClearanceKind::UnitBack] {
        for volume in subject.volumes(kind) {
            subject.draw_volume(&mut figure, &eye, &plane, volume);
        }
    }
    let front = layout.faces.unit + params.appliance.front_clearance.value + BEYOND;
    let front = front.min(params.room.depth + layout.site.wall_face);
    let behind = layout.wall.outside + params.vent.cap_depth + Length::inches(1.0);
    let margin = Length::inches(3.0);
    figure.crop(&Rect {
        low: at(-margin, -front),
        high: at(params.room.width + margin, behind),
    });
    let center = layout.unit_center;
    figure.line(Pen::Center, at(center, -front), at(center, behind));
    figure.call(
        at(center, -layout.path.pipe_out()),
        format!(
            "{} pipe, {}",
            subject.tape(params.vent.pipe_diameter),
            way(subject)
        ),
    );
    let named = |part: &Part| {
        matches!(
            part.kind,
            Kind::GasStub | Kind::Shutoff | Kind::Leg | Kind::Cabinet
        )
    };
    for (part, solid) in subject.parts(named) {
        let around = eye.around(&solid.vertices);
        let text = if part.kind == Kind::Cabinet {
            let tape = |length: f64| subject.tape(Length::mm(length));
            let size = around.size();
            let high = subject.tape(part.heights().size());
            format!(
                "cabinet, {} wide, {} deep, {high} high",
                tape(size.x),
                tape(size.y)
            )
        } else {
            part.kind.name().to_owned()
        };
        figure.call(around.center(), text);
    }
    dimensions(subject, &mut figure);
    figure.notes.push(
        "Dashed: pipe, cap and mantel, above the cut. Dash and dot: clearances, from the manual's pages. \
         Dimensions to framing run to the studs' faces."
            .to_owned(),
    );
    vec![figure]
}

/// Where the vent goes, in words.
fn way(subject: &Subject<'_>) -> String {
    let rises = subject
        .layout()
        .path
        .legs
        .first()
        .is_some_and(|it| it.lie == Lie::Plumb);
    let first = if rises { "rising, then " } else { "" };
    match subject.layout().path.exit {
        Exit::Roof => format!("{first}out through the roof"),
        Exit::Wall(wall) => format!("{first}out through the {}", wall.name()),
    }
}

/// Fixed things at whatever height, dashed, with their names.
fn fixed(subject: &Subject<'_>, figure: &mut Figure, eye: &Eye) {
    subject.draw_hidden(figure, eye, Pen::Hidden, |part| part.group == Group::Fixed);
    for thing in &subject.params().room.fixed {
        let place = fixed_place(subject.params(), thing);
        let middle = DVec3::new(
            place.sides.center().to_mm(),
            -thing.drawn_depth(subject.params().project.unit).to_mm() / 2.0,
            0.0,
        );
        let seen = eye.see(place.wall.point(middle)).truncate();
        let text = format!("{}, {} wide", thing.name, subject.tape(thing.width));
        figure.call(seen, text);
    }
}

/// Where the framing of a chase across a corner ends at the room's walls, as a tape along them reads it.
fn meets_walls(subject: &Subject<'_>, figure: &mut Figure) {
    let layout = subject.layout();
    let half = match layout.site.ends[0] {
        End::Corner => layout.site.framing_at(layout.faces.lower_stud).size() / 2.0,
        End::Free | End::Wall | End::Behind => layout.site.chase.size() / 2.0,
    };
    let out = half / layout.site.spread;
    let along = Length::mm(at(half, out).length());
    let text = format!(
        "framing meets the wall {} from the corner, along the wall",
        subject.tape(along)
    );
    for right in [
        layout.site.chase.center() - half,
        layout.site.chase.center() + half,
    ] {
        figure.call(at(right, -out), text.clone());
    }
}

fn dimensions(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let (opening, chase) = (layout.rough_opening, layout.site.chase);
    let width = params.room.width;
    let unit = [
        chase.low,
        opening.low,
        layout.unit_center,
        opening.high,
        chase.high,
    ];
    figure.chains = vec![Chain::new(Side::Below, unit)];
    if layout.site.is_turned() {
        // the room's own numbers count along its walls, as the sheets of plumb lines show them
        figure
            .chains
            .push(Chain::new(Side::Below, [chase.low, chase.high]));
        figure.call(at(layout.unit_center, Length::ZERO), "corner of the room");
        meets_walls(subject, figure);
    } else {
        let across = [Length::ZERO, chase.low, chase.high, width];
        figure.chains.push(Chain::new(Side::Below, across));
        figure
            .chains
            .push(Chain::new(Side::Below, [Length::ZERO, width]));
    }
    let mut deep = vec![
        -layout.faces.unit,
        -layout.path.pipe_out(),
        -layout.faces.unit_back,
        Length::ZERO,
    ];
    if !layout.site.is_turned() && !layout.site.stands_off() {
        deep.push(layout.wall.outside);
    }
    let faces = [
        -layout.faces.lower_finished,
        -layout.faces.lower_stud,
        -layout.faces.upper_stud,
        Length::ZERO,
    ];
    figure
        .chains
        .extend([Chain::new(Side::Left, deep), Chain::new(Side::Left, faces)]);
}
