//! Where a chase stands: across a corner, as a divider, in an alcove. The hand computation of each demo stands in its test.

use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Part, design};
use chasewright::geom::Shape;
use chasewright::params::{MantelExtent, Params, Placement, RoomWall, read};
use chasewright::units::Length;
use glam::DVec3;

use crate::support::assert_near;

const CORNER: &str = include_str!("../../params/across-the-corner.toml");
const WINGS: &str = include_str!("../../params/corner-with-wings.toml");
const SQUARE_IN: &str = include_str!("../../params/square-in-a-corner.toml");
const ALCOVE: &str = include_str!("../../params/alcove.toml");
const DIVIDER: &str = include_str!("../../params/room-divider.toml");

fn demo(text: &str) -> Params {
    read(text).expect("a demo is good")
}

fn part<'a>(design: &'a Design, id: &str) -> &'a Part {
    let found = design.parts.iter().find(|part| part.id == id);
    found.unwrap_or_else(|| panic!("no part {id}"))
}

/// From tip to tip along a direction.
fn extent(part: &Part, direction: DVec3) -> f64 {
    direction.dot(part.body.farthest(direction)) - direction.dot(part.body.farthest(-direction))
}

fn nothing_fails(design: &Design) {
    let failing = check(design)
        .into_iter()
        .filter(|it| it.verdict == Verdict::Fail);
    let failing: Vec<String> = failing.map(|it| it.subject.to_string()).collect();
    assert!(failing.is_empty(), "{failing:#?}");
}

/// From wall to wall at 45°, 52 in from the corner to the stud face:
/// - face of the bump-out 2 × 52 = 104 in; the set-back wall lies 5-1/2 in behind it, 2 × 46-1/2 = 93 in,
///   its plates at the back 2 × 43 = 86 in;
/// - an end stud lies flat on the room's wall, 1-1/2 in thick, so 1-1/2 × √2 along the face;
/// - the pipe stands 52 − 15 = 37 in before the corner, 37 / √2 from either wall;
/// - the pipe turns 45° to the right of back, which is square through the wall there: the hole is the
///   firestop's 9 in, since the pipe with its clearances needs 6-5/8 + 2 × 1 only, 1/4 in more on each side.
#[test]
fn across_a_corner_every_length_follows_from_the_depth() {
    let params = demo(CORNER);
    let design = design(&params);
    let ledge = part(&design, "bump-out/ledge/1");
    assert_near(extent(ledge, DVec3::X), 104.0 * 25.4, 1e-6);
    let plate = part(&design, "set-back/top plate/1");
    assert_near(extent(plate, DVec3::X), 93.0 * 25.4, 1e-6);
    let Shape::Swept(swept) = &plate.body.shape else {
        panic!("a plate is swept");
    };
    let lengths = swept
        .profile
        .outline
        .iter()
        .map(|corner| swept.top[0].z(*corner) - swept.bottom[0].z(*corner));
    assert_near(lengths.fold(f64::INFINITY, f64::min), 86.0 * 25.4, 1e-6);
    let stud = part(&design, "set-back/stud/1");
    let Shape::Swept(swept) = &stud.body.shape else {
        panic!("a stud is swept");
    };
    let [a, b] = [swept.profile.outline[0], swept.profile.outline[1]];
    assert_near(a.distance(b), 1.5 * 2.0_f64.sqrt() * 25.4, 1e-6);
    let layout = &design.layout;
    assert_near(
        layout.pipe_to_wall().to_inches(),
        37.0 / 2.0_f64.sqrt(),
        1e-9,
    );
    assert_near(layout.pass.sides.size().to_inches(), 9.5, 1e-9);
    assert_near(layout.pass.angle.to_degrees(), 0.0, 1e-9);
    nothing_fails(&design);
}

/// The walls of the front are those of a chase before a wall, stick for stick, when it has wings.
#[test]
fn a_corner_chase_turned_square_has_the_same_front() {
    let mut corner = demo(CORNER);
    corner.chase.width = Length::inches(84.0);
    corner.chase.depth = Length::inches(62.0);
    let mut square = corner.clone();
    square.chase.placement = Placement::Projecting;
    square.chase.left = Some(Length::inches(40.0));
    let of_front = |params: &Params| -> Vec<(String, Shape)> {
        let parts = design(params).parts.into_iter();
        let front =
            parts.filter(|it| it.id.starts_with("set-back/") || it.id.starts_with("bump-out/"));
        front.map(|it| (it.id, it.body.shape)).collect()
    };
    let (turned, plain) = (of_front(&corner), of_front(&square));
    assert_eq!(turned.len(), plain.len());
    for ((id, a), (other, b)) in turned.iter().zip(&plain) {
        assert_eq!(id, other);
        assert_near(a.volume(), b.volume(), 1e-3);
    }
}

