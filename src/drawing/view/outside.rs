//! The outside of the wall that the vent goes through, with the cap and its distances.

use super::face::WallFace;
use crate::design::{Branch, Flank, Kind};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::figure::Figure;
use crate::drawing::subject::Subject;
use crate::units::Length;

/// The outside elevation.
pub(in crate::drawing) fn outside(subject: &Subject<'_>) -> Vec<Figure> {
    let layout = subject.layout();
    let Some(wall) = layout.pass_wall() else {
        return Vec::new();
    };
    let face = WallFace::outside(wall);
    let mut figure = Figure::new(
        "Outside, with the cap",
        "Keep the cap clear of windows, corners, the ground, snow and plants: distances from the manual.",
    );
    subject.draw(&mut figure, &face.eye, None, |part| {
        let covers = part.kind == Kind::WallLayer || part.is_of(Branch::Cover(Flank::Back));
        part.kind == Kind::Cap || covers && wall.holds(part)
    });
    let caps = subject.parts(|part| part.kind == Kind::Cap);
    let corners = caps.iter().flat_map(|(_, solid)| &solid.vertices);
    let cap = face.eye.around(corners);
    if caps.is_empty() {
        return Vec::new();
    }
    let (along, center) = layout.pass.outside;
    let arm = Length::inches(10.0);
    figure.center_lines(face.at(along, center), arm);
    let ends = [Length::ZERO, wall.length];
    let halves = [Length::ZERO, along, wall.length];
    figure.chains = vec![
        Chain::new(Side::Below, halves.map(|it| face.along(it))),
        Chain::new(Side::Below, ends.map(|it| face.along(it))),
        Chain::new(
            Side::Left,
            [
                layout.slab,
                Length::mm(cap.low.y),
                center,
                Length::mm(cap.high.y),
            ],
        ),
        Chain::new(Side::Left, [layout.slab, center]),
        Chain::new(Side::Above, [Length::mm(cap.low.x), Length::mm(cap.high.x)]),
    ];
    figure.call(
        face.at(along, center),
        format!(
            "pipe center on the outside face, {} above the bare slab",
            subject.tape(center - layout.slab)
        ),
    );
    let ends = if subject.layout().site.is_enclosed() {
        "The ends of the wall are those of the enclosure's framing, without its covers."
    } else {
        "The ends of the wall are the room's inside corners, projected outside: locate one from something visible on both sides, such as a window edge."
    };
    figure.notes = vec![
        ends.to_owned(),
        "Distances of the cap to windows, doors, inside corners, meters and grade, measured on site: ________________"
            .to_owned(),
    ];
    vec![figure]
}
