//! Quantities of the trade: lengths, angles, slopes and a few more, read from tape text and written back as such.

mod amount;
mod angle;
mod digest;
mod error;
mod exact;
mod length;
mod money;
mod parse;
mod scanner;
mod span;
mod tape;

pub use amount::{Amount, AmountKind, AreaWeight, HeatInput, Pressure, Weight};
pub use angle::{Angle, Slope};
pub use digest::sha256;
pub use error::ParseError;
pub use length::{Length, MM_PER_INCH, TOLERANCE};
pub use money::Money;
pub use parse::parse_number;
pub use span::Span;
pub use tape::{Marks, Rounding, TapeUnit};
