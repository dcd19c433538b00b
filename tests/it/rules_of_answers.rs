//! Rules that a word of the manual or of the house answers, and rules about headers, nail plates and shelves.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, Kind, design, nail_plates};
use chasewright::params::{Params, Value};
use chasewright::takeoff::{Purpose, takeoff};
use chasewright::units::Length;

use crate::rules::{MARK, finding, moved};
use crate::scenarios::demo;
use crate::support::{assert_near, changed, read_table, without, written};

type Changes = &'static [(&'static str, &'static str)];

/// A demo with keys written over it and one left out; the rule, and what it has to say: nothing, or its verdicts.
type Answer = (
    &'static str,
    Changes,
    Option<&'static str>,
    &'static str,
    &'static [Verdict],
);

const HOUSE: &str = "rises-away-from-wall";

const ANSWERS: &[Answer] = &[
    (HOUSE, &[], None, "floor", &[]),
    (
        HOUSE,
        &[],
        Some("room.floor_kind"),
        "floor",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[("room.floor_kind", "\"tensioned_slab\"")],
        None,
        "floor",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[
            ("room.floor_kind", "\"tensioned_slab\""),
            ("room.tendons_marked", "false"),
        ],
        None,
        "floor",
        &[Verdict::Fail],
    ),
    (
        HOUSE,
        &[
            ("room.floor_kind", "\"tensioned_slab\""),
            ("room.tendons_marked", "true"),
        ],
        None,
        "floor",
        &[],
    ),
    (
        HOUSE,
        &[("room.floor_kind", "\"wood\"")],
        None,
        "floor",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[
            ("room.floor_kind", "\"wood\""),
            ("room.floor_checked", "false"),
        ],
        None,
        "floor",
        &[Verdict::Fail],
    ),
    (
        HOUSE,
        &[
            ("room.floor_kind", "\"wood\""),
            ("room.floor_checked", "true"),
        ],
        None,
        "floor",
        &[],
    ),
    (HOUSE, &[], None, "carbon monoxide alarm", &[]),
    (
        HOUSE,
        &[],
        Some("room.monoxide_alarm"),
        "carbon monoxide alarm",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[("room.monoxide_alarm", "false")],
        None,
        "carbon monoxide alarm",
        &[Verdict::Fail],
    ),
    (HOUSE, &[], None, "gas joints", &[]),
    (
        HOUSE,
        &[],
        Some("gas.hidden_joints"),
        "gas joints",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[("gas.hidden_joints", "true")],
        None,
        "gas joints",
        &[Verdict::Fail],
    ),
    (
        HOUSE,
        &[],
        Some("appliance.gas_entry"),
        "gas entry",
        &[Verdict::Ask],
    ),
    // the stub comes out of the wall, left of the unit
    (HOUSE, &[], None, "gas entry", &[Verdict::Pass]),
    (
        HOUSE,
        &[("appliance.gas_entry", r#"{ value = "right", page = "22" }"#)],
        None,
        "gas entry",
        &[Verdict::Ask],
    ),
    // out of the floor, under the unit: only where the entry is in the bottom
    (
        HOUSE,
        &[
            ("gas.stub_from", "\"floor\""),
            ("gas.stub_right", "\"84 in\""),
            ("gas.stub_out", "\"12 in\""),
            ("gas.stub_up", "\"3 in\""),
        ],
        None,
        "gas entry",
        &[Verdict::Fail],
    ),
    (
        HOUSE,
        &[
            (
                "appliance.gas_entry",
                r#"{ value = "bottom", page = "22" }"#,
            ),
            ("gas.stub_from", "\"floor\""),
            ("gas.stub_right", "\"84 in\""),
            ("gas.stub_out", "\"12 in\""),
            ("gas.stub_up", "\"3 in\""),
        ],
        None,
        "gas entry",
        &[Verdict::Pass],
    ),
    (HOUSE, &[], None, "access for service", &[]),
    (
        HOUSE,
        &[],
        Some("appliance.service"),
        "access for service",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[("appliance.service", "{ value = \"panel\", page = \"22\" }")],
        None,
        "access for service",
        &[Verdict::Fail],
    ),
    (
        HOUSE,
        &[
            ("appliance.service", "{ value = \"panel\", page = \"22\" }"),
            ("chase.access_panel", "true"),
        ],
        None,
        "access for service",
        &[],
    ),
    (HOUSE, &[], None, "receptacles", &[]),
    (
        HOUSE,
        &[],
        Some("appliance.receptacle"),
        "receptacles",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[],
        Some("screen.receptacle"),
        "receptacles",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[],
        Some("chase.receptacles"),
        "receptacles",
        &[Verdict::Ask],
    ),
    // 0 asks for no floor of stone, and then none is measured
    (
        HOUSE,
        &[("appliance.hearth_out", "{ value = 0, page = \"9\" }")],
        None,
        "hearth",
        &[],
    ),
    (
        HOUSE,
        &[],
        Some("appliance.hearth_out"),
        "hearth",
        &[Verdict::Ask, Verdict::Pass],
    ),
    (
        HOUSE,
        &[],
        Some("room.hearth_beside"),
        "hearth",
        &[Verdict::Ask, Verdict::Pass],
    ),
    (
        HOUSE,
        &[],
        Some("screen.over_fire"),
        "screen over the fire",
        &[Verdict::Ask, Verdict::Pass],
    ),
    (
        HOUSE,
        &[],
        Some("appliance.screen_above"),
        "screen over the fire",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[("screen.over_fire", "{ value = \"no\", page = \"6\" }")],
        None,
        "screen over the fire",
        &[Verdict::Fail, Verdict::Pass],
    ),
    (
        HOUSE,
        &[],
        Some("vent.thinnest_wall"),
        "thickness of the wall",
        &[Verdict::Ask, Verdict::Pass],
    ),
    (
        HOUSE,
        &[],
        Some("platform.span_rating"),
        "platform panel",
        &[Verdict::Ask],
    ),
    // panels on the slab span nothing
    ("ridge-over-chase", &[], None, "platform panel", &[]),
    (
        HOUSE,
        &[],
        Some("appliance.side_wall"),
        "near side wall",
        &[Verdict::Ask],
    ),
    // stone on studs at 24 in; plaster is no veneer
    (
        HOUSE,
        &[("chase.stud_spacing", "\"24 in\"")],
        None,
        "studs behind the finish",
        &[Verdict::Ask],
    ),
    (
        HOUSE,
        &[("chase.stud_spacing", "\"16 in\"")],
        None,
        "studs behind the finish",
        &[],
    ),
    (
        HOUSE,
        &[
            ("chase.stud_spacing", "\"24 in\""),
            ("skins.lower_material", "\"plaster\""),
        ],
        None,
        "studs behind the finish",
        &[],
    ),
    (HOUSE, &[], None, "finish material", &[]),
    (
        HOUSE,
        &[],
        Some("skins.lower_material"),
        "finish material",
        &[Verdict::Ask],
    ),
    // paper is too thin to be drawn, and burns all the same
    (
        HOUSE,
        &[
            ("skins.lower_material", "\"wallpaper\""),
            ("skins.lower_finish", "0"),
        ],
        None,
        "finish material",
        &[Verdict::Fail],
    ),
    (
        HOUSE,
        &[
            ("skins.lower_material", "\"paint\""),
            ("skins.lower_finish", "0"),
        ],
        None,
        "finish material",
        &[],
    ),
    // 15 to 20 lb/ft² may be allowed indoors, more is not
    (
        HOUSE,
        &[("skins.lower_weight", "\"20 lb/ft2\"")],
        None,
        "veneer",
        &[Verdict::Ask, Verdict::Pass],
    ),
    (
        HOUSE,
        &[("skins.lower_weight", "\"20.01 lb/ft2\"")],
        None,
        "veneer",
        &[Verdict::Fail, Verdict::Pass],
    ),
    (
        HOUSE,
        &[("skins.lower_weight", "\"15 lb/ft2\"")],
        None,
        "veneer",
        &[Verdict::Pass, Verdict::Pass],
    ),
    // thicker than the limit with its mortar, and nobody has said how thick the stone is
    (
        HOUSE,
        &[("skins.lower_finish", "\"3 in\"")],
        None,
        "veneer",
        &[Verdict::Ask, Verdict::Pass],
    ),
];

fn with((demo, changes, left_out): (&str, Changes, Option<&str>)) -> Params {
    let file = written(demo, changes);
    let file = left_out.map_or_else(|| file.clone(), |key| without(&file, key).unwrap());
    read_table(&file).unwrap()
}

fn of(model: &Design, rule: &str) -> Vec<Finding> {
    let mut findings = check(model);
    findings.retain(|it| it.rule == rule);
    findings
}

#[test]
fn a_word_of_manual_or_house_answers_what_is_asked() {
    for (demo, changes, left_out, rule, verdicts) in ANSWERS {
        let found = of(&design(&with((demo, changes, *left_out))), rule);
        let told: Vec<Verdict> = found.iter().map(|it| it.verdict).collect();
        assert_eq!(
            told, *verdicts,
            "{rule}, {changes:?}, {left_out:?}: {found:#?}"
        );
        if let Some(key) = left_out {
            let asked = found.iter().filter_map(|it| it.question.as_ref());
            assert!(
                asked.into_iter().any(|it| it.contains(key)),
                "{rule}: {key}"
            );
        }
    }
}

/// Wood and fiberboard in the facing zone fail, by the zone's own clearance.
#[test]
fn a_finish_that_burns_fails_in_the_facing_zone() {
    for (material, fails) in [
        ("wood", true),
        ("mdf", true),
        ("tile", false),
        ("metal", false),
    ] {
        let word = format!("\"{material}\"");
        let params = changed("stepped-face", &[("skins.lower_material", &word)]);
        let found = of(&design(&params), "clearance").into_iter();
        let mut zone = found.filter(|it| {
            it.subject.to_string().contains("/finish/") && it.subject.to_string().contains("facing")
        });
        assert_eq!(
            zone.any(|it| it.verdict == Verdict::Fail),
            fails,
            "{material}"
        );
    }
}

/// The free side of a chase with the front beside the opening: 24 in asks, less does not.
#[test]
fn a_short_stretch_beside_the_opening_wants_no_receptacle() {
    let file = written("flush-in-a-wall", &[]);
    let params = read_table(&without(&file, "chase.receptacles").unwrap()).unwrap();
    let beside = (params.chase.width - params.appliance.opening_width) / 2.0;
    let by = Length::inches(48.0) - beside * 2.0;
    let asked = |by: Length| {
        // the front lies in the wall, and no side is seen
        let model = design(&moved(&params, "chase.width", by));
        !of(&model, "receptacles").is_empty()
    };
    assert!(asked(by) && !asked(by - MARK * 2.0));
}

/// A wall of the room that the chase does not touch is judged like one that it does.
#[test]
fn a_wall_near_the_chase_is_judged_from_the_opening() {
    // the opening's side is 62 in from the corner: (36 + 38) in to its middle, less half of 35
    let params = demo(HOUSE);
    let found = of(&design(&params), "near side wall");
    let half = params.appliance.opening_width / 2.0;
    let center = params.chase.left.unwrap() + params.chase.width / 2.0;
    let expected = (center - half).min(params.room.width - center - half);
    let nearest = found.iter().filter_map(|it| it.numbers);
    let nearest = nearest.map(|it| it.measured).fold(f64::INFINITY, f64::min);
    assert_near(nearest, expected.to_mm(), 1e-9);
    let close = |by: Length| {
        let asked = expected + by - params.appliance.side_wall.as_ref().unwrap().value;
        let model = design(&moved(&params, "appliance.side_wall", asked));
        let found = of(&model, "near side wall").into_iter();
        found.map(|it| it.verdict).min()
    };
    assert_eq!(close(Length::ZERO), Some(Verdict::Tight));
    assert_eq!(close(MARK), Some(Verdict::Fail));
}

/// The thimble's range of walls, met exactly and passed by 1/64 in.
#[test]
fn a_wall_is_within_the_range_of_its_thimble() {
    let params = demo(HOUSE);
    let wall = design(&params).layout.pass_wall().unwrap().depths.outside;
    for (key, about, outward) in [
        (
            "vent.thinnest_wall",
            "wall against the thimble's thinnest",
            1.0,
        ),
        (
            "vent.thickest_wall",
            "wall against the thimble's thickest",
            -1.0,
        ),
    ] {
        let now = params.get(key).unwrap();
        let Value::Length(now) = *now.bare() else {
            panic!("{key}")
        };
        for (past, verdict) in [
            (MARK, Verdict::Fail),
            (Length::ZERO, Verdict::Tight),
            (-params.project.build_allowance, Verdict::Pass),
        ] {
            let model = design(&moved(&params, key, wall + past * outward - now));
            let found = finding(&model, "thickness of the wall", about);
            assert_eq!(found.verdict, verdict, "{key}, {past:?}");
        }
    }
}

/// Cables through the end studs of the side walls, in the middle of 3-1/2 in: 1-1/4 in of wood lets a bore of 1 in
/// pass without a plate.
#[test]
fn a_bore_near_an_edge_gets_its_nail_plates() {
    let through = |diameter: &str, out: &str, plates: &str| {
        let route = format!(r#"[["44 in", "{out} in", "20 in"], ["30 in", "{out} in", "20 in"]]"#);
        let diameter = format!("\"{diameter} in\"");
        design(&changed(
            "flat-with-cabinets",
            &[
                ("cables.diameter", &diameter),
                ("cables.route", &route),
                ("fasteners.nail_plates", plates),
                ("cabinets.sides", "\"right\""),
            ],
        ))
    };
    let bored = through("1", "11.5", "true");
    let studs: Vec<_> = chasewright::design::crossings(&bored.parts, bored.params.project.unit)
        .into_iter()
        .map(|(_, stud, it)| (stud.id.clone(), it.from_edge, it.width))
        .collect();
    assert!(!studs.is_empty(), "the cable crosses a stud");
    for (diameter, plates) in [("1/4", 0), ("1", 2)] {
        let model = through(diameter, "11.5", "true");
        let needed = nail_plates(&model);
        for plate in &needed {
            assert!(plate.wood < Length::inches(1.25), "{plate:?}");
        }
        let counted = takeoff(&model).fasteners.into_iter();
        let counted = counted.filter(|it| it.purpose == Purpose::OverBores);
        let counted: usize = counted.map(|it| it.count).sum();
        assert_eq!(counted, needed.len(), "{diameter}: {plates} {studs:?}");
        let without = of(&through(diameter, "11.5", "false"), "nail plates");
        assert_eq!(
            without.iter().any(|it| it.verdict == Verdict::Fail),
            !needed.is_empty(),
            "{without:#?}"
        );
    }
}

/// The shelf lies on its cleats; without one of them it is not carried.
#[test]
fn the_shelf_over_the_hot_top_lies_on_cleats() {
    let mut model = design(&demo(HOUSE));
    assert_eq!(of(&model, "held").len(), 0);
    // a hollow mantel has a cleat of its own
    let is_own = |id: &str| id.starts_with("cables/cleat/");
    let cleats = model.parts.iter().filter(|it| it.kind == Kind::Cleat);
    assert_eq!(cleats.filter(|it| is_own(&it.id)).count(), 2);
    let list = takeoff(&model).cut_list;
    let cut = list.iter().flat_map(|it| &it.parts).filter(|it| is_own(it));
    assert_eq!(cut.count(), 2);
    model.parts.retain(|it| it.id != "cables/cleat/1");
    let found = of(&model, "held");
    assert!(
        found.iter().any(|it| it.parts == ["cables/shelf/1"]),
        "{found:#?}"
    );
}

/// A pass that is raised into the plates of the wall that it goes through fails.
#[test]
fn a_pass_through_the_plates_of_the_wall_fails() {
    let low = changed(HOUSE, &[("ceiling.height", "\"100 in\"")]);
    let through = |params: &Params| {
        let findings = check(&design(params)).into_iter();
        let mut plates = findings.filter(|it| {
            it.verdict == Verdict::Fail && it.parts.iter().any(|it| it.contains("existing plate"))
        });
        plates.next().is_some()
    };
    assert!(!through(&low));
    let pass = design(&low).layout.pass.heights.high;
    // the plates are 3 in high, and the wall is as high as its ceiling
    let clear = params_with_ceiling(&low, pass + Length::inches(3.0) + MARK);
    let cut = params_with_ceiling(&low, pass + Length::inches(3.0) - MARK);
    assert!(through(&cut));
    // its framing still lies in the plates, since it is as high as they are apart from the hole
    assert!(through(&clear));
}

fn params_with_ceiling(params: &Params, height: Length) -> Params {
    moved(
        params,
        "ceiling.height",
        height - params.ceiling.height.unwrap(),
    )
}

/// A hand comes to the panel through the room: what stands before the panel is in its way.
#[test]
fn a_cabinet_before_the_panel_is_in_the_way_of_the_hand() {
    let beside = |gap: &str| {
        let params = changed(
            HOUSE,
            &[
                ("cabinets.sides", "\"left\""),
                ("cabinets.gap", gap),
                ("cabinets.width", "\"20 in\""),
                ("cabinets.depth", "\"14 in\""),
                ("cabinets.height", "\"34 in\""),
            ],
        );
        let found = of(&design(&params), "clearance").into_iter();
        let mut hand = found.filter(|it| it.subject.to_string().contains("hand"));
        hand.any(|it| it.verdict == Verdict::Fail && it.subject.to_string().contains("cabinet"))
    };
    assert!(beside("0"));
    assert!(!beside("\"12 in\""));
}
