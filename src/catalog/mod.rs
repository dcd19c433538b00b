//! Facts of the trade that do not depend on the job: dressed lumber sizes and materials, each with its source.

mod lumber;
mod material;

pub use lumber::{Lumber, lumber};
pub use material::Material;
