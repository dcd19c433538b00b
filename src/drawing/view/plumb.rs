//! The existing walls as they are marked out: plumb lines, the hole, and the hole's center from two fixed points.

use super::face::WallFace;
use crate::design::{Kind, StandingWall};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::Subject;
use crate::params::{ChaseWall, RoomWall};
use crate::takeoff::PlumbLine;
use crate::units::{Length, Rounding};

/// From the ceiling down to the first words, and from one to the next.
const STEP: Length = Length::inches(7.0);

/// The plumb lines of each wall that has some.
pub(in crate::drawing) fn lines(subject: &Subject<'_>) -> Vec<Figure> {
    let walls = subject.layout().standing.iter();
    let figures = walls.filter_map(|wall| {
        let lines = subject.takeoff.plumb_lines.iter();
        let lines: Vec<&PlumbLine> = lines.filter(|it| it.wall == wall.place).collect();
        // a divider stands away from the wall behind it
        let is_away = subject.layout().site.stands_off()
            && !has_hole(subject, wall)
            && wall.place == RoomWall::Back;
        (!lines.is_empty() && !is_away).then(|| drawing(subject, wall, &lines))
    });
    figures.collect()
}

fn has_hole(subject: &Subject<'_>, wall: &StandingWall) -> bool {
    subject.layout().pass.wall == Some(wall.place)
}

fn drawing(subject: &Subject<'_>, wall: &StandingWall, lines: &[&PlumbLine]) -> Figure {
    let layout = subject.layout();
    let face = WallFace::inside(wall);
    let title = match wall.place {
        RoomWall::Back => "Plumb lines on the existing wall".to_owned(),
        place @ (RoomWall::Left | RoomWall::Right | RoomWall::Behind) => {
            format!("Plumb lines on the {}", place.name())
        }
    };
    let mut figure = Figure::new(
        title,
        "Locate studs, cables and pipes in the wall before you cut into it.",
    );
    let slab = layout.slab;
    let outline = wall.outline().into_iter();
    let outline = outline.map(|it| face.at(Length::mm(it.x), Length::mm(it.y) + slab));
    figure.area(Pen::Edge, None, vec![outline.collect()]);
    let own = subject.layout().site.frames(wall.place);
    subject.draw_hidden(&mut figure, &face.eye, Pen::Hidden, |part| {
        if own {
            part.is_of(ChaseWall::Back) && matches!(part.kind, Kind::Stud | Kind::Cripple)
        } else {
            part.kind == Kind::ExistingStud && wall.holds(part)
        }
    });
    let ceiling = |along| wall.top_at(along) + slab;
    let width = wall.length;
    let top = ceiling(Length::ZERO).min(ceiling(width));
    for (place, line) in lines.iter().enumerate() {
        figure.line(
            Pen::Center,
            face.at(line.right, slab),
            face.at(line.right, ceiling(line.right)),
        );
        figure.call(
            face.at(line.right, top - STEP * (place as f64 + 1.0)),
            format!("{}: {}", line.what, line.tape(subject.unit())),
        );
    }
    let (left, right) = face.ends();
    figure.notes = vec![format!(
        "Seen from the room. Snap each line from slab to ceiling; the numbers beside the names are measured from the {left}, on the wall's finished face. Dashed: the studs that {}.",
        if own { "are framed" } else { "are there" }
    )];
    figure.notes.extend(subject.packed(|it| {
        match wall.place {
            RoomWall::Back => {
                it.is_behind()
                    || [RoomWall::Left, RoomWall::Right]
                        .iter()
                        .any(|wall| it.is_beside(*wall))
            }
            side @ (RoomWall::Left | RoomWall::Right | RoomWall::Behind) => it.is_beside(side),
        }
    }));
    let rights = lines.iter().map(|it| it.right);
    let all = rights.chain([Length::ZERO, width]);
    let edges = lines.iter().filter(|it| it.rounding != Rounding::Nearest);
    let edges = edges.map(|it| (face.along(it.right), it.rounding));
    let chain = Chain::new(Side::Below, all.map(|it| face.along(it)));
    figure.chains = vec![chain.on_marks(face.along(Length::ZERO), edges)];
    if has_hole(subject, wall) {
        hole(subject, &mut figure, &face);
        let (along, inside) = layout.pass.inside;
        figure.notes.push(format!(
            "Center of the hole on this face, from two fixed points: {} from the {left} and {} above the bare slab. Check: {} from the {right}.",
            subject.tape(along),
            subject.tape(inside - slab),
            subject.tape(width - along)
        ));
    } else {
        let height = Chain::new(Side::Left, [slab, ceiling(Length::ZERO)]);
        figure.chains.push(height);
    }
    figure
}

/// The hole and the pipe in it, with their dimensions.
fn hole(subject: &Subject<'_>, figure: &mut Figure, face: &WallFace<'_>) {
    let layout = subject.layout();
    let (pass, slab) = (&layout.pass, layout.slab);
    figure.rectangle(
        Pen::Cut,
        &Rect {
            low: face.at(pass.sides.low, pass.heights.low),
            high: face.at(pass.sides.high, pass.heights.high),
        },
    );
    let diameter = subject.params().vent.pipe_diameter;
    let pipe = face.pipe(pass.inside, diameter, pass.angle);
    figure.area(Pen::Edge, None, vec![pipe]);
    let ends = [Length::ZERO, pass.inside.0, face.wall.length];
    let top = face.wall.top_at(Length::ZERO) + slab;
    figure.chains.extend([
        Chain::new(Side::Below, ends.map(|it| face.along(it))),
        Chain::new(Side::Left, [slab, pass.heights.low, pass.heights.high])
            .around(slab, pass.heights),
        Chain::new(Side::Left, [slab, pass.inside.1, top]),
    ]);
}
