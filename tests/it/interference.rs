//! Clashes, margins of clearance volumes, support and the room's boundary: on the demos, and at
//! their boundaries on designs made by hand. Sizes are invented.

use chasewright::catalog::Material;
use chasewright::check::{
    Boundary, Lack, Margin, Unheld, clearances, interference, outside, unheld,
};
use chasewright::design::{
    Bars, Branch, ChaseFace, Clearance, ClearanceKind, Design, Group, Kind, Own, Part, Reach,
    Stage, Stock, design,
};
use chasewright::geom::{Body, Direction, Frame, Swept, Tube, overlap};
use chasewright::params::ChaseWall;
use chasewright::units::Length;
use glam::DVec3;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use crate::scenarios::demo;
use crate::support::assert_near;

const DEMOS: [&str; 4] = [
    "reading-room",
    "stepped-face",
    "flat-with-cabinets",
    "rises-away-from-wall",
];

/// 1/64 in, in millimetres.
const MARK: f64 = 0.396_875;

fn built(name: &str) -> Design {
    design(&demo(name))
}

/// A design of these parts in the room of a demo.
fn of_parts(parts: Vec<Part>) -> Design {
    Design {
        parts,
        clearances: Vec::new(),
        ..built("stepped-face")
    }
}

fn part(id: &str, kind: Kind, body: Body) -> Part {
    let group = match kind {
        Kind::Floor | Kind::WallLayer => Group::Room,
        Kind::Pipe => Group::Vent,
        _ => Group::Framing,
    };
    let branch = match kind {
        Kind::Floor | Kind::WallLayer => Branch::Room,
        Kind::UnitBody => Branch::Unit,
        Kind::Finish => Branch::Face(ChaseFace::Front),
        _ => Branch::Wall(ChaseWall::Front),
    };
    Part {
        id: id.to_owned(),
        kind,
        group,
        branch,
        material: Material::LUMBER,
        stock: Stock::Stick("2x4".to_owned()),
        stage: Stage::Walls,
        body,
        left_out: Default::default(),
    }
}

/// A box from its low corner and its sizes, in millimetres, swept along z.
fn block(low: [f64; 3], size: [f64; 3]) -> Body {
    let [x, y, z] = size.map(Length::mm);
    Body::new(Swept::block(x, y, z), Frame::at(DVec3::from(low)))
}

/// The same box, swept along x.
fn lying(low: [f64; 3], size: [f64; 3]) -> Body {
    let [x, y, z] = size.map(Length::mm);
    let frame = Frame::new(DVec3::from(low), DVec3::Y, DVec3::Z);
    Body::new(Swept::block(y, z, x), frame)
}

fn moved(design: &mut Design, id: &str, by: DVec3) {
    let part = design.parts.iter_mut().find(|it| it.id == id).unwrap();
    part.body = part.body.moved(by);
}

// ---- Demos ----

#[test]
fn no_part_of_a_demo_is_in_another_floats_or_leaves_the_room() {
    for name in DEMOS {
        let design = built(name);
        assert_eq!(interference(&design), [], "{name}");
        assert_eq!(unheld(&design), [], "{name}");
        assert_eq!(outside(&design), [], "{name}");
    }
}

#[test]
fn every_clearance_volume_of_a_demo_is_measured() {
    for name in DEMOS {
        let design = built(name);
        let found = clearances(&design);
        for clearance in &design.clearances {
            let own: Vec<&Margin> = found
                .iter()
                .filter(|it| it.clearance == clearance.id)
                .collect();
            let any = own.iter().any(|it| it.faces);
            assert!(
                any || clearance.bars == Bars::Combustible,
                "{name}: {}",
                clearance.id
            );
            assert!(own.is_sorted_by(|a, b| a.margin <= b.margin));
            for margin in own {
                assert_near(
                    (margin.measured - margin.required - margin.margin).to_mm(),
                    0.0,
                    1e-9,
                );
            }
        }
    }
}

