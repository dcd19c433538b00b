//! A list as a table: each column is declared once, with the heading that it has in every writing that shows it, and
//! its cells keep their values. A writing is a choice of columns and a way to show a cell.

use std::borrow::Cow;

use serde_json::{Value, json};

use super::texts::{EndSign, degrees, kilograms, weight};
use crate::takeoff::CutLength;
use crate::units::{Angle, Length, Money, Rounding, TapeUnit};

/// The writings of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Writing {
    /// The tables that `takeoff` prints.
    Terminal,
    /// The tables of the packet.
    Packet,
    /// Comma-separated values, for spreadsheets.
    Csv,
    /// JSON, for programs.
    Json,
}

/// What a table or a column is called in each writing that shows it; no other does. JSON has low lines for spaces.
#[derive(Debug, Clone, Default)]
pub(super) struct Names([Option<Cow<'static, str>>; 4]);

impl Names {
    fn called(mut self, writings: &[Writing], name: impl Into<Cow<'static, str>>) -> Self {
        let name = name.into();
        for writing in writings {
            self.0[*writing as usize] = Some(name.clone());
        }
        self
    }

    fn of(&self, writing: Writing) -> Option<&str> {
        self.0[writing as usize].as_deref()
    }
}

/// Names in some writings, as the first or as further ones.
macro_rules! names {
    ($($name:ident: $($writing:ident)*;)*) => {
        impl Names {
            $(pub(super) fn $name(self, name: impl Into<Cow<'static, str>>) -> Self {
                self.called(&[$(Writing::$writing),*], name)
            })*
        }

        $(pub(super) fn $name(name: impl Into<Cow<'static, str>>) -> Names {
            Names::default().$name(name)
        })*
    };
}

names! {
    terminal: Terminal;
    packet: Packet;
    csv: Csv;
    json: Json;
    read: Terminal Packet;
    data: Csv Json;
    all: Terminal Packet Csv Json;
}

/// What stands in one place of a table.
#[derive(Debug, Clone)]
pub enum Cell {
    /// Nothing.
    Nothing,
    /// A box to tick; what it ticks off.
    Tick(String),
    /// Text of the program.
    Text(String),
    /// Text that a user wrote.
    Words(String),
    /// Texts, a line each where there is room.
    Lines(Vec<String>),
    /// A count.
    Count(usize),
    /// So many on top: `+2`, and nothing for none.
    More(usize),
    /// Yes or no.
    Yes(bool),
    /// A number, and how many decimals show it.
    Number(f64, usize),
    /// A length, if there is one, as the tape shows it.
    Tape(Option<Length>, Rounding),
    /// A length in feet and inches, however short.
    Feet(Length, Rounding),
    /// A length as a plain number of millimetres.
    Millimetres(Length),
    /// An angle, to a tenth of a degree.
    Angle(Angle),
    /// Kilograms, in the unit of the tape's country.
    Mass(f64),
    /// An amount, if it is known.
    Money(Option<Money>),
    /// Both ends of a stick, as seen with its wide face up.
    Ends([EndSign; 2]),
    /// What only programs read.
    Data(Value),
}

/// A cell's number, as a spreadsheet holds it.
pub(super) struct Figure {
    /// The number.
    pub(super) value: f64,
    /// What it counts, where a heading has to say so.
    pub(super) unit: Option<String>,
    /// How it is read.
    pub(super) read: Read,
}

/// How a number is read.
#[derive(Debug, Clone, Copy)]
pub(super) enum Read {
    /// With so many decimals.
    Decimals(usize),
    /// As a mark of the tape.
    Mark,
    /// As an angle of the saw.
    Degrees,
}

/// How a user writes lengths, masses and money.
#[derive(Debug, Clone)]
pub struct Style {
    /// The unit of the tape.
    pub unit: TapeUnit,
    /// What stands before an amount.
    pub currency: String,
}

/// Values that say by their type what cell they are.
macro_rules! cells {
    ($($value:ty => $cell:expr),* $(,)?) => {
        $(impl From<$value> for Cell {
            fn from(value: $value) -> Self {
                $cell(value)
            }
        })*
    };
}

cells! {
    &'static str => |it: &str| Self::Text(it.to_owned()),
    String => Self::Text,
    Option<String> => |it: Option<String>| it.map_or(Self::Nothing, Self::Text),
    Vec<String> => Self::Lines,
    usize => Self::Count,
    bool => Self::Yes,
    Option<bool> => |it: Option<bool>| it.map_or(Self::Nothing, Self::Yes),
    Length => |it| Self::Tape(Some(it), Rounding::Nearest),
    CutLength => |it: CutLength| Self::Tape(Some(it.exact), it.rounding),
    Angle => Self::Angle,
    Option<Money> => Self::Money,
    Value => Self::Data,
}

impl Cell {
    /// What people and spreadsheets read; several texts stand with `joint` between them.
    pub fn shown(&self, style: &Style, joint: &str) -> String {
        match self {
            Self::Nothing | Self::Data(_) | Self::Tape(None, _) | Self::Money(None) => {
                String::new()
            }
            Self::Tick(text) | Self::Text(text) | Self::Words(text) => text.clone(),
            Self::Lines(lines) => lines.join(joint),
            Self::Count(count) => count.to_string(),
            Self::More(0) => String::new(),
            Self::More(count) => format!("+{count}"),
            Self::Yes(yes) => if *yes { "yes" } else { "no" }.to_owned(),
            Self::Number(number, decimals) => format!("{number:.decimals$}"),
            Self::Tape(Some(length), rounding) => length.tape(style.unit, *rounding),
            Self::Feet(length, rounding) => length.feet_inches(style.unit.marks(), *rounding),
            Self::Millimetres(length) => {
                format!("{:.3}", (length.to_mm() * 1000.0).round() / 1000.0 + 0.0)
            }
            Self::Angle(angle) => degrees(*angle),
            Self::Mass(mass) => kilograms(*mass, style.unit),
            Self::Money(Some(money)) => format!("{}{money}", style.currency),
            Self::Ends(ends) => EndSign::drawing(*ends),
        }
    }

    /// Its number, if it is one; a length goes to its mark.
    pub(super) fn figure(&self, style: &Style) -> Option<Figure> {
        let plain = |value, places| (value, None, Read::Decimals(places));
        let (value, unit, read) = match self {
            Self::Count(count) | Self::More(count) => plain(*count as f64, 0),
            Self::Number(number, places) => plain(*number, *places),
            Self::Millimetres(length) => plain(length.to_mm(), 3),
            Self::Mass(mass) => {
                let (value, unit) = weight(*mass, style.unit);
                (value, Some(unit.to_owned()), Read::Decimals(1))
            }
            Self::Money(Some(money)) => {
                let currency = style.currency.trim();
                let unit = (!currency.is_empty()).then(|| currency.to_owned());
                (money.to_number(), unit, Read::Decimals(2))
            }
            Self::Tape(Some(length), rounding) | Self::Feet(length, rounding) => {
                let mark = length.to_mark(style.unit, *rounding);
                let (value, unit) = match style.unit {
                    TapeUnit::Inch => (mark.to_inches(), "in"),
                    TapeUnit::Millimeter => (mark.to_mm(), "mm"),
                };
                (value, Some(unit.to_owned()), Read::Mark)
            }
            Self::Angle(angle) => {
                let unit = Some("degrees".to_owned());
                (angle.to_degrees(), unit, Read::Degrees)
            }
            Self::Nothing
            | Self::Tape(None, _)
            | Self::Money(None)
            | Self::Tick(_)
            | Self::Text(_)
            | Self::Words(_)
            | Self::Lines(_)
            | Self::Yes(_)
            | Self::Ends(_)
            | Self::Data(_) => return None,
        };
        let value = rounded(value);
        Some(Figure { value, unit, read })
    }

    /// What programs read: lengths in millimetres, angles in degrees, masses in kilograms.
    fn value(&self, style: &Style) -> Value {
        match self {
            Self::Nothing | Self::Tape(None, _) | Self::Money(None) => Value::Null,
            Self::Lines(lines) => json!(lines),
            Self::Count(count) | Self::More(count) => json!(count),
            Self::Yes(yes) => json!(yes),
            Self::Number(number, _) | Self::Mass(number) => json!(rounded(*number)),
            Self::Tape(Some(it), _) | Self::Feet(it, _) | Self::Millimetres(it) => json!(mm(*it)),
            Self::Angle(angle) => json!(rounded(angle.to_degrees())),
            // as text, since a binary number cannot hold hundredths
            Self::Money(Some(money)) => json!(money.to_number()),
            Self::Data(value) => value.clone(),
            Self::Tick(_) | Self::Text(_) | Self::Words(_) | Self::Ends(_) => {
                Value::String(self.shown(style, ""))
            }
        }
    }
}

/// A number to a billionth, and never minus zero.
pub(super) fn rounded(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}

/// Millimetres in JSON.
pub(super) fn mm(length: Length) -> f64 {
    rounded(length.to_mm())
}

/// A list on the way: the things that it has a row for.
pub(super) struct Rows<R> {
    things: Vec<R>,
    table: Table,
}

/// A list.
#[derive(Debug, Clone)]
pub struct Table {
    names: Names,
    style: Style,
    rows: usize,
    columns: Vec<(Names, Vec<Cell>)>,
    /// The column of amounts that is summed up where sums are formulas.
    pub(super) total: Option<&'static str>,
    /// Lines under it, on the terminal.
    pub after: Vec<String>,
    /// What is said under it in as many lines as it needs, on the terminal.
    pub paragraph: String,
}

impl<R> Rows<R> {
    pub(super) fn new(names: Names, style: Style, things: impl IntoIterator<Item = R>) -> Self {
        let things: Vec<R> = things.into_iter().collect();
        let table = Table {
            names,
            style,
            rows: things.len(),
            columns: Vec::new(),
            total: None,
            after: Vec::new(),
            paragraph: String::new(),
        };
        Self { things, table }
    }

    /// A column: its headings, and what stands in it for a thing.
    pub(super) fn column<C: Into<Cell>>(mut self, names: Names, cell: impl Fn(&R) -> C) -> Self {
        let cells = self.things.iter().map(|it| cell(it).into()).collect();
        self.table.columns.push((names, cells));
        self
    }

    pub(super) fn table(self) -> Table {
        self.table
    }
}

impl Table {
    pub(super) fn with_after(mut self, line: impl Into<String>) -> Self {
        self.after.push(line.into());
        self
    }

    pub(super) const fn with_total(mut self, column: &'static str) -> Self {
        self.total = Some(column);
        self
    }

    pub(super) fn with_paragraph(mut self, text: String) -> Self {
        self.paragraph = text;
        self
    }

    /// What it is called in a writing, if it is shown there: its title, or the name of its file.
    pub fn name(&self, writing: Writing) -> Option<&str> {
        self.names.of(writing)
    }

    /// How its lengths and amounts are written.
    pub fn style(&self) -> &Style {
        &self.style
    }

    /// The headings of the columns that a writing shows.
    pub fn headings(&self, writing: Writing) -> Vec<&str> {
        let names = self.columns.iter();
        names.filter_map(|(names, _)| names.of(writing)).collect()
    }

    /// Its rows: the cells of the columns that a writing shows.
    pub fn rows(&self, writing: Writing) -> Vec<Vec<&Cell>> {
        let shown = |it: &&(Names, Vec<Cell>)| it.0.of(writing).is_some();
        let shown: Vec<_> = self.columns.iter().filter(shown).collect();
        let row = |at: usize| shown.iter().map(|(_, cells)| &cells[at]).collect();
        (0..self.rows).map(row).collect()
    }

    /// Its rows as JSON objects.
    pub(super) fn records(&self) -> Value {
        let keys = self.headings(Writing::Json);
        let rows = self.rows(Writing::Json);
        let record = |row: &Vec<&Cell>| {
            let values = row.iter().map(|it| it.value(&self.style));
            let keys = keys.iter().map(|it| it.replace(' ', "_"));
            Value::Object(keys.zip(values).collect())
        };
        rows.iter().map(record).collect()
    }
}
