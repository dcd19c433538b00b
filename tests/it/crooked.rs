//! Rooms that are not as they are drawn: plates along the readings of a ceiling, a wall out of plumb, an uneven
//! slab, a corner off square; and what is packed.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, Kind, Packed, Part, design};
use chasewright::drawing::{self, Paper};
use chasewright::geom::line_under;
use chasewright::params::{ChaseWall, Params, Reading, RoomWall, Value, wall_frame};
use chasewright::takeoff::takeoff;
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
        (vec![(500.0, -4.0), (1000.0, -6.0)], -2.0, -6.0),
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
    // plates follow the plane across the wall too, however little it falls
    let plane = with(&twisted(), "saw.tolerance", &Value::Length(Length::ZERO));
    let plane = with(&plane, "chase.plate_edges", &Value::Choice("ripped"));
    let own = with(&plane, "ceiling.plates", &Value::Choice("readings"));
    let (plane, own) = (design(&plane), design(&own));
    assert!(plane.packing.is_empty());
    let plate = part(&own, "front/top plate/1");
    assert_near(top_at(plate, 1300.0, 620.0), 2494.0, 1e-6);
    assert_near(top_at(plate, 3300.0, 620.0), 2500.0, 1e-6);
    let packed = |wall: &str| -> Vec<(f64, f64)> {
        let own = own
            .packing
            .iter()
            .filter(|it| it.of.to_string().starts_with(wall));
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
    let walls: Vec<String> = own.iter().map(|it| it.subject.to_string()).collect();
    let rows = ["front", "left side", "right side"];
    for wall in rows {
        let about = format!("{wall}, top plate: space under its lowest reading");
        let row = own.iter().find(|it| it.subject.to_string() == about);
        let row = row.unwrap_or_else(|| panic!("{wall}: {walls:?}"));
        assert_eq!(row.verdict, Verdict::Flush, "{wall}");
        assert_near(row.numbers.unwrap().measured, 6.0, 1e-6);
    }
    let detail = own
        .iter()
        .find_map(|it| it.detail.clone().filter(|it| it.contains("packed")));
    let detail = detail.expect("what it is packed with");
    assert!(detail.contains("6 mm at 0 mm, 8 mm at 2000 mm"), "{detail}");
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

fn rows(rows: &[&[f64]]) -> Value {
    let row = |row: &&[f64]| row.iter().map(|it| Length::mm(*it)).collect();
    Value::Grid(rows.iter().map(row).collect())
}

fn plumb(params: &Params, read: &[[f64; 2]]) -> Design {
    let read: Vec<&[f64]> = read.iter().map(<[f64; 2]>::as_slice).collect();
    design(&with(params, "wall.plumb", &rows(&read)))
}

/// By hand: 80 from the line at 100 up and 100 at 2100 up, so the wall goes 10 away in 1000 and lies 79 from the
/// line at the slab, which is its place farthest into the room: 1 and 21 behind it at the readings.
///
/// Read the other way it comes 10 in 1000 into the room and is farthest in at the ceiling. The plane of the
/// demo's readings is highest over the right end of the chase's front.
#[test]
fn a_wall_out_of_plumb_is_farthest_in_at_the_slab_or_at_the_ceiling() {
    let params = demo("readings");
    let away = plumb(&params, &[[100.0, 80.0], [2100.0, 100.0]]);
    let behind = |design: &Design| -> Vec<f64> {
        let packed = design.packing.iter().filter(|it| it.of.is_behind());
        packed.map(|it| it.thickness.to_mm()).collect()
    };
    for (found, hand) in behind(&away).into_iter().zip([1.0, 21.0]) {
        assert_near(found, hand, 1e-9);
    }
    let toward = plumb(&params, &[[100.0, 100.0], [2100.0, 80.0]]);
    let corners = [
        (1300.0, 0.0),
        (3300.0, 0.0),
        (1300.0, -620.0),
        (3300.0, -620.0),
    ];
    let ceiling = corners.map(|it| toward.layout.ceiling.z(DVec2::from(it)));
    let highest = ceiling.into_iter().fold(0.0, f64::max);
    assert!((highest - ceiling[3]).abs() < 1e-9, "{ceiling:?}");
    for (found, height) in behind(&toward).into_iter().zip([100.0, 2100.0]) {
        assert_near(found, (highest - height) / 100.0, 1e-9);
    }
}

/// The chase is the same whatever the wall behind it does; only the pipe goes on to where the wall is. By hand: the
/// wall lies 10 in 1000 farther back. The elbow's center is 200 + 860 + 520 = 1580 up, the riser 620 − 270 = 350
/// out, the wall 12 + 95 + 48 = 155 thick, so that the center line, which rises 2 in 100, would leave the wall at
/// 1580 + 505 / 50 = 1590.1. It goes on t, where t = (1590.1 + t / 50) / 100, so t = 1590.1 / 99.98; the last pipe is
/// longer by as much along its rise.
#[test]
fn a_wall_out_of_plumb_leaves_the_chase_and_lengthens_the_pipe() {
    let params = demo("readings");
    let straight = design(&params);
    let away = plumb(&params, &[[0.0, 80.0], [2000.0, 100.0]]);
    assert_eq!(straight.parts.len(), away.parts.len());
    for (a, b) in straight.parts.iter().zip(&away.parts) {
        assert_eq!((&a.id, &a.body.frame), (&b.id, &b.body.frame));
        assert_eq!(a.body.bounds, b.body.bounds, "{}", a.id);
    }
    let behind = 1590.1 / 99.98;
    let run = |design: &Design| design.layout.vent_run().to_mm();
    assert_near(run(&away) - run(&straight), behind, 1e-6);
    let pipe = |design: &Design| {
        let runs = takeoff(design).pipes.runs;
        runs.last().expect("a run").length.to_mm()
    };
    let along = behind * (1.0 + 0.02_f64 * 0.02).sqrt();
    assert_near(pipe(&away) - pipe(&straight), along, 1e-6);
}

/// The build allowance of 6 is allowed, a tenth more is asked about; a reading 1/4 in off the line is allowed, and
/// one farther off is asked about. By hand: of three readings evenly apart the middle one lies 2/3 of its own
/// error off the line through all, the outer ones 1/3.
#[test]
fn a_wall_out_of_plumb_is_asked_about_beyond_the_allowance() {
    let params = demo("readings");
    let verdict = |read: &[[f64; 2]], about: &str| {
        let found = found(&plumb(&params, read), "wall plumb");
        let row = found
            .into_iter()
            .find(|it| it.subject.to_string().contains(about));
        row.map(|it| it.verdict)
    };
    let to = |distance: f64| [[0.0, 80.0], [2000.0, distance]];
    assert_eq!(verdict(&to(86.0), "gap"), Some(Verdict::Pass));
    assert_eq!(verdict(&to(86.1), "gap"), Some(Verdict::Ask));
    assert_eq!(verdict(&to(86.0), "off the line"), None);
    let bowed = |by: f64| [[0.0, 80.0], [1000.0, 80.0 + by], [2000.0, 80.0]];
    let quarter = 6.35 * 1.5;
    assert_eq!(
        verdict(&bowed(quarter - 1e-9), "off the line"),
        Some(Verdict::Pass)
    );
    assert_eq!(
        verdict(&bowed(quarter + 0.1), "off the line"),
        Some(Verdict::Ask)
    );
    assert!(found(&design(&params), "wall plumb").is_empty());
}

#[test]
fn readings_of_a_wall_that_make_no_wall_are_faults() {
    let params = demo("readings");
    for bad in [
        rows(&[&[100.0, 80.0]]),
        rows(&[&[100.0, 80.0], &[100.0, 90.0]]),
        rows(&[&[0.0, 80.0], &[1000.0, 200.0]]),
    ] {
        let faults = params.with("wall.plumb", &bad).expect_err("no wall");
        assert_eq!(faults.len(), 1, "{faults:?}");
    }
}

/// By hand: the demo's level line is nearest to the floor at 1200; a place 1198 under it is higher yet, so that the
/// line counts as 1198 up, and the ceiling read 1329.5 over it lies at 2527.5. Under the front lie the readings from
/// 75 to 1070 out: its two corners, 1204 and 1201, the middle, 1202, and the two that were taken alone.
#[test]
fn soles_lie_on_the_highest_place_of_the_slab() {
    let params = demo("readings");
    let floor = rows(&[&[2000.0, 620.0, 1210.0], &[2300.0, 620.0, 1198.0]]);
    let params = with(&params, "room.floor", &floor);
    assert_near(params.ceiling_points()[0].z, 2527.5, 1e-9);
    let uneven = design(&params);
    let soles = uneven.packing.iter();
    let soles = soles.filter(|it| it.of == Packed::SolePlate(ChaseWall::Front));
    let soles: Vec<(f64, f64)> = soles
        .map(|it| (it.at.to_mm(), it.thickness.to_mm()))
        .collect();
    let hand = [
        (0.0, 6.0),
        (2000.0, 3.0),
        (1000.0, 4.0),
        (700.0, 12.0),
        (1000.0, 0.0),
    ];
    assert_eq!(soles.len(), hand.len(), "{soles:?}");
    for (found, hand) in soles.iter().zip(hand) {
        assert_near(found.0, hand.0, 1e-9);
        assert_near(found.1, hand.1, 1e-9);
    }
    let found = found(&uneven, "floor readings");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].verdict, Verdict::Ask);
    assert_near(found[0].numbers.unwrap().measured, 12.0, 1e-9);
    // the datum is the highest place: soles lie on it, all of them level
    let soles = uneven.parts.iter().filter(|it| it.kind == Kind::SolePlate);
    for sole in soles {
        assert_near(sole.body.bounds.low.z, uneven.layout.slab.to_mm(), 1e-9);
    }
}

