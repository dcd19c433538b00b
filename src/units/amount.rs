//! Amounts of other kinds than length, each with its unit in the text: heat input, weight, weight per area, pressure.
//!
//! Inside, each is held in the unit that the published limits are in, so that a limit is met exactly.
//!
//! # Source
//! NIST SP 811 (2008), appendix B.8: 1 Btu (IT) per hour = 0.2930711 W, 1 lb/ft² = 4.882428 kg/m²,
//! 1 lb = 0.45359237 kg, 1 psi = 6.894757 kPa, 1 inch of mercury (32 °F) = 3.38638 kPa, 1 inch of water (39.2 °F) =
//! 0.249082 kPa.

use super::TapeUnit;
use super::error::ParseError;
use super::scanner::Scanner;

/// From here on, in psi, a pressure is shown in the units of a modulus of elasticity.
const STIFF: f64 = 1e5;

/// What an amount is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AmountKind {
    /// Heat per time.
    HeatInput,
    /// Weight per area.
    AreaWeight,
    /// Weight.
    Weight,
    /// Pressure above the air's.
    Pressure,
}

/// A written unit, the longer before the shorter, and its size in the unit that amounts are held in.
type Unit = (&'static str, f64);

impl AmountKind {
    const fn units(self) -> &'static [Unit] {
        match self {
            Self::HeatInput => &[
                ("Btu/h", 1.0),
                ("BTU/h", 1.0),
                ("btu/h", 1.0),
                ("kW", 1000.0 / 0.293_071_1),
            ],
            Self::AreaWeight => &[
                ("lb/ft2", 1.0),
                ("lb/ft\u{b2}", 1.0),
                ("psf", 1.0),
                ("kg/m2", 1.0 / 4.882_428),
                ("kg/m\u{b2}", 1.0 / 4.882_428),
            ],
            Self::Weight => &[("kg", 1.0), ("lbs", 0.453_592_37), ("lb", 0.453_592_37)],
            Self::Pressure => &[
                ("psi", 1.0),
                ("million psi", 1e6),
                ("GPa", 1e6 / 6.894_757),
                ("kPa", 1.0 / 6.894_757),
                ("in Hg", 3.386_38 / 6.894_757),
                ("in wc", 0.249_082 / 6.894_757),
            ],
        }
    }

    /// The unit it is shown in beside a tape of this unit.
    const fn shown(self, tape: TapeUnit) -> Unit {
        match (self, tape) {
            (Self::HeatInput, TapeUnit::Inch) => ("Btu/h", 1.0),
            (Self::HeatInput, TapeUnit::Millimeter) => ("kW", 1000.0 / 0.293_071_1),
            (Self::AreaWeight, TapeUnit::Inch) => ("lb/ft2", 1.0),
            (Self::AreaWeight, TapeUnit::Millimeter) => ("kg/m2", 1.0 / 4.882_428),
            (Self::Weight, TapeUnit::Inch) => ("lb", 0.453_592_37),
            (Self::Weight, TapeUnit::Millimeter) => ("kg", 1.0),
            (Self::Pressure, TapeUnit::Inch) => ("psi", 1.0),
            (Self::Pressure, TapeUnit::Millimeter) => ("kPa", 1.0 / 6.894_757),
        }
    }

    /// The units that may be written, in words.
    pub const fn written(self) -> &'static str {
        match self {
            Self::HeatInput => "a heat input such as \"30000 Btu/h\" or \"8.8 kW\"",
            Self::AreaWeight => "a weight per area such as \"12 lb/ft2\" or \"60 kg/m2\"",
            Self::Weight => "a weight such as \"100 lb\" or \"46 kg\"",
            Self::Pressure => "a pressure such as \"3 psi\", \"6 in Hg\" or \"21 kPa\"",
        }
    }
}

/// An amount and what it is of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// What it is of.
    pub kind: AmountKind,
    /// Btu/h, lb/ft², kg or psi.
    pub value: f64,
}

impl Amount {
    /// Reads a number with its unit; there is no unit that a bare number could be in.
    ///
    /// # Errors
    /// [`ParseError`] where the text is no such amount.
    pub fn parse(kind: AmountKind, text: &str) -> Result<Self, ParseError> {
        let mut scanner = Scanner::new(text);
        let negative = scanner.sign();
        let number = scanner.number()?.signed(negative);
        scanner.spaces();
        let units = kind.units().iter();
        let unit = units.copied().find(|(word, _)| scanner.take_any(&[word]));
        let (_, size) = unit.ok_or_else(|| scanner.error(kind.written()))?;
        scanner.end("nothing more")?;
        let value = number * size;
        Ok(Self { kind, value })
    }

    /// What it would be if its number had been meant in another unit than the one that it was written in, with that text.
    pub fn in_other_units(self) -> Vec<(Self, String)> {
        let units = self.kind.units();
        let meant = |written: &Unit| {
            let number = self.value / written.1;
            let (kind, own) = (self.kind, written.0);
            let others = units.iter().filter(move |it| it.0 != own);
            others.map(move |(unit, size)| {
                let value = number * size;
                let shown = (number * 1000.0).round() / 1000.0;
                (Self { kind, value }, format!("{shown} {unit}"))
            })
        };
        units.iter().flat_map(meant).collect()
    }

    /// The amount with its unit, to a thousandth at most.
    pub fn text(self, tape: TapeUnit) -> String {
        let (unit, size) = match (self.kind, tape) {
            // a modulus of elasticity
            (AmountKind::Pressure, TapeUnit::Inch) if self.value >= STIFF => ("million psi", 1e6),
            (AmountKind::Pressure, TapeUnit::Millimeter) if self.value >= STIFF => {
                ("GPa", 1e6 / 6.894_757)
            }
            (kind, tape) => kind.shown(tape),
        };
        let thousandths = (self.value / size * 1000.0).round() / 1000.0;
        format!("{thousandths} {unit}")
    }
}

/// Gives each kind of amount a type of its own, so that none is taken for another.
macro_rules! amounts {
    ($($(#[$about:meta])+ $name:ident = $unit:literal),+ $(,)?) => {$(
        $(#[$about])+
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("An amount in ", $unit, ".")]
            pub const fn new(value: f64) -> Self {
                Self(value)
            }

            #[doc = concat!("The amount in ", $unit, ".")]
            pub const fn value(self) -> f64 {
                self.0
            }

            /// The amount with its unit.
            pub fn text(self, tape: TapeUnit) -> String {
                Amount::from(self).text(tape)
            }
        }

        impl From<$name> for Amount {
            fn from(amount: $name) -> Self {
                Self { kind: AmountKind::$name, value: amount.0 }
            }
        }
    )+};
}

amounts! {
    /// Heat per time, as a rating plate gives it.
    HeatInput = "Btu/h",
    /// Weight per area.
    AreaWeight = "lb/ft²",
    /// Weight.
    Weight = "kg",
    /// Pressure above the air's.
    Pressure = "psi",
}
