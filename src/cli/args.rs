//! The command line.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use crate::export::{StepForm, StepSchema, StepUnit};

/// Plans the framed chase around a direct-vent gas fireplace.
#[derive(Debug, Parser)]
#[command(
    version,
    after_help = "Exit codes: 0 no check fails, 1 a check fails, 2 bad parameters or usage, 3 a fault of the tool or the disk."
)]
pub(super) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(super) command: Command,
}

/// What the program can do.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Make the model, check it, and write its files.
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
    },
    /// Check the model and show every finding, the worst first.
    Check {
        /// The parameter file.
        file: PathBuf,
        /// Write the findings as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Show how low mantel and screen may come, and what stops them.
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
