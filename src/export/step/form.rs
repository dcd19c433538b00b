//! How a STEP file is written: its schema and its unit of length.
//!
//! *Source*: the schemas' names and object identifiers from ISO 10303-242 and ISO 10303-214; the inch as
//! 25.4 mm from ISO 80000-3.

use crate::export::number::{COORDINATE, Decimals, INCHES};
use crate::units::MM_PER_INCH;

/// Schema and unit of a STEP file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct StepForm {
    /// The schema.
    pub schema: StepSchema,
    /// The unit of length.
    pub unit: StepUnit,
}

/// The application protocol that a STEP file follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum StepSchema {
    /// ISO 10303-242, managed model-based 3D engineering.
    #[default]
    Ap242,
    /// ISO 10303-214, automotive design; for older readers.
    Ap214,
}

/// The unit of length in a STEP file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum StepUnit {
    /// Millimetres.
    #[default]
    Millimeter,
    /// Inches of 25.4 mm.
    Inch,
}

impl StepSchema {
    /// The schema's exact name with its object identifier.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Ap242 => {
                "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }"
            }
            Self::Ap214 => "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }",
        }
    }

    /// What the schema is for, its short name, and the year of it.
    pub(super) const fn application(self) -> [&'static str; 3] {
        match self {
            Self::Ap242 => [
                "managed model based 3d engineering",
                "ap242_managed_model_based_3d_engineering",
                "2014",
            ],
            Self::Ap214 => [
                "core data for automotive mechanical design processes",
                "automotive_design",
                "2000",
            ],
        }
    }
}

impl StepUnit {
    /// Millimetres in one.
    pub(super) const fn millimetres(self) -> f64 {
        match self {
            Self::Millimeter => 1.0,
            Self::Inch => MM_PER_INCH,
        }
    }

    /// How finely coordinates are written.
    pub(super) const fn decimals(self) -> Decimals {
        match self {
            Self::Millimeter => COORDINATE,
            Self::Inch => INCHES,
        }
    }
}
