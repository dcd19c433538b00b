//! Every rule at its limit: TIGHT exactly there, PASS at the build allowance, FAIL 1/64 in inside.

use std::collections::BTreeSet;

use chasewright::catalog::Material;
use chasewright::check::rules::RULES;
use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{
    Branch, ChaseFace, Clearance, ClearanceKind, Design, Group, Kind, Note, Part, Stage, Stock,
    design,
};
use chasewright::geom::{Body, CenterLine, Direction, Frame, Shape, Swept};
use chasewright::params::{Params, Value};
use chasewright::units::Length;
use glam::DVec3;

use crate::scenarios::demo;
use crate::support::{assert_near, changed};

/// 1/64 in.
pub(crate) const MARK: Length = Length::inches(1.0 / 64.0);

/// A finding whose margin one key moves: rule, start of what it is about, demo, key, and how much the
/// margin grows with the key.
type Lever = (&'static str, &'static str, &'static str, &'static str, f64);

const LEVERS: &[Lever] = &[
    (
        "fixed things",
        "face/mantel/1 beside the switch",
        "square-in-a-corner",
        "room.clear_beside",
        -1.0,
    ),
    (
        "mantel way in",
        "mantel's length",
        "square-in-a-corner",
        "room.way_in",
        1.0,
    ),
    (
        "unit in the chase",
        "gap",
        "rises-away-from-wall",
        "appliance.rear_clearance",
        -1.0,
    ),
    (
        "unit in the chase",
        "width",
        "wide studs",
        "appliance.side_clearance",
        -2.0,
    ),
    (
        "opening in the front",
        "left",
        "rises-away-from-wall",
        "appliance.side_clearance",
        -1.0,
    ),
    (
        "pipe behind the front",
        "back",
        "rises-away-from-wall",
        "vent.vertical_clearance",
        -1.0,
    ),
    (
        "pipe before the wall",
        "gap",
        "rises-away-from-wall",
        "vent.vertical_clearance",
        -1.0,
    ),
    (
        "vent rise",
        "rise",
        "rises-away-from-wall",
        "vent.rise",
        1.0,
    ),
    (
        "run under the ceiling",
        "ceiling",
        "rises-away-from-wall",
        "vent.rise",
        -1.0,
    ),
    (
        "joint in reach",
        "reach to",
        "rises-away-from-wall",
        "vent.hand_reach",
        1.0,
    ),
    (
        "pass in its bay",
        "clear",
        "rises-away-from-wall",
        "vent.side_clearance",
        -2.0,
    ),
    (
        "unit through the opening",
        "opening's height",
        "rises-away-from-wall",
        "appliance.standoff",
        -1.0,
    ),
    (
        "mantel rule",
        "mantel",
        "rises-away-from-wall",
        "mantel.underside",
        1.0,
    ),
    (
        "mantel rule",
        "mantel",
        "stepped-face",
        "mantel.underside",
        1.0,
    ),
    (
        "mantel on the framing",
        "mantel",
        "rises-away-from-wall",
        "mantel.underside",
        1.0,
    ),
    (
        "recess above the mantel",
        "recess",
        "rises-away-from-wall",
        "recess.sill",
        1.0,
    ),
    (
        "recess in the front",
        "wall",
        "rises-away-from-wall",
        "recess.width",
        -1.0,
    ),
    (
        "recess in the front",
        "left",
        "rises-away-from-wall",
        "recess.width",
        -0.5,
    ),
    (
        "recess under the ceiling",
        "ceiling",
        "rises-away-from-wall",
        "recess.sill",
        -1.0,
    ),
    (
        "recess and pipe",
        "recess framing",
        "rises-away-from-wall",
        "recess.depth",
        -1.0,
    ),
    (
        "recess and pipe",
        "recess's underside",
        "deep recess",
        "vent.top_clearance",
        -1.0,
    ),
    (
        "screen in the recess",
        "recess's width",
        "rises-away-from-wall",
        "screen.width",
        -1.0,
    ),
    (
        "screen in the recess",
        "recess's height",
        "rises-away-from-wall",
        "screen.height",
        -1.0,
    ),
    (
        "screen in the recess",
        "recess's depth",
        "rises-away-from-wall",
        "screen.thickness",
        -1.0,
    ),
    (
        "walkway",
        "clear walkway",
        "rises-away-from-wall",
        "room.walkway",
        -1.0,
    ),
    (
        "stud height",
        "longest",
        "flat-with-cabinets",
        "ceiling.height",
        -1.0,
    ),
    (
        "gas shutoff",
        "distance",
        "far shutoff",
        "gas.shutoff_right",
        -1.0,
    ),
    (
        "terminal",
        "cap's underside",
        "rises-away-from-wall",
        "outside.ground",
        -1.0,
    ),
    (
        "terminal",
        "cap to opening",
        "near window",
        "vent.cap_width",
        -0.5,
    ),
    (
        "vent limits",
        "run from",
        "rises-away-from-wall",
        "vent.longest_run",
        1.0,
    ),
    (
        "insulation",
        "insulation",
        "rises-away-from-wall",
        "appliance.insulation_distance",
        -1.0,
    ),
    (
        "cables",
        "cables to",
        "rises-away-from-wall",
        "cables.keep_out",
        -1.0,
    ),
    (
        "beside the opening",
        "legs",
        "flat-with-cabinets",
        "legs.distance",
        1.0,
    ),
    (
        "opposite wall",
        "the room's wall in front",
        "rises-away-from-wall",
        "appliance.front_clearance",
        -1.0,
    ),
    (
        "near side wall",
        "the room's wall to the left",
        "rises-away-from-wall",
        "appliance.side_wall",
        -1.0,
    ),
    (
        "hearth",
        "noncombustible floor, out",
        "rises-away-from-wall",
        "room.hearth_out",
        1.0,
    ),
    (
        "hearth",
        "noncombustible floor, beside",
        "rises-away-from-wall",
        "appliance.hearth_beside",
        -1.0,
    ),
    (
        "screen over the fire",
        "screen over",
        "rises-away-from-wall",
        "appliance.screen_above",
        -1.0,
    ),
    (
        "gas stub",
        "end of the gas stub",
        "rises-away-from-wall",
        "gas.stub_right",
        1.0,
    ),
    (
        "fireblocking",
        "longest horizontal run",
        "flat-with-cabinets",
        "chase.width",
        -1.0,
    ),
    (
        "unit header",
        "opening",
        "wide chase",
        "appliance.side_clearance",
        -2.0,
    ),
    (
        "recess header",
        "opening",
        "wide chase",
        "recess.width",
        -1.0,
    ),
    (
        "recess header",
        "from",
        "flat headers",
        "ceiling.height",
        -1.0,
    ),
    (
        "cables",
        "cables over",
        "rises-away-from-wall",
        "cables.shelf",
        -1.0,
    ),
    ("door swing", "left", "near hinge", "cabinets.door", -1.0),
    ("ceiling readings", "gap", "readings", "ceiling.gap", 1.0),
];

