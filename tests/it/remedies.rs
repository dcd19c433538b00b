//! A remedy has been tried: replayed as a parameter file it clears its finding and breaks nothing.

use std::collections::BTreeSet;

use chasewright::check::{
    Finding, Quantity, Remedy, TRIALS, Verdict, causes, check, try_remedies, try_remedies_watched,
};
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

fn replayed(params: &Params, remedy: &Remedy) -> Params {
    let changes = remedy.changes.iter();
    let changes: Vec<_> = changes.map(|it| (it.key, it.to.clone())).collect();
    params.with_all(&changes).expect("valid changes")
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
            for change in &remedy.changes {
                assert_eq!(params.get(change.key), change.from);
            }
            let changed = replayed(&params, remedy);
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
    // a cause is cured once, and not every one has a cure
    assert!(offered + 2 >= FAULTS.len(), "only {offered} remedies");
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
    let found = found.expect("it fails");
    let cause = found.follows.clone().unwrap_or_else(|| found.name());
    let cause = findings.iter().find(|it| it.name() == cause);
    let remedy = cause.and_then(|it| it.remedy.as_ref()).expect("a remedy");
    assert!(!remedy.tried.contains(&"chase.depth"));
    assert_eq!(remedy.changes[0].key, "recess.depth");
}

/// What follows from a cause is cleared with it, and no cure is searched for it.
#[test]
fn a_cure_clears_what_follows_from_its_cause() {
    let mut below_it = 0;
    for (name, key, inches) in FAULTS {
        let params = faulty(name, key, *inches);
        let findings = tried(&params);
        for (cause, below) in causes(&findings) {
            assert!(cause.follows.is_none(), "{name}: {}", cause.heading());
            let fails_below = below.iter().filter(|it| it.verdict == Verdict::Fail);
            for finding in fails_below {
                assert_eq!(finding.follows.as_ref(), Some(&cause.name()), "{name}");
                assert_eq!(finding.remedy, None, "{name}: {}", finding.heading());
            }
            let cure = cause.remedy.as_ref().filter(|it| !it.changes.is_empty());
            let Some(cure) = cure else { continue };
            let after = fails(&check(&design(&replayed(&params, cure))));
            for finding in below.iter().filter(|it| it.verdict == Verdict::Fail) {
                below_it += 1;
                let name_of = (finding.rule, finding.subject.to_string());
                assert!(
                    !after.contains(&name_of),
                    "{name}: {name_of:?} is still there"
                );
            }
        }
    }
    assert!(below_it > 3, "only {below_it} follow from something");
}

/// A pipe that goes into the room's side wall is one thing to be mended, whatever it breaks.
#[test]
fn a_collision_is_one_cause() {
    let rise = Value::Length(Length::inches(22.0));
    let mut params = demo("across-the-corner");
    params.vent.path = None;
    let params = params.with("vent.rise", &rise).expect("a vent by its rise");
    let findings = tried(&params);
    let hits: Vec<&Finding> = findings
        .iter()
        .filter(|it| it.rule == "part in part" && it.verdict == Verdict::Fail)
        .collect();
    assert!(hits.len() > 1, "{hits:?}");
    let heads: BTreeSet<_> = hits
        .iter()
        .map(|it| it.follows.clone().unwrap_or_else(|| it.name()))
        .collect();
    assert_eq!(heads.len(), 1, "{heads:?}");
}

/// The ease that is missing beside the unit is one row, however many jacks stand there.
#[test]
fn a_missing_ease_is_one_cause() {
    let none = Value::Length(Length::ZERO);
    let params = demo("reading-room").with("front.opening_ease", &none);
    let findings = tried(&params.expect("no ease is valid"));
    let eased = |it: &&Finding| it.levers.contains(&"front.opening_ease");
    let tight = findings.iter().filter(|it| it.verdict == Verdict::Tight);
    let tight: Vec<&Finding> = tight.filter(eased).collect();
    assert!(tight.len() > 2, "{}", tight.len());
    let heads = tight.iter().filter(|it| it.follows.is_none());
    assert_eq!(heads.count(), 1, "{tight:#?}");
}

/// A clearance to a set-back wall is won by a shallower ledge, which needs shallower studs under it.
#[test]
fn two_keys_that_are_valid_only_together_are_tried_together() {
    use chasewright::catalog::lumber;
    let stick = |name| Value::Lumber(lumber(name).expect("a size").into());
    let mut found = 0;
    for offset in 4..30 {
        let offset = Value::Length(Length::inches(f64::from(offset) / 2.0));
        let wide = [
            ("front.ledge", stick("2x6")),
            ("front.bump_out_stud", stick("2x6")),
            ("vent.collar_offset", offset),
        ];
        let Ok(params) = demo("stepped-face").with_all(&wide) else {
            continue;
        };
        assert!(params.with("front.ledge", &stick("2x4")).is_err());
        for finding in tried(&params) {
            let cure = finding.remedy.iter().flat_map(|it| &it.changes);
            let keys: BTreeSet<&str> = cure.map(|it| it.key).collect();
            found += usize::from(
                ["front.ledge", "front.bump_out_stud"]
                    .iter()
                    .all(|it| keys.contains(it)),
            );
        }
    }
    assert!(found > 0, "they were never tried together");
}