/// A mirrored corner has the mirrored chase: equal volumes, kind by kind.
#[test]
fn the_right_corner_is_the_left_one_mirrored() {
    let left = demo(CORNER);
    let mut right = left.clone();
    right.chase.placement = Placement::RightCorner;
    let sum = |params: &Params| -> f64 {
        let parts = design(params).parts.into_iter();
        let sticks =
            parts.filter(|it| it.id.starts_with("set-back/") || it.id.starts_with("platform/"));
        sticks.map(|it| it.body.shape.volume()).sum()
    };
    assert_near(sum(&left) / sum(&right), 1.0, 1e-9);
}

/// An alcove 66 in wide and 34 in deep, its side walls' studs on 16 in from 3/4 in, so at 3/4, 16-3/4 and 32-3/4 in:
/// - the front goes from wall to wall, and so does its sole's way, 66 in with the unit's opening between;
/// - the chase is 26 in deep, its face with board and finish 27 in: the side walls come 7 in before it, so what the
///   manual asks of them is a question on either side;
/// - no end is seen, so nothing is finished but the front.
#[test]
fn in_an_alcove_the_chase_goes_from_wall_to_wall() {
    let params = demo(ALCOVE);
    let design = design(&params);
    let plate = part(&design, "front/top plate/1");
    assert_near(extent(plate, DVec3::X), 66.0 * 25.4, 1e-6);
    for wall in [RoomWall::Left, RoomWall::Right] {
        let wall = design.layout.standing_wall(wall).expect("it is described");
        assert_near(wall.length.to_mm(), 34.0 * 25.4, 1e-9);
        assert_eq!(wall.centers.len(), 3);
    }
    let finished = |it: &&Part| it.branch.is_side_face();
    assert_eq!(design.parts.iter().filter(finished).count(), 0);
    let asks = |text: &str| {
        let findings = check(&chasewright::design::design(&demo(text)));
        findings
            .iter()
            .filter(|it| it.rule == "near side wall")
            .count()
    };
    assert_eq!(asks(ALCOVE), 2);
    // walls that end in one plane with the face do not come forward of it
    assert_eq!(asks(&ALCOVE.replace("= \"34 in\"", "= \"27 in\"")), 0);
    nothing_fails(&design);
}

/// A divider 34 in deep from stud face to stud face, 84 in from the wall behind it: its back wall is as
/// long as its front, 84 in, the side walls go between them: 34 − 5-1/2 − 3-1/2 − 3-1/2 = 21-1/2 in, and the
/// back has board and finish over the free end's too: 84 + 1/2 in of board.
#[test]
fn a_divider_has_a_back_of_its_own() {
    let params = demo(DIVIDER);
    let design = design(&params);
    let back = part(&design, "back/sole plate/1");
    assert_near(extent(back, DVec3::X), 84.0 * 25.4, 1e-6);
    let side = part(&design, "right side/sole plate/1");
    assert_near(extent(side, DVec3::Y), 21.5 * 25.4, 1e-6);
    let board = part(&design, "back face/board/1");
    assert_near(extent(board, DVec3::X), 84.5 * 25.4, 1e-6);
    let wall = part(&design, "room/wall layer/1");
    assert_near(wall.body.bounds.low.y, 84.0 * 25.4, 1e-6);
    // the free end's board ends flush with the framing behind, its finish covers the edge of the board there
    let face = |id: &str| part(&design, id).body.bounds.high.y;
    let framing = face("back/sole plate/1");
    assert_near(face("right face/board/1"), framing, 1e-6);
    assert_near(face("right face/finish/1"), framing + 0.5 * 25.4, 1e-6);
    assert_near(face("back face/board/1"), framing + 0.5 * 25.4, 1e-6);
    nothing_fails(&design);
}