/// Limits of what nobody builds a little off: PASS exactly there, FAIL 1/64 in beyond.
const LIMITS: &[Lever] = &[
    (
        "veneer",
        "thickness",
        "thick stone",
        "skins.stone_thickness",
        -1.0,
    ),
    (
        "platform panel",
        "spacing",
        "rises-away-from-wall",
        "platform.span_rating",
        1.0,
    ),
    (
        "studs behind the finish",
        "spacing",
        "metric-mono-slope",
        "skins.board_spacing",
        1.0,
    ),
    (
        "stud height",
        "spacing",
        "flat-with-cabinets",
        "chase.stud_spacing",
        -1.0,
    ),
];

/// Rules that are tried in tests of their own, below and in `interference`, `support_of_sticks`
/// and `rules_of_sticks`.
const TRIED_APART: &[&str] = &[
    "mantel hold",
    "unit set forward",
    "stone on the sides",
    "visits",
    "agreement",
    "likely",
    "flange",
    "stock lengths",
    "pipe sections",
    "pipe joints",
    "run slope",
    "not told",
    "decided",
    "part in part",
    "clearance",
    "inside the room",
    "held",
    "stud spacing",
    "part without room",
    "lip against skin",
    "existing stud cut",
    "mantel ends",
    "pass angle",
    "rafter cut",
    "treated plate",
    "tilt-up",
    "ceiling slope",
    "screen height",
    "gas line",
    "gas pipe",
    "envelope",
    "attachment",
    "bores and notches",
    "blocking",
    "steel load",
    "board joint",
    "brackets",
    "plates",
    // in `rules_of_answers`
    "access for service",
    "carbon monoxide alarm",
    "finish material",
    "floor",
    "gas entry",
    "gas joints",
    "nail plates",
    "receptacles",
    "thickness of the wall",
    // in `gap_over_plates`
    "fireblocking at the ceiling",
    // in `crooked`
    "wall plumb",
    "corner square",
    "floor readings",
    // in `flush`
    "enclosure",
];

