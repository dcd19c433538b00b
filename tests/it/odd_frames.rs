//! Frames that are sound but seldom: two top plates, a ceiling steeper than 45°, a recess about as wide as the
//! unit's opening, a chase no wider inside than the opening.

use chasewright::catalog::lumber;
use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Kind, design};
use chasewright::geom::Mesh;
use chasewright::params::{Layer, Params, Value};
use chasewright::solids::Solids;
use chasewright::units::{Length, Slope};

use crate::scenarios::demo;
use crate::support::assert_near;

fn with(params: &Params, changes: &[(&str, Value)]) -> Params {
    changes.iter().fold(params.clone(), |params, (key, value)| {
        params
            .with(key, value)
            .unwrap_or_else(|faults| panic!("{key}: {faults:?}"))
    })
}

fn inches(value: f64) -> Value {
    Value::Length(Length::inches(value))
}

/// What a frame must not have: sticks in one another, out of the room, in the air, or too far apart.
fn unsound(design: &Design) -> Vec<String> {
    let framing = [
        "part in part",
        "held",
        "stud spacing",
        "inside the room",
        "part without room",
    ];
    check(design)
        .into_iter()
        .filter(|it| it.verdict == Verdict::Fail && framing.contains(&it.rule))
        .map(|it| format!("{}: {}", it.rule, it.subject))
        .collect()
}

#[test]
fn two_top_plates_are_held_by_the_studs_under_the_lower() {
    for (right, out) in [(0.0, 0.0), (0.0, 0.25), (0.125, 0.25), (-0.125, -0.125)] {
        let params = with(
            &demo("reading-room"),
            &[
                ("ceiling.height", inches(135.0)),
                ("ceiling.rise_right", Value::Slope(Slope::ratio(right))),
                ("ceiling.rise_out", Value::Slope(Slope::ratio(out))),
                ("chase.top_plates", Value::Count(2)),
            ],
        );
        let mut model = design(&params);
        assert_eq!(unsound(&model), Vec::<String>::new(), "{right} {out}");
        // a stud that is missing under the lower of them is still missed
        model.parts.retain(|it| it.id != "set-back/stud/1");
        assert!(!unsound(&model).is_empty(), "{right} {out}");
        let mut model = design(&params);
        model.parts.retain(|it| it.id != "left side/top plate/1");
        assert!(!unsound(&model).is_empty(), "{right} {out}");
    }
}

#[test]
fn a_ceiling_steeper_than_45_degrees_holds_like_another() {
    for (right, out) in [(0.5, 1.0), (1.25, 0.0), (0.0, 1.25), (2.0, 2.0)] {
        let params = with(
            &demo("reading-room"),
            &[
                ("ceiling.height", inches(120.0)),
                ("ceiling.rise_right", Value::Slope(Slope::ratio(right))),
                ("ceiling.rise_out", Value::Slope(Slope::ratio(out))),
            ],
        );
        let mut model = design(&params);
        assert_eq!(unsound(&model), Vec::<String>::new(), "{right} {out}");
        model.parts.retain(|it| it.id != "left side/stud/1");
        assert!(!unsound(&model).is_empty(), "{right} {out}");
    }
}

/// The opening is 39-1/2 in wide, so a recess up to 38-1/2 in and its boards lie between the unit's kings.
#[test]
fn a_recess_about_as_wide_as_the_opening_needs_no_wider_chase() {
    for width in [35.0, 36.5, 37.0, 38.0, 38.5] {
        for chase in [48.5, 49.0, 54.0, 84.0] {
            let mut params = demo("reading-room");
            params.screen = None;
            params.chase.width = Length::inches(chase);
            let params = with(&params, &[("recess.width", inches(width))]);
            let model = design(&params);
            assert_eq!(unsound(&model), Vec::<String>::new(), "{width} in {chase}");
            let kings = model
                .parts
                .iter()
                .filter(|it| it.kind == Kind::King && it.id.starts_with("set-back"));
            let king = if width > 35.5 { 2 } else { 4 };
            assert_eq!(kings.count(), king, "{width} in {chase}");
        }
    }
}

