//! Products in, bytes out: one file for each format. A new format is its file, its `mod` line and
//! its line in [`FORMATS`].
//!
//! *Determinism*: the same products give the same bytes.

mod appearance;
mod assembly;
mod attribute;
mod escape;
mod findings;
mod glb;
mod heights_plot;
mod item;
pub mod number;
mod packet;
mod pdf;
mod picture;
mod printed;
mod step;
mod stl;
mod svg;
mod takeoff;
mod three_mf;
mod tree;

use std::collections::BTreeSet;

use crate::check::{Finding, Shared};
use crate::design::Design;
use crate::solids::Solids;

/// Everything that is known of a design when files are written.
#[derive(Debug, Clone, Copy)]
pub struct Products<'a> {
    /// The design.
    pub design: &'a Design,
    /// Its solids.
    pub solids: &'a Solids,
    /// Ids of the parts that fail a check; they are shown as such.
    pub failing: &'a BTreeSet<String>,
    /// Where parts are in one another.
    pub overlaps: &'a [Shared],
    /// The findings, worst first.
    pub findings: &'a [Finding],
    /// How the STEP file is written.
    pub step: StepForm,
}

/// One format of file.
#[derive(Debug, Clone, Copy)]
pub struct Format {
    /// Name of the file.
    pub file: &'static str,
    /// Makes the file's bytes.
    pub write: fn(&Products<'_>) -> Result<Vec<u8>, ExportError>,
}

/// A file that could not be made.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The model does not fit the format.
    #[error("{file}: {reason}")]
    Unfit {
        /// Name of the file.
        file: &'static str,
        /// What does not fit.
        reason: String,
    },
    /// JSON could not be written.
    #[error("{0}")]
    Json(#[from] serde_json::Error),
}

pub use findings::{Texts, findings_json, note_text, place_text, remedy_text};
pub use heights_plot::heights_plot;
pub use packet::{Attributes, Html, PACKET, PACKET_NEEDS, Packet, packet};
pub use pdf::{DRAWINGS, drawings_pdf};
pub use printed::{Named, scale_files};
pub use step::{StepForm, StepSchema, StepUnit, quoted};
pub use svg::sheet_svg;
pub use takeoff::{
    Cell, EndSign, Style, TAKEOFF_FORMATS, Table, TakeoffFormat, Tape, Writing, amount,
    takeoff_json, takeoff_tables,
};

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
];