fn base(name: &str) -> Params {
    if name == "deep recess" {
        // too deep for the pipe to rise behind it
        let flat = demo("flat-with-cabinets");
        return moved(&flat, "recess.depth", Length::inches(2.0));
    }
    if name == "thick stone" {
        let stone = Value::Length(Length::inches(2.0));
        let plain = Params {
            recess: None,
            screen: None,
            ..demo("rises-away-from-wall")
        };
        let mortar = moved(&plain, "skins.lower_finish", Length::inches(3.0));
        return mortar.with("skins.stone_thickness", &stone).unwrap();
    }
    if name == "wide chase" {
        let flat = moved(
            &demo("flat-with-cabinets"),
            "chase.left",
            Length::inches(-30.0),
        );
        let wide = moved(&flat, "chase.width", Length::inches(40.0));
        return with_flat_headers(&wide);
    }
    if name == "flat headers" {
        return with_flat_headers(&demo("flat-with-cabinets"));
    }
    if name == "far shutoff" {
        let far = Value::Length(Length::inches(160.0));
        let demo = demo("rises-away-from-wall");
        let out = Value::Length(Length::inches(8.0));
        let demo = demo.with("gas.shutoff_out", &out).unwrap();
        return demo.with("gas.shutoff_right", &far).unwrap();
    }
    if name == "near window" {
        let window = r#"[["104 in", "36 in", "140 in", "80 in"]]"#;
        return changed("rises-away-from-wall", &[("outside.openings", window)]);
    }
    if name == "near hinge" {
        // cabinets as deep as the chase, their doors hung beside it
        let deep = moved(
            &demo("flat-with-cabinets"),
            "cabinets.depth",
            Length::inches(12.0),
        );
        return deep.with("cabinets.hinge", &Value::Choice("near")).unwrap();
    }
    if name != "wide studs" {
        return demo(name);
    }
    // 2x6 side walls stand closer than the opening with its end studs reaches
    let lumber = Value::Lumber(chasewright::catalog::lumber("2x6").unwrap().into());
    demo("rises-away-from-wall")
        .with("chase.stud", &lumber)
        .unwrap()
}

/// Over unit and recess one stick lying flat, and nothing but board on it.
fn with_flat_headers(params: &Params) -> Params {
    let flat = Value::Choice("flat");
    let changes = [
        ("front.header_form", flat.clone()),
        ("recess.header_form", flat),
        ("skins.lower_finish", Value::Length(Length::ZERO)),
    ];
    let with = |params: Params, (key, value): (&str, Value)| params.with(key, &value).unwrap();
    changes.into_iter().fold(params.clone(), with)
}

/// The parameters with a length moved; a number of the manual keeps its page.
pub(crate) fn moved(params: &Params, key: &str, by: Length) -> Params {
    let old = params.get(key).unwrap();
    let Value::Length(length) = *old.bare() else {
        panic!("{key} is no length")
    };
    let new = Value::Length(length + by);
    let new = match old {
        Value::Manual { page, .. } => Value::Manual {
            value: Box::new(new),
            page,
        },
        _ => new,
    };
    params
        .with(key, &new)
        .unwrap_or_else(|faults| panic!("{key} moved by {} in: {faults:?}", by.to_inches()))
}

