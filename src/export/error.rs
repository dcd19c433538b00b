//! Why a file could not be made.

use crate::solids::SolidError;

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
    /// A part is no closed body.
    #[error("{0}")]
    Solid(#[from] SolidError),
    /// JSON could not be written.
    #[error("{0}")]
    Json(#[from] serde_json::Error),
}
