//! Lengths and slopes as a tape shows them: rounded to its marks only here, at the edge.
//!
//! In: an exact [`Length`] or [`Slope`]. Out: text such as `118-7/16"`, `9'-10 7/16"`, `2850 mm` or `3-1/2:12`.
//! A value within [`TOLERANCE`] of a mark is that mark, whichever way is rounded.

use super::{Length, MM_PER_INCH, Slope, TOLERANCE};

/// The two kinds of tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum TapeUnit {
    /// Inches and binary fractions of them.
    #[default]
    Inch,
    /// Millimetres.
    Millimeter,
}

/// Which way a value between two marks goes: fits and margins down, openings and requirements up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rounding {
    /// To the mark below, also for negative values.
    Down,
    /// To the mark above, also for negative values.
    Up,
    /// To the nearer mark; from halfway, away from zero.
    Nearest,
}

/// How far apart the marks of a tape are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Marks {
    /// 1/16 in.
    Sixteenths,
    /// 1/32 in.
    ThirtySeconds,
    /// 1/64 in.
    SixtyFourths,
    /// 1 mm.
    Millimeters,
    /// 0.1 mm.
    TenthMillimeters,
}

const SIXTY_FOURTHS_PER_INCH: i64 = 64;
const INCHES_PER_FOOT: i64 = 12;
/// From this many inches on a tape is read in feet and inches.
const FEET_FROM: i64 = 144;
/// What stands for a value that no tape shows: infinite, or no number.
const NO_LENGTH: &str = "no length";

impl TapeUnit {
    /// The marks of an ordinary tape of this kind.
    pub const fn marks(self) -> Marks {
        match self {
            Self::Inch => Marks::Sixteenths,
            Self::Millimeter => Marks::Millimeters,
        }
    }
}

impl Marks {
    /// The distance between two marks, in millimetres.
    const fn spacing(self) -> f64 {
        match self {
            Self::Sixteenths => MM_PER_INCH / 16.0,
            Self::ThirtySeconds => MM_PER_INCH / 32.0,
            Self::SixtyFourths => MM_PER_INCH / 64.0,
            Self::Millimeters => 1.0,
            Self::TenthMillimeters => 0.1,
        }
    }

    /// How many 64ths of an inch lie between two marks; `None` on a metric tape.
    const fn sixty_fourths(self) -> Option<i64> {
        match self {
            Self::Sixteenths => Some(4),
            Self::ThirtySeconds => Some(2),
            Self::SixtyFourths => Some(1),
            Self::Millimeters | Self::TenthMillimeters => None,
        }
    }
}

impl Length {
    /// Tape text on the unit's ordinary marks, 1/16 in or 1 mm.
    ///
    /// Total inches below 12 ft, `118-7/16"`, and feet and inches from there, `12'-0 1/2"`.
    pub fn tape(self, unit: TapeUnit, rounding: Rounding) -> String {
        self.tape_on(unit.marks(), rounding)
    }

    /// The mark of the unit's ordinary tape that it goes to.
    #[must_use]
    pub fn to_mark(self, unit: TapeUnit, rounding: Rounding) -> Self {
        let marks = unit.marks();
        Self::mm(mark(self, marks, rounding) as f64 * marks.spacing())
    }

    /// Tape text on these marks; feet from 12 ft on, as in [`Self::tape`].
    pub fn tape_on(self, marks: Marks, rounding: Rounding) -> String {
        if !self.to_mm().is_finite() {
            return NO_LENGTH.to_owned();
        }
        match marks.sixty_fourths() {
            Some(each) => {
                let count = mark(self, marks, rounding) * each;
                if count.abs() < FEET_FROM * SIXTY_FOURTHS_PER_INCH {
                    inches_text(count)
                } else {
                    feet_text(count)
                }
            }
            None => metric_text(self, marks, rounding),
        }
    }

    /// Feet and inches, `9'-10 7/16"`, whatever the length; on metric marks the same as [`Self::tape_on`].
    pub fn feet_inches(self, marks: Marks, rounding: Rounding) -> String {
        if !self.to_mm().is_finite() {
            return NO_LENGTH.to_owned();
        }
        match marks.sixty_fourths() {
            Some(each) => feet_text(mark(self, marks, rounding) * each),
            None => metric_text(self, marks, rounding),
        }
    }
}

