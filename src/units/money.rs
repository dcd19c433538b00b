//! Money in whole hundredths, so that sums are exact.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Mul};

/// An amount of the user's own currency, held as whole hundredths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);

    /// An amount given in hundredths.
    pub const fn hundredths(value: i64) -> Self {
        Self(value)
    }

    /// The amount in hundredths.
    pub const fn to_hundredths(self) -> i64 {
        self.0
    }

    /// The amount as a number of the currency's unit, for files that programs read.
    pub fn to_number(self) -> f64 {
        self.0 as f64 / 100.0
    }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Mul<usize> for Money {
    type Output = Self;
    fn mul(self, count: usize) -> Self {
        let count = i64::try_from(count).unwrap_or(i64::MAX);
        Self(self.0.saturating_mul(count))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let value = self.0.unsigned_abs();
        write!(f, "{sign}{}.{:02}", value / 100, value % 100)
    }
}
