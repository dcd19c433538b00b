//! Questions that somebody decided, what waits for a fact, and what was taken for granted.

use chasewright::check::{Finding, Verdict, assumptions, check, not_judged};
use chasewright::design::design;
use chasewright::params::Params;

use crate::support::{changed, demos, read_table, run, without, written};

fn findings(params: &Params) -> Vec<Finding> {
    check(&design(params))
}

fn decided(rows: &str) -> Vec<Finding> {
    findings(&changed(
        "flush-before-a-closet",
        &[("project.decided", rows)],
    ))
}

fn count(findings: &[Finding], verdict: Verdict) -> usize {
    findings.iter().filter(|it| it.verdict == verdict).count()
}

const ENCLOSURE: &str = r#"[{ question = "enclosure", who = "builder", date = "2026-11-30", what = "the slab runs on" }]"#;

#[test]
fn a_question_that_was_decided_is_not_asked_again_and_is_no_pass() {
    let (before, after) = (decided("[]"), decided(ENCLOSURE));
    let asks = |it: &[Finding]| count(it, Verdict::Ask);
    assert_eq!(asks(&after) + 1, asks(&before));
    assert_eq!(count(&after, Verdict::Pass), count(&before, Verdict::Pass));
    assert_eq!(count(&after, Verdict::Decided), 1);
    let row = after.iter().find(|it| it.verdict == Verdict::Decided);
    let decision = row.and_then(|it| it.decision.as_ref()).unwrap();
    assert_eq!(decision.who, "builder");
    assert_eq!(decision.what.as_deref(), Some("the slab runs on"));
}

#[test]
fn a_decision_without_a_question_is_told() {
    for (rows, said) in [
        (
            r#"[{ question = "enclosur", who = "builder", date = "2026-11-30" }]"#,
            "Nothing asks this",
        ),
        (
            r#"[{ question = "terminal", who = "builder", date = "2026-11-30" }]"#,
            "A key answers it",
        ),
        (
            r#"[{ question = "enclosure", of = "a roof", who = "builder", date = "2026-11-30" }]"#,
            "Nothing asks this",
        ),
    ] {
        let told = decided(rows);
        let told = told.iter().find(|it| it.rule == "decided").expect(rows);
        assert!(told.question.as_ref().unwrap().contains(said), "{rows}");
    }
}

