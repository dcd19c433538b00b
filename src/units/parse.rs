//! Tape text in, exact quantities out.
//!
//! Every number is held as a fraction of whole numbers until the one conversion at the end, so `1/64 in`
//! is the double nearest to 127/320 mm and not the sum of roundings.
//!
//! # Errors
//! What was found, what was expected, and at which column of the text.

use super::{Angle, Length, Slope, TapeUnit};

/// Why a text is not the quantity it should be.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("column {column}: found {found}, expected {expected}")]
pub struct ParseError {
    /// The character it happened at, from 1.
    pub column: usize,
    /// The same place in bytes, from 0.
    pub offset: usize,
    /// What stands there.
    pub found: String,
    /// What should stand there.
    pub expected: &'static str,
}

/// A number as a fraction; numerator and denominator stay far below 2^53.
#[derive(Debug, Clone, Copy)]
struct Fraction {
    upper: i64,
    lower: i64,
}

/// More digits than a tape, a drawing or a house has.
const MOST_WHOLE_DIGITS: usize = 6;
const MOST_DECIMALS: usize = 6;
const MOST_DENOMINATOR_DIGITS: usize = 4;

const NUMBER: &str = "a number";
const FEWER_DIGITS: &str = "at most 6 digits before and 6 after the point";
const LENGTH_UNIT: &str = "ft, in, mm, cm or m";
const SLOPE_UNIT: &str = "rise:run such as 4:12, degrees, or %";

const HYPHENS: [char; 4] = ['-', '\u{2010}', '\u{2011}', '\u{2013}'];
const MINUS: [char; 2] = ['-', '\u{2212}'];

/// Length units: their written forms, the longer before the shorter, and their size in millimetres.
const LENGTH_UNITS: &[(&str, LengthUnit)] = &[
    ("inches", LengthUnit::INCH),
    ("inch", LengthUnit::INCH),
    ("in", LengthUnit::INCH),
    ("\"", LengthUnit::INCH),
    ("\u{2033}", LengthUnit::INCH),
    ("\u{201d}", LengthUnit::INCH),
    ("feet", LengthUnit::FOOT),
    ("foot", LengthUnit::FOOT),
    ("ft", LengthUnit::FOOT),
    ("'", LengthUnit::FOOT),
    ("\u{2032}", LengthUnit::FOOT),
    ("\u{2019}", LengthUnit::FOOT),
    ("mm", LengthUnit::MILLIMETER),
    ("cm", LengthUnit::CENTIMETER),
    ("m", LengthUnit::METER),
];

/// A unit of length as a fraction of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct LengthUnit {
    upper: i64,
    lower: i64,
}

impl LengthUnit {
    /// 25.4 mm exactly: NIST SP 811 (2008), appendix B.8.
    const INCH: Self = Self::new(127, 5);
    const FOOT: Self = Self::new(127 * 12, 5);
    const MILLIMETER: Self = Self::new(1, 1);
    const CENTIMETER: Self = Self::new(10, 1);
    const METER: Self = Self::new(1000, 1);

    const fn new(upper: i64, lower: i64) -> Self {
        Self { upper, lower }
    }
}

impl From<TapeUnit> for LengthUnit {
    fn from(unit: TapeUnit) -> Self {
        match unit {
            TapeUnit::Inch => Self::INCH,
            TapeUnit::Millimeter => Self::MILLIMETER,
        }
    }
}

impl Length {
    /// Reads tape text such as `9' 4-1/2"`, `112 1/2 in` or `2.85 m`; a number without a unit is in `bare`.
    ///
    /// # Errors
    /// [`ParseError`] where the text is no length.
    pub fn parse(text: &str, bare: TapeUnit) -> Result<Self, ParseError> {
        let mut scanner = Scanner::new(text);
        let negative = scanner.sign();
        let first = scanner.number()?;
        scanner.spaces();
        let unit = scanner.length_unit()?;
        let mut exact = first.times(unit.unwrap_or_else(|| bare.into()));
        if unit == Some(LengthUnit::FOOT) && scanner.more_after_feet() {
            if first.lower != 1 {
                return Err(scanner.error("whole feet before inches"));
            }
            exact = exact.plus(scanner.inches()?);
        }
        scanner.end(if unit.is_some() {
            "nothing more"
        } else {
            LENGTH_UNIT
        })?;
        Ok(Self::mm(exact.signed(negative)))
    }
}

