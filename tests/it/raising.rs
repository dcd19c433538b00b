//! How walls go up, held against a frame that is turned here a small step at a time.

use chasewright::check::{Finding, Verdict, check, try_remedies};
use chasewright::design::{
    Design, Group, Kind, Lifted, Method, RaisedFrom, Raising, Stage, WayUp, design, fit_of, raising,
};
use chasewright::params::{ChaseWall, Fit, Params, Value};
use chasewright::takeoff::{Purpose, Takeoff, takeoff};
use chasewright::units::{Length, Rounding};
use glam::{DVec2, DVec3};

use crate::generate::random_params;
use crate::scenarios::demo;
use crate::support::{assert_near, changed, demos};

/// Steps of a quarter turn: a corner 3 m away is off by 3000 · (π / 2 / 4000)² / 8 = 0.00006 mm between two of them.
const STEPS: u32 = 4000;

/// Level, from a wall's place to the side that it lies on: out of the chase, or into it.
fn side(design: &Design, wall: ChaseWall, from: RaisedFrom) -> DVec3 {
    let outside = match wall {
        ChaseWall::LeftSide => DVec3::NEG_X,
        ChaseWall::RightSide => DVec3::X,
        ChaseWall::Back => DVec3::Y,
        _ => DVec3::NEG_Y,
    };
    assert!(design.parts.iter().any(|it| it.is_of(wall)));
    match from {
        RaisedFrom::Outside => outside,
        RaisedFrom::Inside => -outside,
    }
}

/// Corners of what is lifted, plumb in its place, and the foot along the way that it lies.
fn frame(design: &Design, wall: ChaseWall, (out, lifted): (DVec3, Lifted)) -> (Vec<DVec3>, f64) {
    let sticks = design
        .parts
        .iter()
        .filter(|it| it.group == Group::Framing && it.is_of(wall) && it.kind != Kind::Blocking);
    let goes = sticks.filter(|it| lifted == Lifted::Whole || it.kind != Kind::TopPlate);
    let corners = goes.clone().flat_map(|it| &it.body.pieces);
    let corners = corners.flat_map(|it| it.vertices.clone()).collect();
    let soles = goes.filter(|it| it.kind == Kind::SolePlate);
    let soles = soles
        .flat_map(|it| &it.body.pieces)
        .flat_map(|it| &it.vertices);
    let foot = soles
        .map(|it| it.dot(out))
        .fold(f64::NEG_INFINITY, f64::max);
    (corners, foot)
}

/// What is least over all steps from plumb to lying: height under the ceiling, and floor before the room's wall.
fn swept(design: &Design, wall: ChaseWall, way: &WayUp) -> (f64, f64) {
    let out = side(design, wall, way.from);
    let (corners, foot) = frame(design, wall, (out, way.lifted));
    let aside = match way.lifted {
        Lifted::Whole => 0.0,
        // beside its place by as much as the wall is deep
        Lifted::UnderPlate => design.params.stud_of(wall).depth().to_mm(),
    };
    let layout = &design.layout;
    let slab = layout.slab.to_mm();
    let is_behind = design.layout.site.opens_wall;
    let ceiling = if is_behind {
        &layout.ceiling_behind
    } else {
        &layout.ceiling
    };
    let (mut under, mut floor) = (f64::INFINITY, f64::INFINITY);
    for step in 0..=STEPS {
        let turned = f64::from(step) / f64::from(STEPS) * std::f64::consts::FRAC_PI_2;
        let (sine, cosine) = turned.sin_cos();
        for corner in &corners {
            let (behind, up) = (foot - corner.dot(out), corner.z - slab);
            let along = up * sine - behind * cosine;
            let height = up * cosine + behind * sine;
            let place = *corner + out * (behind + along + aside);
            let place = place.with_z(slab + height);
            under = under.min(ceiling.z(place.truncate()) - place.z);
            floor = floor.min(before_the_wall(design, place, out));
        }
    }
    (under, floor)
}

