//! The board on each face of the chase: its pieces with their marks, joints, cut-outs, and the sticks behind them.

use glam::{DVec2, DVec3};

use crate::design::{Branch, Group, Kind, Part};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::{Figure, Label};
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::Subject;
use crate::takeoff::{SheetPiece, cut_roundings};
use crate::units::{Length, Rounding};

/// A face that is nowhere as high and as wide as this needs no drawing: the sheets show its strips.
const LEAST: f64 = 300.0;
/// How near to a face's plane a stick behind the board begins.
const BEHIND: f64 = 40.0;

/// Edges of what is cut out, along one way, and which way each goes to a mark.
type Edges = Vec<(Length, Rounding)>;

/// The pieces of one face, all in one plane's direction.
struct Board<'a> {
    branch: Branch,
    eye: Eye,
    out: DVec3,
    pieces: Vec<&'a SheetPiece>,
}

/// A drawing of each boarded face.
pub(in crate::drawing) fn boards(subject: &Subject<'_>) -> Vec<Figure> {
    let mut faces: Vec<Board<'_>> = Vec::new();
    for piece in subject.takeoff.sheets.iter().flat_map(|it| &it.pieces) {
        let parts = &subject.design.parts;
        let is_board = |it: &&Part| it.id == piece.part && it.kind == Kind::Board;
        let Some(part) = parts.iter().find(is_board) else {
            continue;
        };
        let branch = part.branch;
        let out = piece.frame.z;
        let same = |it: &&mut Board<'_>| it.branch == branch && it.out.dot(out) > 1.0 - 1e-9;
        match faces.iter_mut().find(same) {
            Some(face) => face.pieces.push(piece),
            None => faces.push(Board {
                branch,
                eye: Eye::new(piece.frame.x, piece.frame.y, out),
                out,
                pieces: vec![piece],
            }),
        }
    }
    let wide = faces.iter().filter(|face| {
        let corners = face.pieces.iter().flat_map(|piece| face.corners(piece));
        let size = Rect::around(corners.flatten()).size();
        size.min_element() > LEAST
    });
    wide.map(|face| drawing(subject, face)).collect()
}

impl Board<'_> {
    /// The outlines of a piece in the view.
    fn corners(&self, piece: &SheetPiece) -> Vec<Vec<DVec2>> {
        let see = |corner: &DVec2| {
            let point = piece.frame.point(corner.extend(0.0));
            self.eye.see(point).truncate()
        };
        let loops = piece.loops.iter();
        loops.map(|it| it.iter().map(see).collect()).collect()
    }

    /// Whether a stick lies behind the board, near enough for a screw.
    fn backs(&self, part: &Part) -> bool {
        let plane = self.pieces[0].frame.origin.dot(self.out);
        let gap = plane - part.body.farthest(self.out).dot(self.out);
        matches!(part.group, Group::Framing | Group::Platform) && gap.abs() < BEHIND
    }
}

fn drawing(subject: &Subject<'_>, face: &Board<'_>) -> Figure {
    let mut figure = Figure::new(
        format!("Board: {}", face.branch),
        "No joint at an opening's corner; leave the gap that the manual requires around the unit.",
    );
    let all = face.pieces.iter().flat_map(|it| face.corners(it));
    let around = Rect::around(all.flatten());
    let (mut across, mut up) = (Vec::new(), Vec::new());
    let (mut cut_across, mut cut_up) = (Edges::new(), Edges::new());
    for piece in &face.pieces {
        let loops = face.corners(piece);
        let own = Rect::around(loops.iter().flatten().copied());
        across.extend([own.low.x, own.high.x]);
        up.extend([own.low.y, own.high.y]);
        let ways = cut_roundings(&loops).into_iter().flatten();
        for (corner, way) in loops.iter().flatten().zip(ways) {
            for (axis, cut) in [&mut cut_across, &mut cut_up].into_iter().enumerate() {
                let place = corner[axis];
                let off = (place - own.low[axis]).min(own.high[axis] - place);
                cut.extend((off > 0.5).then_some((Length::mm(place), way[axis])));
            }
        }
        figure.labels.push(Label {
            text: format!(
                "{}  {} x {}",
                piece.mark,
                subject.tape(Length::mm(own.size().x)),
                subject.tape(Length::mm(own.size().y))
            ),
            short: Some(piece.mark.clone()),
            around: super::panels::roomiest(&loops),
        });
        figure.area(Pen::Edge, None, loops);
    }
    subject.draw_hidden(&mut figure, &face.eye, Pen::Hidden, |part| face.backs(part));
    // what lies on the edge stays
    figure.crop(&around.grown(1.0));
    let chain = |side, stops: &[f64]| Chain::new(side, stops.iter().map(|it| Length::mm(*it)));
    figure.chains = vec![
        chain(Side::Below, &across),
        chain(Side::Below, &[around.low.x, around.high.x]),
        chain(Side::Left, &up),
        chain(Side::Left, &[around.low.y, around.high.y]),
    ];
    figure.chains.dedup_by(|a, b| a == b);
    // cut-outs and steps, from the face's ends
    for (side, cut, ends) in [
        (Side::Above, cut_across, [around.low.x, around.high.x]),
        (Side::Right, cut_up, [around.low.y, around.high.y]),
    ] {
        if !cut.is_empty() {
            let stops = cut.iter().map(|it| it.0.to_mm()).chain(ends);
            let chain = chain(side, &stops.collect::<Vec<_>>());
            figure.chains.push(chain.on_marks(Length::mm(ends[0]), cut));
        }
    }
    let own = &subject.params().fasteners;
    figure.notes = vec![format!(
        "Full lines: edges and joints of the pieces, with their marks on the sheets. Dashed: sticks behind the board; a \
         screw every {} along each.",
        subject.tape(own.board_screw_spacing)
    )];
    let is_plumb = face.pieces.iter().all(|it| it.frame.y.z > 1.0 - 1e-9);
    let bottom = Length::mm(around.low.y) - subject.layout().slab;
    if is_plumb && bottom.is_positive() {
        let above = subject.tape(bottom);
        figure
            .notes
            .push(format!("Its lowest edge is {above} above the bare slab."));
    }
    figure.notes.extend(warnings(face));
    figure
}

/// What is to be done about joints that the framing does not carry, or that lie where board cracks.
fn warnings(face: &Board<'_>) -> Vec<String> {
    let marks = |wanted: fn(&SheetPiece) -> bool| {
        let pieces = face.pieces.iter().filter(|it| wanted(it));
        let marks: Vec<&str> = pieces.map(|it| it.mark.as_str()).collect();
        marks.join(", ")
    };
    let bare = marks(|it| !it.backers.is_empty());
    let cracking = marks(|it| !it.at_corners.is_empty());
    let said = [
        (bare, "put a backer behind the joint at the far end of"),
        (
            cracking,
            "a joint falls at an opening's corner, since nothing else fits, at the far end of",
        ),
    ];
    let said = said.into_iter().filter(|it| !it.0.is_empty());
    said.map(|(marks, what)| format!("Watch: {what} {marks}."))
        .collect()
}
