//! The framed hole through ceiling and roof: rafters, its sticks, its sizes, and its center from two walls.

use glam::{DVec2, DVec3};

use crate::design::{Kind, Span};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::Subject;
use crate::units::{Length, Rounding};

/// How much of the roof is shown around the hole.
const AROUND: Length = Length::inches(16.0);

/// The roof-pass detail, seen from above with the roof's board off.
pub(in crate::drawing) fn roof_pass(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let Some(pass) = &layout.roof_pass else {
        return Vec::new();
    };
    let mut figure = Figure::new(
        "Roof pass, seen from above, roof board off",
        "A rafter is cut only with headers that someone designs; a truss is never cut.",
    );
    let room = &pass.room;
    let eye = Eye::new(room.x, room.y, DVec3::Z);
    let shift = eye.see(room.origin).truncate();
    let right = |place: Length| place + Length::mm(shift.x);
    let back = |place: Length| place + Length::mm(shift.y);
    subject.draw(&mut figure, &eye, None, |part| {
        matches!(part.kind, Kind::Rafter | Kind::PassFrame)
    });
    let (across, deep) = (pass.right.grown(AROUND), pass.back.grown(AROUND));
    let corner = |x: Length, y: Length| DVec2::new(right(x).to_mm(), back(y).to_mm());
    figure.crop(&Rect {
        low: corner(across.low, deep.low),
        high: corner(across.high, deep.high),
    });
    let (x, y) = pass.middle;
    let radius = params.vent.pipe_diameter / 2.0;
    figure
        .circles
        .push((Pen::Edge, corner(x, y), radius.to_mm()));
    let arm = radius + Length::inches(1.0);
    figure.center_lines(corner(x, y), arm);
    subject.label(&mut figure, &eye, |part| part.kind == Kind::PassFrame);
    figure.call(
        corner(x + radius * 0.7, y + radius * 0.7),
        format!("{} pipe", subject.tape(params.vent.pipe_diameter)),
    );
    if let Some(roof) = &params.roof {
        figure.call(
            corner(pass.right.high, pass.back.high - Length::inches(1.0)),
            format!(
                "framed hole; clearance {} all around, manual p. {}",
                subject.tape(roof.pass_clearance.value),
                roof.pass_clearance.page
            ),
        );
    }
    let sides = [pass.right.low, pass.right.high];
    let ends = [pass.back.low, pass.back.high];
    let below = |stops: &[Length]| {
        let chain = Chain::new(Side::Below, stops.iter().map(|it| right(*it)));
        let hole = Span::new(right(pass.right.low), right(pass.right.high));
        chain.around(right(Length::ZERO), hole)
    };
    let beside = |stops: &[Length]| {
        let chain = Chain::new(Side::Left, stops.iter().map(|it| back(*it)));
        let hole = Span::new(back(pass.back.low), back(pass.back.high));
        chain.around(back(Length::ZERO), hole)
    };
    figure.chains = vec![
        below(&[sides[0], x, sides[1]]),
        below(&sides),
        beside(&[ends[0], y, ends[1]]),
        beside(&ends),
    ];
    let (wide, long) = pass.on_the_slope(subject.unit());
    let up = |length: Length| length.tape(subject.unit(), Rounding::Up);
    figure.notes = vec![
        format!(
            "Pipe center: {} from the left corner of the room, {} out from the fireplace wall, both level; plumb it up \
             from the collar before you cut.",
            subject.tape(x),
            subject.tape(-y)
        ),
        format!(
            "Dimensions are level. Along the slope the hole is {} to the right and {} out.",
            up(wide),
            up(long)
        ),
    ];
    vec![figure]
}
