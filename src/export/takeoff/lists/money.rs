//! What is bought and finished, and what it all weighs.

use super::Taken;
use crate::export::takeoff::table::Cell::{self, Feet, Mass, More, Nothing, Number, Tick, Words};
use crate::export::takeoff::table::{Table, all, csv, data, json, packet, read, terminal};
use crate::takeoff::{FinishArea, is_weighed, square_feet};
use crate::units::{Rounding, TapeUnit};

/// The file of what is bought; the faces to be finished stand in it too.
const FILE: &str = "buy-list.csv";
/// The file of weights: walls and groups, what has none, and every part.
const WEIGHTS: &str = "weights.csv";

/// The buy list.
pub(in crate::export) fn buy(taken: &Taken<'_>) -> Table {
    let names = terminal("Buy list").packet("What to buy").csv(FILE);
    let keys = "(`stock.boards`, `stock.sheets`, `stock.prices`)";
    taken
        .list(names, &taken.takeoff.buy)
        .column(packet(""), |it| Tick(it.item.clone()))
        .column(data("section").terminal("section"), |it| it.section.name())
        .column(all("item"), |it| Words(it.item.clone()))
        .column(read("qty").data("count"), |it| it.count)
        .column(all("spare"), |it| More(it.spare))
        .column(terminal("board ft"), |it| decimals(it.board_feet, 1))
        .column(data("board feet"), |it| decimals(it.board_feet, 2))
        .column(all("price"), |it| it.price)
        .column(all("cost"), |it| it.cost())
        .column(packet("section"), |it| vec![it.section.name().to_owned()])
        .column(packet("detail"), |it| vec![it.detail.clone()])
        .column(data("detail").terminal("detail"), |it| it.detail.clone())
        .table()
        .with_total("cost")
        .with_after(format!("{} {keys}.", priced(taken)))
}

fn decimals(number: Option<f64>, decimals: usize) -> Cell {
    number.map_or(Nothing, |it| Number(it, decimals))
}

/// What everything with a price costs, and how many lines have none.
pub(in crate::export) fn priced(taken: &Taken<'_>) -> String {
    let takeoff = taken.takeoff;
    let (lines, missing) = (takeoff.buy.len(), takeoff.without_price().count());
    let (currency, cost, priced) = (taken.currency(), takeoff.cost(), lines - missing);
    format!("{currency}{cost} for {priced} of {lines} lines; {missing} have no price")
}

/// The faces to be finished.
pub(in crate::export) fn finish(taken: &Taken<'_>) -> Table {
    let in_feet = |it: &FinishArea| format!("{:.1} sq ft", square_feet(it.area));
    let in_meters = |it: &FinishArea| format!("{:.2} sq m", it.area * 1e-6);
    taken
        .list(
            terminal("Finish, without waste").csv(FILE),
            &taken.takeoff.finish,
        )
        .column(csv("section"), |_| "finish")
        .column(csv("item").terminal("face").json("face"), |it| {
            it.face.name()
        })
        .column(terminal("area"), |it| match taken.unit() {
            TapeUnit::Inch => in_feet(it),
            TapeUnit::Millimeter => in_meters(it),
        })
        .column(json("square_metres"), |it| Number(it.area * 1e-6, 2))
        .column(terminal("outside corners").json("corners_mm"), |it| {
            Feet(it.corners, Rounding::Up)
        })
        .column(csv("detail"), |it| {
            let (feet, meters) = (in_feet(it), in_meters(it));
            let corners = it.corners.feet_inches(taken.unit().marks(), Rounding::Up);
            format!("{feet} ({meters}) without waste; outside corners {corners}")
        })
        .table()
}

/// Weights of walls and groups.
pub(in crate::export) fn weights(taken: &Taken<'_>) -> Table {
    let lift = |can| match can {
        None => "",
        Some(true) => "two people can lift it in one piece",
        Some(false) => "too heavy for two people in one piece",
    };
    let lacking: Vec<&str> = taken.takeoff.without_weight().collect();
    let lacking = match lacking.join(", ").as_str() {
        "" => String::new(),
        all => format!("Not weighed, since `stock.prices` has no `weight` for it: {all}."),
    };
    taken
        .list(terminal("Weights").csv(WEIGHTS), &taken.takeoff.weights)
        .column(data("what").terminal("what"), |it| it.what.to_string())
        .column(terminal("weight").csv("weight"), |it| Mass(it.mass))
        .column(data("kilograms"), |it| Number(it.mass, 3))
        .column(terminal(""), |it| lift(it.two_can_lift))
        .column(csv("two people can lift it").json("two_can_lift"), |it| {
            it.two_can_lift
        })
        .table()
        .with_paragraph(lacking)
}

/// What has no weight, and what every part weighs.
pub(super) fn other_weights(taken: &Taken<'_>) -> Vec<Table> {
    let lacking = taken
        .list(csv(WEIGHTS), taken.takeoff.without_weight())
        .column(csv("what"), |it| (*it).to_owned())
        .column(csv("weight"), |_| "not given");
    let parts = taken.design.parts.iter().filter(|it| is_weighed(it));
    let masses = parts.map(|it| (&it.id, taken.design.mass(it)));
    let parts = taken
        .list(csv(WEIGHTS), masses)
        .column(csv("what"), |it| it.0.clone())
        .column(csv("weight"), |it| Mass(it.1))
        .column(csv("kilograms"), |it| Number(it.1, 3));
    vec![lacking.table(), parts.table()]
}
