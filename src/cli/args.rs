//! The command line.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use crate::drawing::Paper;
use crate::export::{StepForm, StepSchema, StepUnit};
use crate::units::Length;

/// Plans the framed chase around a direct-vent gas fireplace.
#[derive(Debug, Parser)]
#[command(
    version,
    after_help = "Exit codes: 0 no check fails, 1 a check fails, 2 bad parameters or usage, 3 a fault of the program or the disk, 130 Ctrl-C."
)]
pub(super) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(super) command: Command,
}

/// What the program can do.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Build the model, check it, and write its files.
    Build {
        /// The parameter file.
        file: PathBuf,
        /// Folder for the files [default: exports/<name of FILE>].
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
        /// Schema of the STEP file.
        #[arg(long, value_name = "SCHEMA", value_enum, default_value_t)]
        step_schema: Schema,
        /// Unit of length in the STEP file.
        #[arg(long, value_name = "UNIT", value_enum, default_value_t)]
        step_unit: Unit,
        /// Leave out the drawings, and the packet that holds them.
        #[arg(long)]
        no_drawings: bool,
        /// The size of the drawings' sheets [default: tabloid, or a3 for a file in millimetres].
        #[arg(long, value_name = "PAPER", value_parser = paper, conflicts_with = "no_drawings")]
        paper: Option<Paper>,
    },
    /// Draw plan, elevations, sections and details to scale: one PDF, and an SVG a sheet.
    Draw {
        /// The parameter file.
        file: PathBuf,
        /// Size of the sheets [default: tabloid, or a3 for a file in millimetres].
        #[arg(long, value_name = "PAPER", value_parser = paper)]
        paper: Option<Paper>,
        /// Folder for the files [default: exports/<name of FILE>].
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Write the packet: one page for phone, desk and paper with everything needed on site.
    Packet {
        /// The parameter file.
        file: PathBuf,
        /// The size of the drawings' sheets [default: tabloid, or a3 for a file in millimetres].
        #[arg(long, value_name = "PAPER", value_parser = paper)]
        paper: Option<Paper>,
        /// Folder for the file [default: exports/<name of FILE>].
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Make a scale model for a 3D printer: in one piece, and as a kit on plates.
    Scale {
        /// The parameter file.
        file: PathBuf,
        /// Scale of the model.
        #[arg(long, value_name = "1:N", default_value = "1:12", value_parser = ratio)]
        ratio: u32,
        /// The printer's build volume in millimetres.
        #[arg(long, value_name = "XxYxZ", default_value = "220x220x250", value_parser = bed)]
        bed: Bed,
        /// Width of the nozzle in millimetres.
        #[arg(long, value_name = "MM", default_value = "0.4", value_parser = millimetres)]
        nozzle: Length,
        /// Folder for the files [default: exports/<name of FILE>].
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Check the model and show what needs attention, the worst first.
    Check {
        /// The parameter file.
        file: PathBuf,
        /// Show what passes too.
        #[arg(long)]
        all: bool,
        /// Write the findings as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Show how low mantel and screen may go, and what limits them.
    Heights {
        /// The parameter file.
        file: PathBuf,
        /// Also write a plot as SVG.
        #[arg(long, value_name = "SVG")]
        plot: Option<PathBuf>,
    },
    /// Say what a rule or a parameter means; without a name, list them all.
    Explain {
        /// A rule, such as "recess and pipe", or a key, such as recess.depth.
        name: Vec<String>,
    },
    /// Show the cut list, the saw set-up, the cutting plan, the layout marks and the buy list.
    Takeoff {
        /// The parameter file.
        file: PathBuf,
        /// Write the lists into this folder too.
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
        /// Write everything as JSON.
        #[arg(long)]
        json: bool,
    },
}

/// The printer's room: width, depth and height.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bed(pub(super) [Length; 3]);

fn paper(text: &str) -> Result<Paper, String> {
    let known = Paper::ALL.iter().find(|(word, _)| *word == text);
    known.map(|(_, paper)| *paper).ok_or_else(|| {
        let words = Paper::ALL.map(|(word, _)| word);
        format!("expected one of {}", words.join(", "))
    })
}

fn ratio(text: &str) -> Result<u32, String> {
    let number = text.strip_prefix("1:").and_then(|it| it.parse().ok());
    let sound = number.filter(|it| (1..=1000).contains(it));
    sound.ok_or_else(|| "expected 1:N, N a whole number from 1 to 1000".to_owned())
}

fn millimetres(text: &str) -> Result<Length, String> {
    let number = text.parse().ok();
    let sound = number.filter(|it: &f64| (0.05..=10_000.0).contains(it));
    let length = sound.map(Length::mm);
    length.ok_or_else(|| "expected millimetres, from 0.05 to 10000".to_owned())
}

fn bed(text: &str) -> Result<Bed, String> {
    let sides = text.split('x').map(millimetres);
    let sides = sides.collect::<Result<Vec<_>, _>>()?;
    let sides = <[Length; 3]>::try_from(sides);
    let bed = sides.map(Bed);
    bed.map_err(|_| "expected three sizes, such as 220x220x250".to_owned())
}

/// Schemas of the STEP file, by their names on the command line.
#[derive(Debug, Clone, Copy, Default, ValueEnum)]
pub(super) enum Schema {
    /// ISO 10303-242.
    #[default]
    Ap242,
    /// ISO 10303-214, for older readers.
    Ap214,
}

/// Units of the STEP file, by their names on the command line.
#[derive(Debug, Clone, Copy, Default, ValueEnum)]
pub(super) enum Unit {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches.
    In,
}

/// How the STEP file is to be written.
pub(super) fn step_form(schema: Schema, unit: Unit) -> StepForm {
    StepForm {
        schema: match schema {
            Schema::Ap242 => StepSchema::Ap242,
            Schema::Ap214 => StepSchema::Ap214,
        },
        unit: match unit {
            Unit::Mm => StepUnit::Millimeter,
            Unit::In => StepUnit::Inch,
        },
    }
}