impl Slope {
    /// Reads `3-1/2:12`, `4 in 12`, `12 deg`, `12°` or `2 %`; a bare 0 is level.
    ///
    /// # Errors
    /// [`ParseError`] where the text is no slope.
    pub fn parse(text: &str) -> Result<Self, ParseError> {
        let mut scanner = Scanner::new(text);
        let negative = scanner.sign();
        let number = scanner.number()?;
        scanner.spaces();
        let slope = if scanner.take_any(&[":", "in"]) {
            scanner.spaces();
            let run = scanner.number()?;
            if run.upper == 0 {
                return Err(scanner.error("a run above 0"));
            }
            Self::ratio(number.divided_by(run).signed(negative))
        } else if scanner.take_any(&["%", "percent"]) {
            Self::ratio(number.divided_by(Fraction::whole(100)).signed(negative))
        } else if scanner.take_any(&["\u{b0}", "degrees", "degree", "deg"]) {
            if number.signed(false) >= 90.0 {
                return Err(scanner.error("fewer than 90 degrees"));
            }
            Self::from_angle(Angle::degrees(number.signed(negative)))
        } else if number.upper == 0 {
            Self::LEVEL
        } else {
            return Err(scanner.error(SLOPE_UNIT));
        };
        scanner.spaces();
        scanner.end("nothing more")?;
        Ok(slope)
    }
}

/// Reads a plain number such as `1-1/4` or `1.25`.
///
/// # Errors
/// [`ParseError`] where the text is no number.
pub fn parse_number(text: &str) -> Result<f64, ParseError> {
    let mut scanner = Scanner::new(text);
    let negative = scanner.sign();
    let number = scanner.number()?;
    scanner.spaces();
    scanner.end("nothing more")?;
    Ok(number.signed(negative))
}

impl Fraction {
    const fn whole(value: i64) -> Self {
        Self {
            upper: value,
            lower: 1,
        }
    }

    const fn times(self, unit: LengthUnit) -> Self {
        Self {
            upper: self.upper * unit.upper,
            lower: self.lower * unit.lower,
        }
    }

    const fn plus(self, other: Self) -> Self {
        Self {
            upper: self.upper * other.lower + other.upper * self.lower,
            lower: self.lower * other.lower,
        }
    }

    /// As doubles, since two long decimals may not divide in whole numbers; each is exact before it.
    fn divided_by(self, other: Self) -> Quotient {
        Quotient {
            upper: i128::from(self.upper) * i128::from(other.lower),
            lower: i128::from(self.lower) * i128::from(other.upper),
        }
    }

    /// The one conversion.
    fn signed(self, negative: bool) -> f64 {
        self.divided_by(Self::whole(1)).signed(negative)
    }
}

/// A fraction on its way to a double.
struct Quotient {
    upper: i128,
    lower: i128,
}

impl Quotient {
    /// The nearest double; never a negative zero.
    fn signed(self, negative: bool) -> f64 {
        let common = greatest_common_divisor(self.upper, self.lower);
        let value = (self.upper / common) as f64 / (self.lower / common) as f64;
        if negative && value > 0.0 {
            -value
        } else {
            value
        }
    }
}

fn greatest_common_divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}