#[test]
fn a_floor_is_asked_about_beyond_the_allowance() {
    for (down, verdict) in [(1206.0, Verdict::Pass), (1206.1, Verdict::Ask)] {
        let floor = rows(&[&[2000.0, 620.0, down]]);
        let params = with(&demo("readings"), "room.floor", &floor);
        let found = found(&design(&params), "floor readings");
        assert_eq!(found[0].verdict, verdict, "{down}");
    }
}

/// A chase against the left wall, 34 in deep with 1/2 in of board and 1-1/8 in of finish, so 35-5/8 in to its face.
/// By hand, by the law of cosines over 3 and 4 ft: 60-1/2 in across is 5-1/24 ft, 25.4184 less 25 over 24 is the sine
/// of how much wider the corner is, 0.017433, its tangent 0.017436: the wall goes 0.62116 in away over 35-5/8. And
/// 59-1/2 in: 24.5851, sine −0.017289, tangent −0.017291: the wall comes in by 0.61601, which is left at the corner.
#[test]
fn a_corner_off_square_leaves_a_gap_at_one_end() {
    let params = demo("square-in-a-corner");
    for (across, at_corner, at_face) in [(60.5, 0.0, 0.62116), (59.5, 0.61601, 0.0)] {
        let value = Value::Length(Length::inches(across));
        let model = design(&with(&params, "room.left_corner", &value));
        let gaps = model
            .packing
            .iter()
            .filter(|it| it.of == Packed::Side(RoomWall::Left));
        let gaps: Vec<(f64, f64)> = gaps
            .map(|it| (it.at.to_mm() / 25.4, it.thickness.to_mm() / 25.4))
            .collect();
        assert_eq!(gaps.len(), 2);
        assert_near(gaps[0].0, 0.0, 1e-9);
        assert_near(gaps[1].0, 35.625, 1e-9);
        assert_near(gaps[0].1, at_corner, 1e-5);
        assert_near(gaps[1].1, at_face, 1e-5);
        let asked = found(&model, "corner square");
        assert_eq!(asked.len(), 1);
        assert_eq!(asked[0].verdict, Verdict::Ask);
    }
    // on the other side nothing of the chase stands
    let value = Value::Length(Length::inches(60.5));
    let free = design(&with(&params, "room.right_corner", &value));
    assert!(found(&free, "corner square").is_empty());
    assert!(found(&design(&params), "corner square").is_empty());
}

