//! A length, so that no bare number has to be trusted to be one.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Millimetres in one inch, exactly.
///
/// Source: NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm.
pub const MM_PER_INCH: f64 = 25.4;

/// The one tolerance, in millimetres: nearer than this is touching, thinner than this is nothing.
pub const TOLERANCE: f64 = 1e-6;

/// A signed length, held as millimetres.
///
/// Tape text is parsed exactly and only then converted; arithmetic is never rounded.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Length(f64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0.0);

    /// A length given in millimetres.
    pub const fn mm(value: f64) -> Self {
        Self(value)
    }

    /// A length given in inches.
    ///
    /// One rounding only: for every 64th of an inch the same double as its tape text gives.
    pub const fn inches(value: f64) -> Self {
        Self(value * 127.0 / 5.0)
    }

    /// This length in millimetres.
    pub const fn to_mm(self) -> f64 {
        self.0
    }

    /// This length in inches.
    pub const fn to_inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The smaller of two lengths.
    #[must_use]
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The larger of two lengths.
    #[must_use]
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// Whether the length is above zero by more than [`TOLERANCE`].
    pub const fn is_positive(self) -> bool {
        self.0 > TOLERANCE
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Mul<Length> for f64 {
    type Output = Length;
    fn mul(self, length: Length) -> Length {
        Length(self * length.0)
    }
}

impl Div<f64> for Length {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self(self.0 / divisor)
    }
}

impl Div for Length {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.0 / other.0
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}
