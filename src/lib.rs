//! Chasewright plans the framed chase around a direct-vent gas fireplace.
//!
//! One direction: parameter text → [`params::Params`] → [`design::Design`] → findings, takeoff, drawings and
//! solids → bytes → files. Everything up to the bytes is pure; only `cli` touches files, the
//! terminal and the clock. A room imports only the rooms above it in this list.
//!
//! ```
//! use chasewright::{check, design, params, takeoff};
//!
//! let text = include_str!(concat!(
//!     env!("CARGO_MANIFEST_DIR"),
//!     "/params/reading-room.toml"
//! ));
//! let params = params::read(text).expect("a sound file");
//! let design = design::design(&params);
//! assert!(design.parts.iter().any(|part| part.id == "set-back/stud/1"));
//! assert!(!check::check(&design).is_empty());
//! assert!(!takeoff::takeoff(&design).cut_list.is_empty());
//! ```

pub mod units;

pub mod geom;

pub mod catalog;

pub mod params;

pub mod layout;

pub mod design;

pub mod check;
pub mod drawing;
pub mod scale;
pub mod solids;
pub mod takeoff;

pub mod export;

pub mod cli;
