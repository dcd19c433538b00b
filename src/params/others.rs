//! Other values that a key could have: what is tried to see which verdicts rest on it.

use super::grid::{FloorRows, PlumbRows};
use super::list::Params;
use super::range::Range;
use super::table::Parameter;
use super::value::{Kind, Value};
use crate::catalog::{FramingMember, lumber};
use crate::units::{Amount, Length, Slope};

/// Sticks that walls and ceilings are framed with.
const STICKS: [&str; 6] = ["2x3", "2x4", "2x6", "2x8", "2x10", "2x12"];
/// Ceilings that fall or rise, a little and a lot.
const SLOPES: [Slope; 6] = [
    Slope::ratio(-0.02),
    Slope::ratio(0.02),
    Slope::ratio(-0.25),
    Slope::ratio(0.25),
    Slope::ratio(-0.5),
    Slope::ratio(0.5),
];
/// Heights of ceilings.
const CEILINGS: [Length; 4] = [
    Length::mm(2050.0),
    Length::mm(2450.0),
    Length::mm(3100.0),
    Length::mm(5000.0),
];
/// A little off: what is felt in a thickness.
const STEP: Length = Length::mm(25.0);

impl Parameter {
    /// Other values for what these parameters hold, near and far, the ends of its range among them; none for what is
    /// a list of things or a text.
    pub fn others(&self, params: &Params) -> Vec<Value> {
        let Some(value) = params.get(self.key) else {
            return self.unknown();
        };
        let mut others = match value.bare() {
            Value::Length(length) => self.other_lengths(*length),
            Value::Count(count) => [count.saturating_sub(1), count + 1]
                .map(Value::Count)
                .into(),
            Value::Flag(flag) => vec![Value::Flag(!flag)],
            Value::Choice(_) => self.other_words(),
            Value::Lumber(_) => other_sticks(),
            Value::Amount(amount) => self.other_amounts(*amount),
            Value::Grid(_) => self.other_readings(params),
            Value::Text(_)
            | Value::Following(_)
            | Value::Slope(_)
            | Value::Layers(_)
            | Value::MantelRule(_)
            | Value::Lengths(_)
            | Value::Angle(_)
            | Value::Angles(_)
            | Value::Boards(_)
            | Value::Sheets(_)
            | Value::Prices(_)
            | Value::VentPath(_)
            | Value::Readings(_)
            | Value::FixedThings(_)
            | Value::Decisions(_)
            | Value::Manual { .. } => Vec::new(),
        };
        others.retain(|it| it != value.bare());
        others
    }

    /// What it would be if it were off by the build allowance, or chosen otherwise.
    pub fn little_off(&self, params: &Params) -> Vec<Value> {
        let allowance = params.project.build_allowance;
        match params.get(self.key) {
            Some(Value::Length(length)) => [length - allowance, length + allowance]
                .map(Value::Length)
                .into(),
            Some(Value::Choice(_) | Value::Flag(_) | Value::Count(_)) => self.others(params),
            _ => Vec::new(),
        }
    }

    /// Whether the others are all that it could be besides.
    pub const fn others_are_all(&self) -> bool {
        matches!(self.kind, Kind::Flag | Kind::Choice(_))
    }

    /// What could stand where nothing is drawn of it: slopes both ways, heights of ceilings.
    fn unknown(&self) -> Vec<Value> {
        if self.kind == Kind::Slope {
            SLOPES.map(Value::Slope).into()
        } else if self.kind == Kind::Length {
            CEILINGS.map(Value::Length).into()
        } else {
            Vec::new()
        }
    }

    fn other_lengths(&self, length: Length) -> Vec<Value> {
        let near = [length / 2.0, length * 2.0, length - STEP, length + STEP];
        let ends = match self.range {
            Range::Length(least, most) | Range::LengthAbove(least, most) => vec![least, most],
            Range::Any
            | Range::Slope(..)
            | Range::Count(..)
            | Range::Angle(..)
            | Range::Amount(..) => Vec::new(),
        };
        near.into_iter().chain(ends).map(Value::Length).collect()
    }

    fn other_words(&self) -> Vec<Value> {
        let Kind::Choice(words) = self.kind else {
            return Vec::new();
        };
        words.iter().map(|it| Value::Choice(it)).collect()
    }

    fn other_amounts(&self, amount: Amount) -> Vec<Value> {
        let of = |value| Value::Amount(Amount { value, ..amount });
        let mut others = vec![of(amount.value / 2.0), of(amount.value * 2.0)];
        if let Range::Amount(least, most) = self.range {
            others.extend([Value::Amount(least), Value::Amount(most)]);
        }
        others
    }

    /// A floor that falls one way or the other, a wall that leans one way or the other.
    fn other_readings(&self, params: &Params) -> Vec<Value> {
        let Kind::Grid(columns) = self.kind else {
            return Vec::new();
        };
        let (width, depth) = (params.room.width, params.room.depth);
        let rows: Vec<Vec<Vec<Length>>> = if *columns == FloorRows::COLUMNS {
            [[0.0, 1.0, 2.0], [2.0, 1.0, 0.0]]
                .map(|[near, right, out]| {
                    vec![
                        vec![Length::ZERO, Length::ZERO, STEP * near],
                        vec![width, Length::ZERO, STEP * right],
                        vec![Length::ZERO, depth, STEP * out],
                    ]
                })
                .into()
        } else if *columns == PlumbRows::COLUMNS {
            [[0.0, 1.0], [1.0, 0.0]]
                .map(|[low, high]| {
                    vec![
                        vec![Length::ZERO, STEP * low],
                        vec![Length::mm(2400.0), STEP * high],
                    ]
                })
                .into()
        } else {
            Vec::new()
        };
        rows.into_iter().map(Value::Grid).collect()
    }
}

fn other_sticks() -> Vec<Value> {
    let sticks = STICKS.iter().filter_map(|it| lumber(it));
    sticks
        .map(|it| Value::Lumber(FramingMember::from(it)))
        .collect()
}
