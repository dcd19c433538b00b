//! Nothing hangs in the air: every demo is held, and a stick that is taken away is missed.

use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Group, Kind, Part, design};

use crate::scenarios::demo;

const DEMOS: [&str; 4] = [
    "reading-room",
    "stepped-face",
    "flat-with-cabinets",
    "rises-away-from-wall",
];

fn fails(design: &Design) -> Vec<String> {
    let findings = check(design);
    let failed = findings.iter().filter(|it| it.verdict == Verdict::Fail);
    failed
        .map(|it| format!("{}: {}", it.rule, it.subject))
        .collect()
}

#[test]
fn every_demo_is_held_and_nothing_is_in_another() {
    for name in DEMOS {
        let found = fails(&design(&demo(name)));
        assert!(found.is_empty(), "{name}: {found:#?}");
    }
}

/// Whether the wall does without a stick: packing and fillers; one of several studs behind a recess;
/// one ply of a header beside another; an upright whose neighbors stand within the spacing without it.
fn is_spare(part: &Part, design: &Design) -> bool {
    let wall = |it: &Part| it.id.split('/').next().map(str::to_owned);
    let others = design
        .parts
        .iter()
        .filter(|it| it.id != part.id && wall(it) == wall(part));
    let bounds = part.body.bounds;
    match part.kind {
        Kind::HeaderSpacer | Kind::Return | Kind::RecessFraming => true,
        Kind::Header => others
            .filter(|it| it.kind == Kind::Header)
            .any(|it| (it.body.bounds.low.z - bounds.low.z).abs() < 1.0),
        Kind::Stud | Kind::Cripple => {
            let along = part.body.frame.x;
            let own = bounds.center().dot(along);
            let places = others
                .filter(|it| {
                    matches!(
                        it.kind,
                        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple
                    )
                })
                // what stands beside it at its own height
                .filter(|it| it.body.bounds.low.z <= bounds.center().z)
                .filter(|it| it.body.bounds.high.z >= bounds.center().z)
                .map(|it| it.body.bounds.center().dot(along) - own);
            let (left, right) = places.fold((f64::MIN, f64::MAX), |(left, right), it| {
                if it < 0.0 {
                    (left.max(it), right)
                } else {
                    (left, right.min(it))
                }
            });
            let stud = &design.params.chase;
            right - left <= (stud.stud_spacing + stud.stud.breadth()).to_mm() + 1.0
        }
        _ => false,
    }
}

#[test]
fn a_stick_that_is_taken_away_is_missed() {
    let mut spare = Vec::new();
    for name in DEMOS {
        let whole = design(&demo(name));
        for (index, part) in whole.parts.iter().enumerate() {
            if part.group != Group::Framing || is_spare(part, &whole) {
                continue;
            }
            let mut less = whole.clone();
            less.parts.remove(index);
            if fails(&less).is_empty() {
                spare.push(format!("{name}: {}", part.id));
            }
        }
    }
    assert!(spare.is_empty(), "nobody misses {spare:#?}");
}
