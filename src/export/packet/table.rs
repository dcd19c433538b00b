//! Rows in, a table out that a phone shows as one block a row and that paper never cuts in a row.
//!
//! Roles are written out, since a table that is not laid out as one loses them.

use super::html::Html;
use crate::export::takeoff::EndSign;

/// What stands in one place of a table.
#[derive(Debug, Clone)]
pub(super) enum Cell {
    /// Text of the program.
    Text(String),
    /// Text of the program, a line each.
    Lines(Vec<String>),
    /// A number, set to the right.
    Number(String),
    /// Text that a user wrote.
    Words(String),
    /// A box to tick; what it ticks off.
    Tick(String),
    /// A blank to be filled in; what it asks.
    Blank(String),
    /// The ends of a stick.
    Stick([EndSign; 2]),
    /// Where something is: a button for the 3D view.
    Place(Place),
}

/// What the 3D view jumps to.
#[derive(Debug, Clone)]
pub(super) struct Place {
    /// What is shown, for who cannot see the button's row.
    pub(super) what: String,
    /// Millimetres of the world.
    pub(super) location: Option<[f64; 3]>,
    /// Ids of the parts.
    pub(super) parts: Vec<String>,
}

/// A table on the way.
#[derive(Debug)]
pub(super) struct Table<'a> {
    /// What it is, as its caption.
    pub(super) caption: &'a str,
    /// Heads of the columns; an empty one for boxes to tick.
    pub(super) heads: &'a [&'a str],
    /// The rows; the first text of each names the row.
    pub(super) rows: Vec<Vec<Cell>>,
}

impl Table<'_> {
    /// Writes the table; nothing where it has no rows.
    pub(super) fn write(&self, html: &mut Html) {
        if self.rows.is_empty() {
            return;
        }
        html.line();
        html.element("table", &[("role", "table")], |html| {
            html.leaf("caption", &[], self.caption);
            html.element("thead", &[("role", "rowgroup")], |html| {
                html.element("tr", &[("role", "row")], |html| {
                    for (place, text) in self.heads.iter().enumerate() {
                        let cell = self.rows.first().and_then(|row| row.get(place));
                        head(html, text, cell.map_or("", Cell::class));
                    }
                });
            });
            html.element("tbody", &[("role", "rowgroup")], |html| {
                for row in &self.rows {
                    self.row(html, row);
                }
            });
        });
    }

    fn row(&self, html: &mut Html, row: &[Cell]) {
        let names = |cell: &Cell| matches!(cell, Cell::Text(_) | Cell::Words(_) | Cell::Number(_));
        let name = row.iter().position(names);
        html.line();
        html.element("tr", &[("role", "row")], |html| {
            for (place, cell) in row.iter().enumerate() {
                let head = self.heads.get(place).copied().unwrap_or_default();
                let label = ("data-label", head);
                let class = ("class", cell.class());
                if Some(place) == name {
                    let role = ("role", "rowheader");
                    let attributes = [role, ("scope", "row"), label, class];
                    html.element("th", &attributes, |html| cell.write(html));
                } else {
                    html.element("td", &[("role", "cell"), label, class], |html| {
                        cell.write(html);
                    });
                }
            }
        });
    }
}

fn head(html: &mut Html, text: &str, class: &str) {
    let attributes = [("role", "columnheader"), ("scope", "col"), ("class", class)];
    html.element("th", &attributes, |html| {
        if text.is_empty() {
            html.leaf("span", &[("class", "hidden")], "done");
        } else {
            html.text(text);
        }
    });
}

