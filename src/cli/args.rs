//! The command line.

use std::path::PathBuf;

use clap::{Parser, Subcommand};

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