pub(crate) fn finding(design: &Design, rule: &str, about: &str) -> Finding {
    let mut findings = check(design);
    findings.retain(|it| it.rule == rule && it.subject.to_string().starts_with(about));
    assert_eq!(findings.len(), 1, "{rule}, {about}: {findings:#?}");
    findings.remove(0)
}

pub(crate) fn margin(finding: &Finding) -> Length {
    Length::mm(finding.numbers.expect("numbers").margin)
}

#[test]
fn every_margin_is_judged_at_its_limit() {
    for (rule, about, name, key, gradient) in LEVERS {
        let params = base(name);
        let allowance = params.project.build_allowance;
        let now = margin(&finding(&design(&params), rule, about));
        for (target, verdict) in [
            (Length::ZERO, Verdict::Tight),
            (allowance - MARK, Verdict::Tight),
            (allowance, Verdict::Pass),
            (-MARK, Verdict::Fail),
        ] {
            let by = (target - now) / *gradient;
            let found = finding(&design(&moved(&params, key, by)), rule, about);
            let off = (margin(&found) - target).abs();
            assert!(!off.is_positive(), "{rule}, {about}: {:?}", found.numbers);
            assert_eq!(found.verdict, verdict, "{rule}, {about} at {target:?}");
            assert!(!found.source.is_empty() && found.location.is_some());
            assert!(!found.levers.is_empty(), "{rule}, {about}: nothing to move");
        }
    }
}

/// What a finding names can be looked up: a part or a clearance volume of the design.
#[test]
fn findings_name_what_is_there() {
    let demos = std::fs::read_dir("params").expect("the demos are there");
    for path in demos.map(|it| it.expect("a file").path()) {
        let text = std::fs::read_to_string(&path).expect("a demo");
        let model = design(&chasewright::params::read(&text).expect("a good demo"));
        let parts = model.parts.iter().map(|it| &it.id);
        let there: Vec<&String> = parts
            .chain(model.clearances.iter().map(|it| &it.id))
            .collect();
        for found in check(&model) {
            for name in &found.parts {
                assert!(there.contains(&name), "{path:?}, {}: {name}", found.rule);
            }
        }
    }
}

#[test]
fn limits_that_are_met_by_choice_hold_exactly() {
    for (rule, about, name, key, gradient) in LIMITS {
        let params = base(name);
        let now = margin(&finding(&design(&params), rule, about));
        for (target, verdict) in [(Length::ZERO, Verdict::Pass), (-MARK, Verdict::Fail)] {
            let changed = moved(&params, key, (target - now) / *gradient);
            let found = finding(&design(&changed), rule, about);
            let off = (margin(&found) - target).abs();
            assert!(!off.is_positive(), "{rule}, {about}: {:?}", found.numbers);
            assert_eq!(found.verdict, verdict, "{rule}, {about} at {target:?}");
        }
    }
}

/// A frame 104 in high and 3-1/2 deep with its top cut and plated to a ceiling that falls 3 in 12
/// toward the side it is raised from: √(104.875² + 3.5²) · √(1 + 1/16) − 104.25 = 3.914 in too high,
/// though it stands with 1/4 in to spare. Under a flat ceiling √(H² + t²) decides.
#[test]
fn a_wall_that_fits_standing_may_not_fit_standing_up() {
    let falls = demo("rises-away-from-wall")
        .with(
            "ceiling.rise_out",
            &Value::Slope(chasewright::units::Slope::ratio(-0.25)),
        )
        .and_then(|it| it.with("ceiling.height", &Value::Length(Length::inches(110.5))))
        .unwrap();
    let found = finding(&design(&falls), "tilt-up", "front: built in place");
    assert_eq!(found.verdict, Verdict::Pass, "that is a way to build it");
    let asked = falls
        .with("raising.front", &Value::Choice("tilt_up"))
        .unwrap();
    let found = finding(&design(&asked), "tilt-up", "front: room to tilt");
    let needed = (104.875_f64.powi(2) + 3.5_f64.powi(2)).sqrt() * (1.0_f64 + 0.0625).sqrt();
    assert_near(margin(&found).to_inches(), 104.25 - needed, 1e-9);
    assert_eq!(found.verdict, Verdict::Fail);
    let flat = demo("flat-with-cabinets");
    let found = finding(&design(&flat), "tilt-up", "front: room to tilt");
    let needed = (107.75_f64.powi(2) + 3.5_f64.powi(2)).sqrt();
    assert_near(margin(&found).to_inches(), 108.0 - needed, 1e-9);
    assert_eq!(found.verdict, Verdict::Tight);
    // with the gap that the corner needs and the allowance, it passes
    let gap = Length::inches(0.25 + 0.06);
    let found = finding(
        &design(&moved(&flat, "ceiling.gap", gap)),
        "tilt-up",
        "front: room to tilt",
    );
    assert_eq!(found.verdict, Verdict::Pass);
}

