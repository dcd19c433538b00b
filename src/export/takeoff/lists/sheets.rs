//! Board and panel: which pieces come out of which sheet.

use glam::DVec2;

use super::Taken;
use crate::export::takeoff::table::{Cell, Table, only};
use crate::takeoff::{CutSheet, PlacedPiece, SheetPiece, SheetPlan};
use crate::units::Length;

/// A table for each kind of sheet, and every piece in one.
pub(super) fn sheets(taken: &Taken<'_>) -> Vec<Table> {
    let plans = taken.takeoff.sheets.iter();
    let mut tables: Vec<Table> = plans.map(|plan| of_plan(taken, plan)).collect();
    tables.push(pieces(taken));
    tables
}

fn of_plan(taken: &Taken<'_>, plan: &SheetPlan) -> Table {
    let sheet = &plan.sheet;
    let title = format!(
        "Sheets: {} {}, {} x {}",
        taken.tape(sheet.thickness),
        sheet.material.word().replace('_', " "),
        taken.tape(sheet.width),
        taken.tape(sheet.length)
    );
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
        pieces.map(|it| piece_text(taken, it)).collect()
    };
    let heading = "pieces: width x height, and where it is from";
    taken
        .list(only().terminal(title), plan.sheets.iter().enumerate())
        .column(only().terminal("sheet"), |it| Cell::Count(it.0 + 1))
        .column(only().terminal(heading), |it| Cell::Lines(pieces(it.1)))
        .table()
        .with_after(proof)
}

fn piece_text(taken: &Taken<'_>, piece: &SheetPiece) -> String {
    let size = (piece.high - piece.low)
        .to_array()
        .map(|it| taken.tape(Length::mm(it)));
    let notes = [
        (!is_plain(piece), ", with cut-outs"),
        (!piece.backers.is_empty(), ", a joint needs a backer"),
        (
            !piece.at_corners.is_empty(),
            ", a joint at an opening's corner",
        ),
    ];
    let notes: String = notes.iter().filter(|it| it.0).map(|it| it.1).collect();
    format!("{} {} {}{notes}", piece.mark, size.join(" x "), piece.part)
}

/// Whether nothing is cut out of its rectangle.
fn is_plain(piece: &SheetPiece) -> bool {
    piece.loops.len() == 1 && piece.loops[0].len() == 4
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
    let tapes =
        |lengths: &[Length]| Cell::Lines(lengths.iter().map(|it| taken.tape(*it)).collect());
    taken
        .list(only().csv("sheets.csv"), all)
        .column(only().csv("sheet"), |it| {
            Cell::text(sheet_name(taken, it.0))
        })
        .column(only().csv("number"), |it| Cell::Count(it.1))
        .column(only().csv("mark"), |it| Cell::text(&it.2.mark))
        .column(only().csv("part"), |it| Cell::text(&it.3.part))
        .column(only().csv("width"), |it| {
            Cell::tape(Length::mm(size(it.3).x))
        })
        .column(only().csv("height"), |it| {
            Cell::tape(Length::mm(size(it.3).y))
        })
        .column(only().csv("cut out, from the low corner"), |it| {
            outline(taken, it.3)
        })
        .column(only().csv("from the sheet's side"), |it| {
            Cell::tape(it.2.from_side)
        })
        .column(only().csv("from the sheet's end"), |it| {
            Cell::tape(it.2.from_end)
        })
        .column(only().csv("turned"), |it| Cell::Yes(it.2.is_turned))
        .column(only().csv("factory edges"), |(plan, _, placed, _)| {
            Cell::text(plan.factory_edges(placed).join("; "))
        })
        .column(only().csv("backers needed at"), |it| tapes(&it.3.backers))
        .column(only().csv("joints at an opening's corner"), |it| {
            tapes(&it.3.at_corners)
        })
        .table()
}

fn size(piece: &SheetPiece) -> DVec2 {
    piece.high - piece.low
}

fn sheet_name(taken: &Taken<'_>, plan: &SheetPlan) -> String {
    let sheet = &plan.sheet;
    format!(
        "{} {} {} x {}",
        taken.tape(sheet.thickness),
        sheet.material.word(),
        taken.tape(sheet.width),
        taken.tape(sheet.length)
    )
}

/// The corners of a piece that is no rectangle, and of its holes.
fn outline(taken: &Taken<'_>, piece: &SheetPiece) -> Cell {
    if is_plain(piece) {
        return Cell::Nothing;
    }
    let corner = |it: &DVec2| {
        let [across, up] = (*it - piece.low)
            .to_array()
            .map(|it| taken.tape(Length::mm(it)));
        format!("{across} across {up} up")
    };
    let corners = |corners: &Vec<DVec2>| corners.iter().map(corner).collect::<Vec<_>>().join(", ");
    let loops: Vec<String> = piece.loops.iter().map(corners).collect();
    Cell::Text(format!("outline: {}", loops.join("; hole: ")))
}
