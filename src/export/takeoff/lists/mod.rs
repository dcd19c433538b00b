//! The lists of the takeoff, each declared once. A new list is its function and its line in [`LISTS`]; a new column is
//! its line in its list.

mod boards;
mod layout;
mod money;
mod sheets;
mod sticks;
mod taken;

pub(in crate::export) use taken::Taken;

pub(in crate::export) use boards::boards;
pub(in crate::export) use layout::{bores, packing, plates, plumb_lines, story_pole};
pub(in crate::export) use money::{buy, finish, priced, weights};
pub(in crate::export) use sticks::{cut_list, saw};

use super::table::Table;

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
