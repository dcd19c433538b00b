//! Numbers and units as fractions of whole numbers, converted to a double once.

use super::TapeUnit;

/// A number as a fraction; numerator and denominator stay far below 2^53.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fraction {
    pub(super) upper: i64,
    pub(super) lower: i64,
}

/// A unit of length as a fraction of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct LengthUnit {
    pub(super) upper: i64,
    pub(super) lower: i64,
}

impl LengthUnit {
    /// 25.4 mm exactly: NIST SP 811 (2008), appendix B.8.
    pub(super) const INCH: Self = Self::new(127, 5);
    pub(super) const FOOT: Self = Self::new(127 * 12, 5);
    pub(super) const MILLIMETER: Self = Self::new(1, 1);
    pub(super) const CENTIMETER: Self = Self::new(10, 1);
    pub(super) const METER: Self = Self::new(1000, 1);

    pub(super) const fn new(upper: i64, lower: i64) -> Self {
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

impl Fraction {
    pub(super) const fn whole(value: i64) -> Self {
        Self {
            upper: value,
            lower: 1,
        }
    }

    pub(super) const fn times(self, unit: LengthUnit) -> Self {
        Self {
            upper: self.upper * unit.upper,
            lower: self.lower * unit.lower,
        }
    }

    pub(super) const fn plus(self, other: Self) -> Self {
        Self {
            upper: self.upper * other.lower + other.upper * self.lower,
            lower: self.lower * other.lower,
        }
    }

    /// As doubles, since two long decimals may not divide in whole numbers; each is exact before it.
    pub(super) fn divided_by(self, other: Self) -> Quotient {
        Quotient {
            upper: i128::from(self.upper) * i128::from(other.lower),
            lower: i128::from(self.lower) * i128::from(other.upper),
        }
    }

    /// The one conversion.
    pub(super) fn signed(self, negative: bool) -> f64 {
        self.divided_by(Self::whole(1)).signed(negative)
    }
}

/// A fraction on its way to a double.
pub(super) struct Quotient {
    pub(super) upper: i128,
    pub(super) lower: i128,
}

impl Quotient {
    /// The nearest double; never a negative zero.
    pub(super) fn signed(self, negative: bool) -> f64 {
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
