//! Tables of the takeoff as comma-separated values after RFC 4180: lines end with CR LF, a field with a comma,
//! a quote or a line end stands in quotes, and a quote within is doubled.

use super::table::{Cell, Table, Writing};

/// The tables that belong into a file, one under the other under the headings of the first.
pub(super) fn bytes(tables: &[Table], file: &str) -> Vec<u8> {
    let tables = tables.iter();
    let own: Vec<&Table> = tables
        .filter(|it| it.name(Writing::Csv) == Some(file))
        .collect();
    let heads = own
        .first()
        .map_or(Vec::new(), |it| it.headings(Writing::Csv));
    let mut text = record(heads.iter().map(|it| (*it).to_owned()));
    for table in own {
        let own_heads = table.headings(Writing::Csv);
        let places = heads
            .iter()
            .map(|it| own_heads.iter().position(|own| own == it));
        let places: Vec<Option<usize>> = places.collect();
        for row in table.rows(Writing::Csv) {
            let fields = places.iter();
            text +=
                &record(fields.map(|it| it.map_or_else(String::new, |at| shown(table, row[at]))));
        }
    }
    text.into_bytes()
}

fn shown(table: &Table, cell: &Cell) -> String {
    if let Cell::More(count) = cell {
        count.to_string()
    } else if matches!(cell, Cell::Tick(_)) {
        String::new()
    } else {
        cell.shown(table.style(), "; ")
    }
}

fn record(fields: impl Iterator<Item = String>) -> String {
    let fields: Vec<String> = fields.map(|it| field(&it)).collect();
    fields.join(",") + "\r\n"
}

fn field(text: &str) -> String {
    if text.contains(['"', ',', '\r', '\n']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}
