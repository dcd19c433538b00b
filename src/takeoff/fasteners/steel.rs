//! Screws of steel framing, from what touches what.
//!
//! # Source
//! Screws of 1/2 in, one through each flange at both ends of a stud: ASTM C754, from memory. Board on steel:
//! type S screws, into 33 mil and thicker type S-12 with drill points (ASTM C1002 and C954), 3/8 in past the
//! board (GA-216), all from memory. Doubled studs and headers at 24 in: common practice, no source.

use crate::catalog::{Screw, steel};
use crate::design::{Kind, Part, Stock};
use crate::geom::{Contact, contact};
use crate::units::Length;

use super::{Counts, Purpose, along, is_upright, sold, span};

const DOUBLED: Length = Length::inches(24.0);
/// What a screw of the board reaches past it.
pub(super) const PAST_BOARD: Length = Length::inches(0.375);
/// From this gauge on a screw has to have a drill point.
const DRILL_POINT: u32 = 33;
/// A stud stands as far behind the board as its track is thick, at most; the board is drawn up to it.
const DRAWN_UP: Length = Length::inches(0.1);

const FRAMING: &str = "#8 x 1/2\" pan head framing screws";

pub(super) fn is_steel(part: &Part) -> bool {
    matches!(part.stock, Stock::Steel(_))
}

/// Whether a part is steel of any kind, straps included.
fn is_metal(part: &Part) -> bool {
    part.material == crate::catalog::Material::STEEL
}

/// What holds two sticks of which one at least is steel; nothing for two of wood.
pub(super) fn between(first: &Part, second: &Part, touch: &Contact, counts: &mut Counts) -> bool {
    let (a, b) = if first.kind <= second.kind {
        (first, second)
    } else {
        (second, first)
    };
    if !is_metal(a) && !is_metal(b) {
        return false;
    }
    if !(is_metal(a) && is_metal(b)) {
        wood_on_steel((a, b), touch, counts);
        return true;
    }
    match (a.kind, b.kind) {
        (Kind::SolePlate | Kind::TopPlate, upright) if is_upright(upright) => {
            counts.add(FRAMING, 2, Purpose::StudToTrack);
        }
        (upright, Kind::Ledge) if is_upright(upright) => {
            counts.add(FRAMING, 2, Purpose::StudToTrack);
        }
        (Kind::TopPlate | Kind::SolePlate, Kind::TopPlate | Kind::SolePlate) => {
            counts.add(FRAMING, 2, Purpose::TracksAtCorners);
        }
        (Kind::Header, Kind::Header) => {
            let count = 2 * along(span(touch), DOUBLED);
            counts.add(FRAMING, count, Purpose::HeaderMembers);
        }
        (upright, Kind::Header | Kind::Sill) if is_upright(upright) => {
            counts.add(FRAMING, 4, Purpose::SteelHeaderToStud);
        }
        (upright, Kind::Blocking) if is_upright(upright) => {
            counts.add(FRAMING, 2, Purpose::StrapToStud);
        }
        (Kind::Blocking, _) | (_, Kind::Blocking) => {}
        (a, b) if is_upright(a) && is_upright(b) && first.branch != second.branch => {
            counts.add(
                FRAMING,
                along(span(touch), DOUBLED),
                Purpose::WallsAtCorners,
            );
        }
        (a, b) if is_upright(a) && is_upright(b) => {
            let count = 2 * along(span(touch), DOUBLED);
            counts.add(FRAMING, count, Purpose::DoubledSteelStuds);
        }
        _ => {}
    }
    true
}

/// Wood against steel: a wood screw through the web or the flange.
fn wood_on_steel((a, b): (&Part, &Part), touch: &Contact, counts: &mut Counts) {
    const SCREW: &str = "1-1/2\" wood screws through steel";
    let plates = |it: &Part| matches!(it.kind, Kind::SolePlate | Kind::TopPlate);
    if is_upright(a.kind) && is_upright(b.kind) {
        counts.add(SCREW, along(span(touch), DOUBLED), Purpose::WallsAtCorners);
    } else if plates(a) && plates(b) {
        counts.add(SCREW, 2, Purpose::PlatesAtCorners);
    } else if a.kind == Kind::Ledge && b.kind == Kind::Ledge {
        counts.add(SCREW, along(span(touch), DOUBLED), Purpose::LedgeToTrack);
    } else if a.branch == b.branch {
        counts.add(SCREW, 2, Purpose::WoodToSteel);
    }
}

/// Where two sticks meet; a stud of steel that stands back behind its track is drawn up to the wall beside it.
pub(super) fn touch(first: &Part, second: &Part) -> Option<Contact> {
    contact(&first.body, &second.body).or_else(|| {
        let corner =
            is_upright(first.kind) && is_upright(second.kind) && first.branch != second.branch;
        if !corner {
            return None;
        }
        drawn_up(first, second).or_else(|| drawn_up(second, first))
    })
}

/// The screws of a board on a stick of steel.
pub(super) fn board_screw(stick: &Part, (screw, board): (Screw, Length)) -> String {
    let mils = if let Stock::Steel(name) = &stick.stock {
        steel(name).map_or(0, |it| it.mils)
    } else {
        0
    };
    let kind = if mils >= DRILL_POINT { "S-12" } else { "S" };
    format!("{}, type {kind}", sold(screw, board + PAST_BOARD))
}

/// Where a board and a stick meet; the board is drawn up to a stud that stands back behind its track.
pub(super) fn board_on(board: &Part, stick: &Part) -> Option<Contact> {
    contact(&board.body, &stick.body).or_else(|| drawn_up(board, stick))
}

fn drawn_up(board: &Part, stick: &Part) -> Option<Contact> {
    let (a, b) = (&board.body.bounds, &stick.body.bounds);
    let apart = (a.low - b.high).max(b.low - a.high).max_element();
    if !is_steel(stick) || !is_upright(stick.kind) || apart > DRAWN_UP.to_mm() {
        return None;
    }
    let Stock::Steel(name) = &stick.stock else {
        return None;
    };
    let back = steel(name)?.thickness.min(DRAWN_UP).to_mm();
    let ways = [
        glam::DVec3::X,
        glam::DVec3::NEG_X,
        glam::DVec3::Y,
        glam::DVec3::NEG_Y,
    ];
    ways.into_iter()
        .filter(|way| {
            let near = board.body.bounds.center() - stick.body.bounds.center();
            way.dot(near) < 0.0
        })
        .find_map(|way| {
            contact(&board.body.moved(way * back), &stick.body)
                .filter(|it| it.normal.dot(way) > 0.5)
        })
}
