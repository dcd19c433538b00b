//! The lists of the takeoff, each declared once. A new list is its function and its line in [`LISTS`]; a new column is
//! its line in its list.

mod boards;
mod layout;
mod money;
mod sheets;
mod sticks;

pub(in crate::export) use boards::boards;
pub(in crate::export) use layout::{bores, packing, plates, plumb_lines, story_pole};
pub(in crate::export) use money::{buy, finish, priced, weights};
pub(in crate::export) use sticks::{cut_list, saw};

use super::table::{Names, Rows, Style, Table};
use crate::design::Design;
use crate::takeoff::Takeoff;
use crate::units::{Length, Rounding, TapeUnit};

/// Every list, in the order of use.
const LISTS: &[fn(&Taken<'_>) -> Vec<Table>] = &[
    |it| vec![cut_list(it)],
    sticks::by_stock,
    |it| vec![saw(it)],
    boards,
    boards::all_boards,
    sheets::sheets,
    |it| vec![plates(it)],
    layout::marks,
    |it| vec![story_pole(it), plumb_lines(it), bores(it), packing(it)],
    |it| vec![buy(it), finish(it), weights(it)],
    money::other_weights,
];

/// Every list of a design.
pub(in crate::export) fn lists(taken: &Taken<'_>) -> Vec<Table> {
    LISTS.iter().flat_map(|list| list(taken)).collect()
}

/// A design and what was taken off it.
#[derive(Debug, Clone, Copy)]
pub(in crate::export) struct Taken<'a> {
    pub(in crate::export) design: &'a Design,
    pub(in crate::export) takeoff: &'a Takeoff,
}

impl<'a> Taken<'a> {
    fn unit(self) -> TapeUnit {
        self.design.params.project.unit
    }

    fn currency(self) -> &'a str {
        &self.design.params.stock.currency
    }

    fn tape(self, length: Length) -> String {
        length.tape(self.unit(), Rounding::Nearest)
    }

    /// A list of these things.
    fn list<R>(self, names: Names, things: impl IntoIterator<Item = R>) -> Rows<R> {
        let style = Style {
            unit: self.unit(),
            currency: self.currency().to_owned(),
        };
        Rows::new(names, style, things)
    }
}
