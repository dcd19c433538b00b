//! What to cut, at which saw setting, from which board; what to buy, weigh and pay.
//!
//! In: a design. Out: a [`Takeoff`]. Pure and exact: rounding happens where it is written. What makes the
//! takeoff useless, such as a piece longer than any board, is a fault with the key that mends it.

mod cut_list;
pub mod plan;
mod saw;
mod stick;
mod wood;
mod yard;

pub use cut_list::Row;
pub use saw::{Cut, Setup, Stop};
pub use stick::{End, Rip};
pub use yard::{Board, SoldLength};

use crate::design::Design;
use yard::Yard;

/// Everything that follows from a design for the saw, the yard and the purse.
#[derive(Debug, Clone)]
pub struct Takeoff {
    /// The cut list, by wall and from the left.
    pub cut_list: Vec<Row>,
    /// Settings of the saw.
    pub saw: Vec<Setup>,
}

/// Takes off a design.
pub fn takeoff(design: &Design) -> Takeoff {
    let yard = Yard::new(&design.params);
    let cut_list = cut_list::rows(design, &yard);
    Takeoff {
        saw: saw::setups(&cut_list, &design.params),
        cut_list,
    }
}
