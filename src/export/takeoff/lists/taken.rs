//! What every list is made from.

use crate::design::Design;
use crate::export::takeoff::table::{Names, Rows, Style};
use crate::takeoff::Takeoff;
use crate::units::{Length, Rounding, TapeUnit};

/// A design and what was taken off it.
#[derive(Debug, Clone, Copy)]
pub(in crate::export) struct Taken<'a> {
    pub(in crate::export) design: &'a Design,
    pub(in crate::export) takeoff: &'a Takeoff,
}

impl<'a> Taken<'a> {
    pub(super) fn unit(self) -> TapeUnit {
        self.design.params.project.unit
    }

    pub(super) fn currency(self) -> &'a str {
        &self.design.params.stock.currency
    }

    pub(super) fn tape(self, length: Length) -> String {
        length.tape(self.unit(), Rounding::Nearest)
    }

    /// A list of these things.
    pub(super) fn list<R>(self, names: Names, things: impl IntoIterator<Item = R>) -> Rows<R> {
        let style = Style {
            unit: self.unit(),
            currency: self.currency().to_owned(),
        };
        Rows::new(names, style, things)
    }
}
