//! Where a chase stands: across a corner, as a divider. The hand computation of each demo stands in its test.

use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Part, design};
use chasewright::geom::Shape;
use chasewright::params::{Params, Placement, read};
use chasewright::units::Length;
use glam::DVec3;

use crate::support::assert_near;

const CORNER: &str = include_str!("../../params/across-the-corner.toml");
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
    let failing: Vec<String> = failing.map(|it| it.about).collect();
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
    nothing_fails(&design);
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
