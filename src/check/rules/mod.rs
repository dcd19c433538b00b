//! One file per rule. A new rule is its file, its `mod` line and its line in [`RULES`].

pub mod agreement;
mod attachment;
mod beside_opening;
mod blocking;
mod board_joint;
mod bores;
mod brackets;
mod cables;
mod ceiling_fireblock;
mod ceiling_readings;
mod ceiling_slope;
mod clearance;
mod corner_square;
mod decided;
mod door_swing;
pub(super) mod enclosure;
mod envelope;
mod existing_stud_cut;
mod finish_backing;
pub(super) mod finish_material;
mod fireblocking;
mod fixed_things;
mod flange;
mod floor;
mod floor_readings;
mod gas_entry;
mod gas_joints;
mod gas_line;
mod gas_pipe;
mod gas_shutoff;
mod gas_stub;
mod hearth;
mod held;
mod inside_room;
mod insulation;
mod joint_in_reach;
mod left_out;
mod likely;
mod lip_against_skin;
mod mantel_ends;
mod mantel_hold;
mod mantel_on_framing;
pub(super) mod mantel_rule;
mod mantel_way_in;
mod monoxide_alarm;
mod nail_plates;
mod near_side_wall;
mod not_told;
mod opening_in_front;
mod opposite_wall;
mod part_in_part;
mod pass_angle;
mod pass_in_bay;
mod pass_thickness;
mod pipe_before_wall;
mod pipe_behind_front;
mod pipe_joints;
mod pipe_sections;
mod plates;
mod platform_panel;
mod rafter_cut;
mod receptacles;
mod recess_above_mantel;
mod recess_and_pipe;
mod recess_header;
mod recess_in_front;
mod recess_under_ceiling;
mod run_slope;
mod run_under_ceiling;
mod screen_height;
mod screen_in_recess;
mod screen_over_fire;
mod service;
mod side_backing;
mod steel_load;
mod stock_lengths;
mod stud_height;
mod stud_spacing;
mod terminal;
mod tilt_up;
mod treated_plate;
mod unit_forward;
mod unit_header;
mod unit_in_chase;
mod unit_through_opening;
mod veneer;
mod vent_limits;
mod vent_rise;
mod visits;
mod walkway;
mod wall_plumb;

use super::Rule;
use super::shared::{
    ARITHMETIC, COMMON_PRACTICE, clearances_of, first_of, first_studs, governs_depth, packed_at,
    page, parts_of,
};

/// The name of the rule that asks for facts.
pub(super) const NOT_TOLD: &str = not_told::RULE.name;

/// Every rule, in the order of the job.
pub static RULES: &[Rule] = &[
    not_told::RULE,
    part_in_part::RULE,
    bores::RULE,
    nail_plates::RULE,
    clearance::RULE,
    inside_room::RULE,
    held::RULE,
    stud_spacing::RULE,
    likely::RULE,
    agreement::RULE,
    left_out::RULE,
    treated_plate::RULE,
    plates::RULE,
    platform_panel::RULE,
    floor::RULE,
    stud_height::RULE,
    stock_lengths::RULE,
    tilt_up::RULE,
    walkway::RULE,
    fixed_things::RULE,
    wall_plumb::RULE,
    corner_square::RULE,
    unit_in_chase::RULE,
    unit_through_opening::RULE,
    unit_header::RULE,
    unit_forward::RULE,
    brackets::RULE,
    flange::RULE,
    opening_in_front::RULE,
    near_side_wall::RULE,
    opposite_wall::RULE,
    hearth::RULE,
    service::RULE,
    receptacles::RULE,
    lip_against_skin::RULE,
    pipe_behind_front::RULE,
    pipe_before_wall::RULE,
    vent_rise::RULE,
    run_slope::RULE,
    run_under_ceiling::RULE,
    ceiling_readings::RULE,
    ceiling_slope::RULE,
    floor_readings::RULE,
    pass_in_bay::RULE,
    existing_stud_cut::RULE,
    pass_angle::RULE,
    pass_thickness::RULE,
    rafter_cut::RULE,
    joint_in_reach::RULE,
    pipe_sections::RULE,
    pipe_joints::RULE,
    vent_limits::RULE,
    terminal::RULE,
    insulation::RULE,
    enclosure::RULE,
    envelope::RULE,
    gas_line::RULE,
    gas_stub::RULE,
    gas_entry::RULE,
    gas_joints::RULE,
    gas_shutoff::RULE,
    gas_pipe::RULE,
    mantel_rule::RULE,
    mantel_on_framing::RULE,
    mantel_hold::RULE,
    mantel_ends::RULE,
    mantel_way_in::RULE,
    beside_opening::RULE,
    door_swing::RULE,
    finish_material::RULE,
    veneer::RULE,
    finish_backing::RULE,
    side_backing::RULE,
    attachment::RULE,
    blocking::RULE,
    steel_load::RULE,
    board_joint::RULE,
    fireblocking::RULE,
    ceiling_fireblock::RULE,
    recess_above_mantel::RULE,
    recess_in_front::RULE,
    recess_under_ceiling::RULE,
    recess_header::RULE,
    recess_and_pipe::RULE,
    screen_in_recess::RULE,
    screen_over_fire::RULE,
    screen_height::RULE,
    cables::RULE,
    monoxide_alarm::RULE,
    visits::RULE,
    decided::RULE,
];
