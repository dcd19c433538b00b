//! Tables of the takeoff as comma-separated values after RFC 4180: lines end with CR LF, every field stands in quotes,
//! so that no program splits it elsewhere, and a quote within is doubled.
//!
//! Amounts and weights are plain numbers, with their unit in the heading. No number has exactly three decimals: where
//! the comma is the decimal sign, a program would read the point as that of thousands.

use super::grid::Grid;
use super::table::{Cell, Read, Style, Table};

/// The tables that belong into a file, one under the other under the headings of the first.
pub(super) fn bytes(tables: &[Table], file: &str) -> Vec<u8> {
    let Some(grid) = Grid::of(tables, file) else {
        return Vec::new();
    };
    let mut text = record(&grid.headings_with(unit));
    for row in &grid.rows {
        let fields = row.iter();
        let shown = fields.map(|it| it.map_or_else(String::new, |cell| shown(cell, grid.style)));
        text += &record(&shown.collect::<Vec<String>>());
    }
    text.into_bytes()
}

/// What its number counts, where the number stands alone.
fn unit(cell: &Cell, style: &Style) -> Option<String> {
    let figure = cell.figure(style)?;
    match figure.read {
        Read::Decimals(_) => figure.unit,
        Read::Mark | Read::Degrees => None,
    }
}

/// A plain number, or text: lengths as the tape shows them, and angles.
fn shown(cell: &Cell, style: &Style) -> String {
    match cell.figure(style).map(|it| (it.value, it.read)) {
        Some((value, Read::Decimals(places))) => decimals(value, places),
        Some((_, Read::Mark | Read::Degrees)) | None => cell.shown(style, "; "),
    }
}

/// A number rounded to so many places; three are written as four.
fn decimals(number: f64, places: usize) -> String {
    let text = format!("{:.places$}", number + 0.0);
    if places == 3 { text + "0" } else { text }
}

fn record(fields: &[String]) -> String {
    let fields = fields
        .iter()
        .map(|it| format!("\"{}\"", it.replace('"', "\"\"")));
    fields.collect::<Vec<String>>().join(",") + "\r\n"
}
