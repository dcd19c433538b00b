//! Sheets of paper and true scales.
//!
//! *Sources*: ISO 216:2007 for A4 and A3; ANSI/ASME Y14.1-2020 sizes A and B for letter and tabloid, and its
//! architectural size C (18 by 24 in); scales are those of an architect's rule and, metric, of ISO 5455:1979.

use glam::DVec2;

use crate::units::{Length, TapeUnit};

/// A size of paper, laid on its long side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 8-1/2 by 11 in.
    Letter,
    /// 11 by 17 in.
    Tabloid,
    /// 18 by 24 in.
    ArchC,
    /// 210 by 297 mm.
    A4,
    /// 297 by 420 mm.
    A3,
}

/// How many millimetres of the model one millimetre of paper stands for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Model over paper.
    pub ratio: f64,
    /// As it is written on the sheet.
    pub name: &'static str,
}

const fn scale(ratio: f64, name: &'static str) -> Scale {
    Scale { ratio, name }
}

const INCH_SCALES: [Scale; 11] = [
    scale(4.0, "3 in = 1 ft"),
    scale(8.0, "1-1/2 in = 1 ft"),
    scale(12.0, "1 in = 1 ft"),
    scale(16.0, "3/4 in = 1 ft"),
    scale(24.0, "1/2 in = 1 ft"),
    scale(32.0, "3/8 in = 1 ft"),
    scale(48.0, "1/4 in = 1 ft"),
    scale(64.0, "3/16 in = 1 ft"),
    scale(96.0, "1/8 in = 1 ft"),
    scale(128.0, "3/32 in = 1 ft"),
    scale(192.0, "1/16 in = 1 ft"),
];

const METRIC_SCALES: [Scale; 6] = [
    scale(5.0, "1:5"),
    scale(10.0, "1:10"),
    scale(20.0, "1:20"),
    scale(50.0, "1:50"),
    scale(100.0, "1:100"),
    scale(200.0, "1:200"),
];

impl Paper {
    /// Every size with the word it is asked for by.
    pub const ALL: [(&'static str, Self); 5] = [
        ("letter", Self::Letter),
        ("tabloid", Self::Tabloid),
        ("arch-c", Self::ArchC),
        ("a4", Self::A4),
        ("a3", Self::A3),
    ];

    /// The size that serves when nobody asks for another.
    pub const fn usual(unit: TapeUnit) -> Self {
        match unit {
            TapeUnit::Inch => Self::Tabloid,
            TapeUnit::Millimeter => Self::A3,
        }
    }

    /// Its name as it is written on the sheet.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::Tabloid => "tabloid 11 x 17",
            Self::ArchC => "ARCH C 18 x 24",
            Self::A4 => "A4",
            Self::A3 => "A3",
        }
    }

    /// Width and height in millimetres.
    pub const fn size(self) -> DVec2 {
        match self {
            Self::Letter => DVec2::new(279.4, 215.9),
            Self::Tabloid => DVec2::new(431.8, 279.4),
            Self::ArchC => DVec2::new(609.6, 457.2),
            Self::A4 => DVec2::new(297.0, 210.0),
            Self::A3 => DVec2::new(420.0, 297.0),
        }
    }
}

impl Scale {
    /// As large as it is.
    pub const FULL: Self = scale(1.0, "full size, 1:1");

    /// The scales in use with a kind of tape, the largest picture first.
    pub const fn all(unit: TapeUnit) -> &'static [Self] {
        match unit {
            TapeUnit::Inch => &INCH_SCALES,
            TapeUnit::Millimeter => &METRIC_SCALES,
        }
    }

    /// A length of the model that makes a handy scale bar, and its text.
    pub fn bar(self, unit: TapeUnit) -> (Length, &'static str) {
        let inch: [(Length, &str); 8] = [
            (Length::inches(240.0), "20 ft"),
            (Length::inches(192.0), "16 ft"),
            (Length::inches(96.0), "8 ft"),
            (Length::inches(48.0), "4 ft"),
            (Length::inches(24.0), "2 ft"),
            (Length::inches(12.0), "1 ft"),
            (Length::inches(6.0), "6 in"),
            (Length::inches(2.0), "2 in"),
        ];
        let metric: [(Length, &str); 8] = [
            (Length::mm(10_000.0), "10 m"),
            (Length::mm(5_000.0), "5 m"),
            (Length::mm(2_000.0), "2 m"),
            (Length::mm(1_000.0), "1 m"),
            (Length::mm(500.0), "500 mm"),
            (Length::mm(200.0), "200 mm"),
            (Length::mm(100.0), "100 mm"),
            (Length::mm(50.0), "50 mm"),
        ];
        let bars = match unit {
            TapeUnit::Inch => inch,
            TapeUnit::Millimeter => metric,
        };
        let fits = |bar: &&(Length, &str)| bar.0.to_mm() / self.ratio <= LONGEST_BAR;
        *bars.iter().find(fits).unwrap_or(&bars[bars.len() - 1])
    }
}

/// The longest scale bar, in millimetres of paper.
const LONGEST_BAR: f64 = 52.0;
