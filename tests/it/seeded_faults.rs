//! A fault put into a demo on purpose, one for each rule: that rule finds it, and no other does.
//!
//! A row is a demo and keys written over it, as they stand in a parameter file; a key of a table that
//! the demo has not adds the table.

use std::collections::BTreeSet;

use chasewright::check::rules::RULES;
use chasewright::check::{Verdict, check};
use chasewright::design::design;
use chasewright::params::{Params, read};

/// One fault.
struct Fault {
    /// The rule that has to find it.
    rule: &'static str,
    /// FAIL, or ASK for a rule that only asks.
    verdict: Verdict,
    demo: &'static str,
    /// Keys and their new values, both as TOML.
    changes: &'static [(&'static str, &'static str)],
}

const fn fails(
    rule: &'static str,
    demo: &'static str,
    changes: &'static [(&'static str, &'static str)],
) -> Fault {
    Fault {
        rule,
        verdict: Verdict::Fail,
        demo,
        changes,
    }
}

const fn asks(
    rule: &'static str,
    demo: &'static str,
    changes: &'static [(&'static str, &'static str)],
) -> Fault {
    Fault {
        verdict: Verdict::Ask,
        ..fails(rule, demo, changes)
    }
}

const FAULTS: &[Fault] = &[
    fails(
        "vent rise",
        "rises-away-from-wall",
        &[("vent.least_rise", r#"{ value = "19-1/4 in", page = "18" }"#)],
    ),
    fails(
        "vent limits",
        "rises-away-from-wall",
        &[("vent.longest_run", r#"{ value = "17 in", page = "18" }"#)],
    ),
    fails(
        "terminal",
        "rises-away-from-wall",
        &[(
            "outside.openings",
            r#"[["98 in", "36 in", "140 in", "80 in"]]"#,
        )],
    ),
    fails(
        "insulation",
        "rises-away-from-wall",
        &[(
            "appliance.insulation_distance",
            r#"{ value = "3 in", page = "17" }"#,
        )],
    ),
    fails(
        "envelope",
        "rises-away-from-wall",
        &[("wall.sealed", "false")],
    ),
    asks(
        "gas line",
        "rises-away-from-wall",
        &[("gas.test_minutes", "15")],
    ),
    fails(
        "gas shutoff",
        "rises-away-from-wall",
        &[
            ("gas.shutoff_right", r#""13' 8\"""#),
            ("gas.shutoff_out", r#""8 ft""#),
        ],
    ),
    fails(
        "gas pipe",
        "rises-away-from-wall",
        &[("gas.pipe", r#""1/2""#)],
    ),
    fails(
        "beside the opening",
        "flat-with-cabinets",
        &[("legs.distance", r#""5 in""#)],
    ),
    fails(
        "door swing",
        "flat-with-cabinets",
        &[
            ("cabinets.hinge", r#""near""#),
            ("cabinets.depth", r#""28 in""#),
            ("cabinets.door", r#""22 in""#),
            (
                "side_rule.rows",
                r#"{ value = [["30 in", "12 in"]], page = "15" }"#,
            ),
            ("legs.distance", r#""14 in""#),
        ],
    ),
    fails(
        "veneer",
        "rises-away-from-wall",
        &[("skins.lower_weight", r#""16 lb/ft2""#)],
    ),
    fails(
        "cables",
        "rises-away-from-wall",
        &[("cables.keep_out", r#"{ value = "14 in", page = "21" }"#)],
    ),
    fails(
        "blocking",
        "flat-with-cabinets",
        &[("blocking.side_rail", r#""0 in""#)],
    ),
    asks(
        "board joint",
        "flat-with-cabinets",
        &[("blocking.board_joint", "false")],
    ),
    fails(
        "brackets",
        "flat-with-cabinets",
        &[
            ("appliance.brackets", r#"["40 in"]"#),
            ("blocking.mantel", "false"),
        ],
    ),
    fails(
        "plates",
        "flat-with-cabinets",
        &[("stock.lengths", r#"["20 in"]"#)],
    ),
    fails(
        "fireblocking",
        "flat-with-cabinets",
        &[
            ("chase.width", r#""128 in""#),
            ("cabinets.sides", r#""left""#),
        ],
    ),
    fails(
        "unit header",
        "flat-with-cabinets",
        &[
            ("chase.width", r#""126 in""#),
            ("cabinets.sides", r#""left""#),
            ("appliance.body_width", r#""95 in""#),
        ],
    ),
];

/// Rules that have no row yet.
const WITHOUT_A_ROW: &[&str] = &[
    "ceiling readings",
    "joint in reach",
    "pass angle",
    "rafter cut",
    "part in part",
    "clearance",
    "inside the room",
    "held",
    "stud spacing",
    "part without room",
    "treated plate",
    "stud height",
    "tilt-up",
    "walkway",
    "chase depth",
    "unit in the chase",
    "opening in the front",
    "near side wall",
    "lip against skin",
    "pipe behind the front",
    "pipe before the wall",
    "run under the ceiling",
    "pass in its bay",
    "existing stud cut",
    "mantel rule",
    "mantel on the framing",
    "recess above the mantel",
    "recess in the front",
    "recess under the ceiling",
    "recess header",
    "recess and pipe",
    "screen in the recess",
    "screen height",
    // spacers taller than the clearance lie in the header too
    "unit through the opening",
];

/// A demo with keys written over it.
fn changed(demo: &str, changes: &[(&str, &str)]) -> Params {
    let path = format!("{}/params/{demo}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo is there");
    let mut file: toml::Table = text.parse().expect("the demo is TOML");
    for (key, value) in changes {
        let (group, name) = key.split_once('.').expect("a dotted key");
        let line: toml::Table = format!("{name} = {value}")
            .parse()
            .expect("a value of TOML");
        let table = file
            .entry(group)
            .or_insert_with(|| toml::Value::Table(toml::Table::new()));
        table.as_table_mut().expect("a table").extend(line);
    }
    let text = toml::to_string(&file).expect("TOML can be written");
    read(&text).unwrap_or_else(|faults| panic!("{demo} with {changes:?}: {faults:#?}"))
}

/// The rules that say this of something that they did not say it of before.
fn newly(verdict: Verdict, before: &Params, after: &Params) -> BTreeSet<&'static str> {
    let said = |params: &Params| -> BTreeSet<(&'static str, String, Option<String>)> {
        let findings = check(&design(params));
        let of_verdict = findings.into_iter().filter(|it| it.verdict == verdict);
        of_verdict
            .map(|it| (it.rule, it.about, it.question))
            .collect()
    };
    let new: BTreeSet<_> = said(after).difference(&said(before)).cloned().collect();
    new.into_iter().map(|it| it.0).collect()
}

#[test]
fn each_fault_is_found_by_its_own_rule_alone() {
    let mut wrong = Vec::new();
    for fault in FAULTS {
        let before = changed(fault.demo, &[]);
        let after = changed(fault.demo, fault.changes);
        let failed = newly(Verdict::Fail, &before, &after);
        let own = BTreeSet::from([fault.rule]);
        let right = match fault.verdict {
            Verdict::Fail => failed == own,
            verdict => failed.is_empty() && newly(verdict, &before, &after) == own,
        };
        if !right {
            let said = newly(fault.verdict, &before, &after);
            wrong.push(format!(
                "{}: new {:?}: {said:?}; new FAIL: {failed:?}",
                fault.rule, fault.verdict
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_has_its_fault() {
    let with: BTreeSet<&str> = FAULTS.iter().map(|it| it.rule).collect();
    let without: BTreeSet<&str> = WITHOUT_A_ROW.iter().copied().collect();
    let listed: BTreeSet<&str> = RULES.iter().map(|it| it.name).collect();
    assert_eq!(
        with.union(&without).copied().collect::<BTreeSet<_>>(),
        listed
    );
    assert!(
        with.is_disjoint(&without),
        "a rule with a row stands in the list"
    );
}