/// A ridge over a chase across a corner, wherever it crosses the walls: the ends of plates, which are not square
/// and reach past the studs, stay under both planes.
#[test]
fn plates_across_a_corner_stay_under_a_ridge() {
    let level = "height = \"101 in\"\nslope = \"flat\"\n";
    assert!(CORNER.contains(level));
    let mut designs = 0;
    for at in 1..=120 {
        let planes = "height = \"96 in\"\nrise_right = \"3:12\"\nrise_out = 0\n";
        let ridge =
            format!("\n[ridge]\nruns = \"out\"\nat = \"{at} in\"\nfar_height = \"80 in\"\n");
        let Ok(params) = read(&(CORNER.replace(level, planes) + &ridge)) else {
            continue;
        };
        designs += 1;
        let design = design(&params);
        let over: Vec<String> = check(&design)
            .into_iter()
            .filter(|it| it.verdict == Verdict::Fail)
            .filter(|it| ["part in part", "inside the room", "stud spacing"].contains(&it.rule))
            .map(|it| it.subject.to_string())
            .collect();
        assert!(
            over.is_empty(),
            "a ridge {at} in from the corner: {over:#?}"
        );
    }
    assert!(designs > 50, "{designs}");
}

/// Across a corner with wings: a face 84 in wide, 62 in from the corner, 84 < 2 × 62.
/// - where its sides meet the walls they are as far from the corner as half the face: 42 in;
/// - the set-back wall's back lies 62 − 5-1/2 − 3-1/2 = 53 in out, so a wing is 53 − 42 = 11 in long
///   outside, and at 45° its sole plate, 3-1/2 in wide, 3-1/2 in more inside: 14-1/2 in over all;
/// - ledge and set-back plate are as long as the face, 84 in;
/// - the pipe stands 62 − 15 = 47 in before the corner, 47 / √2 from either wall;
/// - the finished wings stand 1/2 + 3/8 in outside of the framing, so board and finish have outside
///   corners there, and the mantel is 84 + 2 × 7/8 = 85-3/4 in long in front and behind.
#[test]
fn a_corner_chase_with_wings_shows_short_sides() {
    let design = design(&demo(WINGS));
    for side in ["left", "right"] {
        let plate = part(&design, &format!("{side} side/sole plate/1"));
        assert_near(extent(plate, DVec3::Y), 14.5 * 25.4, 1e-6);
        assert_near(-plate.body.bounds.low.y, 53.0 * 25.4, 1e-6);
        part(&design, &format!("{side} face/board/1"));
    }
    for id in ["bump-out/ledge/1", "set-back/top plate/1"] {
        assert_near(extent(part(&design, id), DVec3::X), 84.0 * 25.4, 1e-6);
    }
    assert_near(
        design.layout.pipe_to_wall().to_inches(),
        47.0 / 2.0_f64.sqrt(),
        1e-9,
    );
    let mantel = part(&design, "face/mantel/1");
    assert_near(extent(mantel, DVec3::X), 85.75 * 25.4, 1e-6);
    nothing_fails(&design);
}

/// The way before a chase across a corner counts square to the wall that its front comes nearest to, from the
/// mantel's end: where its front lies f out from the corner and it reaches h to either side, its end lies
/// (f + h) / √2 from either wall of the corner. The room is 184 in wide, 216 deep.
/// - from wall to wall: f = 52 + 1/2 + 1-1/8 + 3 = 56-5/8, and h is as much;
/// - with wings: f = 62 + 4-5/8 = 66-5/8, h = 42 + 1/2 + 3/8 = 42-7/8;
/// - without a mantel the finished face counts: f = 66-5/8 − 3, h = 42-7/8.
#[test]
fn the_way_before_a_corner_chase_counts_from_its_ends() {
    let way = |params: &Params| {
        let findings = check(&design(params));
        let found = findings.iter().find(|it| it.rule == "walkway");
        found.and_then(|it| it.numbers).expect("numbers").measured / 25.4
    };
    let hand = |front: f64, half: f64| 184.0 - (front + half) / 2.0_f64.sqrt();
    let mut right = demo(WINGS);
    right.chase.placement = Placement::RightCorner;
    let mut bare = demo(WINGS);
    bare.mantel = None;
    assert_near(way(&demo(CORNER)), hand(56.625, 56.625), 1e-9);
    assert_near(way(&demo(WINGS)), hand(66.625, 42.875), 1e-9);
    assert_near(way(&right), hand(66.625, 42.875), 1e-9);
    assert_near(way(&bare), hand(63.625, 42.875), 1e-9);
}

