//! What the other commands refuse or note, the check says; and what silence means.

use std::collections::BTreeSet;

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::params::Params;
use chasewright::takeoff::takeoff;
use chasewright::units::Length;

use crate::support::{assert_near, changed, demos, read_table, without, written};

fn of_rule(params: &Params, rule: &str) -> Vec<Finding> {
    let mut found = check(&design(params));
    found.retain(|it| it.rule == rule);
    found
}

/// Over every demo and several yards: the sticks that the takeoff refuses are those that the check fails.
#[test]
fn what_no_board_is_long_enough_for_fails_in_the_check_too() {
    let mut refused_at_all = 0;
    for (name, params) in demos() {
        for feet in [4.0, 6.0, 7.0, 8.0, 16.0] {
            let mut params = params.clone();
            params.stock.boards.clear();
            params.stock.lengths = vec![Length::inches(feet * 12.0)];
            params.stock.steel_lengths = params.stock.lengths.clone();
            let model = design(&params);
            let refused = takeoff(&model).faults;
            let failed = of_rule(&params, "stock lengths");
            assert!(failed.iter().all(|it| it.verdict == Verdict::Fail));
            let failed: BTreeSet<&str> = failed
                .iter()
                .flat_map(|it| &it.parts)
                .map(|it| &**it)
                .collect();
            let words = |text: &str| -> BTreeSet<String> {
                let list = text.split(" for ").nth(1).unwrap_or_default();
                list.split(", ").map(str::to_owned).collect()
            };
            let refused: BTreeSet<String> =
                refused.iter().flat_map(|it| words(&it.problem)).collect();
            let refused: BTreeSet<&str> = refused.iter().map(|it| &**it).collect();
            refused_at_all += refused.len();
            assert_eq!(failed, refused, "{name}, {feet} ft");
        }
    }
    assert!(refused_at_all > 100, "{refused_at_all}");
}

/// What the list of pipes says that no section covers, the check asks about; a run that they make it leaves alone.
#[test]
fn what_no_section_covers_is_asked_about() {
    for (name, params) in demos() {
        let left = takeoff(&design(&params))
            .pipes
            .runs
            .iter()
            .any(|it| it.made.rest.is_positive());
        let asked = !of_rule(&params, "pipe sections").is_empty();
        // without the maker's sections they are what is asked for
        assert_eq!(asked, left || params.pipe.is_none(), "{name}");
    }
    let few = [
        ("pipe.sections", r#"["36 in", "48 in"]"#),
        ("pipe.adjustable", r#""0 in""#),
    ];
    let found = of_rule(&changed("reading-room", &few), "pipe sections");
    assert!(!found.is_empty());
    assert!(found.iter().all(|it| it.verdict == Verdict::Ask));
}

/// A window in the cap's wall that does not say whether it opens, near the cap: asked about. Farther away it does not
/// matter, and a switch is none; `opens = false` is an answer.
#[test]
fn a_window_that_does_not_say_whether_it_opens_is_asked_about() {
    let asked = |from: f64, size: f64, opens: &str| {
        let row = format!(
            r#"[{{ name = "pane", wall = "back", from = "{from} in", width = "{size} in", sill = "60 in", height = "{size} in", depth = "1 in"{opens} }}]"#
        );
        let params = changed(
            "rises-away-from-wall",
            &[("room.fixed", &row), ("outside.openings", "[]")],
        );
        let found = of_rule(&params, "terminal");
        let mut questions = found.iter().flat_map(|it| &it.question);
        questions.any(|it| it.contains("pane opens"))
    };
    // the cap is 12 in wide round 84
    assert!(asked(92.0, 30.0, ""));
    assert!(!asked(92.0, 30.0, ", opens = false"));
    assert!(!asked(92.0, 4.0, ""));
    assert!(!asked(130.0, 30.0, ""));
    let judged = changed(
        "rises-away-from-wall",
        &[
            (
                "room.fixed",
                r#"[{ name = "pane", wall = "back", from = "92 in", width = "30 in", sill = "60 in", height = "30 in", depth = "1 in", opens = true }]"#,
            ),
            ("outside.openings", "[]"),
        ],
    );
    let found = of_rule(&judged, "terminal");
    assert!(found.iter().any(|it| it.verdict == Verdict::Fail));
}

/// A thing before which the chase stands far enough only if it does not come out: without its depth that is asked.
#[test]
fn a_thing_without_its_depth_is_asked_about() {
    let verdict = |depth: &str| {
        let row = format!(
            r#"[{{ name = "door", wall = "left", from = "2 in", width = "30 in", sill = "0 in", height = "80 in"{depth} }}]"#
        );
        let changes = [("room.fixed", &*row), ("room.clear_before", r#""6 in""#)];
        let found = of_rule(&changed("rises-away-from-wall", &changes), "fixed things");
        assert_eq!(found.len(), 1, "{found:#?}");
        found[0].verdict
    };
    assert_eq!(verdict(""), Verdict::Ask);
    assert_eq!(verdict(r#", depth = "1 in""#), Verdict::Pass);
    assert_eq!(verdict(r#", depth = "50 in""#), Verdict::Fail);
}

/// An ease that is not written is the build allowance on each side and on top, beside the unit no more than the flange
/// covers; one that is written is taken as it is.
#[test]
fn an_ease_that_is_not_written_is_the_build_allowance() {
    let read = |changes: &[(&str, &str)]| {
        let mut file = written("reading-room", changes);
        for key in ["front.opening_ease", "front.header_ease", "vent.pass_ease"] {
            let own = changes.iter().any(|it| it.0 == key);
            if !own {
                file = without(&file, key).expect("the demo has it");
            }
        }
        let params = read_table(&file).expect("it can be read");
        [
            params.front.opening_ease,
            params.front.header_ease,
            params.vent.pass_ease,
        ]
        .map(Length::to_inches)
    };
    let near = |found: [f64; 3], expected: [f64; 3]| {
        for (found, expected) in found.into_iter().zip(expected) {
            assert_near(found, expected, 1e-9);
        }
    };
    near(read(&[]), [0.5, 0.25, 0.25]);
    near(
        read(&[("project.build_allowance", r#""3/8 in""#)]),
        [0.75, 0.375, 0.375],
    );
    // the clearance beside the body is 1 in
    let flange = r#"{ value = "1-1/8 in", page = "11" }"#;
    near(read(&[("appliance.flange", flange)]), [0.25, 0.25, 0.25]);
    near(
        read(&[("front.opening_ease", r#""1/8 in""#)]),
        [0.125, 0.25, 0.25],
    );
}

/// The gap under the flange: TIGHT where it is just covered, FAIL a mark wider, and a question where nobody has said how
/// far the flange reaches.
#[test]
fn the_flange_covers_the_gap_beside_the_body() {
    let with = |flange: f64| {
        let flange = format!(r#"{{ value = "{flange} in", page = "11" }}"#);
        of_rule(
            &changed("reading-room", &[("appliance.flange", &flange)]),
            "flange",
        )[0]
        .verdict
    };
    // 1 in of clearance and half of 1/2 in of ease
    assert_eq!(with(1.5), Verdict::Pass);
    assert_eq!(with(1.25), Verdict::Tight);
    assert_eq!(with(1.25 - 1.0 / 64.0), Verdict::Fail);
    let silent =
        without(&written("reading-room", &[]), "appliance.flange").expect("the demo has it");
    let found = of_rule(&read_table(&silent).expect("it can be read"), "flange");
    assert_eq!(found[0].verdict, Verdict::Ask);
    assert_eq!(of_rule(&changed("stepped-face", &[]), "flange"), []);
}
