//! Which rectangles are cut from which sheet, by cuts from edge to edge, and how few sheets any such plan needs.
//!
//! In: the pieces' sizes, a sheet's size, the kerf. Out: for each sheet the pieces with their places. Several quick
//! orders are tried and the plan with the fewest sheets is kept. The bound is the larger of two: the pieces' area over
//! a sheet's, and the number of pieces of which no two go into one sheet.

use crate::geom::TOLERANCE;
use crate::units::Length;

/// A rectangle: across the sheet's width and along its length, in millimetres.
type Size = (f64, f64);

/// A piece in a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub(super) piece: usize,
    /// Of its corner from the sheet's corner.
    pub(super) at: (Length, Length),
    /// Whether it lies a quarter turn from how its size is given.
    pub(super) is_turned: bool,
}

/// Free room in a sheet.
#[derive(Debug, Clone, Copy)]
struct Room {
    sheet: usize,
    at: Size,
    size: Size,
}

/// How the room beside a piece is divided: the cut runs along the sheet, across it, or so that the larger room
/// stays whole.
#[derive(Debug, Clone, Copy)]
enum Division {
    Along,
    Across,
    Larger,
}

/// Sheets with their pieces; every piece fits into a sheet by itself.
pub(super) fn nest(pieces: &[Size], sheet: Size, kerf: f64) -> Vec<Vec<Place>> {
    // a cut more on each piece, and one more on the sheet, is the same as a cut between pieces
    let wide = |size: &Size| (size.0 + kerf, size.1 + kerf);
    let grown: Vec<Size> = pieces.iter().map(wide).collect();
    let keys: [fn(&Size) -> f64; 4] = [
        |it| it.0 * it.1,
        |it| it.0.max(it.1),
        |it| it.0.min(it.1),
        |it| it.0 + it.1,
    ];
    let mut best: Option<Vec<Vec<Place>>> = None;
    for key in keys {
        let mut order: Vec<usize> = (0..grown.len()).collect();
        order.sort_by(|a, b| key(&grown[*b]).total_cmp(&key(&grown[*a])).then(a.cmp(b)));
        for cut in [Division::Larger, Division::Along, Division::Across] {
            let plan = fill(&grown, &order, wide(&sheet), cut);
            if best.as_ref().is_none_or(|it| plan.len() < it.len()) {
                best = Some(plan);
            }
        }
    }
    best.unwrap_or_default()
}

/// Each piece into the room that it fills best, or into a new sheet.
fn fill(pieces: &[Size], order: &[usize], sheet: Size, cut: Division) -> Vec<Vec<Place>> {
    let mut rooms: Vec<Room> = Vec::new();
    let mut sheets: Vec<Vec<Place>> = Vec::new();
    for piece in order {
        let found = tightest(&rooms, pieces[*piece]).or_else(|| {
            rooms.push(Room {
                sheet: sheets.len(),
                at: (0.0, 0.0),
                size: sheet,
            });
            sheets.push(Vec::new());
            tightest(&rooms[rooms.len() - 1..], pieces[*piece])
                .map(|(_, is_turned)| (rooms.len() - 1, is_turned))
        });
        // a piece larger than a sheet never comes here
        let Some((room, is_turned)) = found else {
            continue;
        };
        let room = rooms.swap_remove(room);
        sheets[room.sheet].push(Place {
            piece: *piece,
            at: (Length::mm(room.at.0), Length::mm(room.at.1)),
            is_turned,
        });
        rooms.extend(rest(room, turned(pieces[*piece], is_turned), cut));
    }
    sheets.retain(|it| !it.is_empty());
    sheets
}

fn turned(size: Size, is_turned: bool) -> Size {
    if is_turned { (size.1, size.0) } else { size }
}

/// The room with the least left over on its shorter side, and whether the piece is turned in it.
fn tightest(rooms: &[Room], piece: Size) -> Option<(usize, bool)> {
    let mut best: Option<(f64, usize, bool)> = None;
    for (at, room) in rooms.iter().enumerate() {
        for is_turned in [false, true] {
            let size = turned(piece, is_turned);
            let beside = (room.size.0 - size.0).min(room.size.1 - size.1);
            if beside >= -TOLERANCE && best.is_none_or(|it| beside < it.0 - TOLERANCE) {
                best = Some((beside, at, is_turned));
            }
        }
    }
    best.map(|it| (it.1, it.2))
}

/// What is left of a room beside a piece in its corner, and beyond it.
fn rest(room: Room, piece: Size, cut: Division) -> impl Iterator<Item = Room> {
    let (beside, beyond) = (room.size.0 - piece.0, room.size.1 - piece.1);
    let along = match cut {
        Division::Along => true,
        Division::Across => false,
        Division::Larger => beside * room.size.1 > beyond * room.size.0,
    };
    let (high, wide) = if along {
        (room.size.1, piece.0)
    } else {
        (piece.1, room.size.0)
    };
    let rooms = [
        Room {
            at: (room.at.0 + piece.0, room.at.1),
            size: (beside, high),
            ..room
        },
        Room {
            at: (room.at.0, room.at.1 + piece.1),
            size: (wide, beyond),
            ..room
        },
    ];
    let some = |it: &Room| it.size.0 > TOLERANCE && it.size.1 > TOLERANCE;
    rooms.into_iter().filter(some)
}

/// No plan of rectangles needs fewer sheets.
pub(super) fn least(pieces: &[Size], area: f64, sheet: Size, kerf: f64) -> usize {
    apart(pieces, sheet, kerf).max(count_up(area / (sheet.0 * sheet.1)))
}

/// Pieces of which no two go into one sheet: the most that are found when each begins once.
fn apart(pieces: &[Size], sheet: Size, kerf: f64) -> usize {
    let mut order: Vec<&Size> = pieces.iter().collect();
    order.sort_by(|a, b| (b.0 * b.1).total_cmp(&(a.0 * a.1)));
    let from = |first: &Size| {
        let mut chosen = vec![*first];
        let mut skipped = false;
        for piece in &order {
            // the piece itself begins, and is met once more
            if !skipped && *piece == first {
                skipped = true;
                continue;
            }
            if chosen.iter().all(|it| !share(*it, **piece, sheet, kerf)) {
                chosen.push(**piece);
            }
        }
        chosen.len()
    };
    pieces.iter().map(from).max().unwrap_or(0)
}

/// Whether two rectangles go into one sheet: two that lie apart can always be parted by a line.
fn share(a: Size, b: Size, sheet: Size, kerf: f64) -> bool {
    let ways = [(false, false), (false, true), (true, false), (true, true)];
    ways.into_iter().any(|(turn_a, turn_b)| {
        let (a, b) = (turned(a, turn_a), turned(b, turn_b));
        let beside = a.0 + kerf + b.0 <= sheet.0 + TOLERANCE && a.1.max(b.1) <= sheet.1 + TOLERANCE;
        let beyond = a.1 + kerf + b.1 <= sheet.1 + TOLERANCE && a.0.max(b.0) <= sheet.0 + TOLERANCE;
        beside || beyond
    })
}

/// So many whole ones.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a small positive count"
)]
pub(super) fn count_up(share: f64) -> usize {
    (share - 1e-9).ceil().max(0.0) as usize
}
