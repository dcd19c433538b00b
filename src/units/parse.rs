//! Tape text in, exact quantities out.
//!
//! Every number is held as a fraction of whole numbers until the one conversion at the end, so `1/64 in`
//! is the double nearest to 127/320 mm and not the sum of roundings.
//!
//! # Errors
//! What was found, what was expected, and at which column of the text.

use super::error::ParseError;
use super::exact::{Fraction, LengthUnit};
use super::scanner::{LENGTH_UNIT, SLOPE_UNIT, Scanner};
use super::{Angle, Length, Slope, TapeUnit};

impl Length {
    /// Reads tape text such as `9' 4-1/2"`, `112 1/2 in` or `2.85 m`; a number without a unit is in `bare`.
    ///
    /// # Errors
    /// [`ParseError`] where the text is no length.
    ///
    /// # Examples
    /// ```
    /// use chasewright::units::{Length, Rounding, TapeUnit};
    ///
    /// let length = Length::parse("9' 4-1/2\"", TapeUnit::Inch).expect("tape text");
    /// assert_eq!(length, Length::inches(112.5));
    /// assert_eq!(length.tape(TapeUnit::Inch, Rounding::Nearest), "112-1/2\"");
    /// ```
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
