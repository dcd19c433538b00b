//! Numbers as text: rounded to a fixed step, the shortest form, never −0.

use std::fmt::Write as _;

/// Steps of 1e-9, for coordinates in millimetres.
pub(super) const COORDINATE: Decimals = Decimals(9);
/// Steps of 1e-11, for coordinates in inches: below a millimetre's step.
pub(super) const INCHES: Decimals = Decimals(11);
/// Steps of 1e-12, for unit vectors: over the length of a wall still below a coordinate's step.
pub(super) const DIRECTION: Decimals = Decimals(12);
/// Steps of 1e-6, for files that are read in 32 bits.
pub(super) const SINGLE: Decimals = Decimals(6);

impl Decimals {
    /// Steps of 1e-3, for drawings.
    pub(super) const THOUSANDTHS: Self = Self(3);
}

/// How many decimals a number is rounded to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Decimals(u32);

/// Appends a number with a decimal point and without needless zeros, such as `12.` or `-0.75`.
pub(super) fn push(text: &mut String, value: f64, decimals: Decimals) {
    let unit = 10_i64.pow(decimals.0);
    let scaled = (value * unit as f64).round();
    if scaled.abs() >= 9e18 || scaled.is_nan() {
        // Larger than any model; plain and slow. Infinities cannot get here: solids are finite.
        let _ = write!(text, "{value:.1}");
        return;
    }
    #[expect(clippy::cast_possible_truncation, reason = "whole, and below 2^63")]
    let steps = scaled as i64;
    if steps < 0 {
        text.push('-');
    }
    let unit = unit.unsigned_abs();
    push_digits(text, steps.unsigned_abs() / unit, 1);
    text.push('.');
    let mut fraction = steps.unsigned_abs() % unit;
    let mut width = decimals.0 as usize;
    while fraction > 0 && fraction.is_multiple_of(10) {
        fraction /= 10;
        width -= 1;
    }
    if fraction > 0 {
        push_digits(text, fraction, width);
    }
}

/// Appends a whole number with at least so many digits.
pub(super) fn push_digits(text: &mut String, mut value: u64, width: usize) {
    let mut digits = [b'0'; 20];
    let mut start = digits.len();
    while value > 0 || digits.len() - start < width {
        start -= 1;
        digits[start] = b'0' + u8::try_from(value % 10).unwrap_or(0);
        value /= 10;
    }
    text.extend(digits[start..].iter().copied().map(char::from));
}

#[cfg(test)]
mod tests {
    use super::{COORDINATE, DIRECTION, push};

    #[test]
    fn numbers_are_short_and_have_a_point() {
        let cases = [
            (0.0, "0."),
            (-0.0, "0."),
            (-4e-10, "0."),
            (38.1, "38.1"),
            (-0.75, "-0.75"),
            (2844.8, "2844.8"),
            (1.000_000_000_4, "1."),
            (0.000_000_001, "0.000000001"),
            (-1_234.567_891_234_9, "-1234.567891235"),
            (1e12, "1000000000000.0"),
        ];
        for (value, expected) in cases {
            let mut text = String::new();
            push(&mut text, value, COORDINATE);
            assert_eq!(text, expected);
        }
        let mut text = String::new();
        push(&mut text, 0.5_f64.sqrt(), DIRECTION);
        assert_eq!(text, "0.707106781187");
    }
}
