//! The takeoff as tables that fit the terminal.

use std::fmt::Write as _;

use super::look::{Look, wrapped};
use super::table::table;
use crate::design::Design;
use crate::export::{Cell, Table, Writing, takeoff_tables};
use crate::takeoff::Takeoff;

/// Everything, in the order of use.
pub(super) fn tables(design: &Design, takeoff: &Takeoff, look: Look) -> String {
    let mut text = format!("{}\n", design.params.project.name);
    for table in takeoff_tables(design, takeoff) {
        if let Some(title) = table.name(Writing::Terminal) {
            section(&mut text, title, &table, look);
        }
    }
    text
}

fn section(text: &mut String, title: &str, list: &Table, look: Look) {
    let mut drawn = table(&list.headings(Writing::Terminal), look);
    for row in list.rows(Writing::Terminal) {
        drawn.add_row(row.iter().map(|cell| match cell {
            Cell::Tick(_) => "[ ]".to_owned(),
            cell => cell.shown(list.style(), "\n"),
        }));
    }
    if !drawn.is_empty() {
        let _ = writeln!(text, "\n{title}\n{drawn}");
    }
    for line in &list.after {
        let _ = writeln!(text, "{line}");
    }
    if !list.paragraph.is_empty() {
        text.push_str(&wrapped(&list.paragraph, look.columns(), ["", ""]));
    }
}