/// Whatever is wrong, so many designs are made and no more; a stop is heard at the next of them.
#[test]
fn the_search_is_bounded_and_stops() {
    let mut searched = 0;
    for (name, key, by) in [
        ("reading-room", "recess.depth", 2.0),
        ("reading-room", "mantel.underside", 0.5),
        ("reading-room", "mantel.projection", 2.0),
        ("stepped-face", "recess.depth", 2.0),
        ("stepped-face", "mantel.underside", 0.5),
        ("roof-pass", "vent.pipe_diameter", 2.0),
        ("roof-pass", "chase.width", 0.5),
        ("metric-mono-slope", "vent.rise", 0.5),
        ("metric-mono-slope", "recess.sill", 0.5),
        ("flat-with-cabinets", "cabinets.gap", 0.5),
    ] {
        let params = demo(name);
        let Some(Value::Length(now)) = params.get(key) else {
            continue;
        };
        let Ok(params) = params.with(key, &Value::Length(now * by)) else {
            continue;
        };
        searched += 1;
        let all = check(&design(&params));
        let made = try_remedies_watched(&params, &mut all.clone(), &mut |_| true);
        assert!(made <= TRIALS, "{name}, {key}: {made}");
        let fails = all.iter().any(|it| it.verdict == Verdict::Fail);
        assert!(!fails || made > 0, "{name}, {key}: nothing was tried");
        let mut asked = 0;
        let stopped = try_remedies_watched(&params, &mut all.clone(), &mut |it| {
            asked += 1;
            it.made < 7
        });
        assert!(stopped <= 7, "{stopped} designs after the stop");
        assert!(made < 7 || asked >= 7);
    }
    assert!(searched > 3, "only {searched} are valid");
}

/// A value moves on the marks of the tape that it was written on.
#[test]
fn a_cure_lies_on_the_tape_that_its_value_was_written_on() {
    let mut on_inches = 0;
    for (name, key, low) in [
        ("metric-mono-slope", "mantel.underside", 40.5),
        ("metric-mono-slope", "recess.sill", 50.5),
        ("pass-at-an-angle", "recess.sill", 50.5),
        ("pass-at-an-angle", "chase.depth", 22.5),
    ] {
        let Ok(params) = demo(name).with(key, &Value::Length(Length::inches(low))) else {
            continue;
        };
        for finding in tried(&params) {
            let changes = finding.remedy.iter().flat_map(|it| &it.changes);
            for change in changes.filter(|it| it.key == key) {
                let Value::Length(to) = change.to else {
                    continue;
                };
                let sixteenths = to.to_inches() * 16.0;
                assert!(
                    (sixteenths - sixteenths.round()).abs() < 1e-6,
                    "{name}, {key}: {to:?}"
                );
                on_inches += 1;
            }
        }
    }
    assert!(
        on_inches > 0,
        "no cure moves a value that was written in inches"
    );
}

/// What the chase has not got cannot be moved.
#[test]
fn no_lever_of_what_is_not_there() {
    for (name, params) in crate::support::demos() {
        for finding in check(&design(&params)) {
            for lever in &finding.levers {
                assert!(
                    params.has_table_of(lever),
                    "{name}: {} moves {lever}",
                    finding.heading()
                );
            }
        }
    }
}

/// What passes with less than the allowance is no dimension that somebody builds or places.
#[test]
fn what_hands_build_is_tight_below_the_allowance() {
    // each with the reason why nobody builds it a little off
    let not_built = [
        ("plates", "longest piece", "a size of stock"),
        ("ceiling readings", "off the plane", "a reading"),
        ("stud height", "spacing of studs", "a spacing on center"),
        (
            "studs behind the finish",
            "spacing of the studs",
            "a spacing on center",
        ),
        ("platform panel", "spacing", "a spacing on center"),
        ("veneer", "thickness of the finish", "a size of stock"),
        ("floor readings", "floor below", "a reading"),
        ("corner square", "gap at the", "a reading"),
        ("wall plumb", "", "a reading"),
        ("bores and notches", ": bore", "the size of a bit"),
        ("bores and notches", "hole in the web", "the size of a bit"),
        ("attachment", "gap over the plates", "shimmed until it fits"),
        ("ceiling readings", "if each reading", "a reading"),
        (
            "mantel hold",
            "bite of the mantel's screws",
            "they are chosen as long as that takes",
        ),
        (
            "mantel hold",
            "between two of its screws",
            "a spacing, set out by the design itself",
        ),
        (
            "run slope",
            "rise toward the cap",
            "shimmed on its straps until it rises so",
        ),
        (
            "attachment",
            "bite of the ceiling screws",
            "a size of stock",
        ),
    ];
    let mut seen = 0;
    for (name, params) in crate::support::demos() {
        let allowance = params.project.build_allowance.to_mm();
        for finding in check(&design(&params)) {
            let Some(numbers) = finding.numbers else {
                continue;
            };
            let is_near = (0.0..allowance - 1e-6).contains(&numbers.margin);
            if finding.verdict != Verdict::Pass || !is_near || numbers.quantity != Quantity::Length
            {
                continue;
            }
            seen += 1;
            let text = finding.subject.to_string();
            let has_reason = not_built
                .iter()
                .any(|it| it.0 == finding.rule && text.contains(it.1));
            assert!(
                has_reason,
                "{name}: PASS {}: {}",
                finding.heading(),
                numbers.margin
            );
        }
    }
    assert!(seen > 5, "only {seen} pass so");
}

/// Worst verdict first, then what lacks most of what is required, whatever its unit; a cause before what follows.
#[test]
fn the_order_knows_no_units() {
    for (name, key, inches) in FAULTS {
        let findings = tried(&faulty(name, key, *inches));
        let heads: Vec<_> = causes(&findings).map(|it| it.0).collect();
        for pair in heads.windows(2) {
            let [a, b] = [pair[0], pair[1]];
            let in_order = (a.verdict, a.concern, a.share()) <= (b.verdict, b.concern, b.share());
            assert!(in_order, "{name}: {} before {}", a.heading(), b.heading());
        }
    }
}