#[test]
fn a_recess_past_the_opening_stands_outside_the_kings() {
    for width in [38.75, 40.0, 42.0, 44.0, 46.0] {
        let mut params = demo("reading-room");
        params.screen = None;
        let model = design(&with(&params, &[("recess.width", inches(width))]));
        assert_eq!(unsound(&model), Vec::<String>::new(), "{width}");
    }
}

/// Inside walls of 2x6 a chase of 50 in is 39 in wide, the opening 39-1/2: the tongue of the platform ends against them, not in them.
#[test]
fn the_platform_never_enters_the_side_walls() {
    let params = with(
        &demo("reading-room"),
        &[
            ("chase.stud", Value::Lumber(lumber("2x6").unwrap().into())),
            ("chase.depth", inches(34.0)),
            ("recess.width", inches(34.0)),
            ("screen.width", inches(31.0)),
            ("chase.width", inches(50.0)),
        ],
    );
    assert_eq!(unsound(&design(&params)), Vec::<String>::new());
}

/// A unit set forward of the studs stands in the board, which is cut round its body and its spacers.
#[test]
fn board_is_cut_round_a_unit_that_is_set_forward() {
    for name in ["reading-room", "rises-away-from-wall", "flat-with-cabinets"] {
        for offset in [0.25, 0.5, 1.0] {
            let params = with(&demo(name), &[("appliance.face_offset", inches(offset))]);
            let model = design(&params);
            assert_eq!(unsound(&model), Vec::<String>::new(), "{name} {offset}");
            assert!(Solids::new(&model, Mesh::CHORD_ERROR).is_ok());
        }
    }
}

/// A recess drawn over the unit's opening fails; the board between is left out, and every body stays sound.
#[test]
fn a_recess_over_the_opening_is_drawn_and_fails() {
    for name in ["rises-away-from-wall", "flat-with-cabinets"] {
        let mut params = demo(name);
        params.screen = None;
        for sill in [1.0, 5.0, 20.0, 27.5, 28.0, 30.0] {
            for (width, height) in [(30.0, 10.0), (34.0, 35.0), (50.0, 20.0)] {
                let params = with(
                    &params,
                    &[
                        ("recess.width", inches(width)),
                        ("recess.height", inches(height)),
                        ("recess.sill", inches(sill)),
                    ],
                );
                let model = design(&params);
                let solids = Solids::new(&model, Mesh::CHORD_ERROR);
                assert!(solids.is_ok(), "{name} {sill} {width}: {:?}", solids.err());
                assert!(!unsound(&model).is_empty(), "{name} {sill} {width}");
            }
        }
    }
}

/// Behind a front of 2x6 studs there is room for one 2x4 sleeper laid flat between the jacks, not for two.
#[test]
fn sleepers_along_the_wall_lie_beside_one_another() {
    for stud in ["2x4", "2x6"] {
        for sleeper in ["2x3", "2x4", "2x6"] {
            for name in ["reading-room", "rises-away-from-wall"] {
                let layer = Layer::Flat(lumber(sleeper).unwrap());
                let mut params = demo(name);
                params.recess = None;
                params.screen = None;
                params.platform.layers = vec![layer.clone(), layer];
                let depth = params.chase.depth + Length::inches(4.0);
                let changes = [
                    ("chase.depth", Value::Length(depth)),
                    ("chase.stud", Value::Lumber(lumber(stud).unwrap().into())),
                ];
                let model = design(&with(&params, &changes));
                let found = unsound(&model);
                assert!(found.is_empty(), "{name} {stud} {sleeper}: {found:?}");
                // the second layer lies on the first, crosswise, from the room's wall to the stud face
                let upper = model.parts.iter().filter(|it| {
                    let low = Length::mm(it.body.bounds.low.z) - model.layout.slab;
                    it.kind == Kind::Sleeper && low.is_positive()
                });
                let upper: Vec<_> = upper.map(|it| it.body.bounds).collect();
                assert!(upper.iter().all(|it| it.size().x > it.size().y));
                let outs = upper.iter().map(|it| -it.low.y);
                let front = outs.fold(0.0, f64::max);
                assert_near(front, model.layout.faces.lower_stud.to_mm(), 1e-9);
            }
        }
    }
}
