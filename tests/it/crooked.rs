//! Rooms that are not as they are drawn: plates along the readings of a ceiling, and what is packed.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, Kind, Part, design};
use chasewright::geom::line_under;
use chasewright::params::{Params, Reading, Value};
use chasewright::units::Length;
use glam::{DVec2, DVec3};

use crate::generate::Random;
use crate::scenarios::demo;
use crate::support::assert_near;

fn with(params: &Params, key: &str, value: &Value) -> Params {
    params
        .with(key, value)
        .unwrap_or_else(|faults| panic!("{key}: {faults:?}"))
}

fn found(design: &Design, rule: &str) -> Vec<Finding> {
    let all = check(design).into_iter();
    all.filter(|it| it.rule == rule).collect()
}

fn part<'a>(design: &'a Design, id: &str) -> &'a Part {
    let mut parts = design.parts.iter();
    parts.find(|it| it.id == id).expect(id)
}

/// The highest corner of a part near a place of the plan.
fn top_at(part: &Part, right: f64, out: f64) -> f64 {
    let corners = part.body.pieces.iter().flat_map(|it| &it.vertices);
    let near = corners.filter(|it| it.truncate().distance(DVec2::new(right, -out)) < 1e-6);
    near.map(|it| it.z).fold(f64::NEG_INFINITY, f64::max)
}

/// By hand: one low end takes the line down to it and leaves the other end; a low place within keeps it
/// level, as a line that tipped there would lie lower than the lowest place; high places change nothing.
#[test]
fn the_line_under_readings_touches_the_lowest() {
    let ends = (0.0, 1000.0);
    for (points, at_start, at_end) in [
        (vec![], 0.0, 0.0),
        (vec![(500.0, 3.0)], 0.0, 0.0),
        (vec![(0.0, 0.0), (1000.0, -8.0)], 0.0, -8.0),
        (vec![(0.0, -2.0), (1000.0, -8.0)], -2.0, -8.0),
        (vec![(450.0, -10.0)], -10.0, -10.0),
        // from 0 at the start the line through (800, −4) reaches −5 at the end, where −6 is allowed
        (vec![(800.0, -4.0), (1000.0, -6.0)], 0.0, -6.0),
    ] {
        let points: Vec<DVec2> = points.into_iter().map(DVec2::from).collect();
        let line = line_under(&points, ends);
        assert_near(line.x, at_start, 1e-9);
        assert_near(line.x + line.y * 1000.0, at_end, 1e-9);
    }
}

/// No line of a fine grid that keeps the same limits is higher in the middle.
#[test]
fn no_other_line_under_readings_is_higher() {
    let mut random = Random(11);
    for _ in 0..100 {
        let points: Vec<DVec2> = (0..random.below(6))
            .map(|_| DVec2::new(random.between(0.0, 1000.0), random.between(-20.0, 10.0)))
            .collect();
        let line = line_under(&points, (0.0, 1000.0));
        let lowest = points.iter().fold(0.0, |low: f64, it| low.min(it.y));
        let fits = |start: f64, end: f64, ease: f64| {
            let z = |at: f64| start + (end - start) * at / 1000.0;
            points.iter().all(|it| z(it.x) <= it.y.min(0.0) + ease)
                && [start, end]
                    .iter()
                    .all(|it| (lowest - ease..=ease).contains(it))
        };
        let end = line.x + line.y * 1000.0;
        assert!(fits(line.x, end, 1e-6), "{points:?}: {line}");
        for start in 0..=40 {
            for other in 0..=40 {
                let (a, b) = (
                    lowest * f64::from(start) / 40.0,
                    lowest * f64::from(other) / 40.0,
                );
                let higher = a + b > line.x + end + 1e-6;
                assert!(!(higher && fits(a, b, 0.0)), "{points:?}: {line}, {a} {b}");
            }
        }
    }
}

/// A ceiling of 2500 over the four corners of a chase 2000 wide and 620 deep, 8 higher at the last corner.
fn twisted() -> Params {
    let reading = |right: f64, out: f64, up: f64| Reading {
        right: Length::mm(right),
        out: Length::mm(out),
        up: Length::mm(up),
        down: None,
    };
    let readings = vec![
        reading(1300.0, 0.0, 2500.0),
        reading(3300.0, 0.0, 2500.0),
        reading(1300.0, 620.0, 2500.0),
        reading(3300.0, 620.0, 2508.0),
    ];
    let params = demo("readings");
    with(&params, "ceiling.readings", &Value::Readings(readings))
}

