//! Facts of the trade that do not depend on the job: sizes of dressed lumber and steel members, and materials, each with its source.

mod gas;
mod lumber;
mod material;
mod member;
mod screw;
mod section;
mod steel;

pub use gas::{GAS_HALF_INCH_DROP, GAS_THREE_INCH_DROP, GasRow};
pub use lumber::{Lumber, lumber, nominal};
pub use material::Material;
pub use member::{FramingMember, member};
pub use screw::Screw;
pub use section::{Steel, SteelForm};
pub use steel::{steel, track_flange, track_for};
