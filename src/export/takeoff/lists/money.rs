//! What is bought and finished, and what it all weighs.

use super::Taken;
use crate::export::takeoff::table::{Cell, Table, all, data, only, read};
use crate::takeoff::{FinishArea, is_weighed, square_feet};
use crate::units::{Rounding, TapeUnit};

/// The file of what is bought; the faces to be finished stand in it too.
const FILE: &str = "buy-list.csv";

/// The buy list.
pub(in crate::export) fn buy(taken: &Taken<'_>) -> Table {
    let names = only().terminal("Buy list").packet("What to buy").csv(FILE);
    let after = format!(
        "{} (`stock.boards`, `stock.sheets`, `stock.prices`).",
        priced(taken)
    );
    taken
        .list(names, &taken.takeoff.buy)
        .column(only().packet(""), |it| Cell::Tick(it.item.clone()))
        .column(data("section").terminal("section"), |it| {
            Cell::text(it.section)
        })
        .column(all("item"), |it| Cell::Words(it.item.clone()))
        .column(read("qty").data("count"), |it| Cell::Count(it.count))
        .column(all("spare"), |it| Cell::More(it.spare))
        .column(only().terminal("board ft"), |it| decimals(it.board_feet, 1))
        .column(data("board feet"), |it| decimals(it.board_feet, 2))
        .column(all("price"), |it| Cell::Money(it.price))
        .column(all("cost"), |it| Cell::Money(it.cost()))
        .column(only().packet("section"), |it| {
            Cell::Lines(vec![it.section.to_owned()])
        })
        .column(only().packet("detail"), |it| {
            Cell::Lines(vec![it.detail.clone()])
        })
        .column(data("detail").terminal("detail"), |it| {
            Cell::text(&it.detail)
        })
        .table()
        .with_after(after)
}

fn decimals(number: Option<f64>, decimals: usize) -> Cell {
    number.map_or(Cell::Nothing, |it| Cell::Number(it, decimals))
}

/// What everything with a price costs, and how many lines have none.
pub(in crate::export) fn priced(taken: &Taken<'_>) -> String {
    let takeoff = taken.takeoff;
    let (lines, missing) = (takeoff.buy.len(), takeoff.without_price().count());
    format!(
        "{}{} for {} of {lines} lines; {missing} have no price",
        taken.currency(),
        takeoff.cost(),
        lines - missing,
    )
}

/// The faces to be finished.
pub(in crate::export) fn finish(taken: &Taken<'_>) -> Table {
    let feet = |it: &FinishArea| format!("{:.1} sq ft", square_feet(it.area));
    let meters = |it: &FinishArea| format!("{:.2} sq m", it.area * 1e-6);
    let corners = |it: &FinishArea| Cell::feet(it.corners, Rounding::Up);
    let names = only().terminal("Finish, without waste").csv(FILE);
    taken
        .list(names, &taken.takeoff.finish)
        .column(only().csv("section"), |_| Cell::text("finish"))
        .column(only().csv("item").terminal("face").json("face"), |it| {
            Cell::text(it.face.name())
        })
        .column(only().terminal("area"), |it| {
            Cell::Text(match taken.unit() {
                TapeUnit::Inch => feet(it),
                TapeUnit::Millimeter => meters(it),
            })
        })
        .column(only().json("square_metres"), |it| {
            Cell::Number(it.area * 1e-6, 2)
        })
        .column(
            only().terminal("outside corners").json("corners_mm"),
            |it| corners(it),
        )
        .column(only().csv("detail"), |it| {
            let (feet, meters) = (feet(it), meters(it));
            let corners = it.corners.feet_inches(taken.unit().marks(), Rounding::Up);
            Cell::Text(format!(
                "{feet} ({meters}) without waste; outside corners {corners}"
            ))
        })
        .table()
}

/// The file of weights: walls and groups, what has none, and every part.
const WEIGHTS: &str = "weights.csv";

/// Weights of walls and groups.
pub(in crate::export) fn weights(taken: &Taken<'_>) -> Table {
    let lift = |can: Option<bool>| match can {
        None => Cell::Nothing,
        Some(true) => Cell::text("two people can lift it in one piece"),
        Some(false) => Cell::text("too heavy for two in one piece"),
    };
    let yes = |can: Option<bool>| can.map_or(Cell::Nothing, Cell::Yes);
    let mut table = taken
        .list(
            only().terminal("Weights").csv(WEIGHTS),
            &taken.takeoff.weights,
        )
        .column(data("what").terminal("what"), |it| Cell::text(&it.what))
        .column(only().terminal("weight").csv("weight"), |it| {
            Cell::Mass(it.mass)
        })
        .column(data("kilograms"), |it| Cell::Number(it.mass, 3))
        .column(only().terminal(""), |it| lift(it.two_can_lift))
        .column(
            only().csv("two people can lift it").json("two_can_lift"),
            |it| yes(it.two_can_lift),
        )
        .table();
    let lacking: Vec<&str> = taken.takeoff.without_weight().collect();
    if !lacking.is_empty() {
        let lacking = lacking.join(", ");
        table.paragraph =
            format!("Not weighed, for want of a `weight` in `stock.prices`: {lacking}.");
    }
    table
}

/// What has no weight, and what every part weighs.
pub(super) fn other_weights(taken: &Taken<'_>) -> Vec<Table> {
    let lacking = taken
        .list(only().csv(WEIGHTS), taken.takeoff.without_weight())
        .column(only().csv("what"), |it| Cell::text(*it))
        .column(only().csv("weight"), |_| Cell::text("not given"));
    let parts = taken.design.parts.iter().filter(|it| is_weighed(it));
    let mass = parts.map(|it| (&it.id, it.body.volume() * 1e-9 * it.material.density));
    let parts = taken
        .list(only().csv(WEIGHTS), mass)
        .column(only().csv("what"), |it| Cell::text(it.0))
        .column(only().csv("weight"), |it| Cell::Mass(it.1))
        .column(only().csv("kilograms"), |it| Cell::Number(it.1, 3));
    vec![lacking.table(), parts.table()]
}