/// How far a place can go on one way before it comes to a wall of the room, or to the end of an enclosure.
fn before_the_wall(design: &Design, place: DVec3, way: DVec3) -> f64 {
    let (params, layout) = (&design.params, &design.layout);
    let (place, way, low, high) = if layout.site.opens_wall {
        let back = if layout.site.is_enclosed() {
            (layout.site.lining + params.chase.stud.depth()).to_mm()
        } else {
            0.0
        };
        let low = DVec2::new(
            layout.site.chase.low.to_mm(),
            -layout.faces.front_back.to_mm(),
        );
        let high = DVec2::new(layout.site.chase.high.to_mm(), back);
        (place.truncate(), way.truncate(), low, high)
    } else {
        let low = DVec2::new(0.0, -params.room.depth.to_mm());
        let high = DVec2::new(params.room.width.to_mm(), 0.0);
        let place = layout.site.room.local_point(place).truncate();
        (
            place,
            layout.site.room.local_vector(way).truncate(),
            low,
            high,
        )
    };
    let ends = [0, 1].map(|axis| {
        if way[axis].abs() < 1e-9 {
            return f64::INFINITY;
        }
        let end = if way[axis] > 0.0 { high } else { low };
        (end[axis] - place[axis]) / way[axis]
    });
    ends[0].min(ends[1])
}

fn wall(walls: &[Raising], name: ChaseWall) -> &Raising {
    let found = walls.iter().find(|it| it.wall == name);
    found.unwrap_or_else(|| panic!("no {name}"))
}

fn whole(wall: &Raising, from: RaisedFrom) -> &WayUp {
    let mut ways = wall.ways.iter();
    let found = ways.find(|it| it.from == from && it.lifted == Lifted::Whole);
    found.expect("a way")
}

/// The ceiling rises 12° to the right, 2450 mm over the left corner; 6 mm are left over plates, and the room is 4700 mm
/// wide.
/// - The left wall stands from 1300 to 1395. About its inner foot its top turns away under a ceiling that rises, so the
///   6 mm of its place are the least; its inner edge is 2450 + 1395 · tan 12° - 6 = 2740.5 high, of 4700 - 1395 = 3305.
/// - The right wall stands from 3205 to 3300. Its outer edge is 2450 + 3300 · tan 12° - 6 = 3145.4 high, and outside there
///   are 4700 - 3300 = 1400. About its inner foot its outer corner, 95 behind it, is nearest to the ceiling where it
///   moves along it.
#[test]
fn walls_under_one_slope_go_up_where_there_is_room() {
    let ripped = [("chase.plate_edges", "\"ripped\"")];
    let design = design(&changed("metric-mono-slope", &ripped));
    let walls = raising(&design);
    let left = wall(&walls, ChaseWall::LeftSide);
    let Method::Raised(way) = &left.method else {
        panic!("{left:?}");
    };
    assert_eq!((way.from, way.lifted), (RaisedFrom::Inside, Lifted::Whole));
    let slope = 12.0_f64.to_radians().tan();
    assert_near(way.under_ceiling().to_mm(), 6.0, 1e-6);
    assert_near(
        way.floor_left().to_mm(),
        4700.0 - 1395.0 - (2450.0 + 1395.0 * slope - 6.0),
        1e-6,
    );
    assert_near(way.floor_left().to_mm(), 564.0, 1.0);
    let right = wall(&walls, ChaseWall::RightSide);
    assert_eq!(right.method, Method::InPlace);
    let outside = whole(right, RaisedFrom::Outside);
    assert_near(outside.floor_left().to_mm(), -1745.0, 1.0);
    let inside = whole(right, RaisedFrom::Inside);
    let corner = (2450.0 + 3300.0 * slope - 6.0_f64).hypot(95.0);
    let foot = 2450.0 + 3205.0 * slope;
    let least = foot - corner * (1.0 + slope * slope).sqrt();
    assert_near(inside.under_ceiling().to_mm(), least, 1e-6);
    assert_near(least, -86.0, 1.0);
    let found = check(&design);
    let own = found.iter().filter(|it| it.rule == "tilt-up");
    let bad = own.filter(|it| matches!(it.verdict, Verdict::Fail | Verdict::Ask));
    assert_eq!(bad.count(), 0);
    // it lies over the place of the other walls and of the platform, so it goes up before them
    assert!(walls[0].wall == ChaseWall::LeftSide && left.before_platform);
}

/// Every way that a wall has, of every demo and of some random designs, turned step by step.
#[test]
fn every_way_up_agrees_with_a_frame_turned_step_by_step() {
    let random = (0..40).map(|seed| (format!("random {seed}"), random_params(seed)));
    let mut compared = 0;
    for (name, params) in demos().into_iter().chain(random) {
        let design = design(&params);
        let walls = raising(&design);
        for wall in &walls {
            for way in &wall.ways {
                let (under, floor) = swept(&design, wall.wall, way);
                let what = format!("{name}, {}: {way:?}", wall.wall);
                assert!(
                    (way.under_ceiling().to_mm() - under).abs() < 0.01,
                    "{what}: {under}"
                );
                assert!(
                    (way.floor_left().to_mm() - floor).abs() < 0.01,
                    "{what}: {floor}"
                );
                compared += 1;
            }
            agrees(&design, wall, &name);
        }
        in_order(&design, &walls, &name);
    }
    assert!(compared > 300, "{compared}");
}

