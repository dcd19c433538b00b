//! One value of the TOML text in, one [`Value`] out, or the fault at its place.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::decision::DECISION;
use super::fault::Fault;
use super::grid::Columns;
use super::layer::Layer;
use super::manual::{MantelRule, Step, is_page};
use super::nearest;
use super::stock;
use super::table::Parameter;
use super::value::{FIXED_THING, Kind, Value};
use super::yard::steel_fault;
use crate::units::{Amount, Length, ParseError, Slope, TapeUnit, parse_number};

/// A value as it stands in the text.
pub(super) type Written<'a> = Spanned<DeValue<'a>>;

/// What reading a value needs to know.
#[derive(Debug, Clone, Copy)]
pub(super) struct Context<'a> {
    /// The whole text.
    pub(super) text: &'a str,
    /// The unit of bare numbers.
    pub(super) unit: TapeUnit,
    /// Which parameter is read.
    pub(super) parameter: &'static Parameter,
}

/// What a value of this kind looks like.
pub(super) fn example(kind: Kind) -> String {
    match kind {
        Kind::Text => "a text in quotes".to_owned(),
        Kind::Flag => "true or false, without quotes".to_owned(),
        Kind::Count => "a whole number".to_owned(),
        Kind::Length => {
            "a length such as \"9' 4-1/2\\\"\", \"112 1/2 in\", \"450 mm\" or a bare number"
                .to_owned()
        }
        Kind::Slope => "a slope such as \"3-1/2:12\", \"12 deg\", \"2 %\" or 0".to_owned(),
        Kind::Lumber | Kind::Wood => {
            "a nominal size such as \"2x4\", or an actual one such as \"45x95 mm\"".to_owned()
        }
        Kind::Layers => {
            "a list such as [\"2x4 flat\", \"2x8 on edge\", \"3/4 in panel\"]".to_owned()
        }
        Kind::Choice(words) => format!("one of {}", quoted(words)),
        Kind::Lengths => "a list of lengths such as [\"8 ft\", \"10 ft\"]".to_owned(),
        Kind::Angle => "an angle in degrees such as 22.5".to_owned(),
        Kind::Angles => "a list of angles in degrees such as [0, 22.5, 45]".to_owned(),
        Kind::Boards => "a list such as [{ size = \"2x4\", length = \"8 ft\", price = 4.25, treated = false }]; price and treated may be left out".to_owned(),
        Kind::Sheets => "a list such as [{ material = \"gypsum_board\", thickness = \"1/2 in\", width = \"48 in\", length = \"96 in\", price = 14.50 }]; price may be left out".to_owned(),
        Kind::Prices => "a list such as [{ item = \"mantel\", price = 260 }]".to_owned(),
        Kind::VentPath => "a list of steps such as [\"go 24 in\", \"turn 90 deg toward back\", \"through back wall\"]".to_owned(),
        Kind::Amount(kind) => kind.written().to_owned(),
        Kind::Grid(columns) => columns.written(),
        Kind::Decisions => format!(
            "a list such as [{DECISION}]; `what` may be left out, and `of`, which says which one where a check asks more than once"
        ),
        Kind::FixedThings => format!(
            "a list such as [{FIXED_THING}]; `from` counts from the left corner, on a side wall from the fireplace wall; `depth` and `opens` may be left out"
        ),
        Kind::Readings => "a list such as [{ right = \"40 in\", out = \"12 in\", up = \"61 in\", down = \"48 in\" }], with `height` in place of `up` and `down` where there was no level line".to_owned(),
        Kind::MantelRule => {
            "{ steps = [[\"projection\", \"height\"], ...], page } or { base, factor, page }"
                .to_owned()
        }
    }
}

fn quoted(words: &[&str]) -> String {
    let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    words.join(", ")
}

/// Reads a parameter's value, with its page where the manual has to be named.
pub(super) fn read(context: Context<'_>, written: &Written<'_>) -> Result<Value, Fault> {
    if !context.parameter.needs_page {
        return context.bare(written);
    }
    let DeValue::Table(table) = written.get_ref() else {
        return Err(context.no_page(written));
    };
    let page = context.page(table, written.span())?;
    let value = if context.parameter.kind == Kind::MantelRule {
        context.rule(table, written.span())?
    } else {
        context.only(table, &["value", "page"])?;
        let value = table
            .get("value")
            .ok_or_else(|| context.lacks("value", written.span()))?;
        context.bare(value)?
    };
    Ok(Value::Manual {
        value: Box::new(value),
        page,
    })
}

