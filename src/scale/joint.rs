//! Pieces of a kit in, sockets where they meet out, the pegs that go into them, and the numbers sunk into faces
//! that are hidden once the kit is put together.
//!
//! *Units and frame*: millimetres at full size, in the world's frame. Only faces square to the axes are used.
//!
//! *Source* of the sizes: common practice, no source.

use glam::DVec3;

use super::Settings;
use super::face::Face;
use super::piece::Piece;
use crate::geom::{Bounds, TOLERANCE};

/// Where along a rectangle a peg may be, from its middle.
const SHARES: [f64; 9] = [-0.3, 0.3, 0.0, -0.15, 0.15, -0.4, 0.4, -0.22, 0.22];
/// Side of a peg, in widths of the nozzle.
const PEG: f64 = 3.25;
/// How much wider a socket is than its peg, in millimetres as printed: half of it on each side.
pub(super) const FIT: f64 = 0.2;
/// How deep a socket is at most and at least, and how much shorter the peg is than both sockets together.
const DEEP: [f64; 2] = [3.0, 0.9];
const SHORT: f64 = 0.4;
/// Height and width of a digit, its stroke, the space between strokes and after a digit, and how deep it is sunk.
const DIGIT: [f64; 2] = [2.6, 1.9];
const STROKE: f64 = 0.4;
const SPACE: f64 = 0.05;
const APART: f64 = 0.7;
const SUNK: f64 = 0.4;
/// What is left round a number.
const RIM: f64 = 0.25;

/// The strokes of the digits: top, upper left, upper right, middle, lower left, lower right, bottom.
const STROKES: [[bool; 7]; 10] = {
    const T: bool = true;
    const F: bool = false;
    [
        [T, T, T, F, T, T, T],
        [F, F, T, F, F, T, F],
        [T, F, T, T, T, F, T],
        [T, F, T, T, F, T, T],
        [F, T, T, T, F, T, F],
        [T, T, F, T, F, T, T],
        [T, T, F, T, T, T, T],
        [T, F, T, F, F, T, F],
        [T, T, T, T, T, T, T],
        [T, T, T, T, F, T, T],
    ]
};

/// What is taken out of the pieces, and the pegs.
#[derive(Debug, Default)]
pub(super) struct Joints {
    /// For each piece the boxes taken out of it.
    pub(super) taken: Vec<Vec<Bounds>>,
    /// Pairs of pieces that a peg joins, and its length as printed.
    pub(super) pegs: Vec<(usize, usize, f64)>,
    /// Whether a piece bears its number.
    pub(super) marked: Vec<bool>,
}

/// A rectangle in which two pieces meet.
#[derive(Debug, Clone)]
struct Meeting<'a> {
    pieces: [usize; 2],
    /// The axis across, and where on it.
    axis: usize,
    at: f64,
    /// Whether the first piece lies below.
    first_is_low: bool,
    rectangle: Bounds,
    /// The faces of the two.
    faces: [&'a Face; 2],
}

impl Meeting<'_> {
    /// The axis along the rectangle and the axis across its width.
    fn sides(&self) -> [usize; 2] {
        let [a, b] = [(self.axis + 1) % 3, (self.axis + 2) % 3];
        let size = self.rectangle.size();
        if size[a] >= size[b] { [a, b] } else { [b, a] }
    }

    /// Whether both faces cover what a box takes of them.
    fn covers(&self, bounds: &Bounds) -> bool {
        self.faces.iter().all(|it| it.covers(bounds))
    }

    fn area(&self) -> f64 {
        let [long, wide] = self.sides();
        self.rectangle.size()[long] * self.rectangle.size()[wide]
    }

    /// A box about a point of the rectangle that reaches into the two pieces.
    fn bored(&self, point: DVec3, side: f64, deep: [f64; 2]) -> Bounds {
        let mut half = DVec3::splat(side / 2.0);
        half[self.axis] = 0.0;
        let (mut low, mut high) = (point - half, point + half);
        let [first, second] = deep;
        let (below, above) = if self.first_is_low {
            (first, second)
        } else {
            (second, first)
        };
        low[self.axis] = self.at - below;
        high[self.axis] = self.at + above;
        Bounds { low, high }
    }
}

/// Side of a peg as printed.
pub(super) fn peg_side(settings: &Settings) -> f64 {
    settings.nozzle.to_mm() * PEG
}

