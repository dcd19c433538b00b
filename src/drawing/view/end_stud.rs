//! Where a side wall of the chase ends at a wall of the room, seen from above: its end stud, and the stud or the block
//! behind it that it is screwed to.

use glam::DVec3;

use super::attachment::fasteners;
use crate::design::{Branch, Kind, LEAST_HOLD, Part, Span, StandingWall};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Rect;
use crate::drawing::subject::{Subject, at};
use crate::params::{ChaseWall, RoomWall};
use crate::takeoff::Purpose;
use crate::units::Length;

/// How much of the walls is shown round the end, along the wall and out from it.
const BESIDE: Length = Length::inches(18.0);
const AROUND: Length = Length::inches(7.0);
/// How much is shown past the wall's other face.
const BEHIND: Length = Length::inches(2.0);
/// Over the slab, where no block is that says otherwise.
const HEIGHT: Length = Length::inches(24.0);

/// The ends of each side wall at the walls that the unit's center line meets.
pub(in crate::drawing) fn details(subject: &Subject<'_>) -> Vec<Figure> {
    let standing = subject.layout().standing.iter();
    let walls = standing.filter(|it| matches!(it.place, RoomWall::Back | RoomWall::Behind));
    let walls: Vec<&StandingWall> = walls.collect();
    let sides = ChaseWall::SIDES.into_iter();
    let ends = sides.flat_map(|side| walls.iter().map(move |wall| (side, *wall)));
    ends.filter_map(|(side, wall)| end(subject, side, wall))
        .collect()
}

fn end(subject: &Subject<'_>, side: ChaseWall, wall: &StandingWall) -> Option<Figure> {
    let layout = subject.layout();
    let is_upright =
        |part: &&Part| matches!(part.kind, Kind::Stud | Kind::King) && part.is_of(side);
    let mut own = subject.design.parts.iter().filter(is_upright);
    let (stud, span) = own.find_map(|it| Some((it, wall.against(it)?)))?;
    let is_opened = wall.place == RoomWall::Back && layout.opened.is_some();
    let name = if is_opened {
        ChaseWall::Opened.name()
    } else {
        wall.place.name()
    };
    let mut figure = Figure::new(
        format!("End of the {side} at the {name}, from above"),
        "Locate cables and pipes in the wall before you drive a screw.",
    );
    let eye = Eye::new(wall.frame.x, wall.frame.y, DVec3::Z);
    let block = block(subject, wall, span);
    let height = block.map_or(layout.slab + HEIGHT, |it| it.heights().center());
    let plane = eye.plane(DVec3::Z * height.to_mm());
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    let origin = eye.see(wall.frame.origin);
    let along = |place: Length| place + Length::mm(origin.x);
    let face = Length::mm(origin.y);
    let outside = face + wall.depths.outside;
    // a flush chase ends at the back of the wall that it is set into
    let (before, behind) = if is_opened {
        (BEHIND, AROUND)
    } else {
        (AROUND, BEHIND)
    };
    figure.crop(&Rect {
        low: at(along(span.low) - BESIDE, face - before),
        high: at(along(span.high) + BESIDE, outside + behind),
    });
    let screwed = screwed(subject, wall, (span, name), block.is_some());
    let mark = subject.mark(stud).unwrap_or_default();
    figure.call(
        eye.see(stud.body.bounds.center()).truncate(),
        format!("end stud {mark}, screwed to {screwed}"),
    );
    let clear = wall.bay(span.center());
    let near = Span::new(along(span.low) - BESIDE, along(span.high) + BESIDE);
    let is_near = |it: &Length| *it > near.low && *it < near.high;
    let bay = [clear.low, clear.high].map(along).into_iter();
    let stops = [span.low, span.high].map(along).into_iter();
    let layers = [
        face,
        face + wall.depths.studs,
        face + wall.depths.sheathing,
        outside,
    ];
    figure.chains = vec![
        Chain::new(Side::Below, stops.chain(bay.filter(is_near))),
        Chain::new(Side::Left, layers),
    ];
    let whence = match wall.place {
        RoomWall::Behind => "left end of the wall behind the chase",
        RoomWall::Back | RoomWall::Left | RoomWall::Right => "left corner of the room",
    };
    let tape = |length| subject.tape(length);
    figure.notes = vec![format!(
        "Cut {} above the bare slab. The end stud is {} to {} from the {whence}, along the wall.",
        tape(height - layout.slab),
        tape(span.low),
        tape(span.high)
    )];
    figure
        .notes
        .extend(fasteners(subject, &[Purpose::EndStuds]));
    Some(figure)
}

/// What an end stud is screwed to.
fn screwed(
    subject: &Subject<'_>,
    wall: &StandingWall,
    (span, name): (Span, &str),
    has_block: bool,
) -> String {
    let holding = wall.stud_behind(span);
    if !(LEAST_HOLD - holding).is_positive() {
        format!("a stud of the {name}")
    } else if has_block {
        "the blocks between the studs".to_owned()
    } else {
        format!(
            "what is found there: no known stud would hold it with {}",
            subject.tape(LEAST_HOLD)
        )
    }
}

/// A block in the wall behind a stretch of its face.
fn block<'a>(subject: &Subject<'a>, wall: &StandingWall, span: Span) -> Option<&'a Part> {
    let parts = subject.design.parts.iter();
    let mut blocks = parts.filter(|it| it.is_of(Branch::ExistingWall) && wall.holds(it));
    blocks.find(|it| {
        let way = wall.frame.x;
        let from = Length::mm(way.dot(wall.frame.origin));
        it.reach(way).moved(-from).overlaps(span)
    })
}
