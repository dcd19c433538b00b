//! What the command line needs from the rest: findings of parameters, and the files of a model.

use super::look::Look;
use super::watch::Watch;
use super::write::OutputFile;
use crate::drawing::Paper;
use crate::export::StepForm;
use crate::params::{Fault, Params};
use crate::scale::Settings;

/// How findings are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Text for people.
    Table(Look),
    /// JSON for programs.
    Json,
}

/// What is built beside the model, and how.
#[derive(Debug, Clone, Copy)]
pub struct BuildForm {
    /// How the STEP file is written.
    pub step: StepForm,
    /// Whether the drawings are made too.
    pub drawings: bool,
    /// The size of their sheets; none is the usual one.
    pub paper: Option<Paper>,
    /// How the verdicts are shown.
    pub look: Look,
}

impl Default for BuildForm {
    fn default() -> Self {
        Self {
            step: StepForm::default(),
            drawings: true,
            paper: None,
            look: Look::default(),
        }
    }
}

/// What the checks say of a model.
#[derive(Debug, Clone)]
pub struct Verdicts {
    /// Whether one of them fails.
    pub failed: bool,
    /// The findings, in the form that was asked for, line end included.
    pub text: String,
    /// What is shown last of all, after whatever else the command says; empty for programs.
    pub counts: String,
}

/// A model that was made.
#[derive(Debug, Clone)]
pub struct Built {
    /// What the checks say, as a table.
    pub verdicts: Verdicts,
    /// Its files.
    pub files: Vec<OutputFile>,
    /// What keeps it from being built, of which the model knew nothing; then nothing is written.
    pub faults: Vec<Fault>,
}

/// What was taken off a model.
#[derive(Debug, Clone)]
pub struct TakenOff {
    /// All of it, in the form that was asked for, line end included.
    pub text: String,
    /// Its files.
    pub files: Vec<OutputFile>,
    /// What keeps it from being of use; then nothing is shown or written.
    pub faults: Vec<Fault>,
}

/// Drawings that were made.
#[derive(Debug, Clone)]
pub struct Drawn {
    /// Their files.
    pub files: Vec<OutputFile>,
    /// What they are, line end included.
    pub text: String,
}

/// A scale model that was made, or why it cannot be.
#[derive(Debug, Clone)]
pub enum Scaled {
    /// Its files, and what is to be said about it.
    Made(Vec<OutputFile>, String),
    /// Why the printer cannot do it, and what works.
    Refused(String),
}

/// The jobs behind the commands. An error is the tool's own fault, in words.
#[derive(Debug, Clone, Copy)]
pub struct Work {
    /// Checks.
    pub check: fn(&Params, Form, Watch<'_>) -> Result<Verdicts, String>,
    /// Makes the model and its files.
    pub build: fn(&Params, BuildForm, Watch<'_>) -> Result<Built, String>,
    /// Draws: every sheet, on this paper or the usual one.
    pub draw: fn(&Params, Option<Paper>) -> Result<Drawn, String>,
    /// Makes the packet alone.
    pub packet: fn(&Params, BuildForm, Watch<'_>) -> Result<Built, String>,
    /// Makes a scale model.
    pub scale: fn(&Params, &Settings) -> Result<Scaled, String>,
    /// Takes off cut lists, plans and the buy list.
    pub takeoff: fn(&Params, Form, Watch<'_>) -> Result<TakenOff, String>,
}