#[test]
fn without_one_of_its_jacks_a_header_is_not_carried() {
    let whole = built("reading-room");
    let jacks: Vec<&Part> = whole
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Jack)
        .collect();
    assert!(jacks.len() >= 2);
    for jack in jacks {
        let mut design = whole.clone();
        design.parts.retain(|it| it.id != jack.id);
        let headers = design.parts.iter().filter(|it| it.kind == Kind::Header);
        let mut headers = headers.map(|it| it.id.as_str());
        let found = unheld(&design);
        let hangs = headers.any(|id| found.iter().any(|it| it.part == id));
        assert!(hangs, "without {}: {found:?}", jack.id);
    }
}

#[test]
fn a_stud_pushed_a_64th_into_its_neighbor_clashes_by_a_64th() {
    let design = of_parts(vec![
        part(
            "front/king/1",
            Kind::King,
            block([100.0, -500.0, 0.0], [38.1, 88.9, 2000.0]),
        ),
        part(
            "front/jack/1",
            Kind::Jack,
            block([138.1 - MARK, -500.0, 0.0], [38.1, 88.9, 1800.0]),
        ),
        part(
            "front/stud/1",
            Kind::Stud,
            block([176.2 - MARK, -500.0, 0.0], [38.1, 88.9, 1800.0]),
        ),
    ]);
    let found = interference(&design);
    assert_eq!(found.len(), 1);
    assert_eq!(
        (found[0].first.as_str(), found[0].second.as_str()),
        ("front/king/1", "front/jack/1")
    );
    assert_near(found[0].depth.to_mm(), MARK, 1e-9);
    assert_near(found[0].volume, MARK * 88.9 * 1800.0, 1e-4);
    assert_near(found[0].location.x, 138.1 - MARK / 2.0, 1e-9);
}

// ---- Clearance volumes ----

fn reach(direction: Direction, inches: f64, key: &'static str) -> Reach {
    Reach {
        direction,
        required: Length::inches(inches),
        source: "manual p. 7".to_owned(),
        key,
    }
}

/// A volume of 100 × 200 × 300 mm at the origin that reaches 4 in to the right and 6 in up.
fn with_volume(bars: Bars, parts: Vec<Part>) -> Design {
    let reaches = vec![
        reach(Direction::Along(DVec3::X), 4.0, "to the right"),
        reach(Direction::Along(DVec3::Z), 6.0, "up"),
    ];
    with_clearance(block([0.0; 3], [100.0, 200.0, 300.0]), reaches, bars, parts)
}

fn with_clearance(body: Body, reaches: Vec<Reach>, bars: Bars, parts: Vec<Part>) -> Design {
    let clearance = Clearance {
        id: "clearance/unit right".to_owned(),
        kind: ClearanceKind::UnitSide,
        body,
        reaches,
        belongs_to: vec![Own::All(Branch::Unit)],
        bars,
        datum: "the body's skin",
    };
    Design {
        clearances: vec![clearance],
        ..of_parts(parts)
    }
}

fn only(design: &Design) -> Margin {
    let found = clearances(design);
    assert_eq!(found.len(), 1, "{found:?}");
    found[0].clone()
}

fn beside(x: f64) -> Vec<Part> {
    let body = block([x, 50.0, 50.0], [38.1, 88.9, 100.0]);
    vec![part("front/stud/1", Kind::Stud, body)]
}

#[test]
fn the_margin_is_signed_and_zero_at_the_limit() {
    for (x, margin) in [
        (100.0, 0.0),
        (100.0 - MARK, -MARK),
        (100.0 + MARK, MARK),
        (106.35, 6.35),
    ] {
        let found = only(&with_volume(Bars::Everything, beside(x)));
        assert_near(found.margin.to_mm(), margin, 1e-9);
        assert_near(found.measured.to_mm(), 101.6 + margin, 1e-9);
        assert_eq!((found.key, found.faces), ("to the right", true));
    }
    // At the limit it is zero itself, not nearly.
    let found = only(&with_volume(Bars::Everything, beside(100.0)));
    assert_near(found.margin.to_mm(), 0.0, 0.0);
}

