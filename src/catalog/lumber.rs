//! Dressed sizes of softwood lumber.
//!
//! # Source
//! DOC PS 20 (American Softwood Lumber Standard), table of nominal and minimum-dressed sizes, dry.

use crate::units::Length;

/// A stick of wood's cross-section.
#[derive(Debug, Clone, PartialEq)]
pub struct Lumber {
    /// What the yard calls it, such as `2x4`, or the actual size for stock without a nominal one.
    pub name: String,
    /// The smaller actual side.
    pub thickness: Length,
    /// The larger actual side.
    pub width: Length,
}

impl Lumber {
    /// What the yard calls it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How far an upright of it reaches along its wall: its thickness.
    pub const fn breadth(&self) -> Length {
        self.thickness
    }

    /// How deep a wall framed with it is: its width.
    pub const fn depth(&self) -> Length {
        self.width
    }

    /// What it takes of a height lying flat: its thickness.
    pub const fn plate(&self) -> Length {
        self.thickness
    }
}

/// Nominal number and dressed thickness in inches, dry.
const THICKNESSES: &[(&str, f64)] = &[
    ("1", 0.75),
    ("5/4", 1.0),
    ("6/4", 1.25),
    ("2", 1.5),
    ("2-1/2", 2.0),
    ("3", 2.5),
    ("4", 3.5),
];

/// Nominal number and dressed width in inches, dry.
const WIDTHS: &[(&str, f64)] = &[
    ("2", 1.5),
    ("3", 2.5),
    ("4", 3.5),
    ("5", 4.5),
    ("6", 5.5),
    ("8", 7.25),
    ("10", 9.25),
    ("12", 11.25),
    ("14", 13.25),
    ("16", 15.25),
];

/// The nominal thickness and width in a name such as `2x4`.
pub fn nominal(name: &str) -> Option<(&str, &str)> {
    name.split_once('x')
}

/// The dressed size of a nominal size such as `2x4`, or `None` where the standard has none.
pub fn lumber(name: &str) -> Option<Lumber> {
    let (thickness, width) = nominal(name)?;
    let find = |table: &[(&str, f64)], name: &str| {
        table
            .iter()
            .find(|(nominal, _)| *nominal == name)
            .map(|(_, actual)| Length::inches(*actual))
    };
    Some(Lumber {
        name: name.to_owned(),
        thickness: find(THICKNESSES, thickness)?,
        width: find(WIDTHS, width)?,
    })
}