/// The rule's verdict on a wall says what the turned frame does.
fn agrees(design: &Design, wall: &Raising, name: &str) {
    let begins = format!("{}: ", wall.wall);
    let findings: Vec<Finding> = check(design)
        .into_iter()
        .filter(|it| it.rule == "tilt-up" && it.subject.to_string().starts_with(&begins))
        .collect();
    let fails = findings.iter().any(|it| it.verdict == Verdict::Fail);
    let (under, floor) = match &wall.method {
        Method::Raised(way) => swept(design, wall.wall, way),
        Method::InPlace => (0.0, 0.0),
    };
    let slides = wall.method.fit() != Fit::PlateFirst
        || matches!(&wall.method, Method::Raised(way) if way.slides);
    let asks = matches!(wall.asked, Fit::TiltUp | Fit::PlateFirst);
    let refused = asks && wall.method == Method::InPlace;
    let stands = under > -1e-3 && floor > -1e-3 && slides && !refused;
    let long = wall.longest.1 - wall.across;
    let has_floor = wall.method != Method::InPlace || !long.is_positive();
    // nobody knows the floor outside an enclosure behind a wall
    let asks = findings.iter().any(|it| it.verdict == Verdict::Ask);
    assert!(!asks || design.layout.site.opens_wall, "{name}");
    assert_eq!(
        !fails,
        asks || stands && has_floor,
        "{name}, {}: {findings:#?}",
        wall.wall
    );
    if wall.asked == Fit::FirstThatFits {
        assert!(stands, "{name}, {}: a way that has no room", wall.wall);
    }
}

/// No wall lies on one that stands already.
fn in_order(design: &Design, walls: &[Raising], name: &str) {
    for (at, raised) in walls.iter().enumerate() {
        let Some(way) = raised.method.way() else {
            continue;
        };
        let out = side(design, raised.wall, way.from);
        let (corners, foot) = frame(design, raised.wall, (out, way.lifted));
        let tallest = corners.iter().map(|it| it.z).fold(f64::MIN, f64::max);
        for earlier in &walls[..at] {
            let sticks = design
                .parts
                .iter()
                .filter(|it| it.group == Group::Framing && it.is_of(earlier.wall));
            for stick in sticks {
                let bounds = &stick.body.bounds;
                let across = [bounds.low, bounds.high].map(|it| it.dot(out));
                let before = across[0].max(across[1]) > foot + 1e-3
                    && across[0].min(across[1])
                        < foot + tallest - design.layout.slab.to_mm() - 60.0;
                let along = out.cross(DVec3::Z);
                let own: Vec<f64> = corners.iter().map(|it| it.dot(along)).collect();
                let ends = [bounds.low, bounds.high].map(|it| it.dot(along));
                let (low, high) = own
                    .iter()
                    .fold((f64::MAX, f64::MIN), |(a, b), it| (a.min(*it), b.max(*it)));
                let beside =
                    ends[0].max(ends[1]) > low + 1e-3 && ends[0].min(ends[1]) < high - 1e-3;
                assert!(
                    !(before && beside),
                    "{name}: {} lies on {}",
                    raised.wall,
                    stick.id
                );
            }
        }
    }
}

fn with_way(params: &Params, word: &'static str) -> (Design, Takeoff) {
    let params = params.with("raising.front", &Value::Choice(word)).unwrap();
    let design = design(&params);
    let taken = takeoff(&design);
    (design, taken)
}

