//! The framed hole through a standing wall: its sticks, its sizes, and its center from fixed points.

use super::face::WallFace;
use crate::design::{Kind, Span};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::{Subject, pages};
use crate::units::{Length, Rounding};

/// How much of the wall is shown around the hole.
const AROUND: Length = Length::inches(9.0);

/// The wall-pass detail, seen from the room with the board off.
pub(in crate::drawing) fn wall_pass(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let pass = &layout.pass;
    let Some(wall) = layout.pass_wall() else {
        return Vec::new();
    };
    let face = WallFace::inside(wall);
    let mut figure = Figure::new(
        "Wall pass, seen from the room, board off",
        "Treat an outside wall as bearing until someone qualified says it is not; a stud cut in it needs a header that someone designs.",
    );
    let is_framing = |part: &crate::design::Part| {
        matches!(part.kind, Kind::PassFrame | Kind::ExistingStud) && wall.holds(part)
    };
    subject.draw(&mut figure, &face.eye, None, is_framing);
    let shown = Span::new(
        pass.bay.low.min(pass.sides.low),
        pass.bay.high.max(pass.sides.high),
    )
    .grown(AROUND);
    let heights = pass.heights.grown(AROUND);
    figure.crop(&Rect {
        low: face.at(shown.low, heights.low),
        high: face.at(shown.high, heights.high),
    });
    let radius = params.vent.pipe_diameter / 2.0;
    let pipe = face.pipe(pass.inside, params.vent.pipe_diameter, pass.angle);
    figure.area(Pen::Edge, None, vec![pipe]);
    let (along, inside) = pass.inside;
    let arm = radius + Length::inches(1.0);
    figure.center_lines(face.at(along, inside), arm);
    subject.label(&mut figure, &face.eye, |part| {
        part.kind == Kind::PassFrame && wall.holds(part)
    });
    words(subject, &mut figure, &face);
    let across = [
        pass.bay.low,
        pass.sides.low,
        along,
        pass.sides.high,
        pass.bay.high,
    ];
    let [left, right] = [pass.sides.low, pass.sides.high].map(|it| face.along(it));
    let bay = [
        (face.along(pass.bay.low), Rounding::Up),
        (face.along(pass.bay.high), Rounding::Down),
    ];
    let edges = [(left, Rounding::Down), (right, Rounding::Up)];
    let below = |stops: &[Length]| {
        let chain = Chain::new(Side::Below, stops.iter().copied());
        chain.on_marks(face.along(Length::ZERO), bay.into_iter().chain(edges))
    };
    let beside = |stops: &[Length]| {
        let chain = Chain::new(Side::Left, stops.iter().copied());
        chain.around(layout.slab, pass.heights)
    };
    figure.chains = vec![
        below(&across.map(|it| face.along(it))),
        below(&[left, right]),
        beside(&[pass.heights.low, inside, pass.heights.high]),
        beside(&[pass.heights.low, pass.heights.high]),
    ];
    vec![figure]
}

fn words(subject: &Subject<'_>, figure: &mut Figure, face: &WallFace<'_>) {
    let (params, layout) = (subject.params(), subject.layout());
    let vent = &params.vent;
    let radius = vent.pipe_diameter / 2.0;
    let (along, inside) = layout.pass.inside;
    figure.call(
        face.at(along + radius * 0.7, inside + radius * 0.7),
        format!("{} pipe", subject.tape(vent.pipe_diameter)),
    );
    figure.call(
        face.at(
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
    figure.notes = centers(subject, face);
}

/// The pipe's center on both faces of the wall, from fixed points.
fn centers(subject: &Subject<'_>, face: &WallFace<'_>) -> Vec<String> {
    let (layout, pass) = (subject.layout(), &subject.layout().pass);
    let (left, right) = face.ends();
    let ((along, inside), (beyond, outside)) = (pass.inside, pass.outside);
    let aside = if (beyond - along).abs().is_positive() {
        format!("{} from the {left}", subject.tape(beyond))
    } else {
        "on the same plumb line".to_owned()
    };
    vec![
        format!(
            "Pipe center inside, on the wall's face: {} from the {left}, {} from the {right}, {} above the bare slab.",
            subject.tape(along),
            subject.tape(face.wall.length - along),
            subject.tape(inside - layout.slab)
        ),
        format!(
            "Pipe center outside, on the outside face: {aside}, {} above the bare slab; the run rises {} in the wall.",
            subject.tape(outside - layout.slab),
            subject.tape(outside - inside)
        ),
    ]
}