#[test]
fn wood_on_the_slab_is_treated_or_a_question() {
    let params = demo("stepped-face");
    let asked = |params: &Params| {
        let findings = check(&design(params));
        findings
            .iter()
            .filter(|it| it.rule == "treated plate")
            .count()
    };
    assert_eq!(asked(&params), 0);
    let panel = chasewright::params::Layer::Panel(Length::inches(0.75));
    let bare = params
        .with("platform.layers", &Value::Layers(vec![panel]))
        .unwrap();
    assert_eq!(asked(&bare), 1);
}

/// 15° (SMPTE 196M-2003) over an eye at 1063 mm (ANSUR II): the center of the screen at 79-1/2 in is
/// 956.3 mm up, so the seat has to be 3,569 mm away.
#[test]
fn a_screen_high_over_a_near_seat_is_a_question() {
    let verdict = |distance| {
        let seat = Value::Length(Length::mm(distance));
        let params = demo("flat-with-cabinets").with("screen.seat_distance", &seat);
        finding(&design(&params.unwrap()), "screen height", "angle").verdict
    };
    let distance = (79.5 * 25.4 - 1063.0) / libm::tan(15_f64.to_radians());
    assert_eq!(verdict(distance + 0.01), Verdict::Pass);
    assert_eq!(verdict(distance - 0.01), Verdict::Ask);
    let without = check(&design(&demo("flat-with-cabinets")));
    assert!(without.iter().all(|it| it.rule != "screen height"));
}

#[test]
fn every_rule_is_tried() {
    let tried: BTreeSet<&str> = LEVERS
        .iter()
        .chain(LIMITS)
        .map(|it| it.0)
        .chain(TRIED_APART.iter().copied())
        .collect();
    let listed: BTreeSet<&str> = RULES.iter().map(|it| it.name).collect();
    assert_eq!(tried, listed);
}

#[test]
fn every_lever_is_a_key_that_a_builder_may_move() {
    let keys: BTreeSet<&str> = chasewright::params::PARAMETERS
        .iter()
        .filter(|it| !it.needs_page)
        .map(|it| it.key)
        .collect();
    for name in ["rises-away-from-wall", "stepped-face", "flat-with-cabinets"] {
        for found in check(&design(&demo(name))) {
            for lever in found.levers {
                assert!(keys.contains(lever), "{}: {lever}", found.rule);
            }
        }
    }
}

/// A cube of 1 in that burns, `gap` away from a clearance volume in one of its own directions.
fn probe(clearance: &Clearance, direction: Direction, gap: Length) -> Part {
    let volume = &clearance.body;
    let (start, way, across) = match (direction, &volume.shape) {
        (Direction::Along(way), _) => {
            let far = volume.farthest(way).dot(way);
            let middle = volume.bounds.center();
            let axes = [volume.frame.x, volume.frame.y, volume.frame.z];
            let across = axes
                .into_iter()
                .find(|axis| axis.dot(way).abs() < 1e-9)
                .unwrap();
            (middle + way * (far - middle.dot(way)), way, across)
        }
        (Direction::Radial, Shape::Tube(tube)) => {
            let (center, along) = tube.center_line.at(0.5);
            // square to the plane of a bend, or anywhere beside a straight pipe
            let way = volume.frame.y;
            let center = volume.frame.point(center) + way * tube.outer;
            (center, way, volume.frame.vector(along))
        }
        (Direction::Radial, Shape::Swept(_)) => panic!("no radius"),
    };
    let inch = Length::inches(1.0);
    let side = way.cross(across);
    let corner = start + way * gap.to_mm() - (across + side) * (inch.to_mm() / 2.0);
    Part {
        id: "probe".to_owned(),
        kind: Kind::Board,
        group: Group::Skins,
        branch: Branch::Face(ChaseFace::Front),
        material: Material::DRYWALL,
        stock: Stock::Bought,
        stage: Stage::Board,
        body: Body::new(
            Swept::block(inch, inch, inch),
            Frame::new(corner, way, across),
        ),
        left_out: Default::default(),
    }
}

