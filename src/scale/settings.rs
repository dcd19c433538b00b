//! What the printer can do, what it prints, and why it may not.

use crate::geom::Mesh;
use crate::units::Length;

/// What the printer can do, and how small the model is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// How many times smaller than the chase.
    pub ratio: u32,
    /// The printer's room: width, depth and height.
    pub bed: [Length; 3],
    /// Width of the nozzle.
    pub nozzle: Length,
}

/// One closed body.
#[derive(Debug, Clone)]
pub struct Printed {
    /// What it is.
    pub name: String,
    /// Its closed mesh.
    pub mesh: Mesh,
}

/// Why there is no model.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ScaleError {
    /// It cannot be printed so.
    #[error("{0}")]
    Refused(String),
    /// The bodies do not become one.
    #[error("the union of {0} failed: {1}")]
    Union(String, String),
}

impl Settings {
    /// The thinnest feature that prints: two lines of the nozzle side by side (common practice, no source).
    pub fn least(&self) -> Length {
        self.nozzle * 2.0
    }

    pub(super) fn scale(&self) -> f64 {
        1.0 / f64::from(self.ratio)
    }
}
