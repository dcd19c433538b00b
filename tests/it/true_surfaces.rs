//! Distances to the surfaces that are there: across a corner the wall's board, under a ceiling the run as the wall cuts
//! it. What is expected is plane geometry on the numbers of the demos, worked out here.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::params::Params;
use glam::DVec3;

use crate::support::{assert_near, changed};

/// The nearest that a rule finds between a volume and parts of one kind.
fn least(params: &Params, (part, volume): (&str, &str)) -> Option<Finding> {
    let found = check(&design(params)).into_iter().filter(|it| {
        it.rule == "clearance"
            && it.parts.first().is_some_and(|it| it.starts_with(part))
            && it.parts.get(1).is_some_and(|it| it == volume)
    });
    let margin = |it: &Finding| it.numbers.map_or(f64::INFINITY, |it| it.margin);
    found.min_by(|a, b| margin(a).total_cmp(&margin(b)))
}

/// Across a square corner each wall stands at 45° to the unit's back: so far out from the corner as it is beside the
/// chase's middle. The volume behind the body ends with two plumb edges, 37/2 + 1 in beside the middle (the body and
/// its side clearance) and so far out as the depth leaves, less 19 + 1 in (the body and its rear clearance). What is
/// left from such an edge to the wall's board is their difference over √2; the studs stand 1/2 in farther back.
#[test]
fn the_wall_across_a_corner_is_as_near_as_its_board() {
    for depth in [52.0, 46.0, 40.0, 39.75] {
        // just twice as wide as deep: from wall to wall
        let sizes = [depth, 2.0 * depth].map(|it| format!("\"{it} in\""));
        let keys = [("chase.depth", &*sizes[0]), ("chase.width", &sizes[1])];
        let params = changed("across-the-corner", &keys);
        let left = (depth - 20.0 - 19.5) / 2.0_f64.sqrt();
        // the room's two walls are as near as one another
        let found = least(&params, ("room/", "clearance/unit back"));
        let found = found.unwrap_or_else(|| panic!("{depth}: no row"));
        let numbers = found.numbers.unwrap();
        assert_near(numbers.margin / 25.4, left, 1e-6);
        assert_near(numbers.measured / 25.4, 1.0 + left, 1e-6);
        let expected = if left < 0.25 {
            Verdict::Tight
        } else {
            Verdict::Pass
        };
        assert_eq!(found.verdict, expected, "{depth}");
    }
}

/// A run that goes out 40° aside under a ceiling rising 6 in 12 into the room: its volume is cut by the wall and not
/// square to the pipe, so that one of its edges goes on farther under the low end of the ceiling. The rule and the
/// clearance say the same of it.
#[test]
fn the_run_is_as_long_as_the_wall_lets_it() {
    // in millimetres: collar 270 behind a face 620 out, in the middle of a chase from 1300 to 3300, on a platform of 200
    let meets = DVec3::new(2300.0, -350.0, 200.0 + 860.0 + 520.0);
    let aside = 40.0_f64.to_radians();
    let along = DVec3::new(aside.sin(), aside.cos(), 0.02).normalize();
    let beside = along.cross(DVec3::Z).normalize() * (85.0 + 25.0);
    let above = beside.cross(along).normalize() * (85.0 + 75.0);
    // the elbow turns from plumb to the run's own slope
    let leg = 170.0 * (along.z.acos() / 2.0).tan();
    let edges = [above + beside, above - beside].map(|it| meets + along * leg + it);
    let at_wall = edges.map(|it| it - along * (it.y / along.y));
    let corners = [edges, at_wall].concat();
    for tenths in (17_000..=19_000).step_by(125) {
        let height = f64::from(tenths) / 10.0;
        let path = r#"["go 520", "turn 90 deg toward 40 deg right of back", "through back wall"]"#;
        let params = changed(
            "pass-at-an-angle",
            &[
                ("ceiling.height", &format!("{height:?}")),
                ("ceiling.rise_right", "\"0 deg\""),
                ("ceiling.rise_out", "\"6:12\""),
                ("vent.path", path),
            ],
        );
        let over = corners.iter().map(|it| height - it.y / 2.0 - it.z);
        let left = over.fold(f64::INFINITY, f64::min);
        let rows = check(&design(&params));
        let rule = rows.iter().find(|it| it.rule == "run under the ceiling");
        let rule = rule.expect("a row");
        assert_near(rule.numbers.unwrap().margin, left, 1e-6);
        assert_eq!(rule.verdict == Verdict::Fail, left < 0.0, "{height}");
        let clearance = least(&params, ("room/ceiling", "clearance/run"));
        let Some(clearance) = clearance else {
            assert!(left > 2.0 * 25.4, "{height}: no row");
            continue;
        };
        assert_eq!(clearance.verdict == Verdict::Fail, left < 0.0, "{height}");
        if left > 0.0 {
            // the corner stands at the wall, under the ceiling's low edge: plumb is nearest
            assert_near(clearance.numbers.unwrap().margin, left, 1e-6);
        }
    }
}
