//! The cutting plan: which pieces come out of which board.

use serde_json::json;

use super::Taken;
use crate::export::takeoff::table::{Cell, Names, Rows, Table, mm, only, read};
use crate::export::takeoff::texts::amount;
use crate::takeoff::{BoardPlan, CutBoard, PlanCost};
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
    let plans = taken.takeoff.boards.iter();
    let list = list(
        taken,
        only().csv("cutting-plan.csv"),
        plans.flat_map(planned),
    );
    vec![list.table()]
}

fn planned(plan: &BoardPlan) -> impl Iterator<Item = Planned<'_>> {
    let boards = plan.boards.iter().enumerate();
    boards.map(move |(at, board)| (plan, at, board))
}

fn of_plan(taken: &Taken<'_>, plan: &BoardPlan) -> Table {
    let unit = taken.unit();
    let name = plan.board.name();
    let [cost, bound] = [plan.cost, plan.bound].map(|it| amount(it, taken.currency(), unit));
    let proof = if plan.is_proved() {
        "no plan takes less".to_owned()
    } else {
        format!("no plan takes less than {bound}")
    };
    let why = match (plan.is_proved(), plan.is_stopped()) {
        (true, _) => "",
        (_, true) => "; the search was stopped",
        _ => "; the search ended at `stock.search_nodes`",
    };
    let joint = if plan.is_proved() { ":" } else { ";" };
    let names = only()
        .terminal(format!("Cutting plan: {name}"))
        .packet(format!(
            "Cutting plan for {name}: {cost} of boards; {proof}"
        ));
    let mut table = list(taken, names, planned(plan)).table();
    table
        .after
        .push(format!("{cost} of boards{joint} {proof}{why}."));
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
    boards: impl IntoIterator<Item = Planned<'a>>,
) -> Rows<Planned<'a>> {
    let cost = |it: PlanCost| Cell::text(amount(it, taken.currency(), taken.unit()));
    taken
        .list(names, boards)
        .column(only().packet(""), |(plan, at, _)| {
            Cell::Tick(format!("{} number {}", plan.board.name(), at + 1))
        })
        .column(only().csv("board"), |it| Cell::text(it.0.board.name()))
        .column(read("board").csv("number"), |it| Cell::Count(it.1 + 1))
        .column(read("length").csv("length").json("length_mm"), |it| {
            Cell::feet(it.2.sold.length, Rounding::Nearest)
        })
        .column(only().json("price"), |it| Cell::Money(it.2.sold.price))
        .column(read("pieces, in the order of the cuts"), |it| {
            let pieces = it.2.pieces.iter();
            let pieces = pieces.map(|(mark, length)| format!("{mark} {}", taken.tape(*length)));
            Cell::text(pieces.collect::<Vec<_>>().join(", "))
        })
        .column(only().csv("pieces"), |it| {
            Cell::Lines(it.2.pieces.iter().map(|it| it.0.clone()).collect())
        })
        .column(only().json("pieces"), |it| {
            let pieces = it.2.pieces.iter();
            let pieces = pieces.map(|it| json!({ "mark": it.0, "length_mm": mm(it.1) }));
            Cell::Data(pieces.collect())
        })
        .column(read("offcut").csv("offcut").json("offcut_mm"), |it| {
            Cell::rounded(it.2.offcut, Rounding::Down)
        })
        .column(only().csv("offcut mm"), |it| Cell::Millimetres(it.2.offcut))
        .column(only().csv("plan"), |it| cost(it.0.cost))
        .column(only().csv("bound"), |it| cost(it.0.bound))
        .column(only().csv("proved"), |(plan, ..)| {
            Cell::text(match (plan.is_proved(), plan.is_stopped()) {
                (true, _) => "yes",
                (_, true) => "no, stopped",
                _ => "no",
            })
        })
}