/// The cut list, nails, stages and what is lifted follow the way that a single wall goes up.
#[test]
fn a_walls_own_key_changes_how_it_is_cut_nailed_and_lifted() {
    let mut flat = demo("flat-with-cabinets");
    flat.ceiling.gap = Length::inches(1.0);
    let mut nailed = Vec::new();
    for (word, fit, rounding, plates, lifted) in [
        (
            "tilt_up",
            Fit::TiltUp,
            Rounding::Down,
            [Stage::Walls, Stage::Walls],
            Some(true),
        ),
        (
            "plate_first",
            Fit::PlateFirst,
            Rounding::Down,
            [Stage::Walls, Stage::Plates],
            Some(true),
        ),
        (
            "in_place",
            Fit::InPlace,
            Rounding::Up,
            [Stage::Plates, Stage::Plates],
            None,
        ),
    ] {
        flat.chase.two_lift = chasewright::units::Weight::new(500.0);
        let (design, taken) = with_way(&flat, word);
        let walls = raising(&design);
        assert_eq!(fit_of(&walls, &design, ChaseWall::Front.into()), fit);
        let studs = taken.cut_list.iter().filter(|row| {
            row.kinds.contains(&Kind::Stud) && row.parts.iter().any(|it| it.starts_with("front/"))
        });
        let mut count = 0;
        for row in studs {
            assert_eq!(row.rounding, rounding, "{word}: {:?}", row.parts);
            count += 1;
        }
        assert!(count > 0);
        for (kind, stage) in [Kind::SolePlate, Kind::TopPlate].into_iter().zip(plates) {
            let mut own = design.parts.iter();
            let part = own
                .find(|it| it.kind == kind && it.is_of(ChaseWall::Front))
                .unwrap();
            assert_eq!(part.stage, stage, "{word}");
        }
        let weight = taken
            .weights
            .iter()
            .find(|it| it.what.is_wall(ChaseWall::Front))
            .unwrap();
        assert_eq!(weight.two_can_lift, lifted, "{word}");
        let count = |purpose: Purpose| {
            let own = taken.fasteners.iter().filter(|it| it.purpose == purpose);
            own.map(|it| it.count).sum::<usize>()
        };
        let toe = count(Purpose::StudToTopPlate);
        nailed.push((count(Purpose::PlateToStud), toe));
    }
    // nobody gets at the upper side of a plate that is fixed first
    let [whole, under, in_place] = nailed[..] else {
        panic!("{nailed:?}");
    };
    assert_eq!(under, in_place);
    assert!(whole.0 > under.0 && whole.1 < under.1, "{nailed:?}");
}

/// A wall without its top plates is lighter than with them: two lift the one and not the other.
#[test]
fn what_is_lifted_under_plates_goes_without_them() {
    let mut flat = demo("flat-with-cabinets");
    flat.ceiling.gap = Length::inches(1.0);
    let (_, taken) = with_way(&flat, "tilt_up");
    let mass = taken
        .weights
        .iter()
        .find(|it| it.what.is_wall(ChaseWall::Front))
        .unwrap()
        .mass;
    flat.chase.two_lift = chasewright::units::Weight::new(mass - 0.5);
    for (word, can) in [("tilt_up", false), ("plate_first", true)] {
        let (_, taken) = with_way(&flat, word);
        let weight = taken
            .weights
            .iter()
            .find(|it| it.what.is_wall(ChaseWall::Front))
            .unwrap();
        assert_eq!(weight.two_can_lift, Some(can), "{word}");
    }
}

/// Without a gap a frame 108 in high under a flat ceiling of 108 lacks √(108² + 3.5²) - 108 = 0.0567 in, and one plate less
/// has 1.5 more: it goes up beside its plate. What is asked for and has no room fails, and the cure is another way.
#[test]
fn a_wall_without_a_gap_goes_up_under_its_plate() {
    let mut flat = demo("flat-with-cabinets");
    flat.ceiling.gap = Length::ZERO;
    let model = design(&flat);
    let walls = raising(&model);
    let Method::Raised(way) = &wall(&walls, ChaseWall::Front).method else {
        panic!("{walls:?}");
    };
    assert_eq!(
        (way.from, way.lifted),
        (RaisedFrom::Outside, Lifted::UnderPlate)
    );
    let plates = 1.5 * f64::from(flat.chase.top_plates);
    let left = 108.0 - (108.0 - plates).hypot(3.5);
    assert_near(way.under_ceiling().to_inches(), left, 1e-9);
    let asked = flat
        .with("raising.front", &Value::Choice("tilt_up"))
        .unwrap();
    let mut findings = check(&design(&asked));
    try_remedies(&asked, &mut findings);
    let failed = findings
        .iter()
        .find(|it| it.rule == "tilt-up" && it.verdict == Verdict::Fail);
    let failed = failed.expect("what is asked for has no room");
    assert_near(
        failed.numbers.unwrap().margin / 25.4,
        108.0 - 108.0_f64.hypot(3.5),
        1e-9,
    );
    let remedy = failed.remedy.as_ref().expect("something was tried");
    assert!(!remedy.changes.is_empty(), "{remedy:?}");
}

/// A side wall against the room's own is not raised from a place beyond it.
#[test]
fn no_wall_is_raised_from_beyond_the_rooms_wall() {
    let design = design(&demo("square-in-a-corner"));
    let walls = raising(&design);
    let outside = whole(wall(&walls, ChaseWall::LeftSide), RaisedFrom::Outside);
    assert_near(outside.floor.to_mm(), 0.0, 1e-6);
    assert!(!outside.has_room());
}