/// Sockets, pegs and numbers of the pieces.
pub(super) fn joints(pieces: &[Piece], settings: &Settings) -> Joints {
    let mut joints = Joints {
        taken: vec![Vec::new(); pieces.len()],
        pegs: Vec::new(),
        marked: vec![false; pieces.len()],
    };
    let faces = faces(pieces);
    let mut meetings = meetings(&faces);
    meetings.sort_by(|a, b| b.area().total_cmp(&a.area()));
    for first in 0..pieces.len() {
        for second in first + 1..pieces.len() {
            let own = meetings.iter().filter(|it| it.pieces == [first, second]);
            peg_together(&mut joints, &own.collect::<Vec<_>>(), settings);
        }
    }
    for number in 0..pieces.len() {
        let own = meetings.iter().filter(|it| it.pieces.contains(&number));
        sink(&mut joints, number, own, settings);
    }
    joints
}

/// A face of a piece: its piece, its axis, whether it looks up, the box round its body, and itself.
type Owned = (usize, usize, bool, Bounds, Face);

/// The faces at the ends of every member, along each axis.
fn faces(pieces: &[Piece]) -> Vec<Owned> {
    let mut found = Vec::new();
    for (number, piece) in pieces.iter().enumerate() {
        for member in &piece.members {
            for (axis, up) in (0..3).flat_map(|axis| [(axis, false), (axis, true)]) {
                let face = Face::new(&member.mesh, &member.bounds, axis, up);
                if face.is_there() {
                    found.push((number, axis, up, member.bounds, face));
                }
            }
        }
    }
    found
}

fn meetings(faces: &[Owned]) -> Vec<Meeting<'_>> {
    let mut found = Vec::new();
    for a in faces {
        let others = faces
            .iter()
            .filter(|b| a.0 < b.0 && a.1 == b.1 && a.2 != b.2);
        found.extend(others.filter_map(|b| meeting(a, b)));
    }
    found
}

fn meeting<'a>(
    (first, axis, up, one, face): &'a Owned,
    (second, _, _, two, other): &'a Owned,
) -> Option<Meeting<'a>> {
    let axis = *axis;
    let away = if *up {
        one.high[axis] - two.low[axis]
    } else {
        one.low[axis] - two.high[axis]
    };
    let rectangle = one.common(two);
    let size = rectangle.size();
    let [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
    let meets = away.abs() <= TOLERANCE && size[u] > 1.0 && size[v] > 1.0;
    meets.then(|| Meeting {
        pieces: [*first, *second],
        axis,
        at: rectangle.center()[axis],
        first_is_low: *up,
        rectangle,
        faces: [face, other],
    })
}

