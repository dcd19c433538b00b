//! Tables of lengths: rows out of the manual, corners of a way, rectangles on the outside wall.

use super::fault::Fault;
use super::range::{limits_text, out_of_range, within};
use super::text::length_text;
use crate::units::{Length, TapeUnit};

/// The columns of a table of lengths.
#[derive(Debug, PartialEq, Eq)]
pub struct Columns {
    /// Their names, in the order they are written.
    pub names: &'static [&'static str],
    /// Whether rows grow: the first column from row to row, the second at least not falling.
    pub grows: bool,
    /// How few rows it may have.
    pub least_rows: usize,
}

/// The manual's rows for what is beside the opening: up to each projection, at least that far away.
#[derive(Debug, Clone, PartialEq)]
pub struct SideRows(pub Vec<[Length; 2]>);

/// The manual's rows for the vent: from each rise up, that much run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunRows(pub Vec<[Length; 2]>);

/// Corners of a way: right, out and up of each.
#[derive(Debug, Clone, PartialEq)]
pub struct CableRoute(pub Vec<[Length; 3]>);

/// Openings of the outside wall: left, bottom, right and top of each.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OutsideOpenings(pub Vec<[Length; 4]>);

/// Readings of a wall: at each height, the distance from a plumb line before it to the wall.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlumbRows(pub Vec<[Length; 2]>);

/// Readings of the bare slab from the level line: right, out, and down to it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FloorRows(pub Vec<[Length; 3]>);

impl SideRows {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["projection", "distance"],
        grows: true,
        least_rows: 1,
    };
}

impl RunRows {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["rise", "run"],
        grows: true,
        least_rows: 1,
    };
}

impl CableRoute {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["right", "out", "up"],
        grows: false,
        least_rows: 2,
    };
}

impl OutsideOpenings {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["left", "bottom", "right", "top"],
        grows: false,
        least_rows: 0,
    };
}

impl PlumbRows {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["height", "distance"],
        grows: false,
        least_rows: 0,
    };
}

impl FloorRows {
    pub(super) const COLUMNS: Columns = Columns {
        names: &["right", "out", "down"],
        grows: false,
        least_rows: 0,
    };
}

/// Lengths that a cell can hold.
const CELLS: (Length, Length) = (Length::mm(-40_000.0), Length::mm(40_000.0));

impl Columns {
    /// How such a table is written.
    pub(super) fn written(&self) -> String {
        let names = self.names.join(", ");
        let row = vec!["\"8 in\""; self.names.len()].join(", ");
        format!("rows of {names}: [[{row}], ...]")
    }
}

/// The fault of a table by itself, or nothing.
pub(super) fn fault(
    key: &str,
    columns: &Columns,
    rows: &[Vec<Length>],
    unit: TapeUnit,
) -> Option<Fault> {
    let row_text = |row: &[Length]| {
        let cells: Vec<String> = row.iter().map(|it| length_text(*it, unit)).collect();
        format!("[{}]", cells.join(", "))
    };
    if rows.len() < columns.least_rows {
        let fault = Fault::new(key, format!("`{key}` has too few rows"));
        let fault = fault.found(format!("{} rows", rows.len()));
        let fault = fault.expected(format!("at least {}", columns.least_rows));
        return Some(fault.way_out(format!("write {}", columns.written())));
    }
    let least = if columns.grows { Length::ZERO } else { CELLS.0 };
    let limits = (least, CELLS.1);
    let outside = rows
        .iter()
        .find(|row| row.iter().any(|it| !within(*it, limits)));
    if let Some(row) = outside {
        return Some(out_of_range(
            key,
            row_text(row),
            limits_text(limits.0, limits.1, unit),
        ));
    }
    let falling = rows
        .iter()
        .zip(rows.iter().skip(1))
        .find(|(low, high)| columns.grows && !grows(low, high));
    falling.map(|(low, high)| {
        Fault::new(key, format!("the rows of `{key}` are out of order"))
            .found(format!("{} after {}", row_text(high), row_text(low)))
            .expected("a first column that increases, and a second that does not decrease")
            .way_out("copy the manual's rows, the smallest first")
    })
}

fn grows(low: &[Length], high: &[Length]) -> bool {
    match (low, high) {
        ([first, second], [next, after]) => next > first && after >= second,
        _ => true,
    }
}
