//! Blocks in the walls and in the ceiling that stand already: between which studs or rafters they go, and where.

use glam::{DVec2, DVec3};

use super::face::WallFace;
use crate::design::{Branch, CeilingMembers, Kind, Part, StandingWall};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::solid::Solid;
use crate::drawing::subject::Subject;
use crate::params::RoomWall;
use crate::units::Length;

/// How much of the ceiling is shown past the blocks, and before the wall and the corner.
const PAST: Length = Length::inches(16.0);
const BEFORE: Length = Length::inches(4.0);

fn is_block(part: &Part, branch: Branch) -> bool {
    part.kind == Kind::Blocking && part.is_of(branch)
}

/// Every wall of the room that gets blocks, with the studs that they go between.
pub(in crate::drawing) fn in_walls(subject: &Subject<'_>) -> Vec<Figure> {
    let walls = subject.layout().standing.iter();
    walls.filter_map(|wall| in_wall(subject, wall)).collect()
}

fn in_wall(subject: &Subject<'_>, wall: &StandingWall) -> Option<Figure> {
    let slab = subject.layout().slab;
    let own = |part: &Part| is_block(part, Branch::ExistingWall) && wall.holds(part);
    let face = WallFace::inside(wall);
    let blocks = boxes(&subject.parts(own), &face.eye);
    if blocks.is_empty() {
        return None;
    }
    let name = match wall.place {
        RoomWall::Back => "existing wall",
        place @ (RoomWall::Left | RoomWall::Right | RoomWall::Behind) => place.name(),
    };
    let mut figure = Figure::new(
        format!("Framing: {name}, blocks in it, seen from the room"),
        "Locate cables and pipes in the wall before you open it.",
    );
    let is_stud = |part: &Part| {
        let upright = matches!(part.kind, Kind::ExistingStud | Kind::Stud | Kind::Cripple);
        upright && wall.holds(part)
    };
    subject.draw(&mut figure, &face.eye, None, |part| {
        own(part) || is_stud(part)
    });
    let outline = wall.outline().into_iter();
    let outline = outline.map(|it| face.at(Length::mm(it.x), Length::mm(it.y) + slab));
    figure.area(Pen::Edge, None, vec![outline.collect()]);
    subject.draw_hidden(&mut figure, &face.eye, Pen::Hidden, |part| {
        let ends = matches!(part.kind, Kind::Stud | Kind::King | Kind::Return);
        ends && !wall.holds(part) && wall.against(part).is_some()
    });
    subject.label(&mut figure, &face.eye, own);
    let (begin, end) = (face.along(Length::ZERO), face.along(wall.length));
    let middle = (begin + end) / 2.0;
    let at_left = |it: &&Rect| Length::mm(it.center().x) <= middle;
    let bottoms = |left: bool| {
        let blocks = blocks.iter().filter(move |it| at_left(it) == left);
        blocks.map(|it| Length::mm(it.low.y)).chain([slab])
    };
    let sides = blocks.iter().flat_map(|it| [it.low.x, it.high.x]);
    figure.chains = vec![
        Chain::new(Side::Below, sides.map(Length::mm).chain([begin])).running(),
        Chain::new(Side::Below, [begin, end]),
        Chain::new(Side::Left, bottoms(true)).running(),
        Chain::new(Side::Right, bottoms(false)).running(),
    ];
    let (left, _) = face.ends();
    figure.notes = vec![
        format!(
            "Marks are those of the cut list; thin: existing studs. Along the wall every number is measured from the {left}, to the studs' faces, between which a block is cut to fit; heights are from the bare slab to each block's lower edge."
        ),
        "Dashed: the chase's own studs that end against the wall there. Blocks stand flat behind the board, wide face to the room."
            .to_owned(),
    ];
    Some(figure)
}

/// The boxes of parts as they are seen.
fn boxes(parts: &[(&Part, &Solid)], eye: &Eye) -> Vec<Rect> {
    let solids = parts.iter().map(|it| it.1);
    solids.map(|it| eye.around(&it.vertices)).collect()
}

