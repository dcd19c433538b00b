//! Tables that fit the terminal.

use comfy_table::{ContentArrangement, LineStyle, Table, TableStyle};

use super::look::Look;

/// A line under the headings, and none between rows.
const STYLE: TableStyle =
    TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─'));

/// A table without rows that fits the width.
pub(super) fn table(headings: &[&str], look: Look) -> Table {
    let mut table = Table::new();
    table
        .load_style(STYLE)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(u16::try_from(look.columns()).unwrap_or(u16::MAX))
        .set_header(headings.iter().copied());
    table
}
