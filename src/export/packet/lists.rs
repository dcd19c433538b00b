//! The takeoff in, cut list and buy list out, each with its boxes to tick.

use super::html::Html;
use super::table::{Cell, Table};
use super::{Packet, section};
use crate::export::takeoff::{lists, table};

/// Writes the cut list and the settings of the saw.
pub(super) fn cuts(html: &mut Html, packet: Packet<'_>) {
    let taken = packet.products.taken();
    section(html, "cuts", "Cut list", |html| {
        html.leaf(
            "p",
            &[],
            "Drawn with the wide face up, the lower or left end to the left; a dashed line is a bevel. \
             Lengths are from long point to long point. Write the mark on the wood.",
        );
        list(html, &lists::cut_list(&taken));
        list(html, &lists::saw(&taken));
    });
}

/// Writes what is bought, and which piece comes from which board.
pub(super) fn buy(html: &mut Html, packet: Packet<'_>) {
    let taken = packet.products.taken();
    section(html, "buy", "Buy list", |html| {
        list(html, &lists::buy(&taken));
        html.leaf("p", &[], &format!("{}.", lists::priced(&taken)));
        for plan in lists::boards(&taken) {
            list(html, &plan);
        }
    });
}

/// Writes a list as a table.
fn list(html: &mut Html, list: &table::Table) {
    let rows = list.rows(table::Writing::Packet).into_iter();
    let cell = |it: &table::Cell| cell(it, list.style());
    Table {
        caption: list.name(table::Writing::Packet).unwrap_or_default(),
        heads: &list.headings(table::Writing::Packet),
        rows: rows
            .map(|row| row.into_iter().map(cell).collect())
            .collect(),
    }
    .write(html);
}

fn cell(cell: &table::Cell, style: &table::Style) -> Cell {
    use table::Cell as Value;
    match cell {
        Value::Tick(what) => Cell::Tick(what.clone()),
        Value::Words(words) => Cell::Words(words.clone()),
        Value::Lines(lines) => Cell::Lines(lines.clone()),
        Value::Ends(ends) => Cell::Stick(*ends),
        Value::Nothing | Value::Text(_) | Value::Yes(_) | Value::Data(_) => {
            Cell::Text(cell.shown(style, ""))
        }
        Value::Count(_)
        | Value::More(_)
        | Value::Number(..)
        | Value::Tape(..)
        | Value::Feet(..)
        | Value::Millimetres(_)
        | Value::Angle(_)
        | Value::Mass(_)
        | Value::Money(_) => Cell::Number(cell.shown(style, "")),
    }
}
