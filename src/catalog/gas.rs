//! The capacity of steel gas pipe, by the longest run.
//!
//! # Source
//! IFGC 2018, schedule 40 metallic pipe, natural gas at less than 2 psi, specific gravity 0.60: table
//! 402.4(2), pressure drop 0.5 in of water, from memory; its first row follows from the row of 60 ft
//! of table 402.4(3) (equal drop per foot, equal capacity). Table 402.4(3), 3.0 in of water, read in a
//! secondary copy. The tables choose; the equation behind them reads high and only tests them.

/// A row: runs up to `feet`, and cubic feet per hour of 1/2, 3/4, 1 and 1-1/4 in pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GasRow {
    /// The row holds up to this run, in feet, itself included.
    pub feet: u32,
    /// Cubic feet per hour by nominal size: 1/2, 3/4, 1, 1-1/4.
    pub capacity: [u32; 4],
}

const fn row(feet: u32, capacity: [u32; 4]) -> GasRow {
    GasRow { feet, capacity }
}

/// IFGC 2018 table 402.4(2): 0.5 in of water.
pub const GAS_HALF_INCH_DROP: [GasRow; 10] = [
    row(10, [172, 360, 678, 1390]),
    row(20, [118, 247, 466, 957]),
    row(30, [95, 199, 374, 768]),
    row(40, [81, 170, 320, 657]),
    row(50, [72, 151, 284, 583]),
    row(60, [65, 137, 257, 528]),
    row(70, [60, 126, 237, 486]),
    row(80, [56, 117, 220, 452]),
    row(90, [52, 110, 207, 424]),
    row(100, [50, 104, 195, 400]),
];

/// IFGC 2018 table 402.4(3): 3.0 in of water.
pub const GAS_THREE_INCH_DROP: [GasRow; 8] = [
    row(10, [454, 949, 1790, 3670]),
    row(20, [312, 652, 1230, 2520]),
    row(30, [250, 524, 986, 2030]),
    row(40, [214, 448, 844, 1730]),
    row(50, [190, 397, 748, 1540]),
    row(60, [172, 360, 678, 1390]),
    row(70, [158, 331, 624, 1280]),
    row(80, [147, 308, 580, 1190]),
];
