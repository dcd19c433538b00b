//! What the command line needs from the rest: findings of parameters, and the files of a model.

use super::write::OutputFile;
use crate::params::Params;

/// How findings are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// A table for people.
    Table,
    /// JSON for programs.
    Json,
}

/// What the checks say of a model.
#[derive(Debug, Clone)]
pub struct Verdicts {
    /// Whether one of them fails.
    pub failed: bool,
    /// All findings, in the form that was asked for, line end included.
    pub text: String,
}

/// A model that was made.
#[derive(Debug, Clone)]
pub struct Built {
    /// What the checks say, as a table.
    pub verdicts: Verdicts,
    /// Its files.
    pub files: Vec<OutputFile>,
}

/// The two jobs behind the commands. An error is the tool's own fault, in words.
#[derive(Debug, Clone, Copy)]
pub struct Work {
    /// Checks.
    pub check: fn(&Params, Form) -> Result<Verdicts, String>,
    /// Makes the model and its files.
    pub build: fn(&Params) -> Result<Built, String>,
}