#[test]
fn the_direction_that_governs_is_the_nearest_to_the_way_or_the_shortest_way_out() {
    let found = |low: [f64; 3]| {
        let parts = vec![part("a/1", Kind::Stud, block(low, [40.0, 40.0, 40.0]))];
        only(&with_volume(Bars::Everything, parts))
    };
    let above = found([103.0, 50.0, 304.0]);
    assert_eq!(above.key, "up");
    assert_near(above.margin.to_mm(), 5.0, 1e-9);
    assert_near(above.measured.to_mm(), 157.4, 1e-9);
    let inside = found([90.0, 50.0, 295.0]);
    assert_eq!(inside.key, "up");
    assert_near(inside.margin.to_mm(), -5.0, 1e-9);
    let inside = found([95.0, 50.0, 200.0]);
    assert_eq!(inside.key, "to the right");
    assert_near(inside.margin.to_mm(), -5.0, 1e-9);
}

#[test]
fn what_lies_where_the_number_does_not_count_does_not_face_it() {
    let under = part(
        "platform/panel/1",
        Kind::PlatformPanel,
        block([-50.0, 0.0, -20.0], [300.0, 300.0, 20.0]),
    );
    let far = part(
        "front/stud/1",
        Kind::Stud,
        block([200.0, 0.0, 0.0], [38.1, 88.9, 100.0]),
    );
    let found = clearances(&with_volume(Bars::Everything, vec![under, far]));
    assert_eq!(
        found.len(),
        2,
        "the worst that faces is reported, however far"
    );
    assert_eq!(
        (found[0].part.as_str(), found[0].faces),
        ("platform/panel/1", false)
    );
    assert_eq!(
        (found[1].part.as_str(), found[1].faces),
        ("front/stud/1", true)
    );
    assert_near(found[1].margin.to_mm(), 100.0, 1e-9);
}

#[test]
fn what_a_volume_belongs_to_and_what_it_lets_in_is_not_judged() {
    let inside = || block([50.0, 50.0, 50.0], [20.0; 3]);
    let own = part("unit/body/1", Kind::UnitBody, inside());
    let alike = part("front/stud/1", Kind::Stud, inside());
    let mut stone = part("face/finish/1", Kind::Finish, inside());
    stone.material = Material::STONE;
    let parts = vec![own, alike, stone];
    let ids = |bars| {
        let found = clearances(&with_volume(bars, parts.clone()));
        found.into_iter().map(|it| it.part).collect::<Vec<_>>()
    };
    assert_eq!(ids(Bars::Everything), ["face/finish/1", "front/stud/1"]);
    assert_eq!(ids(Bars::Combustible), ["front/stud/1"]);
}

#[test]
fn every_part_within_two_inches_is_reported() {
    let mut parts = Vec::new();
    for (i, x) in [110.0, 150.0, 150.8, 150.9, 400.0].into_iter().enumerate() {
        let body = block([x, 50.0, 50.0], [5.0; 3]);
        parts.push(part(&format!("front/stud/{i}"), Kind::Stud, body));
    }
    let found = clearances(&with_volume(Bars::Everything, parts));
    let ids: Vec<&str> = found.iter().map(|it| it.part.as_str()).collect();
    assert_eq!(ids, ["front/stud/0", "front/stud/1", "front/stud/2"]);
}

