//! Knowing less never looks better: a fact that is left out may turn a verdict into a question that names it, but
//! never into a PASS, and never into nothing.

use std::collections::BTreeSet;

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::geom::TOLERANCE;

use crate::support::{demos, read_table, without, written};

/// Keys whose value somebody else knows: the manual, the house, the gas supplier. Their absence is asked about.
const FACTS: &[&str] = &[
    "appliance.input",
    "gas.demand",
    "vent.longest_run",
    "vent.most_elbows",
    "vent.run_for_rise",
    "outside.openings",
    "outside.ground_clearance",
    "outside.opening_clearance",
    "outside.corner",
    "outside.corner_clearance",
    "outside.soffit",
    "outside.soffit_clearance",
    "outside.meter",
    "outside.meter_clearance",
    "outside.regulator",
    "outside.regulator_clearance",
    "outside.walkway",
    "outside.walkway_clearance",
    "ceiling.slope",
    "ceiling.rise_right",
    "ceiling.rise_out",
    "ceiling.over_chase",
    "room.floor_kind",
    "room.tendons_marked",
    "room.floor_checked",
    "room.hearth_out",
    "room.hearth_beside",
    "room.monoxide_alarm",
    "chase.receptacles",
    "platform.span_rating",
    "skins.lower_material",
    "skins.upper_material",
    "skins.side_material",
    "skins.stone_thickness",
    "skins.board_spacing",
    "appliance.side_wall",
    "appliance.hearth_out",
    "appliance.hearth_beside",
    "appliance.screen_above",
    "appliance.service",
    "appliance.gas_entry",
    "appliance.receptacle",
    "vent.thinnest_wall",
    "vent.thickest_wall",
    "screen.over_fire",
    "screen.receptacle",
    "gas.material",
    "gas.hidden_joints",
];

