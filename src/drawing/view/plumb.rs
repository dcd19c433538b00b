//! The existing wall as it is marked out: plumb lines, the hole, and the hole's center from two fixed points.

use crate::design::Kind;
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::{Subject, at};
use crate::units::Length;

/// From the ceiling down to the first words, and from one to the next.
const STEP: Length = Length::inches(7.0);

/// The plumb lines.
pub(in crate::drawing) fn lines(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let mut figure = Figure::new(
        "Plumb lines on the existing wall",
        "Find studs, cables and pipes in the wall before you cut into it.",
    );
    let ceiling = |right| layout.ceiling.height_at(right, Length::ZERO);
    let width = params.room.width;
    let corners = [
        at(Length::ZERO, layout.slab),
        at(width, layout.slab),
        at(width, ceiling(width)),
        at(Length::ZERO, ceiling(Length::ZERO)),
    ];
    figure.area(Pen::Edge, None, vec![corners.to_vec()]);
    subject.draw_hidden(&mut figure, &Eye::FRONT, Pen::Hidden, |part| {
        part.kind == Kind::ExistingStud
    });
    let lines = &subject.takeoff.plumb_lines;
    let top = ceiling(Length::ZERO).min(ceiling(width));
    for (place, line) in lines.iter().enumerate() {
        let (low, high) = (
            at(line.right, layout.slab),
            at(line.right, ceiling(line.right)),
        );
        figure.line(Pen::Center, low, high);
        figure.call(
            at(line.right, top - STEP * (place as f64 + 1.0)),
            format!("{}: {}", line.what, subject.tape(line.right)),
        );
    }
    hole(subject, &mut figure);
    let inside = layout.run_height(Length::ZERO);
    let rights = lines.iter().map(|it| it.right);
    figure.chains = vec![
        Chain::new(Side::Below, rights.chain([Length::ZERO, width])),
        Chain::new(Side::Below, [Length::ZERO, layout.unit_center, width]),
        Chain::new(
            Side::Left,
            [
                layout.slab,
                layout.pass.heights.low,
                layout.pass.heights.high,
            ],
        ),
        Chain::new(Side::Left, [layout.slab, inside, ceiling(Length::ZERO)]),
    ];
    figure.notes = vec![
        "Seen from the room. Snap each line from slab to ceiling; the numbers beside the names count from the left \
         corner of the room, on the wall's finished face. Dashed: the studs that are there."
            .to_owned(),
        format!(
            "Center of the hole on this face, from two fixed points: {} from the left corner and {} above the bare \
             slab. Proof: {} from the right corner.",
            subject.tape(layout.unit_center),
            subject.tape(inside - layout.slab),
            subject.tape(width - layout.unit_center)
        ),
    ];
    vec![figure]
}

/// The hole and the pipe in it.
fn hole(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let pass = &layout.pass;
    figure.rectangle(
        Pen::Cut,
        &Rect {
            low: at(pass.sides.low, pass.heights.low),
            high: at(pass.sides.high, pass.heights.high),
        },
    );
    let radius = params.vent.pipe_diameter / 2.0;
    let center = at(layout.unit_center, layout.run_height(Length::ZERO));
    figure.circles.push((Pen::Edge, center, radius.to_mm()));
}