#[test]
fn a_pipes_clearance_is_measured_to_its_true_cylinder() {
    let volume = || {
        Body::new(
            Tube::straight(Length::mm(75.0), Length::ZERO, Length::mm(300.0)),
            Frame::WORLD,
        )
    };
    let found = |low: [f64; 3]| {
        let parts = vec![part("front/header/1", Kind::Header, block(low, [40.0; 3]))];
        let reaches = vec![reach(Direction::Radial, 1.0, "vent.vertical_clearance")];
        only(&with_clearance(volume(), reaches, Bars::Everything, parts))
    };
    // A corner at (60, 80) is 100 from the centre line; a hull round the pipe would say 5.
    assert_near(found([60.0, 80.0, 100.0]).margin.to_mm(), 25.0, 1e-9);
    assert_near(found([42.0, 56.0, 100.0]).margin.to_mm(), -5.0, 1e-9);
    assert_near(found([45.0, 60.0, 100.0]).margin.to_mm(), 0.0, 1e-9);
    assert!(found([45.0, 60.0, 100.0]).faces);
    assert!(!found([0.0, 0.0, 300.0]).faces && !found([0.0, 0.0, 310.0]).faces);
}

// ---- Support ----

/// A floor and a wall; two jacks with a header on them, between two kings under a top plate.
fn portal() -> Vec<Part> {
    let wall = block([-500.0, 88.9, 0.0], [3000.0, 12.7, 2500.0]);
    let floor = block([-500.0, -500.0, -10.0], [3000.0, 1000.0, 10.0]);
    let upright = |x: f64, height: f64| block([x, 0.0, 0.0], [38.1, 88.9, height]);
    let header = lying([0.0, 0.0, 2000.0], [1038.1, 38.1, 139.7]);
    let plate = lying([-38.1, 0.0, 2139.7], [1114.3, 88.9, 38.1]);
    vec![
        part("room/floor/1", Kind::Floor, floor),
        part("room/wall layer/1", Kind::WallLayer, wall),
        part("front/jack/1", Kind::Jack, upright(0.0, 2000.0)),
        part("front/jack/2", Kind::Jack, upright(1000.0, 2000.0)),
        part("front/king/1", Kind::King, upright(-38.1, 2139.7)),
        part("front/king/2", Kind::King, upright(1038.1, 2139.7)),
        part("front/header/1", Kind::Header, header),
        part("front/top plate/1", Kind::TopPlate, plate),
    ]
}

/// What is not held in the portal with one more part.
fn with(id: &str, kind: Kind, body: Body) -> Vec<Unheld> {
    let mut parts = portal();
    parts.push(part(id, kind, body));
    unheld(&of_parts(parts))
}

/// What is not held in the portal without a part.
fn without(id: &str) -> Vec<Unheld> {
    let mut parts = portal();
    parts.retain(|it| it.id != id);
    unheld(&of_parts(parts))
}

#[test]
fn a_header_on_two_jacks_is_held_and_on_one_it_is_not() {
    assert_eq!(unheld(&of_parts(portal())), []);
    let found = without("front/jack/2");
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].part, "front/header/1");
    let Lack::NotCarried { free } = found[0].lack else {
        unreachable!("{found:?}")
    };
    assert_near(free.to_mm(), 1000.0, 1e-9);
    assert_near(found[0].location.x, 1038.1, 1e-9);
    let found = without("front/king/1");
    assert!(
        found
            .iter()
            .any(|it| it.part == "front/header/1" && it.lack == Lack::EndFree)
    );
}

#[test]
fn what_touches_with_an_edge_or_nothing_floats() {
    for low in [[1076.2, -38.1, 500.0], [1076.2 + MARK, 0.0, 500.0]] {
        let found = with(
            "front/blocking/1",
            Kind::Blocking,
            lying(low, [900.0, 38.1, 88.9]),
        );
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(
            (found[0].part.as_str(), found[0].lack),
            ("front/blocking/1", Lack::Floats)
        );
    }
}

#[test]
fn what_is_held_from_the_side_only_is_not_carried() {
    // Down between the jacks: held at both ends, carried by nothing.
    let between = || lying([38.1, 0.0, 1500.0], [961.9, 38.1, 139.7]);
    let found = with("front/header/2", Kind::Header, between());
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].part, "front/header/2");
    assert!(
        matches!(found[0].lack, Lack::NotCarried { .. }),
        "{found:?}"
    );
    // As blocking, that is how it is meant.
    assert_eq!(with("front/blocking/1", Kind::Blocking, between()), []);
}