#[test]
fn every_clearance_is_judged_at_its_limit() {
    let mut kinds = BTreeSet::new();
    for name in ["reading-room", "flat-with-cabinets", "rises-away-from-wall"] {
        let mut model = design(&demo(name));
        let allowance = model.params.project.build_allowance;
        for clearance in model.clearances.clone() {
            for reach in &clearance.reaches {
                kinds.insert(clearance.kind);
                for (gap, verdict) in [
                    (Length::ZERO, Verdict::Tight),
                    (allowance - MARK, Verdict::Tight),
                    (allowance, Verdict::Pass),
                    (-MARK, Verdict::Fail),
                ] {
                    model.parts = vec![probe(&clearance, reach.direction, gap)];
                    model.clearances = vec![clearance.clone()];
                    let found = finding(&model, "clearance", "probe");
                    let where_ = format!("{name}: {}, {:?}", clearance.id, reach.direction);
                    let off = (margin(&found) - gap).abs();
                    assert!(off.to_mm() < 1e-4, "{where_}: {:?}", found.numbers);
                    assert_eq!(found.verdict, verdict, "{where_} at {gap:?}");
                    let required = Length::mm(found.numbers.unwrap().required);
                    assert!(!(required - reach.required).abs().is_positive(), "{where_}");
                    assert_eq!(found.source, reach.source, "{where_}");
                    let of_manual = clearance.kind != ClearanceKind::HandRoom;
                    assert_eq!(found.source.contains("manual p. "), of_manual, "{where_}");
                }
            }
        }
    }
    assert_eq!(
        kinds.len(),
        10,
        "all kinds but the picture of the mantel rule"
    );
}

#[test]
fn the_finish_meets_the_lip_or_a_question_is_asked() {
    let params = demo("rises-away-from-wall");
    let verdict = |by| {
        let model = design(&moved(&params, "skins.lower_finish", by));
        finding(&model, "lip against skin", "finish").verdict
    };
    assert_eq!(verdict(Length::ZERO), Verdict::Flush);
    assert_eq!(verdict(MARK), Verdict::Ask);
    assert_eq!(verdict(-MARK), Verdict::Ask);
}

#[test]
fn a_mantel_on_the_ledge_is_flush_and_one_below_it_fails() {
    let params = demo("stepped-face");
    let verdict = |by| {
        let model = design(&moved(&params, "mantel.underside", by));
        finding(&model, "mantel on the framing", "mantel").verdict
    };
    assert_eq!(verdict(Length::ZERO), Verdict::Flush);
    assert_eq!(verdict(-MARK), Verdict::Fail);
    assert_eq!(verdict(MARK), Verdict::Tight);
    // farther up it lies on nothing
    let allowance = params.project.build_allowance;
    assert_eq!(verdict(allowance - MARK), Verdict::Tight);
    assert_eq!(verdict(allowance), Verdict::Ask);
    let held = params.with("mantel.held_by", &Value::Choice("cleat"));
    // boards of 3/4 in leave 1-1/2 in for the cleat
    let held = held.unwrap();
    let model = design(&moved(&held, "mantel.underside", allowance));
    let found = finding(&model, "mantel on the framing", "mantel");
    assert_eq!(found.verdict, Verdict::Pass);
}

