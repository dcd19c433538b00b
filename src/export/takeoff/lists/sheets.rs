//! Board and panel: which pieces come out of which sheet.

use glam::DVec2;

use super::Taken;
use crate::export::takeoff::table::{Table, csv, terminal};
use crate::takeoff::{CutSheet, PlacedPiece, SheetPiece, SheetPlan, cut_roundings};
use crate::units::{Length, Rounding};

/// A table for each kind of sheet, and every piece in one.
pub(super) fn sheets(taken: &Taken<'_>) -> Vec<Table> {
    let plans = taken.takeoff.sheets.iter();
    let mut tables: Vec<Table> = plans.map(|plan| of_plan(taken, plan)).collect();
    tables.push(pieces(taken));
    tables
}

fn of_plan(taken: &Taken<'_>, plan: &SheetPlan) -> Table {
    let title = format!("Sheets: {}", plan.sheet.name(taken.unit()));
    let all = match plan.sheets.len() {
        1 => "1 sheet".to_owned(),
        count => format!("{count} sheets"),
    };
    let proof = if plan.sheets.len() > plan.least {
        format!(
            "{all}; no plan of rectangles needs fewer than {}.",
            plan.least
        )
    } else {
        format!("{all}: no plan of rectangles needs fewer.")
    };
    let pieces = |cut: &CutSheet| {
        let pieces = cut.pieces.iter().filter_map(|it| plan.piece(&it.mark));
        pieces.map(|it| piece_text(taken, it)).collect::<Vec<_>>()
    };
    let heading = "pieces: width x height, and where it is from";
    taken
        .list(terminal(title), plan.sheets.iter().enumerate())
        .column(terminal("sheet"), |it| it.0 + 1)
        .column(terminal(heading), |it| pieces(it.1))
        .table()
        .with_after(proof)
}

fn piece_text(taken: &Taken<'_>, piece: &SheetPiece) -> String {
    let size = (piece.high - piece.low)
        .to_array()
        .map(|it| taken.tape(Length::mm(it)));
    let has_cut_outs = piece.loops.len() > 1 || piece.loops[0].len() > 4;
    let notes = [
        (has_cut_outs, ", with cut-outs"),
        (!piece.backers.is_empty(), ", a joint needs a backer"),
        (
            !piece.at_corners.is_empty(),
            ", a joint at an opening's corner",
        ),
    ];
    let notes: String = notes.iter().filter(|it| it.0).map(|it| it.1).collect();
    format!("{} {} {}{notes}", piece.mark, size.join(" x "), piece.part)
}

/// A piece with its plan, the number of its sheet, and its place there.
type Placed<'a> = (&'a SheetPlan, usize, &'a PlacedPiece, &'a SheetPiece);

fn placed(plan: &SheetPlan) -> impl Iterator<Item = Placed<'_>> {
    let sheets = plan.sheets.iter().zip(1..);
    sheets.flat_map(move |(cut, number)| {
        let placed = cut.pieces.iter();
        placed.filter_map(move |it| Some((plan, number, it, plan.piece(&it.mark)?)))
    })
}

fn pieces(taken: &Taken<'_>) -> Table {
    let all = taken.takeoff.sheets.iter().flat_map(placed);
    let tapes = |it: &[Length]| it.iter().map(|it| taken.tape(*it)).collect::<Vec<_>>();
    taken
        .list(csv("sheets.csv"), all)
        .column(csv("sheet"), |it| it.0.sheet.name(taken.unit()))
        .column(csv("number"), |it| it.1)
        .column(csv("mark"), |it| it.2.mark.clone())
        .column(csv("part"), |it| it.3.part.clone())
        .column(csv("width"), |it| Length::mm((it.3.high - it.3.low).x))
        .column(csv("height"), |it| Length::mm((it.3.high - it.3.low).y))
        .column(csv("cut out, from the low corner"), |it| {
            outline(taken, it.3)
        })
        .column(csv("from the sheet's side"), |it| it.2.from_side)
        .column(csv("from the sheet's end"), |it| it.2.from_end)
        .column(csv("turned"), |it| it.2.is_turned)
        .column(csv("factory edges"), |it| {
            it.0.factory_edges(it.2).join("; ")
        })
        .column(csv("backers needed at"), |it| tapes(&it.3.backers))
        .column(csv("joints at an opening's corner"), |it| {
            tapes(&it.3.at_corners)
        })
        .table()
}

/// The corners of a piece that is no rectangle, and of its holes.
fn outline(taken: &Taken<'_>, piece: &SheetPiece) -> Option<String> {
    if piece.loops.len() == 1 && piece.loops[0].len() == 4 {
        return None;
    }
    let corner = |(it, [across, up]): (&DVec2, [Rounding; 2])| {
        let from = *it - piece.low;
        let tape = |mm: f64, way| Length::mm(mm).tape(taken.unit(), way);
        format!("{} across {} up", tape(from.x, across), tape(from.y, up))
    };
    let corners = |(corners, ways): (&Vec<DVec2>, Vec<[Rounding; 2]>)| {
        let corners = corners.iter().zip(ways).map(corner);
        corners.collect::<Vec<_>>().join(", ")
    };
    let ways = cut_roundings(&piece.loops);
    let loops: Vec<String> = piece.loops.iter().zip(ways).map(corners).collect();
    Some(format!("outline: {}", loops.join("; hole: ")))
}
