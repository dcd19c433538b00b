//! Parameter text in, [`Params`] out, or every fault with its place.
//!
//! *Units*: lengths as a tape reads them; bare numbers in the file's own unit. *Frame*: what is measured
//! "from the left corner" grows to the right as seen from the room, what is measured "out from the wall"
//! grows into the room, heights count from the floor datum.
//!
//! All parameters stand in one list, [`PARAMETERS`], and everything that knows of them works from it.

mod choice;
mod layer;
mod list;
mod manual;
mod table;
mod value;

pub use choice::{Bearing, FloorDatum, FrontForm, HeightDatum, Permission, ProjectionDatum};
pub use layer::Layer;
pub use list::{
    Appliance, Ceiling, Chase, ExistingWall, Front, GROUPS, Mantel, PARAMETERS, Params, Platform,
    Project, Recess, Room, Screen, Skins, Vent,
};
pub use manual::{MantelRule, Manual, Step};
pub use table::{Group, Parameter, Presence, Range};
pub use value::{Kind, Value};
