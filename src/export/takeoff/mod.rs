//! The takeoff as files: a workbook and comma-separated tables (RFC 4180) for spreadsheets, and JSON for programs.
//!
//! Lengths stand as tape text and in millimetres; only the text is rounded.

mod csv;
mod grid;
mod json;
pub(super) mod lists;
pub(super) mod table;
mod texts;
mod workbook;

use super::{ExportError, Format, Set};
use crate::design::Design;
use crate::takeoff::Takeoff;
use lists::Taken;

pub use table::{Cell, Style, Table, Writing};
pub use texts::{EndSign, amount};

/// The lists that name this file as theirs.
pub(super) const fn csv(file: &'static str) -> Format {
    Format::new(Set::Takeoff, file, |products, file| {
        Ok(csv::bytes(&lists::lists(&products.taken()), file))
    })
}

/// All lists in one workbook.
pub(super) const WORKBOOK: Format = Format::new(Set::Takeoff, "lists.xlsx", |products, file| {
    let taken = products.taken();
    workbook::bytes(
        &lists::lists(&taken),
        taken.design.params.project.unit,
        file,
    )
});

/// All of it as JSON.
pub(super) const JSON: Format = Format::new(Set::Takeoff, "takeoff.json", |products, _| {
    Ok(json::text(&products.taken())?.into_bytes())
});

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