/// The ceiling with its blocks, in its own plane, so that lengths along it are true.
pub(in crate::drawing) fn over_ceiling(subject: &Subject<'_>) -> Vec<Figure> {
    let own = |part: &Part| is_block(part, Branch::Ceiling);
    let blocks = subject.parts(own);
    let members = CeilingMembers::of(subject.params());
    let (Some(members), false) = (members, blocks.is_empty()) else {
        return Vec::new();
    };
    let ceiling = subject.layout().ceiling.seen_from(&members.room);
    let [plane] = ceiling.planes() else {
        return Vec::new();
    };
    let middles = blocks.iter().map(|it| it.0.body.bounds.center());
    // those of a flush chase lie behind the wall
    let is_behind = middles
        .map(|it| members.room.local_point(it).y)
        .all(|it| it > 0.0);
    let along = DVec3::new(1.0, 0.0, plane.slope.x).normalize();
    let normal = DVec3::new(-plane.slope.x, -plane.slope.y, 1.0).normalize();
    let back = if is_behind { normal } else { -normal };
    let [right, back] = [along, back].map(|it| members.room.vector(it));
    let eye = Eye::new(right, back.cross(right), back);
    let (from, foot) = if is_behind {
        ("seen from above", "the wall that is opened")
    } else {
        ("looking up", "the fireplace wall")
    };
    let mut figure = Figure::new(
        format!("Framing: ceiling, blocks over it, {from}"),
        "Locate cables and pipes over the ceiling before you open it.",
    );
    subject.draw(&mut figure, &eye, None, |part| {
        part.kind == Kind::Rafter || own(part)
    });
    let is_plate = |part: &Part| part.kind == Kind::TopPlate;
    subject.draw_hidden(&mut figure, &eye, Pen::Hidden, is_plate);
    let datum = members.room.point(DVec3::Z * plane.height);
    let datum = eye.see(datum).truncate();
    let faces: Vec<Rect> = blocks
        .iter()
        .map(|(_, it)| lower_face(it, &members, &eye))
        .collect();
    let all = Rect::around(faces.iter().flat_map(|it| [it.low, it.high]).chain([datum]));
    let shown = Rect {
        low: all.low - BEFORE.to_mm(),
        high: all.high + PAST.to_mm(),
    };
    figure.crop(&shown);
    let away = if is_behind { 1.0 } else { -1.0 };
    let beside = members
        .room
        .vector(DVec3::new(0.0, away, away * plane.slope.y));
    let beside = eye.see(beside).truncate();
    let size = shown.high - datum;
    figure.line(Pen::Cut, datum, datum + DVec2::X * size.x);
    figure.line(Pen::Cut, datum, datum + beside * (size.y / beside.y));
    figure.call(
        datum + DVec2::new(size.x * 0.8, 0.0),
        format!("finished face of {foot}"),
    );
    subject.label(&mut figure, &eye, own);
    names(subject, &mut figure, &eye, &shown);
    let sides = faces.iter().flat_map(|it| [it.low.x, it.high.x]);
    let sides = sides.chain([datum.x]).map(Length::mm);
    let edges = faces.iter().flat_map(|it| [it.low.y, it.high.y]);
    let edges = edges.chain([datum.y]).map(Length::mm);
    figure.chains = vec![
        Chain::new(Side::Below, sides).running(),
        Chain::new(Side::Left, edges).running(),
    ];
    let runs = subject
        .params()
        .rafters
        .as_ref()
        .map_or("rafter", |it| it.kind.word());
    figure.notes = vec![
        format!(
            "Board off, {from}, with {foot} at the foot. Marks are those of the cut list; thin: existing {runs}s; dashed: top plates under them."
        ),
        "Numbers are measured from the room's left corner along the wall, and from the wall's finished face along the ceiling, to the sides \
         of each block, on the board's upper face."
            .to_owned(),
    ];
    vec![figure]
}

/// The side of a block that lies on the board, as it is seen.
fn lower_face(block: &Solid, members: &CeilingMembers, eye: &Eye) -> Rect {
    let up = eye.see(members.room.z).z.signum();
    let height = |it: &DVec3| eye.see(*it).z * up;
    let lowest = block
        .vertices
        .iter()
        .map(height)
        .fold(f64::INFINITY, f64::min);
    let corners = block.vertices.iter().filter(|it| height(it) < lowest + 1.0);
    eye.around(corners)
}

/// The names of the walls whose top plates are shown.
fn names(subject: &Subject<'_>, figure: &mut Figure, eye: &Eye, shown: &Rect) {
    let mut said: Vec<Branch> = Vec::new();
    for (part, solid) in subject.parts(|it| it.kind == Kind::TopPlate) {
        let middle = eye.around(&solid.vertices).center();
        let (low, high) = (
            shown.low.cmplt(middle).all(),
            shown.high.cmpgt(middle).all(),
        );
        if low && high && !said.contains(&part.branch) {
            said.push(part.branch);
            figure.call(middle, format!("top plate of the {} wall", part.branch));
        }
    }
}
