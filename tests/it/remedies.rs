//! A remedy has been tried: replayed as a parameter file it clears its finding and breaks nothing.

use std::collections::BTreeSet;

use chasewright::check::{Finding, Verdict, check, try_remedies};
use chasewright::design::design;
use chasewright::params::{PARAMETERS, Params, Value};
use chasewright::units::Length;

use crate::scenarios::demo;

/// Demos with one thing wrong: demo, key, and its new value in inches.
const FAULTS: &[(&str, &str, f64)] = &[
    ("reading-room", "recess.depth", 4.5),
    ("reading-room", "mantel.projection", 10.0),
    ("reading-room", "screen.height", 36.0),
    ("stepped-face", "recess.depth", 4.0),
    ("stepped-face", "vent.collar_offset", 11.0),
    ("stepped-face", "mantel.underside", 42.0),
    ("rises-away-from-wall", "mantel.underside", 52.0),
    ("rises-away-from-wall", "recess.sill", 57.0),
    ("rises-away-from-wall", "screen.width", 57.0),
    ("rises-away-from-wall", "vent.rise", 15.0),
    ("flat-with-cabinets", "recess.sill", 70.0),
    ("flat-with-cabinets", "recess.width", 88.0),
];

fn faulty(name: &str, key: &str, inches: f64) -> Params {
    let value = Value::Length(Length::inches(inches));
    demo(name)
        .with(key, &value)
        .expect("the fault is a valid file")
}

fn tried(params: &Params) -> Vec<Finding> {
    let mut findings = check(&design(params));
    try_remedies(params, &mut findings);
    findings
}

fn fails(findings: &[Finding]) -> BTreeSet<(&'static str, String)> {
    let failed = findings.iter().filter(|it| it.verdict == Verdict::Fail);
    failed.map(|it| (it.rule, it.subject.to_string())).collect()
}

#[test]
fn what_is_offered_works() {
    let mut offered = 0;
    for (name, key, inches) in FAULTS {
        let params = faulty(name, key, *inches);
        let findings = tried(&params);
        let before = fails(&findings);
        assert!(!before.is_empty(), "{name}, {key}: nothing fails");
        for finding in &findings {
            let Some(remedy) = &finding.remedy else {
                continue;
            };
            assert_eq!(finding.verdict, Verdict::Fail);
            assert!(remedy.changes.len() <= 2);
            if remedy.changes.is_empty() {
                assert!(!remedy.tried.is_empty(), "{name}: nothing was tried");
                continue;
            }
            offered += 1;
            let changed = remedy
                .changes
                .iter()
                .fold(params.clone(), |params, change| {
                    assert_eq!(params.get(change.key).as_ref(), Some(&change.from));
                    params.with(change.key, &change.to).expect("a valid change")
                });
            let after = fails(&check(&design(&changed)));
            let name_of = (finding.rule, finding.subject.to_string());
            assert!(
                !after.contains(&name_of),
                "{name}: {name_of:?} is still there"
            );
            let new: Vec<_> = after.difference(&before).collect();
            assert!(
                new.is_empty(),
                "{name}: {:?} breaks {new:?}",
                remedy.changes
            );
        }
    }
    assert!(offered >= FAULTS.len(), "only {offered} remedies");
}

#[test]
fn a_remedy_moves_the_builders_own_dimensions_only() {
    for (name, key, inches) in FAULTS {
        for finding in tried(&faulty(name, key, *inches)) {
            for change in finding.remedy.iter().flat_map(|it| &it.changes) {
                let parameter = PARAMETERS.iter().find(|it| it.key == change.key);
                assert!(!parameter.expect("a key").needs_page, "{}", change.key);
                assert!(!change.key.starts_with("project."), "{}", change.key);
                assert_ne!(change.key, "mantel.combustible");
            }
        }
    }
}

/// The chase's depth cancels out of recess against pipe, so it must not be offered.
#[test]
fn a_deeper_chase_is_no_remedy_for_the_recess_against_the_pipe() {
    let findings = tried(&faulty("stepped-face", "recess.depth", 4.0));
    let found = findings.iter().find(|it| it.rule == "recess and pipe");
    let remedy = found.and_then(|it| it.remedy.as_ref()).expect("a remedy");
    assert!(!remedy.tried.contains(&"chase.depth"));
    assert_eq!(remedy.changes[0].key, "recess.depth");
}
