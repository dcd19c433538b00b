//! One file per rule. A new rule is its file, its `mod` line and its line in [`RULES`].

mod ceiling_readings;
mod chase_depth;
mod clearance;
mod existing_stud_cut;
mod held;
mod inside_room;
mod left_out;
mod lip_against_skin;
mod mantel_on_framing;
pub(super) mod mantel_rule;
mod near_side_wall;
mod opening_in_front;
mod part_in_part;
mod pass_in_bay;
mod pipe_before_wall;
mod pipe_behind_front;
mod recess_above_mantel;
mod recess_and_pipe;
mod recess_header;
mod recess_in_front;
mod recess_under_ceiling;
mod run_under_ceiling;
mod screen_height;
mod screen_in_recess;
mod stud_height;
mod stud_spacing;
mod tilt_up;
mod treated_plate;
mod unit_in_chase;
mod vent_rise;
mod walkway;

use super::Rule;

/// Every rule, in the order of the job.
pub static RULES: &[Rule] = &[
    part_in_part::RULE,
    clearance::RULE,
    inside_room::RULE,
    held::RULE,
    stud_spacing::RULE,
    left_out::RULE,
    treated_plate::RULE,
    stud_height::RULE,
    tilt_up::RULE,
    walkway::RULE,
    chase_depth::RULE,
    unit_in_chase::RULE,
    opening_in_front::RULE,
    near_side_wall::RULE,
    lip_against_skin::RULE,
    pipe_behind_front::RULE,
    pipe_before_wall::RULE,
    vent_rise::RULE,
    run_under_ceiling::RULE,
    ceiling_readings::RULE,
    pass_in_bay::RULE,
    existing_stud_cut::RULE,
    mantel_rule::RULE,
    mantel_on_framing::RULE,
    recess_above_mantel::RULE,
    recess_in_front::RULE,
    recess_under_ceiling::RULE,
    recess_header::RULE,
    recess_and_pipe::RULE,
    screen_in_recess::RULE,
    screen_height::RULE,
];

/// A plain consequence of sizes, with no number from outside.
pub(super) const ARITHMETIC: &str = "arithmetic";

/// How a page of the unit's manual is cited.
pub(super) fn page<T>(number: &crate::params::Manual<T>) -> String {
    format!("manual p. {}", number.page)
}
