//! The framing of each wall, laid out flat in its own plane, with what is written on its sticks.

use glam::DVec2;

use crate::design::{Branch, Group, Kind, Part, Stock};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::Subject;
use crate::params::ChaseWall;
use crate::units::Length;

/// How much of a wall that is opened is shown round what is framed into it, in millimetres.
const AROUND: DVec2 = DVec2::new(254.0, 60.0);

/// A framing elevation of every wall.
pub(in crate::drawing) fn walls(subject: &Subject<'_>) -> Vec<Figure> {
    let mut branches: Vec<Branch> = Vec::new();
    for part in subject
        .design
        .parts
        .iter()
        .filter(|part| part.group == Group::Framing)
    {
        // blocks in what stands already have views of their own
        if !branches.contains(&part.branch) && !part.branch.is_in_the_room() {
            branches.push(part.branch);
        }
    }
    branches.iter().map(|it| wall(subject, *it)).collect()
}

/// From where the framing of a branch is looked at.
fn seen(branch: Branch) -> (Eye, &'static str) {
    let from_room = (Eye::FRONT, "seen from the room");
    branch.wall().map_or(from_room, |wall| match wall {
        ChaseWall::LeftSide => (Eye::LEFT, "seen from the left"),
        ChaseWall::RightSide => (Eye::RIGHT, "seen from the right"),
        ChaseWall::Front
        | ChaseWall::SetBack
        | ChaseWall::Back
        | ChaseWall::BumpOut
        | ChaseWall::Opened => from_room,
    })
}

fn wall(subject: &Subject<'_>, branch: Branch) -> Figure {
    let (eye, from) = seen(branch);
    let stands_already = branch.is_opened_wall();
    let mut figure = Figure::new(
        format!("Framing: {branch}, {from}"),
        "Brace a raked wall before you let go of it. Measure the ceiling that is there, not the nominal pitch.",
    );
    let wanted = |part: &Part| part.group == Group::Framing && part.is_of(branch);
    subject.draw(&mut figure, &eye, None, wanted);
    let mut all = figure.bounds();
    if stands_already {
        // its numbers count from the corner and the slab, as those of everything in a wall that stands already
        all.low = DVec2::new(0.0, subject.layout().slab.to_mm());
        // with what stands there already, as far as something is framed into it
        figure.lines.clear();
        subject.draw(&mut figure, &eye, None, |part| {
            part.is_of(branch) && is_stick(part)
        });
        figure.crop(&Rect {
            low: all.low - AROUND,
            high: all.high + AROUND,
        });
    }
    subject.label(&mut figure, &eye, wanted);
    if branch.is_recess() {
        behind_recess(subject, &mut figure, (&eye, all), wanted);
    } else {
        dimensions(subject, &mut figure, (&eye, all), wanted);
    }
    let end = if stands_already {
        "room's left corner, heights from the bare slab"
    } else {
        "left end"
    };
    figure.notes.push(format!(
        "Marks are those of the cut list. Layout is to the left edge of each stick, every number from the {end}; take cut lengths from the \
         cut list."
    ));
    if stands_already {
        figure.notes.push(
            "Without a mark: existing studs and plates. Until the wall is known to be nonbearing, the header only reserves space, and a licensed designer sizes it with its jacks and kings."
                .to_owned(),
        );
    }
    let parts = subject.parts(wanted);
    if parts
        .iter()
        .any(|(part, _)| part.kind == Kind::Blocking && part.stock == Stock::Bought)
    {
        figure.notes.push(
            "Straps have no mark: they are cut on the wall, from the middle of one stud to that of the next."
                .to_owned(),
        );
    }
    figure
}

/// The wall before the framing behind a recess, thin, and that framing's place in it: from the wall's left end and from
/// the slab.
fn behind_recess(
    subject: &Subject<'_>,
    figure: &mut Figure,
    (eye, own): (&Eye, Rect),
    wanted: impl Fn(&Part) -> bool,
) {
    let carrying = |part: &Part| part.group == Group::Framing && part.branch.has_recess();
    let mut before = Figure::new("", "");
    subject.draw(&mut before, eye, None, carrying);
    let wall = before.bounds();
    let lines = before.lines.into_iter();
    figure.lines.extend(lines.map(|it| (Pen::Context, it.1)));
    let slab = subject.layout().slab;
    let sticks = subject.parts(wanted).into_iter();
    let sticks = sticks.map(|(_, solid)| eye.around(&solid.vertices));
    let (uprights, blocks): (Vec<Rect>, Vec<Rect>) =
        sticks.partition(|it| it.size().y > it.size().x);
    let lefts = uprights.iter().map(|it| Length::mm(it.low.x));
    let bottoms = blocks.iter().map(|it| Length::mm(it.low.y));
    let [begin, end, last] = [wall.low.x, wall.high.x, own.high.x].map(Length::mm);
    figure.chains = vec![
        Chain::new(Side::Below, lefts.chain([begin, last])).running(),
        Chain::new(Side::Below, [begin, end]),
        Chain::new(
            Side::Left,
            [slab, Length::mm(own.low.y), Length::mm(own.high.y)],
        ),
    ];
    if !blocks.is_empty() {
        let bottoms = Chain::new(Side::Right, bottoms.chain([slab])).running();
        figure.chains.push(bottoms);
    }
    figure.notes.push(
        "Thin: the wall in front of it; numbers are measured from its left end and from the bare slab; at the right to the lower edges of blocks."
            .to_owned(),
    );
}

