//! Growing a clearance never lets anything off: what fails in the smaller volume fails in the larger one.

use std::collections::BTreeMap;

use chasewright::check::clearances;
use chasewright::design::{Design, design};
use chasewright::geom::{Body, Shape};
use chasewright::params::{PARAMETERS, Params, Value};
use chasewright::units::Length;

use crate::generate::random_params;

fn grown(params: &Params, key: &str, by: Length) -> Option<Params> {
    let Some(Value::Manual { value, page }) = params.get(key) else {
        return None;
    };
    let Value::Length(length) = *value else {
        return None;
    };
    let value = Value::Manual {
        value: Box::new(Value::Length(length + by)),
        page,
    };
    params.with(key, &value).ok()
}

fn places(model: &Design) -> BTreeMap<&str, &Body> {
    let parts = model.parts.iter();
    parts.map(|it| (it.id.as_str(), &it.body)).collect()
}

fn stays(before: Option<&&Body>, after: Option<&&Body>) -> bool {
    before
        .zip(after)
        .is_some_and(|(a, b)| a.frame == b.frame && a.shape == b.shape)
}

fn is_tube(model: &Design, clearance: &str) -> bool {
    let mut volumes = model.clearances.iter().filter(|it| it.id == clearance);
    volumes.any(|it| matches!(it.body.shape, Shape::Tube(_)))
}

/// Over random designs and every clearance of the manual; parts that the larger number moves, such as the
/// jacks beside the unit, are left out of the comparison.
#[test]
fn what_fails_in_a_clearance_fails_in_a_larger_one() {
    let keys = PARAMETERS.iter().filter(|it| {
        it.needs_page && (it.key.contains("clearance") || it.key.contains("facing_zone"))
    });
    let keys: Vec<&str> = keys.map(|it| it.key).collect();
    assert!(keys.len() >= 12, "{keys:?}");
    let mut compared: BTreeMap<&str, usize> = BTreeMap::new();
    for seed in 0..60 {
        let params = random_params(seed);
        let small = design(&params);
        let before: Vec<_> = clearances(&small);
        let here = places(&small);
        for key in &keys {
            for inches in [0.0625, 1.5] {
                let Some(larger) = grown(&params, key, Length::inches(inches)) else {
                    continue;
                };
                let large = design(&larger);
                let there = places(&large);
                let after = clearances(&large);
                for old in before.iter().filter(|it| it.margin < Length::mm(-1e-3)) {
                    let part = old.part.as_str();
                    if !stays(here.get(part), there.get(part)) {
                        continue;
                    }
                    let of_part = || after.iter().filter(|it| it.part == old.part);
                    let own = of_part().find(|it| it.clearance == old.clearance);
                    let own = own.filter(|new| {
                        is_tube(&small, &old.clearance) == is_tube(&large, &new.clearance)
                            && old.key == *key
                    });
                    // A larger pass takes over the end of the pipe before it, and an elbow's volume that
                    // would run into itself becomes the box round it, which has other ways out: then it
                    // is enough that the part fails somewhere.
                    let worst = of_part().map(|it| it.margin).reduce(Length::min);
                    let (new, most) = own.map_or((worst, Length::mm(-1e-6)), |new| {
                        (Some(new.margin), old.margin + Length::mm(1e-3))
                    });
                    assert!(
                        new.is_some_and(|new| new <= most),
                        "seed {seed}, {key} + {inches}: {part} in {}: {:?} became {new:?}",
                        old.clearance,
                        old.margin,
                    );
                    *compared.entry(old.key).or_default() += 1;
                }
            }
        }
    }
    assert!(compared.len() >= 6, "{compared:?}");
    assert!(compared.values().sum::<usize>() > 1000, "{compared:?}");
}
