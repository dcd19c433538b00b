//! The outside of the fireplace wall, with the cap and its distances.

use crate::design::Kind;
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Pen;
use crate::drawing::subject::{Subject, at};
use crate::geom::Bounds;
use crate::units::Length;

/// The outside elevation.
pub(in crate::drawing) fn outside(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let mut figure = Figure::new(
        "Outside, with the cap",
        "Keep the cap clear of windows, corners, the ground, snow and plants: distances from the manual.",
    );
    let eye = Eye::OUTSIDE;
    subject.draw(&mut figure, &eye, None, |part| {
        matches!(part.kind, Kind::WallLayer | Kind::Cap)
    });
    let caps = subject.parts(|part| part.kind == Kind::Cap);
    let nothing = Bounds::EMPTY;
    let cap = caps
        .iter()
        .fold(nothing, |around, (part, _)| around.union(&part.body.bounds));
    if cap.is_empty() {
        return Vec::new();
    }
    let center = layout.run_height(layout.wall.outside);
    let right = layout.unit_center;
    let arm = Length::inches(10.0);
    figure.line(
        Pen::Center,
        at(-right - arm, center),
        at(-right + arm, center),
    );
    figure.line(
        Pen::Center,
        at(-right, center - arm),
        at(-right, center + arm),
    );
    let width = params.room.width;
    figure.chains = vec![
        Chain::new(Side::Below, [-width, -right, Length::ZERO]),
        Chain::new(Side::Below, [-width, Length::ZERO]),
        Chain::new(
            Side::Left,
            [
                layout.slab,
                Length::mm(cap.low.z),
                center,
                Length::mm(cap.high.z),
            ],
        ),
        Chain::new(Side::Left, [layout.slab, center]),
        Chain::new(
            Side::Above,
            [Length::mm(-cap.high.x), Length::mm(-cap.low.x)],
        ),
    ];
    figure.call(
        at(-right, center),
        format!(
            "pipe center on the outside face, {} above the bare slab",
            subject.tape(center - layout.slab)
        ),
    );
    figure.notes = vec![
        "The ends of the wall are the room's inside corners, carried through: find one of them outside from a feature \
         that is seen from both sides."
            .to_owned(),
        "Distances of the cap to windows, doors, inside corners, meters and grade, measured on site: ________________"
            .to_owned(),
    ];
    vec![figure]
}
