//! A place in a text that moves on over numbers, units and marks.

use super::error::ParseError;
use super::exact::{Fraction, LengthUnit};

/// More digits than a tape, a drawing or a house has.
const MOST_WHOLE_DIGITS: usize = 6;
const MOST_DECIMALS: usize = 6;
const MOST_DENOMINATOR_DIGITS: usize = 4;

const NUMBER: &str = "a number";
const FEWER_DIGITS: &str = "at most 6 digits before and 6 after the point";
pub(super) const LENGTH_UNIT: &str = "ft, in, mm, cm or m";
pub(super) const SLOPE_UNIT: &str = "rise:run such as 4:12, degrees, or %";

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

/// A place in a text, moving on.
pub(super) struct Scanner<'a> {
    pub(super) text: &'a str,
    pub(super) at: usize,
}

impl<'a> Scanner<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        let mut scanner = Self { text, at: 0 };
        scanner.spaces();
        scanner
    }

    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    pub(super) fn spaces(&mut self) {
        let rest = self.rest();
        self.at += rest.len() - rest.trim_start().len();
    }

    /// Steps over one of these characters.
    pub(super) fn take(&mut self, characters: &[char]) -> bool {
        let next = self
            .rest()
            .chars()
            .next()
            .filter(|c| characters.contains(c));
        self.at += next.map_or(0, char::len_utf8);
        next.is_some()
    }

    /// Steps over the first of these words that stands here.
    pub(super) fn take_any(&mut self, words: &[&str]) -> bool {
        let found = words.iter().find(|word| self.rest().starts_with(**word));
        self.at += found.map_or(0, |word| word.len());
        found.is_some()
    }

    /// Whether a minus stands here; a plus is stepped over.
    pub(super) fn sign(&mut self) -> bool {
        let negative = self.take(&MINUS);
        if !negative {
            self.take(&['+']);
        }
        self.spaces();
        negative
    }

    /// Digits as they stand, at most so many.
    pub(super) fn digits(
        &mut self,
        most: usize,
        expected: &'static str,
    ) -> Result<&'a str, ParseError> {
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
    pub(super) fn number(&mut self) -> Result<Fraction, ParseError> {
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
    pub(super) fn joint(&mut self) -> bool {
        let before = self.at;
        self.spaces();
        self.take(&HYPHENS);
        self.spaces();
        let rest = self.rest().trim_start_matches(|c: char| c.is_ascii_digit());
        self.at > before && rest.len() < self.rest().len() && rest.starts_with('/')
    }

    /// The lower half of a fraction, from its stroke on.
    pub(super) fn over(&mut self, upper: i64) -> Result<Fraction, ParseError> {
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
    pub(super) fn length_unit(&mut self) -> Result<Option<LengthUnit>, ParseError> {
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
    pub(super) fn more_after_feet(&mut self) -> bool {
        self.spaces();
        let joined = self.take(&HYPHENS);
        self.spaces();
        joined || !self.rest().is_empty()
    }

    /// Inches below a foot, with their mark.
    pub(super) fn inches(&mut self) -> Result<Fraction, ParseError> {
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
    pub(super) fn end(&mut self, expected: &'static str) -> Result<(), ParseError> {
        self.spaces();
        if self.rest().is_empty() {
            Ok(())
        } else {
            Err(self.error(expected))
        }
    }

    pub(super) fn error(&self, expected: &'static str) -> ParseError {
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
