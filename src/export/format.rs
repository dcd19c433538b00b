//! One form for every file that is written: its name, the set it belongs to, and how it is made of the products.

use super::{ExportError, Products};

/// Files that are written together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Set {
    /// The model, its pictures and its findings.
    Model,
    /// The packet.
    Packet,
    /// The drawings, bound.
    Drawings,
    /// The drawings, each by itself.
    Sheets,
    /// The lists of the takeoff.
    Takeoff,
    /// The scale model.
    Scale,
}

/// A file, or several that are made at once.
#[derive(Debug, Clone, Copy)]
pub struct Format {
    /// Name of the file, or what the names of several have in common.
    pub file: &'static str,
    /// The set that it belongs to.
    pub set: Set,
    pub(super) write: Write,
}

/// How a format is made.
#[derive(Debug, Clone, Copy)]
pub(super) enum Write {
    /// One file, which is told its name.
    One(One),
    /// As many files as there are things to show.
    Many(fn(&Products<'_>) -> Result<Vec<Named>, ExportError>),
}

type One = fn(&Products<'_>, &'static str) -> Result<Vec<u8>, ExportError>;

/// A file's name and what stands in it.
pub type Named = (String, Vec<u8>);

impl Format {
    pub(super) const fn new(set: Set, file: &'static str, write: One) -> Self {
        Self {
            file,
            set,
            write: Write::One(write),
        }
    }

    /// Makes the files.
    ///
    /// # Errors
    /// Where what is to be shown does not fit the format, or a product cannot be made.
    pub fn files(&self, products: &Products<'_>) -> Result<Vec<Named>, ExportError> {
        match self.write {
            Write::One(write) => Ok(vec![(self.file.to_owned(), write(products, self.file)?)]),
            Write::Many(write) => write(products),
        }
    }
}
