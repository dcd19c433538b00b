//! The cap on any wall: places outside count along the wall that the vent goes through.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::params::Params;

use crate::support::{assert_near, read_table, without, written};

/// What is told outside in every case; the openings come with each.
const OUTSIDE: [(&str, &str); 4] = [
    ("outside.ground", r#""-8 in""#),
    (
        "outside.ground_clearance",
        r#"{ value = "12 in", page = "20" }"#,
    ),
    (
        "outside.opening_clearance",
        r#"{ value = "9 in", page = "20" }"#,
    ),
    ("appliance.input", r#""36000 Btu/h""#),
];

/// A demo with a window outside: from where to where along the wall and up, in inches.
fn with_window(demo: &str, own: &[(&str, &str)], window: [f64; 4]) -> Params {
    let openings = format!("{:?}", [window.map(|it| format!("{it:.5} in"))]);
    let mut changes = own.to_vec();
    changes.extend(OUTSIDE);
    changes.push(("outside.openings", &openings));
    let file = written(demo, &changes);
    let has_path = own.iter().any(|it| it.0 == "vent.path");
    let other = has_path.then(|| without(&file, "vent.rise")).flatten();
    read_table(&other.unwrap_or(file)).expect("it can be read")
}

fn of_cap(params: &Params) -> Vec<Finding> {
    let mut found = check(&design(params));
    found.retain(|it| it.rule == "terminal");
    found
}

/// The distance to the window and its verdict.
fn to_window(params: &Params) -> (f64, Verdict) {
    let found = of_cap(params);
    let found = found
        .iter()
        .find(|it| it.subject.to_string() == "cap to opening 1 outside");
    let found = found.unwrap_or_else(|| panic!("it is judged"));
    (found.numbers.unwrap().measured / 25.4, found.verdict)
}

fn over_ground(params: &Params) -> f64 {
    let found = of_cap(params);
    let found = found
        .iter()
        .find(|it| it.subject.to_string().contains("above the ground"));
    found.unwrap().numbers.unwrap().measured / 25.4
}

/// A vent through the wall to the left: the collar stands 15 in behind the unit's front, which is so far out as the
/// chase's face, and the cap, 12 in wide, keeps to that line.
const THROUGH_LEFT: &[(&str, &str)] = &[
    (
        "vent.path",
        r#"["go 24 in", "turn 90 deg toward left", "through left wall"]"#,
    ),
    ("left_wall.first_stud", r#""4 in""#),
    ("left_wall.sheathing", r#""1/2 in""#),
];

#[test]
fn through_a_side_wall_places_count_from_the_fireplace_wall() {
    let demo = "readings";
    let cap = {
        let model = design(&with_window(demo, THROUGH_LEFT, [200.0, 0.0, 210.0, 1.0]));
        let caps = model
            .parts
            .iter()
            .filter(|it| it.id.starts_with("vent/cap"));
        caps.map(|it| it.body.bounds)
            .reduce(|a, b| a.union(&b))
            .expect("a cap")
    };
    // out from the fireplace wall is -y, and the cap is outside, left of the room's corner
    assert!(cap.high.x < 0.0);
    let (near, far) = (-cap.high.y / 25.4, -cap.low.y / 25.4);
    for away in [8.9, 9.1, 9.3] {
        let window = |left: f64| with_window(demo, THROUGH_LEFT, [left, 20.0, left + 20.0, 120.0]);
        let verdict = if away < 9.0 {
            Verdict::Fail
        } else if away < 9.25 {
            Verdict::Tight
        } else {
            Verdict::Pass
        };
        let (distance, found) = to_window(&window(far + away));
        assert_near(distance, away, 1e-4);
        assert_eq!(found, verdict);
        let (distance, found) = to_window(&window(near - away - 20.0));
        assert_near(distance, away, 1e-4);
        assert_eq!(found, verdict);
    }
    let ground = over_ground(&with_window(demo, THROUGH_LEFT, [200.0, 0.0, 210.0, 1.0]));
    assert_near(ground, cap.low.z / 25.4 + 8.0, 1e-6);
}

/// A window that opens in the wall that the vent goes through counts, and none of another wall.
#[test]
fn a_fixed_window_counts_on_the_caps_own_wall_alone() {
    for (wall, counts) in [("left", true), ("back", false), ("right", false)] {
        let row = format!(
            r#"[{{ name = "window", wall = "{wall}", from = "60 in", width = "30 in", sill = "30 in", height = "40 in", opens = true }}]"#
        );
        let mut own = THROUGH_LEFT.to_vec();
        own.push(("room.fixed", &row));
        let found = of_cap(&with_window("readings", &own, [200.0, 0.0, 210.0, 1.0]));
        let judged = found
            .iter()
            .any(|it| it.subject.to_string() == "cap to window");
        assert_eq!(judged, counts, "{wall}");
    }
}

/// Across a corner of 90 degrees the pipe runs back square to the fireplace wall, so the cap's middle is as far from
/// the corner as the collar is from the left wall: half the way from the corner to the face, less the collar's offset,
/// over the root of 2.
#[test]
fn across_a_corner_places_count_along_the_wall_itself() {
    let params = with_window("across-the-corner", &[], [200.0, 0.0, 210.0, 1.0]);
    let out = design(&params).layout.path.pipe_out().to_inches();
    // the collar stands on the line that halves the corner
    let middle = out / 2.0_f64.sqrt();
    for away in [8.9, 9.1, 12.0] {
        let left = middle + 6.5 + away;
        let window = [left, 20.0, left + 20.0, 120.0];
        let (distance, verdict) = to_window(&with_window("across-the-corner", &[], window));
        assert_near(distance, away, 1e-4);
        assert_eq!(verdict == Verdict::Fail, away < 9.0, "{away}");
    }
    assert!(over_ground(&params) > 12.0);
}

/// The height over the ground depends on no wall: a cap on the roof has one, and where openings lie from it is asked.
#[test]
fn on_the_roof_the_ground_is_judged_and_openings_are_asked_about() {
    let params = with_window("roof-pass", &[], [20.0, 30.0, 40.0, 60.0]);
    let found = of_cap(&params);
    assert!(over_ground(&params) > 100.0);
    assert!(
        !found
            .iter()
            .any(|it| it.subject.to_string().starts_with("cap to opening"))
    );
    let mut questions = found.iter().flat_map(|it| &it.question);
    assert!(questions.any(|it| it.contains("on the roof")));
}