#[test]
fn no_fail_can_be_decided() {
    let rows = r#"[{ question = "mantel rule", who = "builder", date = "2026-11-30" }]"#;
    let low = ("mantel.underside", r#""40 in""#);
    let found = findings(&changed("reading-room", &[("project.decided", rows), low]));
    let rule = |name: &str| found.iter().find(|it| it.rule == name).unwrap();
    assert_eq!(rule("mantel rule").verdict, Verdict::Fail);
    let told = rule("decided").question.as_ref().unwrap();
    assert!(told.contains("a FAIL cannot be decided"), "{told}");
}

/// What a key answers is told by that key.
#[test]
fn a_fact_cannot_be_decided() {
    let rows = r#"[{ question = "insulation", who = "builder", date = "2026-11-30" }]"#;
    let file = written("reading-room", &[("project.decided", rows)]);
    let file = without(&file, "appliance.insulation_distance").unwrap();
    let found = findings(&read_table(&file).unwrap());
    assert_eq!(count(&found, Verdict::Decided), 0);
    let told = found.iter().find(|it| it.rule == "decided").unwrap();
    let told = told.question.as_ref().unwrap();
    assert!(told.contains("appliance.insulation_distance"), "{told}");
}

/// The last line but the cautions says how many verdicts wait for a fact: none where all is told.
#[test]
fn what_is_not_judged_is_counted() {
    let file = written("reading-room", &[]);
    let all = read_table(&file).unwrap();
    let less = read_table(&without(&file, "wall.sheathing").unwrap()).unwrap();
    let (all, less) = (findings(&all), findings(&less));
    let question = less.iter().find(|it| it.rule == "not told").unwrap();
    assert_eq!(question.answered_by, ["wall.sheathing"]);
    assert!(question.waiting.iter().any(|it| it.rule == "vent limits"));
    assert!(not_judged(&less) >= not_judged(&all) + question.waiting.len());
    assert!(less.iter().all(|it| it.rule != "vent limits"
        || it.verdict == Verdict::Fail
        || it.subject.is_called("elbows of the vent")));
}

/// A header's ease of 0 that nobody wrote leaves no room to be off: with the build allowance less it fails or cannot be.
#[test]
fn a_default_on_which_a_verdict_rests_is_an_assumption() {
    let mut found = 0;
    for (name, params) in demos() {
        let findings = findings(&params);
        let assumptions = assumptions(&params, &findings);
        let worst = assumptions.iter().filter_map(|it| it.turns.first());
        let worst: Vec<Verdict> = worst.map(|it| it.to).collect();
        assert!(worst.is_sorted(), "{name}: {worst:?}");
        for it in &assumptions {
            assert!(params.left_out.contains(&it.key), "{name}: {}", it.key);
            let turn = &it.turns[0];
            let tried = params.with(it.key, &turn.with).unwrap();
            let tried = check(&design(&tried));
            let then = tried
                .iter()
                .find(|it| it.rule == turn.rule && it.subject == turn.subject);
            assert_eq!(
                then.map(|it| it.verdict),
                Some(turn.to),
                "{name}: {}",
                it.key
            );
        }
        found += assumptions.len();
    }
    assert!(found > 20, "{found}");
}

#[test]
fn the_kind_of_a_key_is_explained() {
    for (key, kind) in [
        ("vent.cap_width", "a fact"),
        ("chase.stud_spacing", "the builder's own choice"),
        ("cables.shelf", "that a thing is there"),
    ] {
        let text = run(&["explain", key]).out;
        assert!(text.contains(kind), "{text}");
    }
}

/// The reading room with all told that a careful owner can tell, and decided what others answer.
const FILLED_IN: &[(&str, &str)] = &[
    ("gas.fuel", r#""natural""#),
    ("gas.stub_right", r#""60 in""#),
    ("gas.stub_out", r#""12 in""#),
    ("gas.stub_up", r#""6 in""#),
    ("gas.shutoff_right", r#""56 in""#),
    ("gas.shutoff_out", r#""12 in""#),
    ("gas.shutoff_up", r#""12 in""#),
    ("gas.reached_from", r#""left""#),
    ("gas.demand", r#""36000 Btu/h""#),
    ("gas.pipe", r#""3/4""#),
    ("gas.longest_run", r#""30 ft""#),
    ("outside.ground", r#""-8 in""#),
    ("outside.openings", "[]"),
    (
        "outside.ground_clearance",
        r#"{ value = "12 in", page = "31" }"#,
    ),
    (
        "outside.opening_clearance",
        r#"{ value = "12 in", page = "31" }"#,
    ),
    ("outside.corner", r#""184 in""#),
    (
        "outside.corner_clearance",
        r#"{ value = "12 in", page = "31" }"#,
    ),
    ("outside.soffit", r#""110 in""#),
    (
        "outside.soffit_clearance",
        r#"{ value = "18 in", page = "31" }"#,
    ),
    ("outside.meter", r#""20 ft""#),
    (
        "outside.meter_clearance",
        r#"{ value = "36 in", page = "32" }"#,
    ),
    ("outside.regulator", r#""20 ft""#),
    (
        "outside.regulator_clearance",
        r#"{ value = "36 in", page = "32" }"#,
    ),
    ("outside.walkway", r#""40 ft""#),
    (
        "outside.walkway_clearance",
        r#"{ value = "7 ft", page = "32" }"#,
    ),
    ("rafters.kind", r#""rafter""#),
    ("rafters.first", r#""8 in""#),
    ("rafters.blocks", "true"),
    (
        "cables.route",
        r#"[["92 in", "0 in", "80 in"], ["92 in", "19 in", "80 in"]]"#,
    ),
    ("cables.keep_out", r#"{ value = "3 in", page = "17" }"#),
    (
        "project.decided",
        r#"[{ question = "gas line", who = "licensed fitter", date = "2026-11-30" }]"#,
    ),
];

/// What is left is at most eight questions, none of which a written key answers.
#[test]
fn the_reading_room_filled_in_is_quiet() {
    let params = changed("reading-room", FILLED_IN);
    let found = findings(&params);
    let asked = found.iter().filter(|it| it.verdict == Verdict::Ask);
    let asked: Vec<&Finding> = asked.collect();
    assert!(asked.len() <= 8, "{asked:#?}");
    for it in asked {
        for name in &it.answered_by {
            let told = params.get(name).is_some() || params.has(name);
            let unknown = params
                .get(name)
                .is_some_and(|it| it.text(params.project.unit) == "unknown");
            assert!(!told || unknown, "{}: {name}", it.rule);
        }
    }
    assert_eq!(count(&found, Verdict::Decided), 1);
}
