//! A design and its kit in, the assembly sheet out: a picture of the pieces drawn apart, with their numbers, and
//! the list of them.
//!
//! *Units and frame*: millimetres of paper from the upper left corner, y down; the picture is not to scale.

use glam::{DVec2, DVec3};

use crate::design::{Branch, Design, Group};
use crate::drawing::{
    Drawing, Fill, Ink, Paper, Pen, Rect, Scale, Sheet, Text, letters, visible_lines,
};
use crate::geom::{Body, Bounds, Frame, edges};
use crate::scale::{Kit, ScaleModel};
use crate::units::Length;

/// From the paper's edge, and between picture and list.
const MARGIN: f64 = 12.0;
/// Width of the list.
const LIST: f64 = 140.0;
/// Letters of the title, and of all else.
const TITLE: f64 = 5.0;
const WORD: f64 = letters::SMALLEST;
/// Radius of the ring round a number, in which one digit or more stand.
const RING: f64 = 4.2;
/// How far pieces are drawn apart: so many times their distance from the middle, and the skins in front.
const APART: f64 = 0.8;
const SKINS: f64 = 700.0;
/// The pictures' eye: right, and up, seen from the upper right of the room.
const RIGHT: DVec3 = DVec3::new(0.8, 0.6, 0.0);
const UP: DVec3 = DVec3::new(-0.24, 0.32, 0.916_515_138_991_168);

/// What is drawn as one: the parts of one branch, whichever lengths they are printed in.
struct Cluster<'a> {
    numbers: String,
    bodies: Vec<&'a Body>,
    skins: bool,
}

/// The sheet of a scale model's kit.
pub(super) fn sheet(design: &Design, model: &ScaleModel) -> Sheet {
    let paper = Paper::usual(design.params.project.unit);
    let size = paper.size();
    let title = format!("Kit, 1:{}", model.settings.ratio);
    let mut ink = vec![text(
        DVec2::new(MARGIN, MARGIN + TITLE),
        TITLE,
        format!("{}: {title}", design.params.project.name),
    )];
    let room = Rect {
        low: DVec2::new(MARGIN, MARGIN + 2.0 * TITLE),
        high: size - DVec2::new(2.0 * MARGIN + LIST, MARGIN),
    };
    picture(&clusters(design, &model.kit), &room, &mut ink);
    list(model, size, &mut ink);
    Sheet {
        shows: Drawing::Kit,
        title,
        paper,
        scale: Scale::FULL,
        origin: DVec2::ZERO,
        chains: Vec::new(),
        ink,
    }
}

fn text(at: DVec2, size: f64, words: impl Into<String>) -> Ink {
    Ink::Text(Text::new(at, size, words))
}

fn clusters<'a>(design: &'a Design, kit: &'a Kit) -> Vec<Cluster<'a>> {
    let mut clusters: Vec<(Option<Branch>, Cluster<'a>)> = Vec::new();
    for (piece, number) in kit.pieces.iter().zip(1..) {
        if let Some((_, cluster)) = clusters.iter_mut().find(|it| it.0 == piece.branch) {
            cluster.numbers = format!("{}, {number}", cluster.numbers);
            continue;
        }
        let parts = design
            .parts
            .iter()
            .filter(|part| !part.group.stands_already() && Some(part.branch) == piece.branch);
        let skins = parts.clone().any(|it| it.group == Group::Skins);
        let mut bodies: Vec<&Body> = parts.map(|it| &it.body).collect();
        if bodies.is_empty() {
            bodies.extend(&kit.wedge);
        }
        let cluster = Cluster {
            numbers: number.to_string(),
            bodies,
            skins,
        };
        clusters.push((piece.branch, cluster));
    }
    clusters.into_iter().map(|it| it.1).collect()
}

fn around<'a>(bodies: impl Iterator<Item = &'a Body>) -> Bounds {
    bodies.fold(Bounds::EMPTY, |all, it| all.union(&it.bounds))
}