/// Up to two pegs between two pieces: in the broadest place, and as far from there as there is another.
fn peg_together(joints: &mut Joints, meetings: &[&Meeting<'_>], settings: &Settings) {
    let ratio = f64::from(settings.ratio);
    let side = (peg_side(settings) + FIT) * ratio;
    let wall = settings.least().to_mm() * ratio;
    let mut places: Vec<(DVec3, &Meeting<'_>, [f64; 2])> = Vec::new();
    for meeting in meetings {
        let [long, wide] = meeting.sides();
        let size = meeting.rectangle.size();
        if size[wide] < side + 2.0 * wall {
            continue;
        }
        for share in SHARES {
            let mut point = meeting.rectangle.center();
            point[long] += share * size[long];
            let around = meeting.bored(point, side + 2.0 * wall, [0.0, 0.0]);
            if !meeting.covers(&around) {
                continue;
            }
            let deep = meeting
                .faces
                .map(|it| (it.depth(&around) - wall).min(DEEP[0] * ratio));
            if deep[0].min(deep[1]) >= DEEP[1] * ratio {
                places.push((point, meeting, deep));
            }
        }
    }
    let is_free = |joints: &Joints, (point, meeting, deep): &(DVec3, &Meeting<'_>, [f64; 2])| {
        let bored = widened(&meeting.bored(*point, side, *deep), wall);
        let taken = meeting.pieces.map(|it| &joints.taken[it]);
        taken.into_iter().flatten().all(|it| !it.touches(&bored))
    };
    let Some(first) = places.iter().find(|it| is_free(joints, it)) else {
        return;
    };
    let away = |it: &&(DVec3, &Meeting<'_>, [f64; 2])| it.0.distance(first.0);
    let free = places.iter().filter(|it| is_free(joints, it));
    let second = free
        .filter(|it| away(it) > 3.0 * side)
        .max_by(|a, b| away(a).total_cmp(&away(b)));
    for (point, meeting, deep) in [Some(first), second].into_iter().flatten() {
        let bored = meeting.bored(*point, side, *deep);
        for piece in meeting.pieces {
            joints.taken[piece].push(bored);
        }
        let length = (deep[0] + deep[1]) / ratio - SHORT;
        joints
            .pegs
            .push((meeting.pieces[0], meeting.pieces[1], length));
    }
}

fn widened(bounds: &Bounds, by: f64) -> Bounds {
    Bounds {
        low: bounds.low - DVec3::splat(by),
        high: bounds.high + DVec3::splat(by),
    }
}

/// Sinks a piece's number into the first hidden face that has room beside the sockets.
fn sink<'a>(
    joints: &mut Joints,
    piece: usize,
    meetings: impl Iterator<Item = &'a Meeting<'a>>,
    settings: &Settings,
) {
    let ratio = f64::from(settings.ratio);
    let digits: Vec<usize> = (piece + 1)
        .to_string()
        .bytes()
        .map(|it| usize::from(it - b'0'))
        .collect();
    let width = digits.len() as f64 * (DIGIT[1] + APART) - APART;
    for meeting in meetings {
        let [long, wide] = meeting.sides();
        let size = meeting.rectangle.size() / ratio;
        let is_first = meeting.pieces[0] == piece;
        let face = meeting.faces[usize::from(!is_first)];
        if size[wide] < DIGIT[0] + 2.0 * RIM {
            continue;
        }
        let room = size[long] - width - 2.0 * RIM;
        if room < 0.0 {
            continue;
        }
        // From the middle outward, in steps.
        let steps = (0..200).map(|step| f64::from(step) * 0.5);
        let shifts = steps
            .take_while(|it| *it <= room / 2.0)
            .flat_map(|it| [it, -it]);
        for shift in shifts {
            let strokes = strokes(meeting, is_first, &digits, shift, ratio);
            let around = strokes.iter().fold(Bounds::EMPTY, |all, it| all.union(it));
            let around = widened(&around, RIM * ratio);
            let is_free = joints.taken[piece].iter().all(|it| !it.touches(&around));
            let is_deep = face.depth(&around) > (SUNK + RIM) * ratio;
            if is_free && is_deep && meeting.covers(&around) {
                joints.taken[piece].extend(strokes);
                joints.marked[piece] = true;
                return;
            }
        }
    }
}

/// The strokes of a number in a meeting's rectangle, as seen from outside the piece.
fn strokes(
    meeting: &Meeting<'_>,
    is_first: bool,
    digits: &[usize],
    shift: f64,
    ratio: f64,
) -> Vec<Bounds> {
    let [long, wide] = meeting.sides();
    let points_up = is_first == meeting.first_is_low;
    let outward = if points_up { 1.0 } else { -1.0 };
    // Reading runs along the rectangle, so that outward, reading and upward are right-handed.
    let is_cyclic = (long + 1) % 3 == wide;
    let upward = if is_cyclic { outward } else { -outward };
    let width = digits.len() as f64 * (DIGIT[1] + APART) - APART;
    let [height, broad] = DIGIT;
    let half = (height - 3.0 * STROKE) / 2.0 - 2.0 * SPACE;
    let (left, right) = (0.0, broad - STROKE);
    let (low, high) = (STROKE + SPACE, f64::midpoint(height, STROKE) + SPACE);
    let bar = [broad - 2.0 * (STROKE + SPACE), STROKE];
    let post = [STROKE, half];
    let inner = STROKE + SPACE;
    let shapes = [
        ([inner, height - STROKE], bar),
        ([left, high], post),
        ([right, high], post),
        ([inner, (height - STROKE) / 2.0], bar),
        ([left, low], post),
        ([right, low], post),
        ([inner, 0.0], bar),
    ];
    let center = meeting.rectangle.center();
    let mut found = Vec::new();
    for (place, digit) in digits.iter().enumerate() {
        let start = shift - width / 2.0 + place as f64 * (broad + APART);
        for (shape, _) in shapes.iter().zip(STROKES[*digit]).filter(|it| it.1) {
            let ([x, y], [w, h]) = *shape;
            let corners = [[x, y], [x + w, y + h]].map(|[x, y]| {
                let mut corner = center;
                corner[long] += (start + x) * ratio;
                corner[wide] += upward * (y - height / 2.0) * ratio;
                corner
            });
            let mut bounds = Bounds::around(corners);
            // Past the face too, since bodies grow before they are joined.
            let ends = [-SUNK, RIM].map(|it| meeting.at + outward * it * ratio);
            bounds.low[meeting.axis] = ends[0].min(ends[1]);
            bounds.high[meeting.axis] = ends[0].max(ends[1]);
            found.push(bounds);
        }
    }
    found
}
