//! The takeoff as tables that fit a terminal of 100 columns.

use std::fmt::Write as _;

use super::table::{WIDTH, table};
use crate::design::Design;
use crate::export::{Cell, Table, Writing, takeoff_tables};
use crate::takeoff::Takeoff;

/// Everything, in the order of use.
pub(super) fn tables(design: &Design, takeoff: &Takeoff) -> String {
    let mut text = format!("{}\n", design.params.project.name);
    for table in takeoff_tables(design, takeoff) {
        if let Some(title) = table.name(Writing::Terminal) {
            section(&mut text, title, &table);
        }
    }
    text
}

fn section(text: &mut String, title: &str, list: &Table) {
    let mut drawn = table(&list.headings(Writing::Terminal));
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
        text.push_str(&wrapped(&list.paragraph));
    }
}

/// Words in lines that fit the width.
fn wrapped(words: &str) -> String {
    let mut lines = vec![String::new()];
    for word in words.split(' ') {
        let last = lines.len() - 1;
        if lines[last].is_empty() {
            word.clone_into(&mut lines[last]);
        } else if lines[last].chars().count() + 1 + word.chars().count() <= usize::from(WIDTH) {
            lines[last] = format!("{} {word}", lines[last]);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines.join("\n") + "\n"
}