impl Cell {
    const fn class(&self) -> &'static str {
        match self {
            Self::Number(_) => "number",
            Self::Tick(_) => "tick",
            Self::Blank(_) => "fill",
            Self::Stick(_) => "drawn",
            Self::Place(_) => "place",
            Self::Text(_) | Self::Lines(_) | Self::Words(_) => "words",
        }
    }

    /// Writes what stands in it, in one box; nothing where it is empty.
    fn write(&self, html: &mut Html) {
        match self {
            Self::Text(text) | Self::Number(text) if text.is_empty() => (),
            Self::Text(text) | Self::Number(text) => html.leaf("div", &[], text),
            Self::Words(text) => html.element("div", &[], |html| html.words(text)),
            Self::Lines(lines) if lines.iter().all(String::is_empty) => (),
            Self::Lines(lines) => html.element("div", &[], |html| {
                for line in lines.iter().filter(|it| !it.is_empty()) {
                    html.leaf("div", &[], line);
                }
            }),
            Self::Tick(what) => tick(html, what, ""),
            Self::Blank(what) => blank(html, what),
            Self::Stick(ends) => stick(html, *ends),
            Self::Place(place) => place.write(html),
        }
    }
}

impl Place {
    /// Writes the button; nothing where there is nothing to show.
    pub(super) fn write(&self, html: &mut Html) {
        if self.location.is_none() && self.parts.is_empty() {
            return;
        }
        let at = self.location.map(|at| at.map(|it| (it + 0.0).to_string()));
        let at = at.map_or_else(String::new, |at| at.join(" "));
        let parts = self.parts.join("\n");
        let label = format!("Show in the 3D view: {}", self.what);
        let attributes = [
            ("type", "button"),
            ("class", "show"),
            ("aria-label", label.as_str()),
            ("data-at", at.as_str()),
            ("data-parts", parts.as_str()),
        ];
        html.leaf("button", &attributes, "Show in 3D");
    }
}

/// A box to tick, with the text beside it; what it ticks off is said where no text is.
pub(super) fn tick(html: &mut Html, what: &str, text: &str) {
    html.element("label", &[("class", "check")], |html| {
        html.open("input", &[("type", "checkbox"), ("data-keep", what)]);
        if text.is_empty() {
            html.leaf("span", &[("class", "hidden")], &format!("done: {what}"));
        } else {
            html.leaf("span", &[], text);
        }
    });
}

/// A blank to be filled in by hand or by keyboard.
pub(super) fn blank(html: &mut Html, what: &str) {
    let attributes = [
        ("type", "text"),
        ("class", "blank"),
        ("autocomplete", "off"),
        ("aria-label", what),
        ("data-keep", what),
    ];
    html.open("input", &attributes);
}

/// A blank with its name before it.
pub(super) fn named_blank(html: &mut Html, name: &str, what: &str) {
    html.element("span", &[("class", "named")], |html| {
        html.leaf("span", &[("aria-hidden", "true")], name);
        blank(html, &format!("{what}: {name}"));
    });
}

/// A stick as seen with its wide face up: how its ends are cut. The words beside it say the same.
fn stick(html: &mut Html, ends: [EndSign; 2]) {
    let [(left, left_bevel), (right, right_bevel)]: [(i32, bool); 2] = ends.map(|it| match it {
        EndSign::Rising => (8, false),
        EndSign::Falling => (-8, false),
        EndSign::Bevel => (0, true),
        EndSign::Compound => (8, true),
        EndSign::Square | EndSign::Peak => (0, false),
    });
    let outline = format!(
        "M{},2 L{},2 L{},18 L{},18 Z",
        10 + left.max(0),
        90 + right.min(0),
        90 - right.max(0),
        10 + (-left).max(0),
    );
    let attributes = [
        ("viewBox", "0 0 100 20"),
        ("class", "stick"),
        ("aria-hidden", "true"),
    ];
    html.element("svg", &attributes, |html| {
        html.element("path", &[("d", outline.as_str())], |_| ());
        for (bevel, place) in [
            (left_bevel, 15 + left.abs()),
            (right_bevel, 81 - right.abs()),
        ] {
            if bevel {
                let line = format!("M{place},2 L{place},18");
                html.element("path", &[("d", line.as_str()), ("class", "bevel")], |_| ());
            }
        }
    });
}