/// Square in the left corner of a room 156 in wide, 84 in of framing, its face 34 in out:
/// - one side is seen: its board 1/2 in, its finish 3/8 in, so it ends at 84-7/8; the other is the wall's;
/// - side walls: 34 − 5-1/2 − 3-1/2 = 25 in of plate on both sides;
/// - the mantel goes from wall to wall, 3/8 in left off: 155-5/8 in; let in between the walls at a slant it
///   needs √(155.625² + 3.5²) = 155.6643 in, so 0.3357 in is left; the way in leaves 168 − 155-5/8 = 12-3/8;
/// - its front is 34 + 1/2 + 1-1/8 + 3 = 38-5/8 out, the switch begins at 46: 7-3/8, of which 2 is asked;
/// - the cabinet on the right is as deep, its end 84-7/8 + 70 = 154-7/8, the window begins 60 out: 21-3/8.
#[test]
fn square_in_a_corner_one_side_is_seen_and_one_mantel_lies_over_all() {
    let params = demo(SQUARE_IN);
    let design = design(&params);
    let seen: Vec<&str> = design
        .parts
        .iter()
        .filter(|it| it.id.starts_with("left face/") || it.id.starts_with("right face/"))
        .map(|it| it.id.as_str())
        .collect();
    assert_eq!(seen, ["right face/board/1", "right face/finish/1"]);
    let finish = part(&design, "right face/finish/1");
    assert_near(finish.body.bounds.high.x, 84.875 * 25.4, 1e-6);
    for side in ["left", "right"] {
        let plate = part(&design, &format!("{side} side/sole plate/1"));
        assert_near(extent(plate, DVec3::Y), 25.0 * 25.4, 1e-6);
    }
    let mantel = part(&design, "face/mantel/1");
    assert_near(extent(mantel, DVec3::X), 155.625 * 25.4, 1e-6);
    let findings = check(&design);
    let margin = |rule: &str, about: &str| {
        let found = findings
            .iter()
            .find(|it| it.rule == rule && it.subject.to_string().contains(about));
        let numbers = found.and_then(|it| it.numbers).expect("numbers");
        numbers.margin / 25.4
    };
    assert_near(margin("mantel way in", "diagonal between"), 0.335_648, 1e-5);
    assert_near(margin("mantel way in", "length"), 12.375, 1e-9);
    assert_near(margin("fixed things", "switch"), 7.375 - 2.0, 1e-9);
    assert_near(margin("fixed things", "window"), 21.375 - 2.0, 1e-9);
    assert!(findings.iter().all(|it| it.rule != "mantel ends"));
    nothing_fails(&design);
}

/// A mantel from wall to wall across a corner is longer in front than behind, by twice its depth; without
/// a cabinet, its end beyond a chase gets a leg on the floor, as high as its underside.
#[test]
fn a_mantel_reaches_as_far_as_it_is_told() {
    let mut corner = demo(WINGS);
    let mantel = corner.mantel.as_mut().expect("a mantel");
    mantel.extent = MantelExtent::Room;
    mantel.end_ease = Length::ZERO;
    let made = design(&corner);
    let body = &part(&made, "face/mantel/1").body;
    // front 62 + 1/2 + 1-1/8 + 3 out, between walls at 45 degrees
    assert_near(
        extent(part(&made, "face/mantel/1"), DVec3::X),
        2.0 * 66.625 * 25.4,
        1e-6,
    );
    let depth = body.bounds.high.y - body.bounds.low.y;
    let long = 2.0 * 66.625 * 25.4;
    let area = body.volume() / (3.5 * 25.4);
    assert_near(area, depth * (long - depth), 1e-3);

    let mut square = demo(SQUARE_IN);
    square.cabinets = None;
    square.mantel.as_mut().expect("a mantel").end_legs = Some(Length::inches(3.5));
    let made = design(&square);
    let leg = part(&made, "mantel/leg/1");
    assert_near(leg.body.bounds.high.z, 43.25 * 25.4, 1e-6);
    assert_near(leg.body.bounds.low.z, 0.0, 1e-6);
    assert_near(leg.body.bounds.high.x, (156.0 - 0.1875) * 25.4, 1e-6);
    assert!(check(&made).iter().all(|it| it.rule != "mantel ends"));
}

