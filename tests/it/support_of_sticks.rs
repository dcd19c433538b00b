//! Nothing hangs in the air: every demo is held, and a stick that is taken away is missed.

use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Group, Kind, design};

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
        .map(|it| format!("{}: {}", it.rule, it.about))
        .collect()
}

#[test]
fn every_demo_is_held_and_nothing_is_in_another() {
    for name in DEMOS {
        let found = fails(&design(&demo(name)));
        assert!(found.is_empty(), "{name}: {found:#?}");
    }
}

/// Sticks whose neighbors carry on without them: packing, a filler, and one of several that back a
/// board or a panel.
const fn is_spare(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::HeaderSpacer | Kind::Return | Kind::RecessFraming
    )
}

#[test]
fn a_stick_that_is_taken_away_is_missed() {
    let mut spare = Vec::new();
    for name in DEMOS {
        let whole = design(&demo(name));
        for (index, part) in whole.parts.iter().enumerate() {
            if part.group != Group::Framing || is_spare(part.kind) {
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
