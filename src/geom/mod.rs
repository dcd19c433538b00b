//! The geometry core: exact shapes, where they stand, and what can be asked of them.
//!
//! *Units*: millimetres in `f64`. *World frame*: right-handed; x to the right along the wall as seen
//! from the room, y into the wall, z up; the origin lies on the floor datum at the left room corner,
//! on the wall's finished face. So what a tape reads "out from the wall" is −y.
//!
//! Exact shapes are two, a [`Swept`] profile and a [`Tube`]; each is built in a frame of its own
//! from its own sizes and placed by a rigid [`Frame`].
//!
//! A sketch with y out of the wall is left-handed: build from it and everything comes out mirrored.
//!
//! A circle is never a polygon in a check. Convex pieces and meshes are for the sieve, for plane-faced bodies and for
//! pictures; only the volume that two *tubes* share is computed from fine slices.

mod along;
mod body;
mod bounds;
mod contact;
mod convex;
mod cut;
mod direction;
mod disc;
mod exit;
mod faceted;
mod fit;
mod frame;
mod key;
mod mesh;
mod nearest;
mod numeric;
mod outline;
mod overlap;
mod pieces;
mod round;
mod shape;
mod triangulate;
mod underside;

pub use along::{merged, stretches};
pub use body::Body;
pub use bounds::Bounds;
pub use contact::{Contact, Polygon, contact};
pub use convex::{Convex, Face, Plane};
pub use direction::Direction;
pub use exit::exit;
pub use faceted::{Facet, Faceted};
pub use fit::{fitted_line, fitted_plane, line_under};
pub use frame::Frame;
pub use key::ShapeKey;
pub use mesh::{Mesh, Triangle};
pub use nearest::{Nearest, gap, nearest, nearest_within};
pub(crate) use outline::{below, crossing, edges, is_inside, signed_area, within};
pub use overlap::{Overlap, common, overlap, overlaps};
pub use shape::{Bore, CenterLine, EndPlane, Profile, Shape, Swept, Tube};
pub(crate) use triangulate::polygon as triangles_of;
pub use underside::{Underside, roofline};

pub use crate::units::TOLERANCE;