/// Draws the clusters apart, each with its numbers in the middle of what is seen of it.
fn picture(clusters: &[Cluster<'_>], room: &Rect, ink: &mut Vec<Ink>) {
    let middle = around(clusters.iter().flat_map(|it| it.bodies.iter().copied())).center();
    let mut moved: Vec<Body> = Vec::new();
    let mut middles = Vec::new();
    for cluster in clusters {
        let center = around(cluster.bodies.iter().copied()).center();
        let mut shift = (center - middle) * APART;
        if cluster.skins {
            shift.y -= SKINS;
        }
        middles.push(center + shift);
        moved.extend(cluster.bodies.iter().map(|body| {
            let frame = Frame {
                origin: body.frame.origin + shift,
                ..body.frame
            };
            Body::new(body.shape.clone(), frame)
        }));
    }
    let lines = visible_lines(&moved.iter().collect::<Vec<_>>(), RIGHT, UP);
    let seen = Rect::around(lines.iter().flatten().copied());
    let scale = (room.size() / seen.size()).min_element();
    let place = |point: DVec2| {
        let away = (point - seen.center()) * scale;
        room.center() + DVec2::new(away.x, -away.y)
    };
    let rings: Vec<(DVec2, &Cluster<'_>)> = middles
        .iter()
        .map(|it| place(DVec2::new(it.dot(RIGHT), it.dot(UP))))
        .zip(clusters)
        .collect();
    let rings = spread(rings);
    let pen = Pen::Edge;
    for [from, to] in lines {
        let (from, to) = (place(from), place(to));
        ink.push(Ink::Line { from, to, pen });
    }
    for (at, cluster) in rings {
        number(at, &cluster.numbers, ink);
    }
}

/// Moves rings that would lie on one another down, one after the other.
fn spread<T>(rings: Vec<(DVec2, T)>) -> Vec<(DVec2, T)> {
    let mut found: Vec<(DVec2, T)> = Vec::new();
    for (mut at, what) in rings {
        while found
            .iter()
            .any(|it| (it.0 - at).abs().cmplt(DVec2::new(5.0, 2.0) * RING).all())
        {
            at.y += RING;
        }
        found.push((at, what));
    }
    found
}

/// A number on white in a box, so that no line runs through it.
fn number(at: DVec2, words: &str, ink: &mut Vec<Ink>) {
    let half = DVec2::new(letters::width(words, WORD) / 2.0 + 1.2, RING / 2.0 + 0.4);
    let corners = [
        at - half,
        DVec2::new(at.x + half.x, at.y - half.y),
        at + half,
        DVec2::new(at.x - half.x, at.y + half.y),
    ];
    ink.push(Ink::Area {
        loops: vec![corners.to_vec()],
        fill: Fill::Gray,
    });
    for (from, to) in edges(&corners) {
        ink.push(Ink::Line {
            from,
            to,
            pen: Pen::Thin,
        });
    }
    ink.push(Ink::Text(
        Text::new(at, WORD, words.to_owned()).centered(at),
    ));
}

/// The list of the pieces, the plates they lie on, and how they are put together.
fn list(model: &ScaleModel, size: DVec2, ink: &mut Vec<Ink>) {
    let left = size.x - MARGIN - LIST;
    let mut at = DVec2::new(left, MARGIN + TITLE);
    for line in words(model) {
        for line in letters::wrapped(&line, WORD, LIST) {
            ink.push(text(at, WORD, line));
            at.y += letters::LINE;
        }
    }
}

fn words(model: &ScaleModel) -> Vec<String> {
    let kit = &model.kit;
    let mut lines = vec!["no., piece, plate".to_owned()];
    for (piece, number) in kit.pieces.iter().zip(1..) {
        let own = format!("{number} {}", piece.name);
        let holds = |name: &str| name == own || name.starts_with(&format!("{own}, body"));
        let plates = kit.plates.iter().zip(1..);
        let on: Vec<String> = plates
            .filter(|it| it.0.seats.iter().any(|seat| holds(&seat.piece.name)))
            .map(|it| it.1.to_string())
            .collect();
        lines.push(format!("{own}: plate {}", on.join(", ")));
    }
    lines.push(String::new());
    lines.extend(joints(kit));
    lines
}

/// What is said of the joints; also in the text file.
pub(super) fn joints(kit: &Kit) -> Vec<String> {
    let [peg, fit] = kit.peg.map(Length::to_mm);
    let mut lines = vec![
        format!(
            "Pegs are {peg:.2} mm square, their sockets {fit:.2} mm wider: {:.2} mm of play on each side. Try one before gluing.",
            fit / 2.0
        ),
        "Each piece bears its number, sunk into a face that is hidden once assembled.".to_owned(),
        "Order: platform, side walls, front walls, unit, vent, roof wedge, skins, mantel."
            .to_owned(),
        "Measure the check bar: 50.0 mm along its long side.".to_owned(),
    ];
    let bare = kit.pieces.iter().zip(1..).filter(|it| !it.0.is_marked);
    let bare: Vec<String> = bare.map(|it| it.1.to_string()).collect();
    if !bare.is_empty() {
        let found = "no hidden face is large enough for a number";
        lines.push(format!("Not marked, since {found}: {}.", bare.join(", ")));
    }
    let mut pairs: Vec<([usize; 2], Vec<f64>)> = Vec::new();
    for (pair, length) in &kit.pegs {
        match pairs.iter_mut().find(|it| it.0 == *pair) {
            Some((_, lengths)) => lengths.push(length.to_mm()),
            None => pairs.push((*pair, vec![length.to_mm()])),
        }
    }
    for ([first, second], lengths) in pairs {
        let lengths: Vec<String> = lengths.iter().map(|it| format!("{it:.1}")).collect();
        lines.push(format!(
            "{first} and {second}: pegs {} mm",
            lengths.join(" and ")
        ));
    }
    lines
}
