//! The cutting plan: which pieces come out of which board.

use serde_json::{Value, json};

use super::Taken;
use crate::export::takeoff::table::Cell::{Feet, Millimetres, Money, Tape, Tick};
use crate::export::takeoff::table::{Names, Rows, Table, csv, json, mm, packet, read, terminal};
use crate::export::takeoff::texts::amount;
use crate::takeoff::{BoardPlan, CutBoard, CutLength};
use crate::units::Rounding;

/// A board with its plan and its place there.
type Planned<'a> = (&'a BoardPlan, usize, &'a CutBoard);

/// A table for each kind of board.
pub(in crate::export) fn boards(taken: &Taken<'_>) -> Vec<Table> {
    let plans = taken.takeoff.boards.iter();
    plans.map(|plan| of_plan(taken, plan)).collect()
}

/// All boards in one table.
pub(super) fn all_boards(taken: &Taken<'_>) -> Vec<Table> {
    let all = taken.takeoff.boards.iter().flat_map(planned);
    vec![list(taken, csv("cutting-plan.csv"), all).table()]
}

fn planned(plan: &BoardPlan) -> impl Iterator<Item = Planned<'_>> {
    let boards = plan.boards.iter().enumerate();
    boards.map(move |(at, board)| (plan, at, board))
}

fn of_plan(taken: &Taken<'_>, plan: &BoardPlan) -> Table {
    let unit = taken.unit();
    let name = plan.board.name();
    let [cost, bound] = [plan.cost, plan.bound].map(|it| amount(it, taken.currency(), unit));
    let (joint, proof, why) = match (plan.is_proved(), plan.is_stopped()) {
        (true, _) => (":", String::new(), ""),
        (_, true) => (";", format!(" than {bound}"), "; the search was stopped"),
        _ => (
            ";",
            format!(" than {bound}"),
            "; the search ended at `stock.search_nodes`",
        ),
    };
    let names = terminal(format!("Cutting plan: {name}")).packet(format!(
        "Cutting plan for {name}: {cost} of boards; no plan takes less{proof}"
    ));
    let mut table = list(taken, names, planned(plan)).table();
    let said = format!("{cost} of boards{joint} no plan takes less{proof}{why}.");
    table.after.push(said);
    let whole = |it: &&CutBoard| !it.offcut.to_mark(unit, Rounding::Down).is_positive();
    let cut_up = plan.boards.iter().filter(whole).count();
    if cut_up > 0 {
        table.after.push(format!(
            "No slack: {cut_up} of {} boards are used to their ends. Measure each before its first cut, and trim less or buy one more.",
            plan.boards.len()
        ));
    }
    table.after.extend(plan.near_misses.iter().map(|near| {
        let by = near.by.tape(unit, Rounding::Up);
        let board = near.board.feet_inches(unit.marks(), Rounding::Nearest);
        format!("{} is {by} too long for a board of {board}.", near.mark)
    }));
    table
}

fn list<'a>(
    taken: &Taken<'_>,
    names: Names,
    boards: impl Iterator<Item = Planned<'a>>,
) -> Rows<Planned<'a>> {
    let cost = |it| amount(it, taken.currency(), taken.unit());
    taken
        .list(names, boards)
        .column(packet(""), |(plan, at, _)| {
            Tick(format!("{} number {}", plan.board.name(), at + 1))
        })
        .column(csv("board"), |it| it.0.board.name())
        .column(read("board").csv("number"), |it| it.1 + 1)
        .column(read("length").csv("length").json("length_mm"), |it| {
            Feet(it.2.sold.length, Rounding::Nearest)
        })
        .column(json("price"), |it| Money(it.2.sold.price))
        .column(read("pieces, in the order of the cuts"), |it| {
            let pieces = it.2.pieces.iter();
            let pieces =
                pieces.map(|(mark, length)| format!("{mark} {}", length.tape(taken.unit())));
            pieces.collect::<Vec<_>>().join(", ")
        })
        .column(csv("pieces"), |it| {
            it.2.pieces
                .iter()
                .map(|it| it.0.clone())
                .collect::<Vec<_>>()
        })
        .column(json("pieces"), |it| -> Value {
            let pieces = it.2.pieces.iter();
            let value = |(mark, length): &(String, CutLength)| {
                let (text, exact) = (length.tape(taken.unit()), mm(length.exact));
                json!({ "mark": mark, "length": text, "length_mm": exact })
            };
            pieces.map(value).collect()
        })
        .column(read("offcut").csv("offcut").json("offcut_mm"), |it| {
            Tape(Some(it.2.offcut), Rounding::Down)
        })
        .column(csv("offcut mm"), |it| Millimetres(it.2.offcut))
        .column(csv("plan"), |it| cost(it.0.cost))
        .column(csv("bound"), |it| cost(it.0.bound))
        .column(csv("proved"), |(plan, ..)| {
            match (plan.is_proved(), plan.is_stopped()) {
                (true, _) => "yes",
                (_, true) => "no, stopped",
                _ => "no",
            }
        })
}
