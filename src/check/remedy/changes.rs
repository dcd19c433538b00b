//! What one key can be changed to: marks of the tape that it was written on, stock, words.

use crate::catalog::{FramingMember, lumber};
use crate::geom::TOLERANCE;
use crate::params::{Datum, Following, Kind, Params, Value, parameter};
use crate::units::{Length, Rounding, TapeUnit};

/// The farthest that a dimension is moved.
const FARTHEST: Length = Length::inches(24.0);
/// Stock that a stick may be changed to.
const STOCK: [&str; 4] = ["2x3", "2x4", "2x6", "2x8"];

/// A length that can be moved on its tape; of one that is written from another thing, how far it is from that.
#[derive(Debug, Clone, Copy)]
pub(super) struct Movable {
    from: Length,
    thing: Option<Datum>,
    /// The tape that it was written on.
    pub(super) unit: TapeUnit,
}

/// Whether a key is one of the builder's own, and its value; `None` for a number of the manual, and for what is not said.
fn own(params: &Params, key: &str) -> Option<Value> {
    let parameter = parameter(key).filter(|it| !it.needs_page)?;
    params.written(parameter.key)
}

/// A key whose value is a length.
pub(super) fn movable(params: &Params, key: &str) -> Option<Movable> {
    let own = own(params, key)?;
    let (from, thing) = if let Value::Following(Following { thing, offset }) = own {
        (offset, Some(thing))
    } else if let Value::Length(from) = own {
        (from, None)
    } else {
        return None;
    };
    let unit = written_in(from, params.project.unit);
    Some(Movable { from, thing, unit })
}

/// The tape that a length was written on: the file's own where it lies on one of its marks, else the other where it
/// lies on one of those.
pub(super) fn written_in(length: Length, file: TapeUnit) -> TapeUnit {
    let other = match file {
        TapeUnit::Inch => TapeUnit::Millimeter,
        TapeUnit::Millimeter => TapeUnit::Inch,
    };
    let is_on = |unit| {
        (length.to_mark(unit, Rounding::Nearest) - length)
            .abs()
            .to_mm()
            < TOLERANCE
    };
    if !is_on(file) && is_on(other) {
        other
    } else {
        file
    }
}

impl Movable {
    fn mark(self) -> Length {
        match self.unit {
            TapeUnit::Inch => Length::inches(1.0 / 16.0),
            TapeUnit::Millimeter => Length::mm(1.0),
        }
    }

    /// The value so many marks up or, below zero, down; what lies between two marks goes to the next one first.
    pub(super) fn moved(self, marks: i32) -> Value {
        let place = self.place(marks);
        match self.thing {
            Some(thing) => Value::Following(Following {
                thing,
                offset: place,
            }),
            None => Value::Length(place),
        }
    }

    fn place(self, marks: i32) -> Length {
        let rounding = if marks > 0 {
            Rounding::Down
        } else {
            Rounding::Up
        };
        let start = self.from.to_mark(self.unit, rounding);
        start + self.mark() * f64::from(marks)
    }

    /// By how many millimetres it is more after so many marks.
    pub(super) fn stepped(self, marks: i32) -> f64 {
        (self.place(marks) - self.from).to_mm()
    }

    /// How far it is moved by so many marks.
    pub(super) fn size(self, marks: i32) -> Length {
        self.mark() * f64::from(marks.abs())
    }

    /// The most marks that it is moved by.
    pub(super) fn most(self) -> i32 {
        whole(FARTHEST.to_mm() / self.mark().to_mm())
    }

    /// So many millimetres in marks, rounded up.
    pub(super) fn marks(self, distance: f64) -> i32 {
        let marks = (distance / self.mark().to_mm() - TOLERANCE).ceil();
        whole(marks.clamp(1.0, f64::from(self.most())))
    }

    /// Steps far apart: an inch or so, some, and about a foot.
    pub(super) fn strides(self) -> [i32; 3] {
        let most = self.most();
        [most / 24, most / 6, most / 2]
    }
}

/// A number of marks, of which there are never more than a few hundred.
#[expect(clippy::cast_possible_truncation, reason = "a few hundred at most")]
pub(super) const fn whole(marks: f64) -> i32 {
    marks as i32
}

/// What else a key could be that is one of a few; each with how much it changes.
pub(super) fn options(params: &Params, key: &str) -> Vec<(Length, Value)> {
    let parameter = parameter(key).filter(|it| !it.needs_page && params.has(it.group));
    let Some(parameter) = parameter else {
        return Vec::new();
    };
    let now = params.get(key);
    match (parameter.kind, now) {
        // what is steel is so for the manual's sake
        (Kind::Lumber | Kind::Wood, Some(Value::Lumber(FramingMember::Wood(now)))) => STOCK
            .into_iter()
            .filter(|name| *name != now.name)
            .filter_map(lumber)
            .map(|it| ((it.width - now.width).abs(), Value::Lumber(it.into())))
            .collect(),
        (Kind::Lumber | Kind::Wood, None) => STOCK
            .into_iter()
            .filter_map(lumber)
            .map(|it| (it.thickness, Value::Lumber(it.into())))
            .collect(),
        (Kind::Choice(words), Some(Value::Choice(now))) => words
            .iter()
            .filter(|it| **it != now)
            .map(|it| (Length::ZERO, Value::Choice(it)))
            .collect(),
        (Kind::Flag, Some(Value::Flag(now))) => vec![(Length::ZERO, Value::Flag(!now))],
        _ => Vec::new(),
    }
}
