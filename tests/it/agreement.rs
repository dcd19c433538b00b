//! Facts that must agree: each pair with a file that contradicts itself and a sound one, and every fact in a pair or with
//! the reason why it need not agree with another.

use std::collections::BTreeSet;

use chasewright::check::rules::agreement::AGREEMENTS;
use chasewright::check::{Verdict, check};
use chasewright::design::design;
use chasewright::params::{Nature, PARAMETERS, Params};

use crate::support::{changed, demos};

/// Facts that need not agree with another, by the reason.
const NEED_NOT: &[(&str, &[&str])] = &[
    (
        "somebody's word, with a name and a date",
        &["project.decided"],
    ),
    (
        "of the house, said once",
        &[
            "room.floor_kind",
            "room.tendons_marked",
            "room.floor_checked",
            "room.hearth_out",
            "room.hearth_beside",
            "room.monoxide_alarm",
            "chase.receptacles",
            "gas.material",
            "gas.hidden_joints",
        ],
    ),
    (
        "of what is bought, said once",
        &[
            "front.header_modulus",
            "platform.span_rating",
            "skins.lower_material",
            "skins.upper_material",
            "skins.side_material",
            "skins.stone_thickness",
            "skins.board_spacing",
            "screen.over_fire",
            "screen.receptacle",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &[
            "appliance.side_wall",
            "appliance.hearth_out",
            "appliance.hearth_beside",
            "appliance.screen_above",
            "appliance.service",
            "appliance.gas_entry",
            "appliance.receptacle",
            "vent.thinnest_wall",
            "vent.thickest_wall",
        ],
    ),
    (
        "measured; what stands there is drawn, and judged as it stands",
        &[
            "chase.alcove_depth",
            "room.width",
            "room.depth",
            "room.left_corner",
            "room.right_corner",
            "room.floor",
            "room.way_in",
            "room.fixed",
        ],
    ),
    (
        "measured; said twice it is refused",
        &[
            "ceiling.height",
            "ceiling.slope",
            "ceiling.rise_right",
            "ceiling.rise_out",
            "ceiling.over_chase",
            "ceiling.readings",
        ],
    ),
    (
        "measured; said twice it is refused",
        &[
            "ridge.runs",
            "ridge.at",
            "ridge.height",
            "ridge.fall",
            "ridge.far_height",
        ],
    ),
    (
        "where and what they are, said once",
        &[
            "rafters.kind",
            "rafters.first",
            "rafters.spacing",
            "rafters.stock",
        ],
    ),
    (
        "measured, said once",
        &[
            "roof.thickness",
            "roof.board",
            "roof.rafter",
            "roof.rafters",
            "roof.first_rafter",
            "roof.rafter_spacing",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &["roof.pass_clearance", "roof.cap_above"],
    ),
    (
        "measured, said once",
        &[
            "wall.board",
            "wall.stud",
            "wall.sheathing",
            "wall.first_stud",
            "wall.stud_spacing",
            "wall.plumb",
            "wall.sealed",
        ],
    ),
    (
        "measured, said once",
        &[
            "left_wall.board",
            "left_wall.stud",
            "left_wall.sheathing",
            "left_wall.first_stud",
            "left_wall.stud_spacing",
            "left_wall.bearing",
        ],
    ),
    (
        "measured, said once",
        &[
            "right_wall.board",
            "right_wall.stud",
            "right_wall.sheathing",
            "right_wall.first_stud",
            "right_wall.stud_spacing",
            "right_wall.bearing",
        ],
    ),
    (
        "measured, said once",
        &[
            "behind.space",
            "behind.wall_plates",
            "behind.ceiling",
            "behind.ceiling_runs_on",
        ],
    ),
    (
        "measured, said once",
        &[
            "far_wall.board",
            "far_wall.stud",
            "far_wall.sheathing",
            "far_wall.first_stud",
            "far_wall.stud_spacing",
            "far_wall.bearing",
        ],
    ),
    (
        "which edition counts, said once",
        &["skins.veneer_standard"],
    ),
    (
        "of the unit, said once; sizes that cannot go together are refused",
        &[
            "appliance.body_width",
            "appliance.body_depth",
            "appliance.opening_width",
            "appliance.opening_top",
            "appliance.lip",
            "appliance.lip_thickness",
            "appliance.standoff",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &[
            "appliance.flange",
            "appliance.side_clearance",
            "appliance.rear_clearance",
            "appliance.top_clearance",
            "appliance.front_clearance",
            "appliance.front_clearance_height",
            "appliance.facing_zone_side",
            "appliance.facing_zone_top",
            "appliance.wood_behind_facing",
            "appliance.insulation_distance",
        ],
    ),
    (
        "of the pipe, said once; sizes that cannot go together are refused",
        &[
            "vent.flue_diameter",
            "vent.pipe_wall",
            "vent.collar_offset",
            "vent.collar",
            "vent.bend_radius",
            "vent.cap_depth",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &[
            "vent.slope",
            "vent.vertical_clearance",
            "vent.bend_clearance",
            "vent.top_clearance",
            "vent.side_clearance",
            "vent.bottom_clearance",
            "vent.angled_pass",
            "vent.most_elbows",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &[
            "mantel.rule",
            "mantel.projection_from",
            "mantel.height_from",
        ],
    ),
    (
        "of the screen, said once",
        &[
            "screen.width",
            "screen.height",
            "screen.thickness",
            "screen.mount",
        ],
    ),
    (
        "measured or asked of the fitter, said once",
        &[
            "gas.stub_from",
            "gas.stub_right",
            "gas.stub_out",
            "gas.stub_up",
            "gas.shutoff_right",
            "gas.shutoff_out",
            "gas.shutoff_up",
            "gas.pipe",
            "gas.longest_run",
            "gas.sized_by",
            "gas.test_pressure",
            "gas.test_minutes",
        ],
    ),
    (
        "measured outside, said once; what lacks its other half is asked for",
        &[
            "outside.ground",
            "outside.corner",
            "outside.soffit",
            "outside.meter",
            "outside.regulator",
            "outside.walkway",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &[
            "outside.ground_clearance",
            "outside.opening_clearance",
            "outside.corner_clearance",
            "outside.soffit_clearance",
            "outside.meter_clearance",
            "outside.regulator_clearance",
            "outside.walkway_clearance",
        ],
    ),
    (
        "a number of the manual that nothing else tells again",
        &["side_rule.rows", "side_rule.projection_from"],
    ),
    ("of the cables, said once", &["cables.diameter"]),
    (
        "a number of the manual that nothing else tells again",
        &["cables.keep_out"],
    ),
    ("of the local code, said once", &["blocking.every_ten_feet"]),
    (
        "of what is bought, said once",
        &[
            "fasteners.ceiling_board",
            "fasteners.adhesive_reach",
            "fasteners.sealant_reach",
        ],
    ),
    (
        "of the pipe, said once",
        &["pipe.sections", "pipe.adjustable"],
    ),
    (
        "a number of the manual that nothing else tells again",
        &[
            "pipe.overlap",
            "pipe.joint_screws",
            "pipe.joint_sealant",
            "pipe.joint_clamp",
            "pipe.strap_spacing",
            "appliance.most_forward",
            "mantel.steel_in_zone",
            "skins.side_on_gypsum",
        ],
    ),
];

#[test]
fn every_fact_says_with_which_others_it_must_agree() {
    let paired = AGREEMENTS.iter().flat_map(|it| it.keys);
    let paired: BTreeSet<&str> = paired.collect();
    let known: BTreeSet<&str> = PARAMETERS.iter().map(|it| it.key).collect();
    assert!(paired.is_subset(&known), "{paired:?}");
    let alone: Vec<&str> = NEED_NOT.iter().flat_map(|it| it.1).copied().collect();
    let once: BTreeSet<&str> = alone.iter().copied().collect();
    assert_eq!(once.len(), alone.len(), "a key stands twice");
    assert!(NEED_NOT.iter().all(|it| !it.0.is_empty()));
    let facts = PARAMETERS.iter().filter(|it| it.nature == Nature::Fact);
    let facts: BTreeSet<&str> = facts
        .map(|it| it.key)
        .filter(|it| !paired.contains(it))
        .collect();
    assert_eq!(once, facts);
}

/// The pairs that contradict each other.
fn contradictions(params: &Params) -> Vec<String> {
    let found = check(&design(params)).into_iter();
    let found: Vec<_> = found.filter(|it| it.rule == "agreement").collect();
    assert!(found.iter().all(|it| it.verdict == Verdict::Ask));
    found.iter().map(|it| it.subject.to_string()).collect()
}

#[test]
fn no_demo_contradicts_itself() {
    for (name, params) in demos() {
        assert_eq!(contradictions(&params), [""; 0], "{name}");
    }
}

/// A pair, a demo, and what contradicts itself and what does not.
type Case = (
    &'static str,
    &'static str,
    &'static [(&'static str, &'static str)],
    &'static [(&'static str, &'static str)],
);

const CASES: &[Case] = &[
    (
        "gas.demand and appliance.input",
        "rises-away-from-wall",
        &[("gas.demand", r#""37999 Btu/h""#)],
        &[("gas.demand", r#""38000 Btu/h""#)],
    ),
    (
        "gas.heating_value and gas.fuel",
        "rises-away-from-wall",
        &[("gas.heating_value", "2500")],
        &[("gas.heating_value", "2500"), ("gas.fuel", r#""propane""#)],
    ),
    (
        "wall.bearing and rafters.runs",
        "steel-front",
        &[("wall.bearing", r#""no""#)],
        &[("wall.bearing", r#""no""#), ("rafters.runs", r#""along""#)],
    ),
    (
        "vent.longest_run and vent.run_for_rise",
        "rises-away-from-wall",
        &[("vent.longest_run", r#"{ value = "19 ft", page = "18" }"#)],
        &[("vent.longest_run", r#"{ value = "20 ft", page = "18" }"#)],
    ),
    (
        "vent.least_rise and vent.run_for_rise",
        "rises-away-from-wall",
        &[("vent.least_rise", r#"{ value = "17 in", page = "18" }"#)],
        &[("vent.least_rise", r#"{ value = "16 in", page = "18" }"#)],
    ),
    (
        "project.floor_buildup and appliance.opening_bottom",
        "rises-away-from-wall",
        &[
            ("project.floor_buildup", r#""7-3/4 in""#),
            ("platform.layers", r#"["3/4 in panel"]"#),
            ("appliance.opening_bottom", r#""0 in""#),
        ],
        &[
            ("project.floor_buildup", r#""1/2 in""#),
            ("platform.layers", r#"["3/4 in panel"]"#),
            ("appliance.opening_bottom", r#""0 in""#),
        ],
    ),
    (
        "skins.lower_weight and skins.lower_finish",
        "rises-away-from-wall",
        &[("skins.lower_finish", r#""0 in""#)],
        &[("skins.lower_finish", r#""1/4 in""#)],
    ),
    (
        "skins.upper_weight and skins.upper_finish",
        "stepped-face",
        &[
            ("skins.upper_weight", r#""9 lb/ft2""#),
            ("skins.upper_finish", r#""0 in""#),
        ],
        &[
            ("skins.upper_weight", r#""9 lb/ft2""#),
            ("skins.upper_finish", r#""1 in""#),
        ],
    ),
    (
        "skins.side_weight and skins.side_finish",
        "rises-away-from-wall",
        &[
            ("skins.side_weight", r#""9 lb/ft2""#),
            ("skins.side_finish", r#""0 in""#),
        ],
        &[
            ("skins.side_weight", r#""9 lb/ft2""#),
            ("skins.side_finish", r#""1 in""#),
        ],
    ),
    (
        "vent.cap_width and vent.pipe_diameter",
        "rises-away-from-wall",
        &[("vent.cap_width", r#""6-63/64 in""#)],
        &[("vent.cap_width", r#""8 in""#)],
    ),
    (
        "vent.cap_height and vent.pipe_diameter",
        "rises-away-from-wall",
        &[("vent.cap_height", r#""6-63/64 in""#)],
        &[("vent.cap_height", r#""8 in""#)],
    ),
    (
        "vent.firestop_width and vent.pipe_diameter",
        "rises-away-from-wall",
        &[("vent.firestop_width", r#""6-63/64 in""#)],
        &[("vent.firestop_width", r#""8 in""#)],
    ),
    (
        "vent.firestop_height and vent.pipe_diameter",
        "rises-away-from-wall",
        &[("vent.firestop_height", r#""6-63/64 in""#)],
        &[("vent.firestop_height", r#""8 in""#)],
    ),
    (
        "appliance.brackets and appliance.body_height",
        "rises-away-from-wall",
        &[("appliance.brackets", r#"["35-1/64 in"]"#)],
        &[("appliance.brackets", r#"["35 in"]"#)],
    ),
    // the chase ends at 123 in
    (
        "outside.openings and chase.left",
        "rises-away-from-wall",
        &[(
            "outside.openings",
            r#"[["122-3/4 in", "36 in", "150 in", "80 in"]]"#,
        )],
        &[(
            "outside.openings",
            r#"[["123 in", "36 in", "150 in", "80 in"]]"#,
        )],
    ),
];

#[test]
fn what_contradicts_itself_is_asked_about() {
    let tried: BTreeSet<&str> = CASES.iter().map(|it| it.0).collect();
    let listed = AGREEMENTS.iter().map(|it| it.keys.join(" and "));
    let listed: BTreeSet<String> = listed.collect();
    assert_eq!(tried, listed.iter().map(|it| &**it).collect());
    for (pair, demo, wrong, right) in CASES {
        assert_eq!(contradictions(&changed(demo, wrong)), [*pair], "{pair}");
        assert_eq!(contradictions(&changed(demo, right)), [""; 0], "{pair}");
    }
}
