//! Heights counted from the bare slab or from the finished floor: the same room, so the same design and verdicts.
//!
//! Common practice, no source: a height over a floor covering is the height over the slab less the covering.

use chasewright::check::check;
use chasewright::design::{Design, design};
use chasewright::params::{FloorDatum, Params};
use chasewright::units::Length;

use crate::generate::random_params;
use crate::support::{assert_near, demos};

/// Every height that counts from the datum.
fn heights(params: &mut Params) -> Vec<&mut Length> {
    let mut heights: Vec<&mut Length> = vec![&mut params.skins.noncombustible_to];
    let plumb = params.fireplace_wall.plumb.0.iter_mut();
    heights.extend(plumb.map(|[height, _]| height));
    heights.extend(&mut params.ceiling.height);
    // a level line counts from the slab wherever heights count from
    let readings = params.ceiling.readings.iter_mut();
    let from_the_datum = readings.filter(|it| it.down.is_none());
    heights.extend(from_the_datum.map(|it| &mut it.up));
    if let Some(ridge) = &mut params.ridge {
        heights.extend(&mut ridge.height);
        heights.extend(&mut ridge.far_height);
    }
    heights.extend(params.behind.iter_mut().flat_map(|it| &mut it.ceiling));
    heights.extend(params.room.fixed.iter_mut().map(|it| &mut it.sill));
    heights.extend(params.mantel.iter_mut().map(|it| &mut it.underside));
    heights.extend(params.recess.iter_mut().map(|it| &mut it.sill));
    if let Some(gas) = &mut params.gas {
        heights.extend([&mut gas.stub_up, &mut gas.shutoff_up]);
    }
    if let Some(outside) = &mut params.outside {
        heights.push(&mut outside.ground);
        heights.extend(&mut outside.soffit);
        let openings = outside.openings.iter_mut().flat_map(|it| &mut it.0);
        heights.extend(openings.flat_map(|[_, bottom, _, top]| [bottom, top]));
    }
    heights.extend(params.legs.iter_mut().map(|it| &mut it.top));
    if let Some(cables) = &mut params.cables {
        heights.extend(cables.route.0.iter_mut().map(|[_, _, up]| up));
        heights.extend(&mut cables.shelf);
    }
    heights.extend(&mut params.blocking.side_rail);
    heights
}

/// The same parameters with their heights counted from a floor covering of this thickness.
fn from_the_covering(params: &Params, covering: Length) -> Params {
    let mut params = params.clone();
    for height in heights(&mut params) {
        *height -= covering;
    }
    params.project.floor_datum = FloorDatum::FinishedFloor;
    params
}

/// Verdicts without what counts from the datum (measured and required may be heights), and without the numbers of
/// sticks: of two that are alike either may be named.
fn said(design: &Design) -> Vec<(String, f64)> {
    // whether a height is usual is asked of what the file has, and so from its own datum
    let said = check(design).into_iter().filter(|it| it.rule != "likely");
    let said = said.map(|it| {
        let about = it
            .subject
            .to_string()
            .replace(|it: char| it.is_ascii_digit(), "");
        let margin = it.numbers.map_or(0.0, |it| it.margin);
        (
            format!("{} {}: {about}", it.verdict.word(), it.rule),
            margin,
        )
    });
    let mut said: Vec<_> = said.collect();
    said.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    said
}

#[track_caller]
fn agree(name: &str, [slab, covering]: [&Design; 2], lower: Length) {
    let ids = |it: &Design| it.parts.iter().map(|it| it.id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(slab), ids(covering), "{name}");
    for (a, b) in slab.parts.iter().zip(&covering.parts) {
        let (a, b) = (&a.body.bounds, &b.body.bounds);
        for (a, b) in [(a.low, b.low), (a.high, b.high)] {
            assert_near(a.x, b.x, 1e-6);
            assert_near(a.y, b.y, 1e-6);
            assert_near(a.z - lower.to_mm(), b.z, 1e-6);
        }
    }
    let (before, after) = (said(slab), said(covering));
    assert_eq!(before.len(), after.len(), "{name}");
    for (a, b) in before.iter().zip(&after) {
        assert_eq!(a.0, b.0, "{name}");
        // overlaps are volumes in mm3
        let near = (a.1 - b.1).abs() <= 1e-6 * a.1.abs().max(1.0);
        assert!(near, "{name}: {a:?} {b:?}");
    }
}

#[test]
fn heights_count_from_slab_or_covering_alike() {
    let covering = Length::inches(0.75);
    let random = (0..40).map(|seed| (seed.to_string(), random_params(seed)));
    for (name, mut params) in demos().into_iter().chain(random) {
        if params.project.floor_datum == FloorDatum::FinishedFloor {
            continue;
        }
        params.project.floor_buildup = covering;
        let lowered = from_the_covering(&params, covering);
        agree(&name, [&design(&params), &design(&lowered)], covering);
    }
}
