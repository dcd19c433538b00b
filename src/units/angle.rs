//! Angles and slopes.

use super::Length;

/// An angle, held as radians.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

impl Angle {
    /// An angle given in degrees.
    pub fn degrees(value: f64) -> Self {
        Self(value.to_radians())
    }

    /// An angle given in radians.
    pub const fn radians(value: f64) -> Self {
        Self(value)
    }

    /// This angle in degrees.
    pub fn to_degrees(self) -> f64 {
        self.0.to_degrees()
    }

    /// This angle in radians.
    pub const fn to_radians(self) -> f64 {
        self.0
    }

    /// Sine, the same on every platform.
    pub fn sin(self) -> f64 {
        libm::sin(self.0)
    }

    /// Cosine, the same on every platform.
    pub fn cos(self) -> f64 {
        libm::cos(self.0)
    }

    /// Tangent, the same on every platform.
    pub fn tan(self) -> f64 {
        libm::tan(self.0)
    }
}

/// A slope as rise over run; positive rises in the direction that is named beside it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Slope(f64);

impl Slope {
    /// Level.
    pub const LEVEL: Self = Self(0.0);

    /// Rise over run, both in the same unit: 4 in 12 is `Slope::ratio(4.0 / 12.0)`.
    pub const fn ratio(value: f64) -> Self {
        Self(value)
    }

    /// The slope of a line at this angle to level.
    pub fn from_angle(angle: Angle) -> Self {
        Self(angle.tan())
    }

    /// Rise over run.
    pub const fn to_ratio(self) -> f64 {
        self.0
    }

    /// The angle to level.
    pub fn angle(self) -> Angle {
        Angle::radians(libm::atan(self.0))
    }

    /// The rise over a level run.
    pub fn rise(self, run: Length) -> Length {
        run * self.0
    }
}

impl std::ops::Neg for Slope {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