/// Keys written over a demo so that a verdict on each fact fails with it.
const FAULTY: &[(&str, &[(&str, &str)])] = &[
    // 8 in from a window, where 36,000 Btu/h ask for 9; a pipe for one unit that feeds two
    (
        "rises-away-from-wall",
        &[
            ("appliance.input", r#""36000 Btu/h""#),
            (
                "outside.openings",
                r#"[["98 in", "36 in", "140 in", "80 in"]]"#,
            ),
            (
                "outside.opening_clearance",
                r#"{ value = "6 in", page = "20" }"#,
            ),
            ("gas.pipe", r#""1/2""#),
        ],
    ),
    // every number of the manual beyond what the design has
    (
        "rises-away-from-wall",
        &[
            ("vent.longest_run", r#"{ value = "17 in", page = "18" }"#),
            ("vent.most_elbows", r#"{ value = 0, page = "18" }"#),
            (
                "vent.run_for_rise",
                r#"{ value = [["16 in", "17 in"]], page = "18" }"#,
            ),
            (
                "outside.ground_clearance",
                r#"{ value = "110 in", page = "20" }"#,
            ),
            (
                "outside.opening_clearance",
                r#"{ value = "60 in", page = "20" }"#,
            ),
            ("outside.corner", r#""70 in""#),
            (
                "outside.corner_clearance",
                r#"{ value = "36 in", page = "20" }"#,
            ),
            ("outside.soffit", r#""80 in""#),
            (
                "outside.soffit_clearance",
                r#"{ value = "60 in", page = "20" }"#,
            ),
            ("outside.meter", r#""20 in""#),
            (
                "outside.meter_clearance",
                r#"{ value = "36 in", page = "20" }"#,
            ),
            ("outside.regulator", r#""20 in""#),
            (
                "outside.regulator_clearance",
                r#"{ value = "36 in", page = "20" }"#,
            ),
            ("outside.walkway", r#""20 in""#),
            (
                "outside.walkway_clearance",
                r#"{ value = "84 in", page = "20" }"#,
            ),
        ],
    ),
    // what the house is not, and what neither manual allows
    (
        "rises-away-from-wall",
        &[
            ("room.floor_kind", r#""tensioned_slab""#),
            ("room.tendons_marked", "false"),
            ("room.hearth_out", r#""4 in""#),
            ("room.hearth_beside", r#""1 in""#),
            ("room.monoxide_alarm", "false"),
            ("front.header_modulus", r#""1.4 million psi""#),
            ("platform.span_rating", r#""12 in""#),
            ("skins.lower_material", r#""stone""#),
            ("skins.lower_weight", r#""24 lb/ft2""#),
            ("skins.board_spacing", r#"{ value = "16 in", page = "2" }"#),
            ("chase.stud_spacing", r#""19 in""#),
            ("appliance.side_wall", r#"{ value = "80 in", page = "9" }"#),
            ("appliance.hearth_out", r#"{ value = "20 in", page = "9" }"#),
            (
                "appliance.hearth_beside",
                r#"{ value = "20 in", page = "9" }"#,
            ),
            (
                "appliance.screen_above",
                r#"{ value = "60 in", page = "9" }"#,
            ),
            ("appliance.service", r#"{ value = "panel", page = "22" }"#),
            ("vent.thinnest_wall", r#"{ value = "6 in", page = "20" }"#),
            ("vent.thickest_wall", r#"{ value = "2 in", page = "20" }"#),
            ("screen.over_fire", r#"{ value = "no", page = "6" }"#),
            ("gas.hidden_joints", "true"),
            (
                "appliance.gas_entry",
                r#"{ value = "bottom", page = "22" }"#,
            ),
        ],
    ),
    // a floor of wood, finishes that burn, tubing through a stud without a plate
    (
        "stepped-face",
        &[
            ("room.floor_kind", r#""wood""#),
            ("room.floor_checked", "false"),
            ("skins.lower_material", r#""wood""#),
            ("skins.upper_material", r#""wallpaper""#),
            ("skins.upper_finish", r#""1/8 in""#),
            ("skins.side_material", r#""mdf""#),
            (
                "appliance.facing_zone_top",
                r#"{ value = "30 in", page = "14" }"#,
            ),
        ],
    ),
    // stone that is too thick even without its mortar
    (
        "flat-with-cabinets",
        &[
            ("skins.stone_thickness", r#""3 in""#),
            ("skins.lower_finish", r#""3-1/2 in""#),
            ("skins.lower_weight", r#""14 lb/ft2""#),
            ("skins.veneer_standard", r#""tms_402_16""#),
            ("recess.depth", r#""5 in""#),
        ],
    ),
    // tubing through the end stud of a side wall, an inch behind its edge, and no plate
    (
        "rises-away-from-wall",
        &[
            ("gas.material", r#""copper""#),
            ("gas.stub_from", r#""wall""#),
            ("gas.stub_right", r#""46-3/4 in""#),
            ("fasteners.nail_plates", "false"),
        ],
    ),
    // walls that do not tilt up, a header that is asked for its load, a head too near the ceiling
    ("rises-away-from-wall", &[("ceiling.height", r#""115 in""#)]),
    (
        "rises-away-from-wall",
        &[
            ("ceiling.height", r#""110-1/2 in""#),
            ("ceiling.rise_out", r#""-3:12""#),
        ],
    ),
    // a ceiling cut over the chase, and nothing in the gap
    (
        "rises-away-from-wall",
        &[("ceiling.over_chase", r#""open""#)],
    ),
    (
        "flat-with-cabinets",
        &[
            ("ceiling.gap", r#""0 in""#),
            ("ceiling.height", r#""99 in""#),
        ],
    ),
];

fn is_same(a: &Finding, b: &Finding) -> bool {
    (a.rule, &a.subject.to_string()) == (b.rule, &b.subject.to_string())
}

/// Whether a question names the key, and the rule as one that waits for it.
fn is_asked(after: &[Finding], key: &str, rule: &str) -> bool {
    let names = |it: &Finding| it.question.as_ref().is_some_and(|it| it.contains(key));
    let waits = |it: &Finding| it.waiting.iter().any(|it| it.rule == rule);
    after
        .iter()
        .any(|it| names(it) && (it.rule == rule || waits(it)))
}

fn margin(finding: &Finding) -> f64 {
    finding.numbers.map_or(0.0, |it| it.margin)
}

/// What looks better after a key was left out.
fn better(before: &[Finding], after: &[Finding], key: &str) -> Vec<String> {
    let open = before.iter().filter(|it| it.verdict <= Verdict::Ask);
    let gone = open
        // the doubt about a number goes with the number, and so does a contradiction to it
        .filter(|it| it.rule != "likely" || it.subject.to_string() != key)
        .filter(|it| it.rule != "agreement" || !it.subject.to_string().contains(key))
        .filter(|it| !after.iter().any(|new| is_same(it, new)))
        .filter(|it| !is_asked(after, key, it.rule))
        .map(|it| format!("{:?} {}: {} is gone", it.verdict, it.rule, it.subject));
    let passed = after.iter().filter(|it| it.verdict > Verdict::Ask);
    let improved = passed
        .filter(|new| {
            let as_good = |old: &Finding| {
                is_same(old, new)
                    && old.verdict > Verdict::Ask
                    && margin(old) >= margin(new) - TOLERANCE
            };
            !before.iter().any(as_good)
        })
        .map(|it| {
            format!(
                "{:?} {}: {} is new, or better",
                it.verdict, it.rule, it.subject
            )
        });
    gone.chain(improved).collect()
}

/// Every demo, and those that fail on purpose.
fn files() -> Vec<(String, toml::Table)> {
    let sound = demos().into_iter();
    let sound = sound.map(|(name, _)| (name.clone(), written(&name, &[])));
    let faulty = FAULTY.iter().enumerate();
    let faulty = faulty
        .map(|(at, (demo, changes))| (format!("fault {at} of {demo}"), written(demo, changes)));
    sound.chain(faulty).collect()
}

fn findings(file: &toml::Table) -> Option<Vec<Finding>> {
    read_table(file).ok().map(|params| check(&design(&params)))
}

#[test]
fn a_fact_left_out_never_makes_a_verdict_better() {
    let mut wrong = Vec::new();
    let mut asked: BTreeSet<&str> = BTreeSet::new();
    for (name, file) in files() {
        let before = findings(&file).unwrap_or_else(|| panic!("{name} is read"));
        for key in FACTS {
            let Some(after) = without(&file, key).and_then(|it| findings(&it)) else {
                continue;
            };
            let better = better(&before, &after, key);
            wrong.extend(
                better
                    .into_iter()
                    .map(|it| format!("{name} without {key}: {it}")),
            );
            let is_new = |it: &&Finding| !before.iter().any(|old| old.question == it.question);
            let questions = after.iter().filter(is_new).flat_map(|it| &it.question);
            if questions.into_iter().any(|it| it.contains(key)) {
                asked.insert(key);
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let facts: BTreeSet<&str> = FACTS.iter().copied().collect();
    assert_eq!(
        asked, facts,
        "facts that are asked about once they are left out"
    );
}