impl Context<'_> {
    fn key(self) -> &'static str {
        self.parameter.key
    }

    /// The value without its page.
    fn bare(self, written: &Written<'_>) -> Result<Value, Fault> {
        match (self.parameter.kind, written.get_ref()) {
            (Kind::Text, DeValue::String(text)) => Ok(Value::Text(text.trim().to_owned())),
            (Kind::Flag, DeValue::Boolean(flag)) => Ok(Value::Flag(*flag)),
            (Kind::Count, DeValue::Integer(number)) => {
                let count = u32::from_str_radix(number.as_str(), number.radix()).ok();
                count.map(Value::Count).ok_or_else(|| self.unlike(written))
            }
            (Kind::Length, _) => self.length_or_following(written),
            (Kind::Slope, _) => self.slope(written).map(Value::Slope),
            (Kind::Lumber | Kind::Wood, DeValue::String(text)) => {
                let stick = stock::stick(text).ok_or_else(|| self.unlike(written))?;
                Ok(Value::Lumber(stick))
            }
            (Kind::Layers, DeValue::Array(layers)) => {
                let layers: Result<_, _> = layers.iter().map(|layer| self.layer(layer)).collect();
                layers.map(Value::Layers)
            }
            (Kind::Amount(kind), DeValue::String(text)) => Amount::parse(kind, text)
                .map(Value::Amount)
                .map_err(|error| self.unreadable(&error, written, false)),
            (Kind::Grid(columns), DeValue::Array(rows)) => {
                let rows: Result<_, _> =
                    rows.iter().map(|row| self.grid_row(columns, row)).collect();
                rows.map(Value::Grid)
            }
            (Kind::Angle, _) => self.angle(written).map(Value::Angle),
            (
                Kind::Lengths
                | Kind::Angles
                | Kind::Boards
                | Kind::Sheets
                | Kind::Prices
                | Kind::VentPath
                | Kind::FixedThings
                | Kind::Decisions
                | Kind::Readings,
                DeValue::Array(rows),
            ) => self.rows(rows),
            (Kind::Choice(words), DeValue::String(word)) => {
                let choice = words.iter().find(|known| **known == word.as_ref());
                choice
                    .map(|word| Value::Choice(word))
                    .ok_or_else(|| self.other_word(words, word, written))
            }
            _ => Err(self.unlike(written)),
        }
    }

    /// A length from tape text, or from a bare number in the file's unit.
    pub(super) fn length(self, written: &Written<'_>) -> Result<Length, Fault> {
        let (text, bare) = self.number_text(written)?;
        Length::parse(&text, self.unit).map_err(|error| self.unreadable(&error, written, bare))
    }

    fn slope(self, written: &Written<'_>) -> Result<Slope, Fault> {
        let (text, bare) = self.number_text(written)?;
        Slope::parse(&text).map_err(|error| self.unreadable(&error, written, bare))
    }

    /// The text of a quantity, and whether it was written as a bare number.
    pub(super) fn number_text(self, written: &Written<'_>) -> Result<(String, bool), Fault> {
        match written.get_ref() {
            DeValue::String(text) => Ok((text.to_string(), false)),
            DeValue::Float(number) => Ok((number.as_str().to_owned(), true)),
            DeValue::Integer(number) if number.radix() == 10 => {
                Ok((number.as_str().to_owned(), true))
            }
            DeValue::Integer(_)
            | DeValue::Boolean(_)
            | DeValue::Datetime(_)
            | DeValue::Array(_)
            | DeValue::Table(_) => Err(self.unlike(written)),
        }
    }

    /// `2x4 flat`, `2x8 on edge` or `3/4 in panel`.
    fn layer(self, written: &Written<'_>) -> Result<Layer, Fault> {
        let DeValue::String(text) = written.get_ref() else {
            return Err(self.unlike(written));
        };
        let layer = stock::layer(text, self.unit).ok_or_else(|| self.unlike(written))?;
        layer.map_err(|steel| steel_fault(self.key(), &steel, false).at(written.span()))
    }

    /// A mantel rule out of its table, the page aside.
    fn rule(self, table: &DeTable<'_>, place: Range<usize>) -> Result<Value, Fault> {
        let rule = if let Some(steps) = table.get("steps") {
            self.only(table, &["steps", "page"])?;
            let DeValue::Array(rows) = steps.get_ref() else {
                return Err(self.unlike(steps));
            };
            let rows: Result<_, _> = rows.iter().map(|row| self.step(row)).collect();
            MantelRule::Steps(rows?)
        } else {
            self.only(table, &["steps", "base", "factor", "page"])?;
            let base = table
                .get("base")
                .ok_or_else(|| self.lacks("steps, or base", place.clone()))?;
            let factor = table
                .get("factor")
                .ok_or_else(|| self.lacks("factor", place))?;
            MantelRule::Ramp {
                base: self.length(base)?,
                factor: self.factor(factor)?,
            }
        };
        Ok(Value::MantelRule(rule))
    }

    fn step(self, row: &Written<'_>) -> Result<Step, Fault> {
        let cells = row.get_ref().as_array().map(DeArray::as_ref);
        let Some([projection, height]) = cells else {
            return Err(self.unlike(row));
        };
        Ok(Step {
            projection: self.length(projection)?,
            height: self.length(height)?,
        })
    }

    /// A row of lengths, one for each column.
    fn grid_row(self, columns: &Columns, row: &Written<'_>) -> Result<Vec<Length>, Fault> {
        let cells = row.get_ref().as_array().map(DeArray::as_ref);
        let cells = cells.filter(|cells| cells.len() == columns.names.len());
        let cells = cells.ok_or_else(|| self.unlike(row))?;
        cells.iter().map(|cell| self.length(cell)).collect()
    }

    pub(super) fn factor(self, written: &Written<'_>) -> Result<f64, Fault> {
        let (text, bare) = self.number_text(written)?;
        parse_number(&text).map_err(|error| self.unreadable(&error, written, bare))
    }

    /// The page of a manual's value.
    fn page(self, table: &DeTable<'_>, place: Range<usize>) -> Result<String, Fault> {
        match table.get("page").map(|page| (page.get_ref(), page.span())) {
            Some((DeValue::String(page), _)) if is_page(page) => Ok(page.trim().to_owned()),
            Some((DeValue::Integer(page), _)) if is_page(page.as_str()) => {
                Ok(page.as_str().to_owned())
            }
            Some((other, place)) => Err(self
                .fault("has no page")
                .found(match other {
                    DeValue::String(page) if !page.trim().is_empty() => format!("`{page}`"),
                    DeValue::Integer(page) => format!("`{}`", page.as_str()),
                    DeValue::String(_)
                    | DeValue::Float(_)
                    | DeValue::Boolean(_)
                    | DeValue::Datetime(_)
                    | DeValue::Array(_)
                    | DeValue::Table(_) => kind_of(other).to_owned(),
                })
                .expected("the page of the unit's manual, such as page = \"14\"")
                .way_out("write the page that the number is on")
                .at(place)),
            None => Err(self
                .fault("has no page")
                .found("a value without its page")
                .expected("the page of the unit's manual, such as page = \"14\"")
                .way_out("add the page that the number is on; there is no default for heat")
                .at(place)),
        }
    }

    /// Faults the first name in a small table that does not belong there.
    pub(super) fn only(self, table: &DeTable<'_>, names: &[&str]) -> Result<(), Fault> {
        let stray = table
            .iter()
            .find(|(name, _)| !names.contains(&name.get_ref().as_ref()));
        stray.map_or(Ok(()), |(name, _)| {
            let free = names
                .iter()
                .copied()
                .filter(|name| !table.contains_key(*name));
            let near = nearest::word(name.get_ref(), free);
            Err(self
                .fault("has an unknown name in it")
                .found(format!("`{}`", name.get_ref()))
                .expected(names.join(", "))
                .way_out(near.map_or_else(
                    || "take it out".to_owned(),
                    |near| format!("did you mean `{near}`?"),
                ))
                .at(name.span()))
        })
    }

    pub(super) fn fault(self, problem: &str) -> Fault {
        Fault::new(self.key(), format!("`{}` {problem}", self.key()))
    }

    pub(super) fn lacks(self, what: &str, place: Range<usize>) -> Fault {
        self.fault(&format!("lacks {what}"))
            .found(format!("a table without {what}"))
            .expected(self.expected())
            .way_out(format!("add {what}"))
            .at(place)
    }

    /// A plain value where the manual's page is needed too.
    fn no_page(self, written: &Written<'_>) -> Fault {
        let raw = self.text.get(written.span()).unwrap_or_default();
        self.fault("needs the manual's page")
            .found(format!("{} without a page", self.described(written)))
            .expected(self.expected())
            .way_out(if self.parameter.kind == Kind::MantelRule {
                "copy the rule from the unit's manual, with its page".to_owned()
            } else {
                format!(
                    "write {{ value = {raw}, page = \"...\" }} with the page of the unit's manual"
                )
            })
            .at(written.span())
    }

    /// What this parameter looks like.
    fn expected(self) -> String {
        match (self.parameter.kind, self.parameter.needs_page) {
            (kind @ Kind::MantelRule, _) | (kind, false) => example(kind),
            (kind, true) => format!("{{ value, page }}; the value {}", example(kind)),
        }
    }

    /// A value of the wrong kind, or one that reads as nothing.
    pub(super) fn unlike(self, written: &Written<'_>) -> Fault {
        self.fault("cannot be read")
            .found(self.described(written))
            .expected(example(self.parameter.kind))
            .way_out(format!(
                "`{}` means: {}",
                self.key(),
                self.parameter.meaning
            ))
            .at(written.span())
    }

    /// What was written, in short.
    pub(super) fn described(self, written: &Written<'_>) -> String {
        let raw = self.text.get(written.span()).unwrap_or_default();
        let is_list = matches!(written.get_ref(), DeValue::Array(_) | DeValue::Table(_));
        if is_list || raw.chars().count() > 40 || raw.contains('\n') {
            kind_of(written.get_ref()).to_owned()
        } else {
            raw.to_owned()
        }
    }

    pub(super) fn other_word(self, words: &[&str], word: &str, written: &Written<'_>) -> Fault {
        let near = nearest::word(word, words.iter().copied());
        let fault = self.unlike(written);
        match near {
            Some(near) => fault.way_out(format!("did you mean \"{near}\"?")),
            None => fault,
        }
    }

    /// Text that is no quantity: the place is the very character.
    pub(super) fn unreadable(self, error: &ParseError, written: &Written<'_>, bare: bool) -> Fault {
        let place = if bare {
            written.span()
        } else {
            self.inside(written.span(), error.offset)
        };
        let found = if bare {
            format!("the bare number {}", self.described(written))
        } else {
            format!("{} at column {} of the value", error.found, error.column)
        };
        self.fault("cannot be read")
            .found(found)
            .expected(error.expected)
            .way_out(format!("write {}", example(self.parameter.kind)))
            .at(place)
    }

    /// The place of a byte of a quoted text's content, seen through simple escapes.
    pub(super) fn inside(self, span: Range<usize>, offset: usize) -> Range<usize> {
        let raw = self.text.get(span.clone()).unwrap_or_default();
        let quote = raw.chars().next().filter(|c| matches!(c, '"' | '\''));
        let Some(quote) = quote.filter(|quote| !raw.starts_with(&quote.to_string().repeat(3)))
        else {
            return span;
        };
        let mut content = 0;
        let mut characters = raw.char_indices().skip(1);
        while let Some((at, mut character)) = characters.next() {
            if character == '\\' && quote == '"' {
                match characters.next() {
                    Some((_, escaped @ ('"' | '\\'))) => character = escaped,
                    _ => return span,
                }
            }
            if content >= offset {
                let end = if at + 1 == raw.len() {
                    span.end
                } else {
                    span.start + at + character.len_utf8()
                };
                return span.start + at..end;
            }
            content += character.len_utf8();
        }
        span
    }
}

/// What a value of the text is, in words.
pub(super) fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a decimal number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