#[test]
fn a_projection_past_the_table_fails_and_none_is_not_judged() {
    let params = demo("stepped-face");
    // the table ends at 12 in; the demo projects 3
    let last = moved(&params, "mantel.projection", Length::inches(9.0));
    let found = finding(&design(&last), "mantel rule", "mantel's underside");
    assert_near(found.numbers.unwrap().required, (30.0 + 20.0) * 25.4, 1e-9);
    let past = moved(&last, "mantel.projection", MARK);
    let found = finding(&design(&past), "mantel rule", "mantel's projection");
    assert_eq!(found.verdict, Verdict::Fail);
    assert!(!(margin(&found) + MARK).abs().is_positive());
    let none = moved(&params, "mantel.projection", Length::inches(-3.0));
    assert!(
        check(&design(&none))
            .iter()
            .all(|it| it.rule != "mantel rule")
    );
}

#[test]
fn steps_hold_up_to_their_projection_and_no_farther() {
    let params = demo("stepped-face");
    let required = |by| {
        let model = design(&moved(&params, "mantel.projection", by));
        let found = finding(&model, "mantel rule", "mantel's underside");
        Length::mm(found.numbers.unwrap().required).to_inches()
    };
    // 3 + 27 over the slab; the rows of 3 and 6 in
    assert!((required(Length::ZERO) - 39.0).abs() < 1e-9);
    assert!((required(MARK) - 42.5).abs() < 1e-9);
}

#[test]
fn a_mantel_that_does_not_burn_is_a_question() {
    let params = demo("stepped-face");
    let stone = params
        .with("mantel.combustible", &Value::Flag(false))
        .unwrap();
    let found = finding(&design(&stone), "mantel rule", "mantel");
    assert_eq!(found.verdict, Verdict::Ask);
    assert!(found.question.is_some());
}

#[test]
fn a_stud_in_the_hole_is_a_question_until_the_hole_is_beside_it() {
    let params = demo("stepped-face");
    let questions = |by| {
        let model = design(&moved(&params, "wall.first_stud", by));
        let findings = check(&model);
        let cut = findings.iter().filter(|it| it.rule == "existing stud cut");
        cut.map(|it| (it.verdict, it.question.is_some()))
            .collect::<Vec<_>>()
    };
    // hole 78 ± 4-1/4; studs at 6 + 16·k, so 70 and 86: the stud's face meets the hole's edge at 3 in
    let touching = Length::inches(78.0 - 4.25 - 0.75 - 70.0);
    assert_eq!(questions(touching), []);
    assert_eq!(questions(touching + MARK), [(Verdict::Ask, true)]);
}

#[test]
fn a_part_through_the_wall_fails_and_one_against_it_does_not() {
    let mut model = design(&demo("stepped-face"));
    model.clearances.clear();
    let mut board = probe_at(DVec3::new(300.0, -25.4, 300.0));
    let fails = |model: &Design| {
        let findings = check(model);
        let out = findings.iter().filter(|it| it.rule == "inside the room");
        out.map(|it| it.verdict).collect::<Vec<_>>()
    };
    model.parts = vec![board.clone()];
    assert_eq!(fails(&model), []);
    board.body = board.body.moved(DVec3::Y * MARK.to_mm());
    model.parts = vec![board];
    assert_eq!(fails(&model), [Verdict::Fail]);
}

#[test]
fn parts_that_touch_share_nothing_and_1_64_in_is_too_much() {
    let mut model = design(&demo("stepped-face"));
    model.clearances.clear();
    let one = probe_at(DVec3::new(300.0, -500.0, 300.0));
    let mut other = probe_at(DVec3::new(325.4, -500.0, 300.0));
    "other".clone_into(&mut other.id);
    let fails = |model: &Design| {
        let findings = check(model);
        let found = findings.iter().filter(|it| it.rule == "part in part");
        found.map(|it| -margin(it)).collect::<Vec<_>>()
    };
    model.parts = vec![one.clone(), other.clone()];
    assert_eq!(fails(&model), []);
    other.body = other.body.moved(DVec3::NEG_X * MARK.to_mm());
    model.parts = vec![one, other];
    let depths = fails(&model);
    assert_eq!(depths.len(), 1);
    assert!(!(depths[0] - MARK).abs().is_positive(), "{depths:?}");
}

