//! The takeoff as files: comma-separated tables (RFC 4180) for spreadsheets, the sheets as a drawing, and JSON for
//! programs.
//!
//! Lengths stand as tape text and in millimetres; only the text is rounded.

mod csv;
mod json;
pub(super) mod lists;
mod svg;
pub(super) mod table;
mod texts;

use super::ExportError;
use crate::design::Design;
use crate::takeoff::Takeoff;
use lists::Taken;

pub use table::{Cell, Style, Table, Tape, Writing};
pub use texts::{EndSign, amount};

/// One file of the takeoff.
#[derive(Debug, Clone, Copy)]
pub struct TakeoffFormat {
    /// Name of the file.
    pub file: &'static str,
    /// Makes the file's bytes.
    pub write: fn(&Design, &Takeoff) -> Result<Vec<u8>, ExportError>,
}

/// Every list of a takeoff, in the order of use.
pub fn takeoff_tables(design: &Design, takeoff: &Takeoff) -> Vec<Table> {
    lists::lists(&Taken { design, takeoff })
}

/// The takeoff of a design as JSON text.
///
/// # Errors
/// Only if a number cannot be written as JSON.
pub fn takeoff_json(design: &Design, takeoff: &Takeoff) -> Result<String, ExportError> {
    json::text(&Taken { design, takeoff })
}

/// Every file of the takeoff, in the order in which they are written.
pub static TAKEOFF_FORMATS: &[TakeoffFormat] = &[
    TakeoffFormat {
        file: "cut-list.csv",
        write: |design, takeoff| Ok(csv::bytes(&takeoff_tables(design, takeoff), "cut-list.csv")),
    },
    TakeoffFormat {
        file: "cut-list-by-stock.csv",
        write: |design, takeoff| {
            Ok(csv::bytes(
                &takeoff_tables(design, takeoff),
                "cut-list-by-stock.csv",
            ))
        },
    },
    TakeoffFormat {
        file: "saw-setup.csv",
        write: |design, takeoff| {
            Ok(csv::bytes(
                &takeoff_tables(design, takeoff),
                "saw-setup.csv",
            ))
        },
    },
    TakeoffFormat {
        file: "cutting-plan.csv",
        write: |design, takeoff| {
            Ok(csv::bytes(
                &takeoff_tables(design, takeoff),
                "cutting-plan.csv",
            ))
        },
    },
    TakeoffFormat {
        file: "sheets.csv",
        write: |design, takeoff| Ok(csv::bytes(&takeoff_tables(design, takeoff), "sheets.csv")),
    },
    svg::SHEETS,
    TakeoffFormat {
        file: "layout-marks.csv",
        write: |design, takeoff| {
            Ok(csv::bytes(
                &takeoff_tables(design, takeoff),
                "layout-marks.csv",
            ))
        },
    },
    TakeoffFormat {
        file: "buy-list.csv",
        write: |design, takeoff| Ok(csv::bytes(&takeoff_tables(design, takeoff), "buy-list.csv")),
    },
    TakeoffFormat {
        file: "weights.csv",
        write: |design, takeoff| Ok(csv::bytes(&takeoff_tables(design, takeoff), "weights.csv")),
    },
    TakeoffFormat {
        file: "takeoff.json",
        write: |design, takeoff| Ok(takeoff_json(design, takeoff)?.into_bytes()),
    },
];
