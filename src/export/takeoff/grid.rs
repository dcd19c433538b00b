//! The lists of one file as a grid for spreadsheets: the lists one under the other, under the headings of the first.

use super::table::{Cell, Style, Table, Writing};

/// Rows of cells under headings.
pub(super) struct Grid<'a> {
    /// How lengths and amounts are written.
    pub(super) style: &'a Style,
    /// What the columns are called, without their units.
    pub(super) headings: Vec<&'a str>,
    /// The cells, a row each; nothing where a list lacks the column.
    pub(super) rows: Vec<Vec<Option<&'a Cell>>>,
    /// The columns that are summed up.
    pub(super) summed: Vec<usize>,
}

impl<'a> Grid<'a> {
    /// The lists that belong into a file, if there are any.
    pub(super) fn of(tables: &'a [Table], file: &str) -> Option<Self> {
        let own = || {
            tables
                .iter()
                .filter(|it| it.name(Writing::Csv) == Some(file))
        };
        let first = own().next()?;
        let headings = first.headings(Writing::Csv);
        let rows = own().flat_map(|table| {
            let own = table.headings(Writing::Csv);
            let places = headings
                .iter()
                .map(|it| own.iter().position(|own| own == it));
            let places: Vec<Option<usize>> = places.collect();
            let rows = table.rows(Writing::Csv).into_iter();
            // a box to tick stays empty
            let cell = |row: &[&'a Cell], at: usize| {
                Some(row[at]).filter(|it| !matches!(it, Cell::Tick(_)))
            };
            rows.map(move |row| {
                let cells = places.iter().map(|it| it.and_then(|at| cell(&row, at)));
                cells.collect()
            })
        });
        let rows = rows.collect();
        let totals = own().filter_map(|it| it.total);
        let summed = totals.filter_map(|total| headings.iter().position(|it| *it == total));
        Some(Self {
            style: first.style(),
            summed: summed.collect(),
            rows,
            headings,
        })
    }

    /// The headings, each with the unit of the numbers under it in brackets.
    pub(super) fn headings_with(
        &self,
        unit: impl Fn(&Cell, &Style) -> Option<String>,
    ) -> Vec<String> {
        let columns = self.headings.iter().enumerate();
        let heading = |(at, name): (usize, &&str)| {
            let mut cells = self.rows.iter().filter_map(|row| row[at]);
            match cells.find_map(|it| unit(it, self.style)) {
                Some(unit) => format!("{name} ({unit})"),
                None => (*name).to_owned(),
            }
        };
        columns.map(heading).collect()
    }
}
