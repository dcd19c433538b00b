//! A ceiling laid through readings: the plane of least squares, what lies off it, and the floor.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::geom::fitted_plane;
use chasewright::params::{Params, Value, read};
use chasewright::units::Length;
use glam::DVec3;

use crate::generate::Random;
use crate::scenarios::demo;
use crate::support::assert_near;

/// What defines least squares: the residuals sum to 0 and are square to both variables (normal
/// equations), and no other plane near by does better.
#[test]
fn the_fitted_plane_satisfies_the_normal_equations() {
    let mut random = Random(3);
    for _ in 0..200 {
        let points: Vec<DVec3> = (0..4 + random.below(8))
            .map(|_| {
                let (x, y) = (random.between(0.0, 4000.0), random.between(-3000.0, 0.0));
                let rough = random.between(-10.0, 10.0);
                DVec3::new(x, y, 2400.0 + 0.2 * x - 0.1 * y + rough)
            })
            .collect();
        let plane = fitted_plane(&points).expect("not on one line");
        let off = |it: &DVec3| it.z - plane.z(it.truncate());
        for weight in [|_: &DVec3| 1.0, |it: &DVec3| it.x, |it: &DVec3| it.y] {
            let sum: f64 = points.iter().map(|it| off(it) * weight(it)).sum();
            let size: f64 = points.iter().map(|it| (off(it) * weight(it)).abs()).sum();
            assert!(sum.abs() <= 1e-8 * size.max(1.0), "{sum} of {size}");
        }
    }
}

#[test]
fn points_of_a_plane_give_the_plane_and_points_of_a_line_none() {
    let on = |x: f64, y: f64| DVec3::new(x, y, 2500.0 + 0.25 * x - 0.125 * y);
    let points = [on(0.0, 0.0), on(4000.0, 0.0), on(1000.0, -3000.0)];
    let plane = fitted_plane(&points).expect("three places");
    assert_near(plane.height, 2500.0, 1e-9);
    assert_near(plane.slope.x, 0.25, 1e-12);
    assert_near(plane.slope.y, -0.125, 1e-12);
    let line = [on(0.0, 0.0), on(1000.0, -500.0), on(3000.0, -1500.0)];
    assert_eq!(fitted_plane(&line), None);
    assert_eq!(fitted_plane(&[on(0.0, 0.0); 5]), None);
    assert_eq!(fitted_plane(&points[..2]), None);
}

fn readings(params: &Params) -> Vec<Finding> {
    let found = check(&design(params)).into_iter();
    found.filter(|it| it.rule == "ceiling readings").collect()
}

/// By hand: four corners of a square, one of them read 8 mm too high. The plane takes half of a corner's
/// twist away: every residual is ±2 mm (the twist (1, −1, 1, −1)/4 times 8).
#[test]
fn one_corner_read_wrong_shows_at_all_four() {
    let square = [(0.0, 0.0), (1000.0, 0.0), (1000.0, -1000.0), (0.0, -1000.0)];
    let points = square.map(|(x, y)| {
        DVec3::new(
            x,
            y,
            if x + y == 0.0 && x > 0.0 {
                2508.0
            } else {
                2500.0
            },
        )
    });
    let plane = fitted_plane(&points).expect("a square");
    for (point, sign) in points.iter().zip([1.0, -1.0, 1.0, -1.0]) {
        assert_near(point.z - plane.z(point.truncate()), 2.0 * sign, 1e-9);
    }
}

#[test]
fn a_level_line_counts_from_the_highest_place_of_the_floor() {
    let params = demo("readings");
    let points = params.ceiling_points();
    // the line lies 1200 over the highest place: 1329.5 up there is 2529.5
    assert_near(points[0].z, 2529.5, 1e-9);
    let found = readings(&params);
    // 1204 at the left end of the front; the 1205 was read where no wall stands
    let mut floor = check(&design(&params)).into_iter();
    let floor = floor.find(|it| it.rule == "floor readings").unwrap();
    assert_near(floor.numbers.unwrap().measured, 4.0, 1e-9);
    assert_eq!(floor.verdict, Verdict::Pass);
    let off = found
        .iter()
        .find(|it| it.subject.to_string().contains("off the plane"))
        .unwrap();
    assert_eq!(off.verdict, Verdict::Pass);
    let detail = off.detail.as_ref().unwrap();
    assert!(
        detail.contains("1: +") && detail.contains("7: "),
        "{detail}"
    );
    // what lies off a plane of least squares sums to 0 (normal equations): some of it is under the plane
    assert!(detail.contains(": −"), "{detail}");
}

/// 1/4 in is allowed, just over it is asked about.
#[test]
fn a_reading_past_a_quarter_inch_is_to_be_read_again() {
    let params = demo("readings");
    for (off, verdict) in [(0.0, Verdict::Pass), (40.0, Verdict::Ask)] {
        let mut changed = params.ceiling.readings.clone();
        changed[4].up += Length::mm(off);
        let changed = params
            .with("ceiling.readings", &Value::Readings(changed))
            .expect("still a ceiling");
        let found = readings(&changed);
        let worst = found
            .iter()
            .find(|it| it.subject.to_string().contains("off the plane"))
            .unwrap();
        assert_eq!(worst.verdict, verdict, "{off}: {:?}", worst.numbers);
    }
}

#[test]
fn readings_that_say_too_little_or_too_much_are_faults() {
    let base = include_str!("../../params/readings.toml");
    let start = base.find("[ceiling]").unwrap();
    let end = base.find("[wall]").unwrap();
    let told = |text: &str| read(&format!("{}{text}\n{}", &base[..start], &base[end..]));
    let rows = "readings = [\n{ right = 0, out = 0, height = 2500 },\n{ right = 4000, out = 0, height = 2600 },\n{ right = 0, out = 3000, height = 2550 }]\n";
    told(&format!("[ceiling]\n{rows}")).expect("three places");
    for bad in [
        "[ceiling]\n".to_owned(),
        format!("[ceiling]\nheight = 2500\n{rows}"),
        format!("[ceiling]\nrise_out = \"1:12\"\n{rows}"),
        format!("[ceiling]\n{rows}[ridge]\nruns = \"out\"\nat = 2000\nfall = \"4:12\"\n"),
        "[ceiling]\nreadings = [{ right = 0, out = 0, height = 2500 }]".to_owned(),
        format!("[ceiling]\n{}", rows.replace("out = 3000", "out = 0")),
        format!("[ceiling]\n{}", rows.replace("height = 2550", "up = 2550")),
        format!(
            "[ceiling]\n{}",
            rows.replace("height = 2550", "height = 2550, down = 4")
        ),
    ] {
        let faults = told(&bad).expect_err(&bad);
        assert_eq!(faults.len(), 1, "{bad}: {faults:?}");
    }
}
