//! The form of a placement.

use crate::params::consistent::Rule;
use crate::params::list::Params;
use crate::params::site::Site;

/// A placement.
pub(super) struct Placed {
    /// Where it puts the chase.
    pub(super) site: fn(&Params) -> Site,
    /// What is asked where it is chosen.
    pub(super) rules: &'static [Rule],
    /// What is asked where another one is chosen: whether its own keys are written all the same.
    pub(super) elsewhere: &'static [Rule],
}
