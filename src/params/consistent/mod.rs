//! Whether parameters that are sound one by one go together: what no design could be built from is a fault.
//!
//! What can be built but is unwise is no fault; the checks say so. Every rule here is a small function
//! in one of the `RULES`, and all of them are asked, so that all faults come at once. Heights are taken from the slab.

mod appliance;
mod ceiling;
mod fixed;
mod framing;
mod headers;
mod mantel;
mod placement;
mod recess;
mod rule;
mod services;
mod steel;
mod vent;

pub(super) use rule::{LEAST_SIDE_WALL, Rule, ceiling_over_chase, ledge_depth, unless_fits};
use rule::{fits, front_stud, lowest_over_room, platform_height, stepped, to_nearer_end};

use super::fault::Fault;
use super::list::Params;

/// Every fault of how the parameters go together; none has a place.
pub(super) fn faults(params: &Params) -> Vec<Fault> {
    let rules = [
        ceiling::RULES,
        placement::RULES,
        fixed::RULES,
        framing::RULES,
        appliance::RULES,
        headers::RULES,
        mantel::RULES,
        recess::RULES,
        services::RULES,
        steel::RULES,
        vent::RULES,
    ];
    rules
        .into_iter()
        .flatten()
        .flat_map(|rule| rule(params))
        .collect()
}
