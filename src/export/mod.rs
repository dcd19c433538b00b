//! Products in, bytes out: one file for each format. A new format is its file, its `mod` line and
//! its line in [`FORMATS`].
//!
//! *Determinism*: the same products give the same bytes.

#![deny(clippy::wildcard_enum_match_arm)]

mod appearance;
mod assembly;
mod attribute;
mod drawings;
mod error;
mod escape;
mod findings;
mod following;
mod format;
mod glb;
mod heights_plot;
mod item;
pub mod number;
mod packet;
mod pdf;
mod picture;
mod printed;
mod products;
mod step;
mod stl;
mod svg;
mod takeoff;
mod three_mf;
mod tree;

pub use error::ExportError;
pub use findings::{
    Texts, count, counts_text, decision_text, findings_json, follower_text, note_text, place_text,
    remedy_text, turns_text, waiting_text, why_text,
};
pub use following::{Followed, followed};
pub use format::{Format, Named, Set};
pub use heights_plot::heights_plot;
pub use packet::{Attributes, Html};
pub use pdf::drawings_pdf;
pub use printed::scale_files;
pub use products::Products;
pub use step::{StepForm, StepSchema, StepUnit, quoted};
pub use svg::sheet_svg;
pub use takeoff::{Cell, EndSign, Style, Table, Writing, amount, takeoff_json, takeoff_tables};

/// Every format, in the order in which the files are written.
pub static FORMATS: &[Format] = &[
    step::FORMAT,
    stl::FORMAT,
    glb::FORMAT,
    glb::SECTION,
    findings::FORMAT,
    picture::FRONT,
    picture::FRAMING,
    picture::SECTION,
    picture::ISOMETRIC,
    packet::FORMAT,
    drawings::BOUND,
    drawings::SINGLE,
    takeoff::csv("cut-list.csv"),
    takeoff::csv("cut-list-by-stock.csv"),
    takeoff::csv("saw-setup.csv"),
    takeoff::csv("cutting-plan.csv"),
    takeoff::csv("sheets.csv"),
    drawings::CUT_SHEETS,
    takeoff::csv("layout-marks.csv"),
    takeoff::csv("buy-list.csv"),
    takeoff::csv("weights.csv"),
    takeoff::WORKBOOK,
    takeoff::JSON,
    printed::FORMAT,
];

/// The format whose file has this name.
pub fn format(file: &str) -> Option<&'static Format> {
    FORMATS.iter().find(|it| it.file == file)
}
