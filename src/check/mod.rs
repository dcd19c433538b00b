//! Design in, findings out: interference, clearances, support, and every rule of the list.
//!
//! A rule finds; it never changes the design. The verdict follows from the margin alone.

#![deny(clippy::wildcard_enum_match_arm)]

mod all;
mod assumptions;
mod backing;
mod cap;
mod clearance;
mod concern;
mod decided;
mod finding;
mod header;
mod heights;
mod inside;
mod interference;
mod load;
mod remedy;
mod report;
mod rule;
pub mod rules;
mod shared;
mod sieve;
mod subject;
mod support;
mod waiting;

pub use all::check;
pub use assumptions::{Assumption, Turn, assumptions};
pub use clearance::{Margin, clearances};
pub use concern::Concern;
pub use finding::{Change, Finding, Name, Numbers, Quantity, Remedy, Sense, Verdict, Waiting};
pub use heights::{HeightRow, heights, heights_curve};
pub use inside::{Boundary, Outside, outside};
pub use interference::{Clash, Shared, interference, shared};
pub use remedy::{Searching, TRIALS, causes, try_remedies, try_remedies_watched};
pub use report::{Report, Row};
pub use rule::Rule;
pub use subject::{Measure, Subject, Thing};
pub use support::{Lack, Unheld, unheld};
pub use waiting::not_judged;