/// By hand: a quarter of the 8 lies off the plane at each corner, +2, −2, −2 and +2; the plane rises 4 over
/// the width and 4 over the depth, so that it lies at 2498, 2502, 2502 and 2506. The front runs from a
/// corner 2 under the plane to one over it: its plate comes 2 under the plane at the left, and nothing at the right.
/// With a gap of 6 its top lies at 2502 − 2 − 6 = 2494 and 2506 − 6 = 2500, and it is packed 2500 − 2494 = 6 and
/// 2508 − 2500 = 8. The left side wall runs from the corner at the wall, 2 over the plane, to 525 out, where the
/// front corner's reading counts: 6 and 2 more at the wall.
#[test]
fn plates_follow_the_readings_over_their_own_wall() {
    let plane = design(&twisted());
    let own = with(&twisted(), "ceiling.plates", &Value::Choice("readings"));
    let own = design(&own);
    assert!(plane.packing.is_empty());
    let plate = part(&own, "front/top plate/1");
    assert_near(top_at(plate, 1300.0, 620.0), 2494.0, 1e-6);
    assert_near(top_at(plate, 3300.0, 620.0), 2500.0, 1e-6);
    let packed = |wall: &str| -> Vec<(f64, f64)> {
        let own = own.packing.iter().filter(|it| it.of.starts_with(wall));
        own.map(|it| (it.at.to_mm(), it.thickness.to_mm()))
            .collect()
    };
    for (wall, expected) in [
        ("front", [(0.0, 6.0), (2000.0, 8.0)]),
        ("left side", [(0.0, 8.0), (525.0, 6.0)]),
    ] {
        let packed = packed(wall);
        assert_eq!(packed.len(), 2, "{wall}: {packed:?}");
        for (it, hand) in packed.iter().zip(expected) {
            assert_near(it.0, hand.0, 1e-6);
            assert_near(it.1, hand.1, 1e-6);
        }
    }
    // the end stud is cut to the plate over it: rises of 4 and 2 in 2000 along it and of 4 in 620 across
    let steep = |along: f64| (1.0 + along * along + (4.0_f64 / 620.0).powi(2)).sqrt();
    let stud = |design: &Design| top_at(part(design, "front/stud/1"), 1300.0, 620.0);
    assert_near(stud(&own), 2494.0 - 45.0 * steep(6.0 / 2000.0), 1e-6);
    assert_near(stud(&plane), 2496.0 - 45.0 * steep(4.0 / 2000.0), 1e-6);
}

#[test]
fn plates_under_readings_are_judged_wall_by_wall() {
    let own = with(&twisted(), "ceiling.plates", &Value::Choice("readings"));
    let own = found(&design(&own), "ceiling readings");
    let walls: Vec<&str> = own.iter().map(|it| it.about.as_str()).collect();
    let rows = ["front", "left side", "right side"];
    for wall in rows {
        let about = format!("{wall}, top plate: space under its lowest reading");
        let row = own.iter().find(|it| it.about == about);
        let row = row.unwrap_or_else(|| panic!("{wall}: {walls:?}"));
        assert_eq!(row.verdict, Verdict::Flush, "{wall}");
        assert_near(row.numbers.unwrap().measured, 6.0, 1e-6);
    }
    let detail = own
        .iter()
        .find_map(|it| it.detail.clone().filter(|it| it.contains("packed")));
    let detail = detail.expect("what it is packed with");
    assert!(
        detail.contains("8 mm at 2000 mm (ceiling reading 4)"),
        "{detail}"
    );
}

/// A reading far from every wall of the chase lowers no plate, and one over a wall lowers all that is reckoned
/// with it: what ceiling screws pass.
#[test]
fn only_readings_over_the_chase_lower_its_plates() {
    let own = with(&twisted(), "ceiling.plates", &Value::Choice("readings"));
    assert_near(own.plates_drop().to_mm(), 2.0, 1e-9);
    assert_near(twisted().plates_drop().to_mm(), 0.0, 0.0);
    let mut far = own.ceiling.readings.clone();
    for it in &mut far {
        it.out += Length::mm(3000.0);
    }
    let far = with(&own, "ceiling.readings", &Value::Readings(far));
    assert_near(far.plates_drop().to_mm(), 0.0, 0.0);
    assert!(design(&far).packing.is_empty());
}

/// Under readings that lie on a plane both ways give the same sticks.
#[test]
fn plates_along_readings_of_a_plane_lie_on_it() {
    let params = demo("readings");
    let mut readings = params.ceiling.readings.clone();
    for it in &mut readings {
        let height = 2500.0 + 0.05 * it.right.to_mm() - 0.02 * it.out.to_mm();
        (it.up, it.down) = (Length::mm(height), None);
    }
    let params = with(&params, "ceiling.readings", &Value::Readings(readings));
    let own = design(&with(&params, "ceiling.plates", &Value::Choice("readings")));
    let plane = design(&params);
    let tops = |design: &Design| -> Vec<DVec3> {
        let plates = design.parts.iter().filter(|it| it.kind == Kind::TopPlate);
        plates.map(|it| it.body.farthest(DVec3::Z)).collect()
    };
    for (a, b) in tops(&own).into_iter().zip(tops(&plane)) {
        assert!(a.distance(b) < 1e-6, "{a} {b}");
    }
}