/// A window in the fireplace wall, its near side 4 in right of the chase's finished side, and a mantel that
/// reaches 6 in beyond: it stands 2 in before the window, and 4 in are missing to 2 in beside it. Moved to
/// the wall on the right and a mantel's way farther from it than `clear_before`, that way counts.
#[test]
fn what_stands_before_a_window_is_found() {
    let mut params = demo(SQUARE_IN);
    params.cabinets = None;
    let mantel = params.mantel.as_mut().expect("a mantel");
    mantel.extent = MantelExtent::Length;
    // about the unit's center at 62: to 110-7/8, 6 in beyond the finished side at 104-7/8
    mantel.length = Some(Length::inches(97.75));
    params.chase.left = Some(Length::inches(20.0));
    let mut window = params.room.fixed.remove(0);
    params.room.fixed.clear();
    window.wall = RoomWall::Back;
    window.depth = Some(Length::inches(0.75));
    window.from = Length::inches(20.0 + 84.875 + 4.0);
    params.room.fixed.push(window.clone());
    let of = |params: &Params| {
        let found = check(&design(params));
        let found = found.into_iter().find(|it| it.rule == "fixed things");
        found.expect("a finding")
    };
    let found = of(&params);
    assert_eq!(found.verdict, Verdict::Fail);
    assert_eq!(found.parts, ["face/mantel/1", "fixed/window"]);
    assert_near(found.numbers.expect("numbers").margin / 25.4, -4.0, 1e-9);

    // 3/4 in of casing and 36 in before it; the mantel's end lies 156 − 110-7/8 = 45-1/8 in from that wall
    params.room.fixed[0].wall = RoomWall::Right;
    params.room.fixed[0].from = Length::inches(30.0);
    let found = of(&params);
    assert_eq!(found.verdict, Verdict::Pass);
    assert!(
        found.subject.to_string().contains("in front of the window"),
        "{}",
        found.subject.to_string()
    );
    assert_near(
        found.numbers.expect("numbers").margin / 25.4,
        45.125 - 36.75,
        1e-9,
    );
}

/// What cannot stand as it is placed is told, with the key.
#[test]
fn places_that_do_not_go_together_are_told() {
    let cases = [
        (
            CORNER,
            "depth = \"52 in\"",
            "depth = \"50 in\"",
            "chase.width",
        ),
        (
            CORNER,
            "depth = \"52 in\"",
            "depth = \"53 in\"",
            "chase.width",
        ),
        (
            CORNER,
            "width = \"104 in\"",
            "left = 3\nwidth = \"104 in\"",
            "chase.left",
        ),
        (
            SQUARE_IN,
            "extent = \"room\"",
            "extent = \"length\"",
            "mantel.extent",
        ),
        (
            SQUARE_IN,
            "extent = \"room\"",
            "extent = \"length\"\nlength = \"90 in\"",
            "mantel.length",
        ),
        (
            SQUARE_IN,
            "from = \"60 in\"",
            "from = \"200 in\"",
            "room.fixed",
        ),
        (
            SQUARE_IN,
            "name = \"switch\"",
            "name = \"window\"",
            "room.fixed",
        ),
        (ALCOVE, "alcove_depth = \"34 in\"\n", "", "chase.placement"),
        (
            ALCOVE,
            "placement = \"alcove\"\n",
            "left = 0\n",
            "chase.alcove_depth",
        ),
        (
            ALCOVE,
            "[chase]\n",
            "[chase]\nleft = \"1 in\"\n",
            "chase.left",
        ),
        (
            ALCOVE,
            "\nwidth = \"66 in\"  ",
            "\nwidth = \"65 in\"  ",
            "chase.width",
        ),
        (
            ALCOVE,
            "alcove_depth = \"34 in\"",
            "alcove_depth = \"26-1/2 in\"",
            "chase.depth",
        ),
        (
            ALCOVE,
            "alcove_depth = \"34 in\"",
            "alcove_depth = \"15 ft\"",
            "chase.alcove_depth",
        ),
        (DIVIDER, "way_behind = \"7 ft\"\n", "", "chase.placement"),
        (DIVIDER, "placement = \"divider\"\n", "", "chase.way_behind"),
        (DIVIDER, "left = 0\n", "", "chase.placement"),
        (
            DIVIDER,
            "way_behind = \"7 ft\"",
            "way_behind = \"22 ft\"",
            "chase.depth",
        ),
    ];
    for (text, old, new, key) in cases {
        assert!(text.contains(old), "{old}");
        let faults = read(&text.replacen(old, new, 1)).expect_err("a fault");
        assert!(
            faults.iter().any(|it| *it.key == *key),
            "{new}: {faults:#?}"
        );
    }
}
