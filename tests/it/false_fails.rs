//! Sound designs that must not fail, each beside the faulty one that must.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Branch, Design, Kind, Part, design};
use chasewright::geom::{Body, Frame, Profile, Shape, Swept};
use chasewright::params::{ChaseWall, Params};
use chasewright::units::Length;
use glam::DVec3;

use crate::scenarios::demo;
use crate::support::{changed, read_table, written};

fn of_rule(model: &Design, rule: &str) -> Vec<Finding> {
    let mut found = check(model);
    found.retain(|it| it.rule == rule);
    found
}

fn fails(model: &Design, rule: &str) -> bool {
    of_rule(model, rule)
        .iter()
        .any(|it| it.verdict == Verdict::Fail)
}

/// A block behind the joint of the boards, cut level into two that lie on one another: the seam so far over its lower
/// edge, and the upper one so much higher.
fn halves(block: &Part, seam: f64, lifted: f64) -> [Part; 2] {
    let Shape::Swept(swept) = &block.body.shape else {
        panic!("a block is a stick");
    };
    let corners = swept.profile.outline.iter();
    let high = corners.fold(0.0_f64, |most, it| most.max(it.y));
    let deep = swept
        .profile
        .outline
        .iter()
        .fold(0.0_f64, |most, it| most.max(it.x));
    [(0.0, seam, "lower"), (seam + lifted, high - seam, "upper")].map(|(from, tall, name)| {
        let shape = Swept {
            profile: Profile::rectangle(Length::mm(deep), Length::mm(tall)),
            ..swept.clone()
        };
        let frame = block.body.frame.place(&Frame::at(DVec3::Y * from));
        Part {
            id: format!("{}/{name}", block.id),
            body: Body::new(shape, frame),
            ..block.clone()
        }
    })
}

/// The demo's model with the blocks behind the joint of the boards cut in two.
fn with_halves(seam: f64, lifted: f64) -> Design {
    let mut model = design(&demo("rises-away-from-wall"));
    let joint = model.params.skins.noncombustible_to.to_mm();
    let is_block = |it: &Part| {
        let backs = it.body.bounds.low.z < joint && it.body.bounds.high.z > joint;
        it.kind == Kind::Blocking && it.is_of(ChaseWall::Front) && backs
    };
    let (blocks, mut parts): (Vec<Part>, Vec<Part>) =
        model.parts.drain(..).partition(|it| is_block(it));
    assert!(!blocks.is_empty());
    for block in &blocks {
        let up = joint - block.body.bounds.low.z;
        parts.extend(halves(block, up + seam, lifted));
    }
    model.parts = parts;
    model
}

/// Sticks on one another back a joint together, its seam on the joint itself or beside it; with a gap between them they
/// do not.
#[test]
fn sticks_on_one_another_back_a_joint() {
    for seam in [0.0, 3.0, -5.0] {
        assert!(!fails(&with_halves(seam, 0.0), "board joint"), "{seam}");
    }
    assert!(fails(&with_halves(0.0, 2.0), "board joint"));
    let mut bare = with_halves(0.0, 0.0);
    bare.parts.retain(|it| !it.id.ends_with("/upper"));
    assert!(fails(&bare, "board joint"));
}

/// A recess beside the pipe, which rises to the right of it: the two do not meet along the wall. Moved before the pipe it
/// fails.
#[test]
fn a_recess_beside_the_vent_is_none_of_its_business() {
    let at = |center: &str| {
        changed(
            "rises-away-from-wall",
            &[
                ("recess.width", r#""16 in""#),
                ("recess.depth", r#""14 in""#),
                ("recess.center", center),
                ("vent.rise", r#""40 in""#),
            ],
        )
    };
    let mut beside = at(r#""60 in""#);
    beside.screen = None;
    let mut before = at(r#""84 in""#);
    before.screen = None;
    assert_eq!(of_rule(&design(&beside), "recess and pipe"), []);
    assert!(fails(&design(&before), "recess and pipe"));
}

/// The ceiling rises from the corner both ways: the rectangle behind the face reaches out of the room, where it would be
/// lower. Over the corner itself it counts.
#[test]
fn a_corner_chase_is_held_to_the_ceiling_inside_the_room() {
    let with = |height: &str, slope: &str| {
        let mut file = written(
            "across-the-corner",
            &[
                ("ceiling.height", height),
                ("ceiling.rise_right", slope),
                ("ceiling.rise_out", slope),
            ],
        );
        file["ceiling"].as_table_mut().unwrap().remove("slope");
        file.remove("recess");
        file.remove("screen");
        read_table(&file)
    };
    let rising = with(r#""80 in""#, r#""8:12""#);
    assert!(rising.is_ok(), "{rising:#?}");
    let faults = with(r#""80 in""#, r#""-6:12""#).expect_err("it comes down on the face's ends");
    assert!(
        faults.iter().any(|it| &*it.key == "ceiling.height"),
        "{faults:#?}"
    );
}

/// The blocks in the room's wall behind the ends of the chase's sides.
fn blocks_in_wall(model: &Design) -> Vec<Part> {
    let blocks = model.parts.iter();
    let blocks = blocks.filter(|it| it.kind == Kind::Blocking && it.is_of(Branch::ExistingWall));
    blocks.cloned().collect()
}

/// A block inside the wall may lie beside a switch, and not behind it.
#[test]
fn a_block_in_the_wall_may_lie_beside_a_switch() {
    let keys = [
        ("blocking.behind_sides", "true"),
        ("chase.left", r#""55 in""#),
    ];
    let plain = changed("flat-with-cabinets", &keys);
    let mut without = plain.clone();
    without.cabinets = None;
    let blocks = blocks_in_wall(&design(&without));
    let block = blocks
        .first()
        .expect("blocks between two studs")
        .body
        .bounds;
    let verdict = |up: f64| {
        let row = format!(
            r#"[{{ name = "switch", wall = "back", from = "{} mm", width = "20 mm", sill = "{} mm", height = "60 mm" }}]"#,
            block.low.x - 10.0,
            block.high.z + up
        );
        let mut params = changed(
            "flat-with-cabinets",
            &[keys[0], keys[1], ("room.fixed", &row)],
        );
        params.cabinets = None;
        let found = of_rule(&design(&params), "fixed things");
        let of_block = found
            .iter()
            .any(|it| it.subject.to_string().starts_with("existing wall/"));
        (of_block, found.iter().any(|it| it.verdict == Verdict::Fail))
    };
    assert!(!verdict(10.0).0);
    assert_eq!(verdict(-20.0), (true, true));
}

/// Over the enclosure of a flush chase nobody has said what floor lies outside: a side that is to go up in one is asked
/// about there, and fails where the ceiling itself is in the way.
#[test]
fn floor_outside_an_enclosure_is_asked_about() {
    let with = |gap: &str| {
        changed(
            "flush-in-a-wall",
            &[("raising.left_side", r#""tilt_up""#), ("ceiling.gap", gap)],
        )
    };
    let of_side = |params: &Params| {
        let mut found = of_rule(&design(params), "tilt-up");
        found.retain(|it| it.subject.to_string().starts_with("left side"));
        found
    };
    let asked = of_side(&with(r#""1 in""#));
    assert!(
        asked.iter().any(|it| it.verdict == Verdict::Ask),
        "{asked:#?}"
    );
    assert!(asked.iter().all(|it| it.verdict != Verdict::Fail));
    let failed = of_side(&with(r#""0 in""#));
    assert!(
        failed.iter().any(|it| it.verdict == Verdict::Fail),
        "{failed:#?}"
    );
}