fn probe_at(corner: DVec3) -> Part {
    let inch = Length::inches(1.0);
    let model = design(&demo("stepped-face"));
    let mut part = model.parts[0].clone();
    "probe".clone_into(&mut part.id);
    part.kind = Kind::Board;
    part.group = Group::Skins;
    part.body = Body::new(Swept::block(inch, inch, inch), Frame::at(corner));
    part
}

#[test]
fn what_was_left_out_fails() {
    let mut model = design(&demo("stepped-face"));
    assert!(
        check(&model)
            .iter()
            .all(|it| it.rule != "part without room")
    );
    model.notes.push(Note::LeftOut {
        id: "front/cripple/9".to_owned(),
        why: "there is no room".to_owned(),
    });
    let found = finding(&model, "part without room", "front/cripple/9");
    assert_eq!(found.verdict, Verdict::Fail);
}

/// Growing a clearance of the manual never turns a FAIL into a PASS.
#[test]
fn a_larger_clearance_never_clears_a_failure() {
    for name in ["reading-room", "rises-away-from-wall"] {
        let params = demo(name);
        for parameter in chasewright::params::PARAMETERS {
            let clearance = parameter.needs_page && parameter.key.ends_with("_clearance");
            if !clearance {
                continue;
            }
            let mut failed = 0;
            for step in 0..6 {
                let by = Length::inches(f64::from(step) * 0.75);
                // a number that may be left out
                let Some(old) = params.get(parameter.key) else {
                    break;
                };
                let Value::Length(length) = *old.bare() else {
                    panic!()
                };
                let Value::Manual { page, .. } = old else {
                    panic!()
                };
                let value = Box::new(Value::Length(length + by));
                let Ok(grown) = params.with(parameter.key, &Value::Manual { value, page }) else {
                    break;
                };
                let now = check(&design(&grown))
                    .iter()
                    .filter(|it| it.verdict == Verdict::Fail && it.source.contains("manual"))
                    .map(|it| it.rule)
                    .collect::<BTreeSet<_>>()
                    .len();
                assert!(now >= failed, "{name}: {} grown by {by:?}", parameter.key);
                failed = now;
            }
        }
    }
}

#[test]
fn a_bend_is_not_a_straight_pipe() {
    let model = design(&demo("reading-room"));
    let bends = model.clearances.iter().filter(|it| match &it.body.shape {
        Shape::Tube(tube) => matches!(tube.center_line, CenterLine::Arc { .. }),
        Shape::Swept(_) => false,
    });
    assert_eq!(bends.count(), 1);
}

/// A chase in the room's corner has no skin on the hidden side, reaches into no wall, and asks the
/// manual's table for the side wall; 1/64 in away from the wall the side stands free again.
#[test]
fn a_chase_in_the_corner_is_sound_and_asks_for_the_side_wall() {
    for name in ["reading-room", "rises-away-from-wall"] {
        // what stands at places of its own does not move with the chase
        let params = Params {
            gas: None,
            cables: None,
            outside: None,
            ..demo(name)
        };
        let corners = [Length::ZERO, params.room.width - params.chase.width];
        for (left, face) in corners.into_iter().zip(["left face/", "right face/"]) {
            let there = moved(&params, "chase.left", left - params.site().chase.low);
            let model = design(&there);
            assert!(
                !model.parts.iter().any(|it| it.id.starts_with(face)),
                "{name}"
            );
            let findings = check(&model);
            let failed = findings.iter().filter(|it| it.verdict == Verdict::Fail);
            let failed: Vec<_> = failed.map(|it| it.subject.to_string()).collect();
            assert!(failed.is_empty(), "{name}, {face}: {failed:#?}");
            assert!(findings.iter().any(|it| it.rule == "near side wall"));
            // its sheets come to an end too
            assert!(!chasewright::takeoff::takeoff(&model).cut_list.is_empty());
        }
        let free = check(&design(&params));
        let beside = free.iter().filter(|it| it.rule == "near side wall");
        assert!(beside.into_iter().all(|it| it.verdict == Verdict::Pass));
    }
}