/// The chase's face is 35-5/8 in out. The tape that leaves the build allowance there follows from the law of cosines
/// turned round.
#[test]
fn a_corner_is_asked_about_beyond_the_allowance() {
    let params = demo("square-in-a-corner");
    let reach = 35.625 * 25.4;
    for (share, verdict) in [(1.0 - 1e-9, Verdict::Pass), (1.01, Verdict::Ask)] {
        let opens = params.project.build_allowance.to_mm() * share / reach;
        let sine = opens / (1.0 + opens * opens).sqrt();
        let across = Length::inches(12.0 * (25.0 + 24.0 * sine).sqrt());
        let changed = with(&params, "room.left_corner", &Value::Length(across));
        let found = found(&design(&changed), "corner square");
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].verdict, verdict, "{:?}", found[0].numbers);
    }
}

/// The angle of a corner by the law of cosines over 3 and 4.
fn corner_angle(across: f64) -> f64 {
    ((25.0 - across * across) / 24.0).acos()
}

/// Across a corner the chase is cut to it: both walls run at half the corner's angle from the line that halves it, so
/// a face 52 in out reaches 52 · tan(θ / 2) to either side, and its end studs lie flat on both walls.
#[test]
fn a_chase_across_a_corner_is_cut_to_the_corner() {
    for (name, key) in [
        ("across-the-corner", "room.left_corner"),
        ("corner-with-wings", "room.right_corner"),
    ] {
        let demo = demo(name);
        let key = if demo.chase.placement.word() == "left_corner" {
            "room.left_corner"
        } else {
            key
        };
        let wall = if key == "room.left_corner" {
            RoomWall::Left
        } else {
            RoomWall::Right
        };
        let before = fails(&design(&demo));
        for across in [60.0, 60.5, 59.25] {
            let params = with(&demo, key, &Value::Length(Length::inches(across)));
            let model = design(&params);
            let half = corner_angle(across / 12.0) / 2.0;
            let goes_to_walls = (demo.chase.width - demo.chase.depth * 2.0).abs().to_mm() < 1e-6;
            let width = if goes_to_walls {
                2.0 * demo.chase.depth.to_mm() * half.tan()
            } else {
                demo.chase.width.to_mm()
            };
            assert_near(model.layout.site.chase.size().to_mm(), width, 1e-6);
            // the walls of the room meet at that angle behind the middle of the face
            let [back, side] = [RoomWall::Back, wall].map(|it| wall_frame(&params, it).0);
            let corner = DVec3::new(width / 2.0, 0.0, 0.0);
            for frame in [back, side] {
                assert_near(frame.local_point(corner).y, 0.0, 1e-6);
                let from_middle = frame.x.dot(DVec3::NEG_Y).abs().acos();
                assert_near(from_middle, half, 1e-9);
            }
            // what ends at the walls ends on both of them, and in neither
            for frame in [back, side] {
                let studs = model.parts.iter().filter(|it| it.kind == Kind::Stud);
                let corners =
                    studs.flat_map(|it| it.body.pieces.iter().flat_map(|it| &it.vertices));
                let nearest = corners
                    .map(|it| frame.local_point(*it).y)
                    .fold(f64::NEG_INFINITY, f64::max);
                assert_near(nearest, 0.0, 1e-6);
            }
            assert_eq!(fails(&model), before, "{name} {across}");
            assert!(found(&model, "corner square").is_empty());
        }
    }
}

