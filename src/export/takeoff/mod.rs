//! The takeoff as files: comma-separated tables (RFC 4180) for spreadsheets, the sheets as a drawing, and JSON for
//! programs.
//!
//! Lengths stand as tape text and in millimetres; only the text is rounded.

mod csv;
mod json;
mod svg;
mod texts;

use super::ExportError;
use crate::design::Design;
use crate::takeoff::Takeoff;

pub use json::takeoff_json;
pub use texts::{
    amount, degrees, drawing, end_text, kilograms, lies, rip_text, setting_text, stop_text,
};

/// One file of the takeoff.
#[derive(Debug, Clone, Copy)]
pub struct TakeoffFormat {
    /// Name of the file.
    pub file: &'static str,
    /// Makes the file's bytes.
    pub write: fn(&Design, &Takeoff) -> Result<Vec<u8>, ExportError>,
}

/// Every file of the takeoff, in the order in which they are written.
pub static TAKEOFF_FORMATS: &[TakeoffFormat] = &[
    csv::CUT_LIST,
    csv::CUT_LIST_BY_STOCK,
    csv::SAW_SETUP,
    csv::CUTTING_PLAN,
    csv::SHEETS,
    svg::SHEETS,
    csv::LAYOUT_MARKS,
    csv::BUY_LIST,
    csv::WEIGHTS,
    json::FORMAT,
];