/// A place in a text, moving on.
struct Scanner<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scanner<'a> {
    fn new(text: &'a str) -> Self {
        let mut scanner = Self { text, at: 0 };
        scanner.spaces();
        scanner
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn spaces(&mut self) {
        let rest = self.rest();
        self.at += rest.len() - rest.trim_start().len();
    }

    /// Steps over one of these characters.
    fn take(&mut self, characters: &[char]) -> bool {
        let next = self
            .rest()
            .chars()
            .next()
            .filter(|c| characters.contains(c));
        self.at += next.map_or(0, char::len_utf8);
        next.is_some()
    }

    /// Steps over the first of these words that stands here.
    fn take_any(&mut self, words: &[&str]) -> bool {
        let found = words.iter().find(|word| self.rest().starts_with(**word));
        self.at += found.map_or(0, |word| word.len());
        found.is_some()
    }

    /// Whether a minus stands here; a plus is stepped over.
    fn sign(&mut self) -> bool {
        let negative = self.take(&MINUS);
        if !negative {
            self.take(&['+']);
        }
        self.spaces();
        negative
    }

    /// Digits as they stand, at most so many.
    fn digits(&mut self, most: usize, expected: &'static str) -> Result<&'a str, ParseError> {
        let rest = self.rest();
        let count = rest.bytes().take_while(u8::is_ascii_digit).count();
        if count == 0 {
            return Err(self.error(expected));
        }
        if count > most {
            return Err(self.error(FEWER_DIGITS));
        }
        self.at += count;
        Ok(rest.get(..count).unwrap_or_default())
    }

    /// A whole number, a decimal, a fraction, or a whole number with a fraction.
    fn number(&mut self) -> Result<Fraction, ParseError> {
        let whole = self.digits(MOST_WHOLE_DIGITS, NUMBER)?;
        if self.take(&['.']) {
            let decimals = self.digits(MOST_DECIMALS, "decimals")?;
            let scale = decimals.bytes().fold(1, |scale, _| scale * 10);
            return Ok(Fraction {
                upper: integer(whole) * scale + integer(decimals),
                lower: scale,
            });
        }
        if self.rest().starts_with('/') {
            return self.over(integer(whole));
        }
        let before = self.at;
        if self.joint() {
            let upper_at = self.at;
            let upper = integer(self.digits(MOST_DENOMINATOR_DIGITS, NUMBER)?);
            let fraction = self.over(upper)?;
            if fraction.upper >= fraction.lower {
                self.at = upper_at;
                return Err(self.error("a fraction below 1 after the whole number"));
            }
            return Ok(Fraction::whole(integer(whole)).plus(fraction));
        }
        self.at = before;
        Ok(Fraction::whole(integer(whole)))
    }

    /// Steps over what joins a whole number and its fraction; false where no fraction follows.
    fn joint(&mut self) -> bool {
        let before = self.at;
        self.spaces();
        self.take(&HYPHENS);
        self.spaces();
        let rest = self.rest().trim_start_matches(|c: char| c.is_ascii_digit());
        self.at > before && rest.len() < self.rest().len() && rest.starts_with('/')
    }

    /// The lower half of a fraction, from its stroke on.
    fn over(&mut self, upper: i64) -> Result<Fraction, ParseError> {
        self.take(&['/']);
        let lower_at = self.at;
        let lower = integer(self.digits(MOST_DENOMINATOR_DIGITS, "the lower half of a fraction")?);
        if lower == 0 {
            self.at = lower_at;
            return Err(self.error("a lower half above 0"));
        }
        Ok(Fraction { upper, lower })
    }

    /// The unit that stands here; `None` at the end of the text.
    fn length_unit(&mut self) -> Result<Option<LengthUnit>, ParseError> {
        if self.rest().is_empty() {
            return Ok(None);
        }
        let rest = self.rest();
        let found = LENGTH_UNITS.iter().find(|(word, _)| {
            let after = rest
                .strip_prefix(word)
                .and_then(|after| after.chars().next());
            rest.starts_with(word) && !after.is_some_and(char::is_alphabetic)
        });
        let (word, unit) = found.ok_or_else(|| self.error(LENGTH_UNIT))?;
        self.at += word.len();
        Ok(Some(*unit))
    }

    /// Whether inches may follow the feet just read.
    fn more_after_feet(&mut self) -> bool {
        self.spaces();
        let joined = self.take(&HYPHENS);
        self.spaces();
        joined || !self.rest().is_empty()
    }

    /// Inches below a foot, with their mark.
    fn inches(&mut self) -> Result<Fraction, ParseError> {
        let before = self.at;
        let inches = self.number()?;
        if inches.upper >= 12 * inches.lower {
            self.at = before;
            return Err(self.error("fewer than 12 inches after feet"));
        }
        self.spaces();
        let at_unit = self.at;
        if self.length_unit()? != Some(LengthUnit::INCH) {
            self.at = at_unit;
            return Err(self.error("the inch mark, \" or in"));
        }
        Ok(inches.times(LengthUnit::INCH))
    }

    /// The end of the text.
    fn end(&mut self, expected: &'static str) -> Result<(), ParseError> {
        self.spaces();
        if self.rest().is_empty() {
            Ok(())
        } else {
            Err(self.error(expected))
        }
    }

    fn error(&self, expected: &'static str) -> ParseError {
        let before = self.text.get(..self.at).unwrap_or_default();
        let found = self.rest().split_whitespace().next();
        ParseError {
            column: before.chars().count() + 1,
            offset: self.at,
            found: found.map_or_else(
                || "the end".to_owned(),
                |word| format!("`{}`", word.chars().take(24).collect::<String>()),
            ),
            expected,
        }
    }
}

/// Digits that were counted before, as a number.
fn integer(digits: &str) -> i64 {
    digits
        .bytes()
        .fold(0, |value, digit| value * 10 + i64::from(digit - b'0'))
}
