//! Numbers as text: rounded to a fixed step, the shortest form, never −0.

use std::fmt::Write as _;

/// Steps of 1e-9, for coordinates in millimetres.
pub const COORDINATE: Decimals = Decimals(9);
/// Steps of 1e-11, for coordinates in inches: below a millimetre's step.
pub const INCHES: Decimals = Decimals(11);
/// Steps of 1e-12, for unit vectors: over the length of a wall still below a coordinate's step.
pub const DIRECTION: Decimals = Decimals(12);
/// Steps of 1e-6, for files that are read in 32 bits.
pub const SINGLE: Decimals = Decimals(6);

impl Decimals {
    /// Steps of 1e-3, for drawings.
    pub const THOUSANDTHS: Self = Self(3);
}

/// How many decimals a number is rounded to.
#[derive(Debug, Clone, Copy)]
pub struct Decimals(u32);

/// Appends a number with a decimal point and without needless zeros, such as `12.` or `-0.75`.
pub fn push(text: &mut String, value: f64, decimals: Decimals) {
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
pub fn push_digits(text: &mut String, mut value: u64, width: usize) {
    let mut digits = [b'0'; 20];
    let mut start = digits.len();
    while value > 0 || digits.len() - start < width {
        start -= 1;
        digits[start] = b'0' + u8::try_from(value % 10).unwrap_or(0);
        value /= 10;
    }
    text.extend(digits[start..].iter().copied().map(char::from));
}

/// Numbers that rise, with runs of them written short: 1, 3–5.
pub fn spans(numbers: &[usize]) -> String {
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for number in numbers {
        match spans.last_mut() {
            Some((_, last)) if *last + 1 == *number => *last = *number,
            _ => spans.push((*number, *number)),
        }
    }
    let words = spans.into_iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first}\u{2013}{last}"),
    });
    words.collect::<Vec<_>>().join(", ")
}
