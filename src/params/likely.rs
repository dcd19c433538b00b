//! What a fact, or what a builder chooses by the trade's habit, usually is, beside what it may be: what lies outside is
//! more often a slip of the pen than so.
//!
//! # Source
//! Common practice, no source, and wide: of manuals, meters and houses, of whatever maker or country.

use super::manual::MantelRule;
use super::range::{Range, range_text};
use super::value::Value;
use crate::units::{Length, TapeUnit};

/// What a fact usually is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Likely {
    /// Nothing is said: it is no number, or no fact.
    Any,
    /// Within this range; of several numbers, each.
    Within(Range),
    /// The same, or 0, which says that there is none or that nothing has to be kept.
    NoneOr(Range),
    /// Rows of numbers, each column within its own range.
    Columns(&'static [Range]),
    /// Rows of two numbers, each within its own range, and the second of a row the larger one.
    Larger([Range; 2]),
}

/// Why a value is unlikely.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// A number that lies outside, what it usually is, and how it would fit in another unit.
    Number {
        /// The number, as it is shown.
        found: String,
        /// What it usually is, in words.
        usual: String,
        /// The same number in a unit in which it would fit.
        other_unit: Option<String>,
    },
    /// Every row has its larger number where the smaller one belongs.
    ColumnsSwapped,
}

impl Likely {
    /// What is unlikely about a value, the first number first.
    pub fn doubt(&self, value: &Value, unit: TapeUnit) -> Option<Doubt> {
        let rows = numbers(value);
        if let Self::Larger(_) = self
            && is_swapped(&rows)
        {
            return Some(Doubt::ColumnsSwapped);
        }
        let mut outside = rows.iter().flat_map(|row| row.iter().enumerate());
        outside.find_map(|(column, number)| self.outside(column, number, unit))
    }

    /// What it usually is, as text; empty where nothing is said.
    pub fn text(&self, unit: TapeUnit) -> String {
        let each = |ranges: &[Range]| {
            let texts = ranges.iter().map(|it| range_text(*it, unit));
            texts.collect::<Vec<_>>().join("; ")
        };
        match self {
            Self::Any => String::new(),
            Self::Within(range) => range_text(*range, unit),
            Self::NoneOr(range) => format!("0, or {}", range_text(*range, unit)),
            Self::Columns(ranges) => each(ranges),
            Self::Larger(ranges) => format!("{}, the second the larger", each(ranges)),
        }
    }

    fn outside(&self, column: usize, number: &Value, unit: TapeUnit) -> Option<Doubt> {
        let range = self.of_column(column)?;
        let is_none = matches!(self, Self::NoneOr(_)) && is_zero(number);
        if is_none || lies_in(range, number) {
            return None;
        }
        let mut others = in_other_units(number).into_iter();
        let other = others.find(|(other, _)| lies_in(range, other));
        Some(Doubt::Number {
            found: number.text(unit),
            usual: range_text(range, unit),
            other_unit: other.map(|it| it.1),
        })
    }

    fn of_column(&self, column: usize) -> Option<Range> {
        match self {
            Self::Any => None,
            Self::Within(range) | Self::NoneOr(range) => Some(*range),
            Self::Columns(ranges) => ranges.get(column).copied(),
            Self::Larger(ranges) => ranges.get(column).copied(),
        }
    }
}