#[test]
fn board_holds_no_stick() {
    let mut parts = portal();
    parts.truncate(2);
    let mut board = part(
        "face/board/1",
        Kind::Board,
        block([0.0, 0.0, 0.0], [12.7, 88.9, 2000.0]),
    );
    board.group = Group::Skins;
    parts.push(board);
    parts.push(part(
        "front/blocking/1",
        Kind::Blocking,
        lying([12.7, 0.0, 500.0], [300.0, 80.0, 38.1]),
    ));
    let found = unheld(&of_parts(parts));
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(
        (found[0].part.as_str(), found[0].lack),
        ("front/blocking/1", Lack::Floats)
    );
}

#[test]
fn a_stick_on_its_foot_alone_is_held_at_one_place() {
    let mut parts = portal();
    parts.truncate(1);
    parts.push(part(
        "front/stud/1",
        Kind::Stud,
        block([0.0; 3], [38.1, 88.9, 2000.0]),
    ));
    let found = unheld(&of_parts(parts));
    assert_eq!(found.len(), 1);
    let Lack::HeldAtOnePlace { held, length } = found[0].lack else {
        unreachable!("{found:?}")
    };
    assert_near(held.to_mm(), 0.0, 1e-9);
    assert_near(length.to_mm(), 2000.0, 1e-9);
    assert_near(found[0].location.z, 2000.0, 1e-9);
}

// ---- Room ----

#[test]
fn a_part_that_reaches_through_wall_floor_or_ceiling_is_found() {
    let mut design = built("stepped-face");
    let stud = block([500.0, -500.0, 100.0], [38.1, 88.9, 1500.0]);
    design.parts = vec![part("front/stud/1", Kind::Stud, stud)];
    assert_eq!(outside(&design), []);
    let low = design.parts[0].body.bounds.low;
    let high = design.parts[0].body.bounds.high;
    // The demo's ceiling is level, so its height over the stud is its height anywhere.
    let ceiling = design.layout.ceiling.planes()[0].height;
    assert!(design.layout.ceiling.planes()[0].slope.length() < 1e-12);
    for (by, boundary) in [
        (DVec3::X * -(low.x + MARK), Boundary::Left),
        (DVec3::Y * (MARK - high.y), Boundary::Wall),
        (
            DVec3::Z * -(low.z - design.layout.slab.to_mm() + MARK),
            Boundary::Floor,
        ),
        (DVec3::Z * (ceiling - high.z + MARK), Boundary::Ceiling),
    ] {
        let mut design = design.clone();
        moved(&mut design, "front/stud/1", by);
        let found = outside(&design);
        assert_eq!(found.len(), 1, "{boundary:?}: {found:?}");
        assert_eq!(found[0].boundary, boundary);
        assert_near(found[0].by.to_mm(), MARK, 1e-9);
    }
    // One that only reaches the boundary stays inside.
    moved(&mut design, "front/stud/1", DVec3::X * -low.x);
    assert_eq!(outside(&design), []);
}

// ---- Sieve ----

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 50,
        rng_seed: RngSeed::Fixed(11),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn the_sieve_loses_no_clash(boxes in prop::collection::vec((prop::array::uniform3(0_u8..12), prop::array::uniform3(1_u8..4)), 2..40)) {
        let body = |(low, size): &([u8; 3], [u8; 3])| block(low.map(|v| f64::from(v) * 10.0), size.map(|v| f64::from(v) * 10.0));
        let parts: Vec<Part> = boxes.iter().enumerate().map(|(i, it)| part(&format!("a/{i}"), Kind::Stud, body(it))).collect();
        let mut expected = Vec::new();
        for (i, a) in parts.iter().enumerate() {
            for b in &parts[i + 1..] {
                if overlap(&a.body, &b.body).is_some() { expected.push((a.id.clone(), b.id.clone())); }
            }
        }
        let found: Vec<_> = interference(&of_parts(parts)).into_iter().map(|it| (it.first, it.second)).collect();
        prop_assert_eq!(found, expected);
    }
}