fn is_stick(part: &Part) -> bool {
    let existing = matches!(part.kind, Kind::ExistingStud | Kind::ExistingPlate);
    existing || part.group == Group::Framing
}

fn dimensions(
    subject: &Subject<'_>,
    figure: &mut Figure,
    (eye, all): (&Eye, Rect),
    wanted: impl Fn(&Part) -> bool,
) {
    let parts = subject.parts(wanted);
    let sticks: Vec<(Kind, Rect)> = parts
        .iter()
        .map(|(part, solid)| (part.kind, eye.around(&solid.vertices)))
        .collect();
    let bores = parts.iter().flat_map(|(part, _)| {
        let bores = part.body.shape.bores().iter();
        bores.map(|it| Length::mm(eye.around(&[part.body.frame.point(it.start)]).low.y))
    });
    let bores: Vec<Length> = bores.collect();
    let upright = |rect: &Rect| rect.size().y > rect.size().x;
    let standing = |rect: &Rect| rect.low.y < all.low.y + 50.0 && upright(rect);
    let lefts = sticks
        .iter()
        .filter(|it| standing(&it.1))
        .map(|it| Length::mm(it.1.low.x));
    let ends = [Length::mm(all.low.x), Length::mm(all.high.x)];
    let crossing = |kind: &Kind| {
        matches!(
            kind,
            Kind::Header | Kind::Sill | Kind::Ledge | Kind::SolePlate
        )
    };
    let levels = whole(sticks.iter().filter(|it| crossing(&it.0)).map(|it| it.1));
    let levels = levels
        .into_iter()
        .flat_map(|it| [Length::mm(it.low.y), Length::mm(it.high.y)])
        .chain([Length::mm(all.low.y)]);
    let blocks = sticks
        .iter()
        .filter(|it| it.0 == Kind::Blocking && !upright(&it.1));
    let blocks = blocks.map(|it| Length::mm(it.1.low.y));
    let slab = Length::mm(all.low.y);
    let at_bores = Chain::new(Side::Right, bores.into_iter().chain([slab])).running();
    let blocks = Chain::new(Side::Right, blocks.chain([slab])).running();
    let highest = |left: bool| {
        let edge = if left { all.low.x } else { all.high.x };
        let near = sticks.iter().filter(|it| upright(&it.1));
        let near =
            near.filter(|it| (if left { it.1.low.x } else { it.1.high.x } - edge).abs() < 1.0);
        Length::mm(near.fold(all.low.y, |top, it| top.max(it.1.high.y)))
    };
    let bottom = Length::mm(all.low.y);
    let (at_left, at_right) = (highest(true), highest(false));
    let top = Length::mm(all.high.y);
    figure.chains = vec![
        Chain::new(Side::Below, lefts.chain(ends)).running(),
        Chain::new(Side::Below, ends),
        Chain::new(Side::Left, levels),
        Chain::new(Side::Left, [bottom, at_left]),
    ];
    if blocks.stops.len() > 1 {
        figure.notes.push(
            "At the right next to the wall: the lower edges of blocks, from the slab.".to_owned(),
        );
        figure.chains.push(blocks);
    }
    if at_bores.stops.len() > 1 {
        figure.notes.push(
            "At the right next to the wall: up from the slab to the centers of bores; which stick each is in, and its size, is in the layout marks."
                .to_owned(),
        );
        figure.chains.push(at_bores);
    }
    // what is said at the left, or by the whole height, is not said twice
    let mut others = vec![at_right, top];
    others.retain(|it| (*it - at_left).abs().is_positive());
    others.dedup_by(|a, b| !(*a - *b).abs().is_positive());
    let others = others.into_iter();
    figure
        .chains
        .extend(others.map(|it| Chain::new(Side::Right, [bottom, it])));
}

/// Sticks that lie on or in each other from end to end, such as the members and tracks of one header, as one.
fn whole(sticks: impl Iterator<Item = Rect>) -> Vec<Rect> {
    let mut found: Vec<Rect> = Vec::new();
    for stick in sticks {
        let same = |it: &&mut Rect| {
            let ends = (it.low.x - stick.low.x).abs() + (it.high.x - stick.high.x).abs();
            ends < 1.0 && it.low.y < stick.high.y + 0.1 && stick.low.y < it.high.y + 0.1
        };
        match found.iter_mut().find(same) {
            Some(known) => {
                known.low = known.low.min(stick.low);
                known.high = known.high.max(stick.high);
            }
            None => found.push(stick),
        }
    }
    found
}