impl Slope {
    /// Text of a slope: rise in 12 where that falls on a 64th, percent where that is plain, degrees otherwise.
    pub fn text(self) -> String {
        let rise = Length::inches(self.to_ratio() * 12.0);
        let nearest = mark(rise, Marks::SixtyFourths, Rounding::Nearest);
        let exact = nearest as f64 * Marks::SixtyFourths.spacing();
        let percent = self.to_ratio() * 1000.0;
        if self == Self::LEVEL {
            "0".to_owned()
        } else if (rise.to_mm() - exact).abs() < TOLERANCE {
            format!("{}:12", sixty_fourths_text(nearest, '-'))
        } else if (percent - percent.round()).abs() < TOLERANCE {
            format!("{} %", percent.round() / 10.0)
        } else {
            format!("{:.3}°", self.angle().to_degrees())
        }
    }

    /// The same as a rise in 12 to the nearest 16th, with the exact slope beside it where it lies between two of them:
    /// `3:12`, `3-7/16:12 (16.028°)`; a slope that is none to the 16th is `level`.
    pub fn in_twelve(self) -> String {
        let rise = Length::inches(self.to_ratio() * 12.0);
        let count = mark(rise, Marks::Sixteenths, Rounding::Nearest);
        let exact = count as f64 * Marks::Sixteenths.spacing();
        let sixty_fourths = count * Marks::Sixteenths.sixty_fourths().unwrap_or_default();
        let near = match count {
            0 => "level".to_owned(),
            _ => format!("{}:12", sixty_fourths_text(sixty_fourths, '-')),
        };
        if (rise.to_mm() - exact).abs() < TOLERANCE {
            near
        } else {
            format!("{near} ({:.3}°)", self.angle().to_degrees())
        }
    }
}

/// The number of the mark that a length goes to.
fn mark(length: Length, marks: Marks, rounding: Rounding) -> i64 {
    let count = length.to_mm() / marks.spacing();
    let nearest = count.round();
    let on_mark = (count - nearest).abs() * marks.spacing() <= TOLERANCE;
    whole(match rounding {
        _ if on_mark => nearest,
        Rounding::Down => count.floor(),
        Rounding::Up => count.ceil(),
        Rounding::Nearest => nearest,
    })
}

/// A whole number held as `f64`, as an integer; far beyond any tape it stops.
#[expect(
    clippy::cast_possible_truncation,
    reason = "whole by construction, and within the range of both types"
)]
const fn whole(value: f64) -> i64 {
    value.clamp(-1e15, 1e15) as i64
}

/// A metric length on its marks, with its unit.
fn metric_text(length: Length, marks: Marks, rounding: Rounding) -> String {
    let count = mark(length, marks, rounding);
    if marks == Marks::TenthMillimeters {
        let sign = if count < 0 { "-" } else { "" };
        format!("{sign}{}.{} mm", count.abs() / 10, count.abs() % 10)
    } else {
        format!("{count} mm")
    }
}

/// Total inches with the inch mark.
fn inches_text(sixty_fourths: i64) -> String {
    format!("{}\"", sixty_fourths_text(sixty_fourths, '-'))
}

/// Feet and inches with their marks; the sign stands before both.
fn feet_text(sixty_fourths: i64) -> String {
    let sign = if sixty_fourths < 0 { "-" } else { "" };
    let per_foot = INCHES_PER_FOOT * SIXTY_FOURTHS_PER_INCH;
    let count = sixty_fourths.abs();
    let inches = sixty_fourths_text(count % per_foot, ' ');
    let zero = if count % per_foot < SIXTY_FOURTHS_PER_INCH && count % per_foot > 0 {
        "0 "
    } else {
        ""
    };
    format!("{sign}{}'-{zero}{inches}\"", count / per_foot)
}

/// A count of 64ths as a whole number and a reduced fraction, with `joint` between the two.
fn sixty_fourths_text(count: i64, joint: char) -> String {
    let sign = if count < 0 { "-" } else { "" };
    let whole = count.abs() / SIXTY_FOURTHS_PER_INCH;
    let mut upper = count.abs() % SIXTY_FOURTHS_PER_INCH;
    let mut lower = SIXTY_FOURTHS_PER_INCH;
    while upper > 0 && upper % 2 == 0 {
        upper /= 2;
        lower /= 2;
    }
    match (whole, upper) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, upper) => format!("{sign}{upper}/{lower}"),
        (whole, upper) => format!("{sign}{whole}{joint}{upper}/{lower}"),
    }
}