/// What fails, by rule and by what it is about.
fn fails(design: &Design) -> Vec<(&'static str, String)> {
    let all = check(design).into_iter();
    let fails = all.filter(|it| it.verdict == Verdict::Fail);
    fails.map(|it| (it.rule, it.subject.to_string())).collect()
}

/// Wings run from the face straight back to the walls: depth less half the width over tan(θ / 2), less the front's
/// studs, as long on either side.
#[test]
fn wings_before_a_corner_off_square_are_alike() {
    let demo = demo("corner-with-wings");
    let (key, wall) = match demo.chase.placement.word() {
        "left_corner" => ("room.left_corner", RoomWall::Left),
        _ => ("room.right_corner", RoomWall::Right),
    };
    let params = with(&demo, key, &Value::Length(Length::inches(60.5)));
    let model = design(&params);
    let tangent = (corner_angle(60.5 / 12.0) / 2.0).tan();
    let back = model.layout.faces.front_back.to_mm();
    let long = back - demo.chase.width.to_mm() / 2.0 / tangent;
    for side in ["left side", "right side"] {
        let sole = part(&model, &format!("{side}/sole plate/1"));
        let size = sole.body.bounds.size();
        // the inner edge reaches farther, to where the wall lies over the plate's width
        let inner = demo.chase.stud.depth().to_mm() / tangent;
        assert_near(size.y, long + inner, 1e-6);
    }
    assert_near(
        params.corner_opens(wall),
        (corner_angle(60.5 / 12.0) - std::f64::consts::FRAC_PI_2).tan(),
        1e-12,
    );
}

