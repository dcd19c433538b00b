//! Printable parts in, the pieces of the kit out: what is printed in one go, cut where the bed is too small.
//!
//! *Units and frame*: millimetres at full size, in the world's frame.

use glam::DVec3;

use super::Settings;
use super::figure::{Figure, around};
use crate::design::{Branch, Kind};
use crate::geom::{Bounds, Mesh, Plane, TOLERANCE};

/// Between two pieces on a plate, and between a piece and its edge (common practice, no source).
pub(super) const GAP: f64 = 4.0;

/// How far a cut may be moved off its place so that it runs along no stick.
const AWAY: [f64; 13] = [
    0.0, 20.0, -20.0, 40.0, -40.0, 60.0, -60.0, 90.0, -90.0, 130.0, -130.0, 180.0, -180.0,
];

/// What is printed in one go.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// What it is a piece of; `None` for what the chase does not have.
    pub(super) branch: Option<Branch>,
    /// What it is.
    pub(super) name: String,
    /// The meshes that it is made of.
    pub(super) members: Vec<Member>,
}

/// One part of a piece, or what a cut has left of it.
#[derive(Debug, Clone)]
pub(super) struct Member {
    /// What the part is; nothing for what the chase does not have.
    pub(super) kind: Option<Kind>,
    pub(super) mesh: Mesh,
    pub(super) bounds: Bounds,
    /// Whether the mesh is its box.
    pub(super) is_box: bool,
}

impl Member {
    pub(super) fn new(kind: Option<Kind>, mesh: Mesh) -> Self {
        let bounds = around(&mesh);
        let size = bounds.size();
        let share = mesh.volume() / (size.x * size.y * size.z);
        Self {
            kind,
            is_box: (share - 1.0).abs() < TOLERANCE,
            mesh,
            bounds,
        }
    }

    fn below(&self, plane: &Plane) -> Option<Self> {
        let mesh = self.mesh.below(plane);
        (!mesh.triangles.is_empty()).then(|| Self::new(self.kind, mesh))
    }

    /// Whether it is a stick that stands upright.
    fn stands(&self) -> bool {
        let size = self.bounds.size();
        let kind = matches!(
            self.kind,
            Some(Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple)
        );
        kind && self.is_box && size.z > 2.0 * size.x.max(size.y)
    }
}

/// The pieces of a kit, in the order of the design.
pub(super) fn pieces(figures: &[Figure<'_>], settings: &Settings) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    for figure in figures {
        let branch = figure.part.branch;
        let member = Member::new(Some(figure.part.kind), figure.mesh.clone());
        match pieces.iter_mut().find(|it| it.branch == Some(branch)) {
            Some(piece) => piece.members.push(member),
            None => pieces.push(Piece {
                branch: Some(branch),
                name: branch.to_string(),
                members: vec![member],
            }),
        }
    }
    for piece in &mut pieces {
        // Where the face steps forward, the mantel is all that is left of its branch.
        if piece.members.iter().all(|it| it.kind == Some(Kind::Mantel)) {
            "mantel".clone_into(&mut piece.name);
        }
    }
    let fitting = pieces.into_iter().flat_map(|it| fitted(it, settings));
    fitting.collect()
}

/// The axes of a box from its longest side to its shortest: right, away and up on the bed.
pub(super) fn laid(bounds: &Bounds) -> [usize; 3] {
    let size = bounds.size().to_array();
    let mut axes = [0, 1, 2];
    axes.sort_by(|a, b| size[*b].total_cmp(&size[*a]));
    axes
}

/// The box round a piece.
pub(super) fn extent(piece: &Piece) -> Bounds {
    let all = piece.members.iter().map(|it| it.bounds);
    all.fold(Bounds::EMPTY, |all, it| all.union(&it))
}

/// A piece in as many lengths as it takes for the bed.
pub(super) fn fitted(piece: Piece, settings: &Settings) -> Vec<Piece> {
    let axes = laid(&extent(&piece));
    let mut pieces = vec![piece];
    for (side, axis) in axes.into_iter().enumerate().take(2) {
        // What bodies grow by before they are joined is left free.
        let room = (settings.bed[side].to_mm() - 2.0 * GAP) * f64::from(settings.ratio) - 2.0;
        pieces = pieces
            .into_iter()
            .flat_map(|it| lengths(it, axis, room))
            .collect();
    }
    pieces
}

/// A piece in lengths along an axis, none longer than the room.
fn lengths(piece: Piece, axis: usize, room: f64) -> Vec<Piece> {
    let whole = extent(&piece);
    let (low, high) = (whole.low[axis], whole.high[axis]);
    let mut count = 1_u32;
    while (high - low) / f64::from(count) > room {
        count += 1;
    }
    if count == 1 {
        return vec![piece];
    }
    let (mut found, mut rest, mut from) = (Vec::new(), piece.clone(), low);
    for number in 1..count {
        let pieces_left = f64::from(count - number);
        let at = place(
            &piece,
            axis,
            low + (high - low) * f64::from(number) / f64::from(count),
            [from.max(high - pieces_left * room), high.min(from + room)],
        );
        let mut along = DVec3::ZERO;
        along[axis] = 1.0;
        let plane = Plane::through(along * at, along);
        found.push(part(&rest, &plane));
        rest = part(&rest, &turned(&plane));
        from = at;
    }
    found.push(rest);
    for (piece, number) in found.iter_mut().zip(1..) {
        piece.name = format!("{}, length {number} of {count}", piece.name);
    }
    found
}

fn turned(plane: &Plane) -> Plane {
    Plane {
        normal: -plane.normal,
        offset: -plane.offset,
    }
}

fn part(piece: &Piece, plane: &Plane) -> Piece {
    Piece {
        branch: piece.branch,
        name: piece.name.clone(),
        members: piece
            .members
            .iter()
            .filter_map(|it| it.below(plane))
            .collect(),
    }
}

/// Where a piece is cut: along the middle of the nearest stud, or where no stick lies along the cut.
fn place(piece: &Piece, axis: usize, wanted: f64, [low, high]: [f64; 2]) -> f64 {
    let allowed = |at: &f64| low <= *at && *at <= high;
    let nearest = |a: &f64, b: &f64| (a - wanted).abs().total_cmp(&(b - wanted).abs());
    if axis < 2 {
        let studs = piece.members.iter().filter(|it| it.stands());
        let middles = studs.map(|it| it.bounds.center()[axis]).filter(allowed);
        if let Some(at) = middles.min_by(nearest) {
            return at;
        }
    }
    let crosses_well = |at: &f64| {
        let lying = piece.members.iter().filter(|it| {
            let size = it.bounds.size();
            size[axis] < 0.5 * size.max_element()
        });
        let mut inside = lying.map(|it| (it.bounds.low[axis], it.bounds.high[axis]));
        inside.all(|(low, high)| *at < low - 10.0 || *at > high + 10.0)
    };
    let places = AWAY.map(|away| wanted + away).into_iter().filter(allowed);
    places.clone().find(crosses_well).unwrap_or(wanted)
}