/// The numbers of a value: rows of them, or one row for each.
fn numbers(value: &Value) -> Vec<Vec<Value>> {
    let row = |lengths: Vec<Length>| lengths.into_iter().map(Value::Length).collect();
    match value {
        Value::Manual { value, .. } => numbers(value),
        Value::Length(_)
        | Value::Slope(_)
        | Value::Count(_)
        | Value::Angle(_)
        | Value::Amount(_) => {
            vec![vec![value.clone()]]
        }
        Value::Lengths(all) => all.iter().map(|it| vec![Value::Length(*it)]).collect(),
        Value::Angles(all) => all.iter().map(|it| vec![Value::Angle(*it)]).collect(),
        Value::Grid(rows) => rows.iter().map(|it| row(it.clone())).collect(),
        Value::Readings(all) => {
            let rows = all
                .iter()
                .map(|it| [it.right, it.out, it.up].into_iter().chain(it.down));
            rows.map(|it| row(it.collect())).collect()
        }
        Value::FixedThings(all) => {
            let rows = all.iter().map(|it| {
                let sizes = [it.from, it.width, it.sill, it.height];
                sizes.into_iter().chain(it.depth).collect()
            });
            rows.map(row).collect()
        }
        Value::MantelRule(MantelRule::Steps(steps)) => {
            let rows = steps.iter().map(|it| vec![it.projection, it.height]);
            rows.map(row).collect()
        }
        // a line has no projection of its own
        Value::MantelRule(MantelRule::Ramp { .. })
        | Value::Text(_)
        | Value::Decisions(_)
        | Value::Following(_)
        | Value::Flag(_)
        | Value::Lumber(_)
        | Value::Layers(_)
        | Value::Choice(_)
        | Value::Boards(_)
        | Value::Sheets(_)
        | Value::Prices(_)
        | Value::VentPath(_) => Vec::new(),
    }
}

/// Whether of several rows each has the larger number first.
fn is_swapped(rows: &[Vec<Value>]) -> bool {
    let falls = |row: &Vec<Value>| match row.as_slice() {
        [Value::Length(first), Value::Length(second), ..] => first > second,
        _ => false,
    };
    rows.len() > 1 && rows.iter().all(falls)
}

fn is_zero(number: &Value) -> bool {
    let zero = if let Value::Length(length) = number {
        length.to_mm()
    } else if let Value::Slope(slope) = number {
        slope.to_ratio()
    } else if let Value::Count(count) = number {
        f64::from(*count)
    } else if let Value::Amount(amount) = number {
        amount.value
    } else {
        return false;
    };
    zero == 0.0
}

/// The same number in other units than it was written in, and so in words.
fn in_other_units(number: &Value) -> Vec<(Value, String)> {
    if let Value::Length(length) = number {
        let (inches, mm) = (length.to_inches(), length.to_mm());
        let text = |number: f64, unit: &str| {
            let rounded = (number * 1000.0).round() / 1000.0;
            format!("{rounded} {unit}")
        };
        vec![
            (Value::Length(Length::inches(mm)), text(mm, "in")),
            (Value::Length(Length::mm(inches)), text(inches, "mm")),
        ]
    } else if let Value::Amount(amount) = number {
        let others = amount.in_other_units().into_iter();
        others.map(|(it, text)| (Value::Amount(it), text)).collect()
    } else {
        Vec::new()
    }
}

/// Within a range.
pub(super) const fn within(range: Range) -> Likely {
    Likely::Within(range)
}

/// Within a range, or 0.
pub(super) const fn none_or(range: Range) -> Likely {
    Likely::NoneOr(range)
}

/// Each column within its own range.
pub(super) const fn columns(ranges: &'static [Range]) -> Likely {
    Likely::Columns(ranges)
}

/// Two columns, the second the larger one.
pub(super) const fn larger(first: Range, second: Range) -> Likely {
    Likely::Larger([first, second])
}

/// Whether a number lies in a range of its own kind.
fn lies_in(range: Range, number: &Value) -> bool {
    match (range, number) {
        (Range::Length(least, most), Value::Length(length)) => {
            super::range::within(*length, (least, most))
        }
        (Range::LengthAbove(least, most), Value::Length(length)) => {
            *length > least && *length <= most
        }
        (Range::Slope(least, most), Value::Slope(slope)) => {
            (least.to_ratio()..=most.to_ratio()).contains(&slope.to_ratio())
        }
        (Range::Count(least, most), Value::Count(count)) => (least..=most).contains(count),
        (Range::Amount(least, most), Value::Amount(amount)) => {
            (least.value..=most.value).contains(&amount.value)
        }
        (Range::Angle(least, most), Value::Angle(angle)) => {
            (least.to_radians()..=most.to_radians()).contains(&angle.to_radians())
        }
        _ => true,
    }
}
