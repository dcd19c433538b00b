//! The framed hole through the existing wall: its sticks, its sizes, and its center from fixed points.

use crate::design::{Group, Kind, Span};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::{Subject, at, pages};
use crate::units::Length;

/// How much of the wall is shown around the hole.
const AROUND: Length = Length::inches(9.0);

/// The wall-pass detail, seen from the room with the board off.
pub(in crate::drawing) fn wall_pass(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let pass = &layout.pass;
    let mut figure = Figure::new(
        "Wall pass, seen from the room, board off",
        "An outside wall carries load until somebody who knows says that it does not; a stud cut in it needs a \
         header that somebody designs.",
    );
    let eye = Eye::FRONT;
    subject.draw(&mut figure, &eye, None, |part| {
        part.kind == Kind::PassFrame || part.kind == Kind::ExistingStud
    });
    let shown = Span::new(
        pass.bay.low.min(pass.sides.low),
        pass.bay.high.max(pass.sides.high),
    )
    .grown(AROUND);
    let heights = pass.heights.grown(AROUND);
    figure.crop(&Rect {
        low: at(shown.low, heights.low),
        high: at(shown.high, heights.high),
    });
    let inside = layout.run_height(Length::ZERO);
    let outside = layout.run_height(layout.wall.outside);
    let radius = params.vent.pipe_diameter / 2.0;
    let center = at(layout.unit_center, inside);
    figure.circles.push((Pen::Edge, center, radius.to_mm()));
    let arm = radius + Length::inches(1.0);
    figure.line(
        Pen::Center,
        at(layout.unit_center - arm, inside),
        at(layout.unit_center + arm, inside),
    );
    figure.line(
        Pen::Center,
        at(layout.unit_center, inside - arm),
        at(layout.unit_center, inside + arm),
    );
    subject.label(&mut figure, &eye, |part| {
        part.kind == Kind::PassFrame && part.group != Group::Room
    });
    words(subject, &mut figure, (inside, outside));
    figure.chains = vec![
        Chain::new(
            Side::Below,
            [
                pass.bay.low,
                pass.sides.low,
                layout.unit_center,
                pass.sides.high,
                pass.bay.high,
            ],
        ),
        Chain::new(Side::Below, [pass.sides.low, pass.sides.high]),
        Chain::new(Side::Left, [pass.heights.low, inside, pass.heights.high]),
        Chain::new(Side::Left, [pass.heights.low, pass.heights.high]),
    ];
    vec![figure]
}

fn words(subject: &Subject<'_>, figure: &mut Figure, (inside, outside): (Length, Length)) {
    let (params, layout) = (subject.params(), subject.layout());
    let vent = &params.vent;
    let radius = vent.pipe_diameter / 2.0;
    figure.call(
        at(layout.unit_center + radius * 0.7, inside + radius * 0.7),
        format!("{} pipe", subject.tape(vent.pipe_diameter)),
    );
    figure.call(
        at(
            layout.pass.sides.high,
            layout.pass.heights.high - Length::inches(1.0),
        ),
        format!(
            "framed hole; clearance {} above, {} beside, {} below the pipe, {}",
            subject.tape(vent.top_clearance.value),
            subject.tape(vent.side_clearance.value),
            subject.tape(vent.bottom_clearance.value),
            pages(&[
                &vent.top_clearance.page,
                &vent.side_clearance.page,
                &vent.bottom_clearance.page,
            ])
        ),
    );
    let slab = layout.slab;
    figure.notes = vec![
        format!(
            "Pipe center inside, on the wall's face: {} from the left corner of the room, {} from the right corner, {} above the bare slab.",
            subject.tape(layout.unit_center),
            subject.tape(params.room.width - layout.unit_center),
            subject.tape(inside - slab)
        ),
        format!(
            "Pipe center outside, on the outside face: on the same plumb line, {} above the bare slab; the run rises {} in the wall.",
            subject.tape(outside - slab),
            subject.tape(outside - inside)
        ),
    ];
}