/// A tape of 61 in across 3 and 4 ft: acos((25 − (61/12)²) / 24) = 92.0064°, so plates that end on both walls are mitered
/// 46.0032° there, and sleepers that run out to them the rest of a right angle.
#[test]
fn plates_across_a_corner_off_square_are_mitered_to_half_its_angle() {
    let value = Value::Length(Length::inches(61.0));
    let params = with(&demo("across-the-corner"), "room.left_corner", &value);
    let taken = takeoff(&design(&params));
    let miters = |part: &str, end: usize| {
        let mut rows = taken.cut_list.iter();
        let row = rows
            .find(|it| it.parts.iter().any(|id| id == part))
            .expect(part);
        row.setting(&row.ends[end]).0.to_degrees()
    };
    for end in [0, 1] {
        assert_near(miters("set-back/top plate/1", end), 46.0032, 1e-4);
    }
    let sleepers = taken
        .cut_list
        .iter()
        .filter(|it| it.parts[0].starts_with("platform/"));
    let ends = sleepers.flat_map(|it| it.ends.iter().map(|end| it.setting(end).0.to_degrees()));
    let ends: Vec<f64> = ends.collect();
    assert!(
        ends.iter().any(|it| (it - 43.9968).abs() < 1e-4),
        "{ends:?}"
    );
}

/// What is packed is told where sticks are laid out, to whoever lays them out.
#[test]
fn the_layout_lists_what_is_packed() {
    let model = design(&demo("crooked-room"));
    let taken = takeoff(&model);
    assert_eq!(taken.packing, model.packing);
    for of in ["top plate", "sole plate", "back wall", "left wall"] {
        assert!(
            taken
                .packing
                .iter()
                .any(|it| it.of.to_string().contains(of)),
            "{of}"
        );
    }
    let from = |of: &str| {
        taken
            .packing
            .iter()
            .find(|it| it.of.to_string() == of)
            .map(|it| it.from.name())
    };
    assert_eq!(from("front, sole plate"), Some("left end"));
    assert_eq!(from("left side, sole plate"), Some("wall end"));
    assert_eq!(from("right side, sole plate"), Some("room end"));
    for it in &taken.packing {
        assert!(it.thickness >= -Length::mm(1e-6), "{it:?}");
    }
}

/// Of the demo's readings those at 620 out lie 10 and 16 over those at the wall: that ceiling is not level.
#[test]
fn a_ceiling_that_was_read_is_not_called_level() {
    let model = design(&demo("readings"));
    let sheets = drawing::sheets(
        &model,
        &takeoff(&model),
        Paper::usual(model.params.project.unit),
    );
    let texts = sheets.iter().flat_map(drawing::Sheet::texts);
    let texts: Vec<&str> = texts.map(|it| it.text.as_str()).collect();
    assert!(texts.iter().any(|it| it.contains("over the upper face")));
    assert!(
        !texts
            .iter()
            .any(|it| it.contains("level out from the wall"))
    );
}
