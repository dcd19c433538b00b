//! What holds the mantel, furring under a unit that is set forward, stone on the sides, visits, screws as they are sold,
//! and what is measured as it was built. Bites and lengths are computed by hand beside each check.

use std::collections::BTreeSet;

use chasewright::check::{Verdict, check, interference, unheld};
use chasewright::design::{Branch, Design, Hold, Kind, Stage, Step, design, mantel_fixings, order};
use chasewright::params::Params;
use chasewright::takeoff::{Measured, Section, takeoff};
use chasewright::units::Length;

use crate::generate::random_params;
use crate::rules::{MARK, finding, margin};
use crate::scenarios::demo;
use crate::support::{assert_near, changed, demos, seeds};

/// So many of an item in the buy list.
fn bought(design: &Design, item: &str) -> usize {
    let lines = takeoff(design).buy.into_iter();
    lines.filter(|it| it.item == item).map(|it| it.count).sum()
}

fn verdict(params: &Params, rule: &str, about: &str) -> Verdict {
    finding(&design(params), rule, about).verdict
}

fn inches(value: Length) -> String {
    format!("\"{:.6} in\"", value.to_inches())
}

#[test]
fn what_holds_the_mantel_is_asked() {
    let untold = demo("stepped-face").without("mantel.held_by").unwrap();
    let found = finding(&design(&untold), "mantel hold", "what holds");
    assert_eq!(found.verdict, Verdict::Ask);
    assert_eq!(found.answered_by, ["mantel.held_by"]);
}

/// A mantel of 3 in whose screws are sunk 1 in: they pass 2 in, and bite 1-1/2 in into a ledge that is 1-1/2 in thick
/// on a header: 3-1/2 in, which is sold.
#[test]
fn screws_down_into_the_ledge_are_as_long_as_by_hand() {
    let model = design(&demo("stepped-face"));
    let fixings = mantel_fixings(&model);
    assert!(fixings.len() > 2);
    for it in &fixings {
        assert_near(it.passed.to_inches(), 2.0, 1e-6);
        assert_near(it.screw().to_inches(), 3.5, 1e-6);
        assert_near(it.bite().to_inches(), 1.5, 1e-6);
    }
    assert_eq!(bought(&model, "wood plugs, 1/2\""), fixings.len());
    assert!(bought(&model, "3-1/2\" wood screws") >= fixings.len());
}

/// The longest wood screw that is sold has 12 in: with 1-1/2 in in the wood it passes 10-1/2 in.
#[test]
fn a_mantel_too_thick_for_any_screw_fails() {
    let thick = |thickness: Length| {
        let changes = [("mantel.thickness", &*inches(thickness))];
        let params = changed("stepped-face", &changes);
        finding(&design(&params), "mantel hold", "bite")
    };
    let limit = Length::inches(11.5);
    assert_eq!(thick(limit).verdict, Verdict::Pass);
    let past = thick(limit + MARK);
    assert_eq!(past.verdict, Verdict::Fail);
    assert!(!(margin(&past) + MARK).abs().is_positive());
}

/// A cleat of 1-1/2 in, finish and board of 1/2 in each and 1-1/2 in of bite make 4 in.
#[test]
fn screws_of_a_cleat_are_as_long_as_by_hand() {
    let model = design(&demo("flat-with-cabinets"));
    let fixings = mantel_fixings(&model);
    assert!(fixings.len() > 2);
    for it in &fixings {
        assert_near(it.passed.to_inches(), 2.5, 1e-6);
        assert_near(it.screw().to_inches(), 4.0, 1e-6);
        assert!(it.bite().to_inches() > 1.5 - 1e-6);
    }
    assert!(bought(&model, "4\" wood screws") >= fixings.len());
    // once in the cut list, once in the model
    let list = takeoff(&model).cut_list;
    let parts = list.iter().flat_map(|it| &it.parts);
    let cleats: Vec<&String> = parts.filter(|it| it.starts_with("mantel/cleat")).collect();
    assert_eq!(cleats, ["mantel/cleat/1"]);
    let end = |it: &&chasewright::design::Part| it.kind == Kind::MantelEnd;
    assert_eq!(model.parts.iter().filter(end).count(), 2);
}

/// A ledge of 5-1/2 in, the screw 3/4 in behind its edge, board of 1/2 in: a finish of 3 in on the wall above leaves
/// 1-1/4 in beside the middle of a driver.
#[test]
fn a_driver_needs_room_beside_the_wall_above() {
    let with = |finish: Length| {
        let changes = [
            ("skins.upper_finish", &*inches(finish)),
            ("recess.depth", r#""5 in""#),
        ];
        let params = changed("stepped-face", &changes);
        verdict(&params, "mantel hold", "room for a driver")
    };
    let limit = Length::inches(3.0);
    assert_eq!(with(limit), Verdict::Tight);
    assert_eq!(with(limit + MARK), Verdict::Fail);
    assert_eq!(with(limit - Length::inches(0.25)), Verdict::Pass);
}

/// The cleat burns, and is judged by its own projection: 1-1/2 in needs less than the mantel.
#[test]
fn a_cleat_is_judged_by_the_mantel_rule() {
    let rule = |height: Length| {
        let steps = format!(
            "{{ steps = [[\"1-1/2 in\", \"{:.6} in\"], [\"12 in\", \"30 in\"]], page = \"12\" }}",
            height.to_inches()
        );
        changed("flat-with-cabinets", &[("mantel.rule", &steps)])
    };
    let loose = design(&rule(Length::inches(1.0)));
    let found = finding(&loose, "mantel rule", "cleat");
    let free = margin(&found) + Length::inches(1.0);
    assert_eq!(verdict(&rule(free), "mantel rule", "cleat"), Verdict::Tight);
    assert_eq!(
        verdict(&rule(free + MARK), "mantel rule", "cleat"),
        Verdict::Fail
    );
    let stone = changed("flat-with-cabinets", &[("mantel.combustible", "false")]);
    let found = finding(&design(&stone), "mantel rule", "cleat");
    assert_ne!(found.verdict, Verdict::Ask);
}

/// Bars lie on studs, through board and finish, and screws go into 1-1/2 in of stud.
#[test]
fn brackets_lie_on_studs_and_go_through_the_face() {
    let model = design(&demo("crooked-room"));
    let bars: Vec<_> = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Bracket)
        .collect();
    assert!(bars.len() > 1, "{}", bars.len());
    assert!(bars.iter().all(|it| it.stage == Stage::MantelBrackets));
    let fixings = mantel_fixings(&model);
    assert_eq!(fixings.len(), 2 * bars.len());
    for it in &fixings {
        // a bar of 1/4 in and 1-1/2 in of stud: 1-3/4 in
        assert_near(it.passed.to_inches(), 0.25, 1e-6);
        assert_near(it.screw().to_inches(), 1.75, 1e-6);
    }
    let item = "mantel bracket of steel, drilled, with a tab";
    assert_eq!(bought(&model, item), bars.len());
}

#[test]
fn steel_in_the_facing_zone_is_the_manuals_to_allow() {
    let with = |answer: &str| {
        let zone = (
            "appliance.facing_zone_top",
            r#"{ value = "40 in", page = "9" }"#,
        );
        let answer = format!("{{ value = \"{answer}\", page = \"9\" }}");
        changed("crooked-room", &[zone, ("mantel.steel_in_zone", &answer)])
    };
    let about = "mantel brackets in the facing zone";
    assert_eq!(verdict(&with("yes"), "mantel hold", about), Verdict::Pass);
    assert_eq!(verdict(&with("no"), "mantel hold", about), Verdict::Fail);
    let untold = with("yes").without("mantel.steel_in_zone").unwrap();
    let found = finding(&design(&untold), "mantel hold", about);
    assert_eq!(found.answered_by, ["mantel.steel_in_zone"]);
}

#[test]
fn screws_farther_apart_than_asked_fail() {
    let model = design(&demo("crooked-room"));
    let found = finding(&model, "mantel hold", "longest stretch");
    let measured = Length::mm(found.numbers.unwrap().measured);
    let with = |spacing: Length| {
        let changes = [("mantel.hold_spacing", &*inches(spacing))];
        finding(
            &design(&changed("crooked-room", &changes)),
            "mantel hold",
            "longest stretch",
        )
    };
    // studs stand where they stand: closer than these no brackets are
    let closest = with(Length::inches(2.0));
    assert_eq!(closest.verdict, Verdict::Fail);
    assert_eq!(with(measured).verdict, Verdict::Pass);
}

/// Whatever holds the mantel, nothing of it lies in anything else, and it is held.
#[test]
fn what_holds_the_mantel_lies_in_nothing() {
    let own = |it: &str| it.starts_with("mantel/bracket") || it.starts_with("mantel/cleat");
    let mut seen = 0;
    let mut look = |name: &str, model: &Design| {
        for clash in interference(model) {
            let pair = [&clash.first, &clash.second];
            assert!(
                !(pair.iter().any(|it| it.starts_with("mantel/bracket"))),
                "{name}: {pair:?}"
            );
        }
        let hangs = unheld(model).into_iter().filter(|it| own(&it.part));
        let hangs: Vec<_> = hangs.collect();
        assert!(hangs.is_empty(), "{name}: {hangs:?}");
        seen += model.parts.iter().filter(|it| own(&it.id)).count();
    };
    for (name, params) in demos() {
        look(&name, &design(&params));
    }
    for seed in seeds(0..60) {
        look(&seed.to_string(), &design(&random_params(seed)));
    }
    assert!(seen > 20, "{seen}");
}

/// Three strips of cement board, cut once, with the board cut round them.
#[test]
fn a_unit_set_forward_gets_furring() {
    let forward = |by: &str| {
        let most = r#"{ value = "1/2 in", page = "9" }"#;
        changed(
            "reading-room",
            &[
                ("appliance.face_offset", by),
                ("appliance.most_forward", most),
            ],
        )
    };
    let model = design(&forward(r#""1/2 in""#));
    let strips: Vec<_> = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Furring)
        .collect();
    assert_eq!(strips.len(), 3);
    assert!(strips.iter().all(|it| !it.material.combustible));
    let own = |it: &str| it.contains("/furring/");
    for clash in interference(&model) {
        assert!(!own(&clash.first) && !own(&clash.second), "{clash:?}");
    }
    let hangs = unheld(&model).into_iter().filter(|it| own(&it.part));
    assert_eq!(hangs.count(), 0);
    let taken = takeoff(&model);
    let pieces = taken.sheets.iter().flat_map(|it| &it.pieces);
    let cut: BTreeSet<&str> = pieces.map(|it| &*it.part).filter(|it| own(it)).collect();
    assert_eq!(cut.len(), 3);
    assert!(design(&demo("reading-room")).first(Kind::Furring).is_none());
    let about = "unit's face before the stud face";
    assert_eq!(
        verdict(&forward(r#""1/2 in""#), "unit set forward", about),
        Verdict::Pass
    );
    assert_eq!(
        verdict(&forward(r#""33/64 in""#), "unit set forward", about),
        Verdict::Fail
    );
    let untold = forward(r#""1/2 in""#)
        .without("appliance.most_forward")
        .unwrap();
    let found = finding(&design(&untold), "unit set forward", about);
    assert_eq!(found.answered_by, ["appliance.most_forward"]);
}

#[test]
fn stone_on_the_sides_is_asked_about() {
    let with = |answer: &str| {
        let answer = format!("{{ value = \"{answer}\", page = \"3\" }}");
        let stone = ("skins.side_material", r#""stone""#);
        changed("stepped-face", &[stone, ("skins.side_on_gypsum", &answer)])
    };
    let rule = "stone on the sides";
    assert_eq!(verdict(&with("yes"), rule, "sides"), Verdict::Pass);
    assert_eq!(verdict(&with("no"), rule, "sides"), Verdict::Fail);
    let plain = check(&design(&demo("stepped-face")));
    assert!(plain.iter().all(|it| it.rule != rule));
}

/// What is opened, built and looked at comes in the order of the trade, and the inspector may have it otherwise.
#[test]
fn the_order_of_the_job_waits_for_its_visits() {
    let model = design(&demo("reading-room"));
    let steps = order(&model);
    let at = |step: Step| steps.iter().position(|it| *it == step).expect("a step");
    let stage = |stage: Stage| at(Step::Stage(stage));
    let hold = |hold: Hold| at(Step::Hold(hold));
    let rising = [
        at(Step::Search),
        stage(Stage::WallPass),
        stage(Stage::Thimble),
        stage(Stage::SealedWall),
        stage(Stage::RoomBlocks),
        stage(Stage::Walls),
        stage(Stage::Fireblocks),
        stage(Stage::Gas),
        hold(Hold::GasTest),
        stage(Stage::Wiring),
        stage(Stage::Unit),
        stage(Stage::Vent),
        hold(Hold::VentInspection),
        hold(Hold::FramingInspection),
        stage(Stage::Board),
        stage(Stage::Finish),
        stage(Stage::Mantel),
        stage(Stage::Screen),
        at(Step::FirstFire),
    ];
    assert!(rising.is_sorted(), "{rising:?}");
    // every part is built at a step of the order
    for (name, params) in demos() {
        let model = design(&params);
        let steps = order(&model);
        for part in &model.parts {
            let known = part.stage == Stage::Existing || steps.contains(&Step::Stage(part.stage));
            assert!(known, "{name}: {}", part.id);
        }
    }
    let early = changed("reading-room", &[("visits.framing", r#""unit""#)]);
    let steps = order(&design(&early));
    let at = |step: Step| steps.iter().position(|it| *it == step).expect("a step");
    assert_eq!(
        at(Step::Hold(Hold::FramingInspection)) + 1,
        at(Step::Stage(Stage::Unit))
    );
    // then the vent is looked at after the framing
    assert_eq!(verdict(&early, "visits", "order of visits"), Verdict::Ask);
    let usual = check(&design(&demo("reading-room")));
    assert!(usual.iter().all(|it| it.rule != "visits"));
}

/// Board of 1/2 in and a bite of 1 in want 1-1/2 in; the next that is sold of either kind is 1-5/8 in.
#[test]
fn cement_and_gypsum_board_have_screws_of_their_own() {
    let model = design(&demo("stepped-face"));
    assert!(bought(&model, "1-5/8\" gypsum board screws") > 100);
    assert!(bought(&model, "1-5/8\" cement board screws") > 10);
    // of 5/8 in and 1-3/8 in of bite 2 in are sold
    let thicker = changed(
        "stepped-face",
        &[
            ("skins.board", r#""5/8 in""#),
            ("fasteners.screw_bite", r#""1-3/8 in""#),
        ],
    );
    assert!(bought(&design(&thicker), "2\" gypsum board screws") > 100);
    // longer than any
    let long = changed("stepped-face", &[("fasteners.screw_bite", r#""5 in""#)]);
    let lines = takeoff(&design(&long)).buy;
    assert!(
        lines
            .iter()
            .any(|it| it.item.contains("which no yard keeps"))
    );
}

/// Gypsum board is taped, filled and beaded; a line of each, by feet and gallons or by meters and liters.
#[test]
fn what_finishes_gypsum_board_is_bought() {
    for (name, metric) in [("stepped-face", false), ("metric-mono-slope", true)] {
        let model = design(&demo(name));
        let [tape, bead, compound] = if metric {
            [
                "paper tape for gypsum board, meters",
                "corner bead for gypsum board, meters",
                "joint compound, liters",
            ]
        } else {
            [
                "paper tape for gypsum board, feet",
                "corner bead for gypsum board, feet",
                "joint compound, gallons",
            ]
        };
        // where stone or tile covers the corners they need no bead
        let items = if metric {
            vec![tape, compound]
        } else {
            vec![tape, bead, compound]
        };
        for item in items {
            assert!(bought(&model, item) > 0, "{name}: {item}");
        }
    }
    // the recess of 56 by 34 in has 15 ft of edges, and the sides of the chase stand from ledge to ceiling
    let model = design(&demo("stepped-face"));
    let feet = bought(&model, "corner bead for gypsum board, feet");
    assert!(feet >= 15 + 8, "{feet}");
}

/// The shelf over the hot top is cut from a sheet, and not bought again.
#[test]
fn the_shelf_is_bought_once() {
    let model = design(&demo("rises-away-from-wall"));
    assert!(model.first(Kind::CableShelf).is_some());
    let taken = takeoff(&model);
    assert!(taken.buy.iter().all(|it| !it.item.contains("shelf")));
    let pieces = taken.sheets.iter().flat_map(|it| &it.pieces);
    assert_eq!(pieces.filter(|it| it.part == "cables/shelf/1").count(), 1);
    let cleats = model.parts.iter();
    let cleats = cleats.filter(|it| it.kind == Kind::Cleat && it.is_of(Branch::Cables));
    assert_eq!(cleats.count(), 2);
}

/// Packing of a header alone does not take a whole sheet.
#[test]
fn two_spacers_take_no_whole_sheet() {
    let mut seen = 0;
    for (name, params) in demos() {
        let model = design(&params);
        let taken = takeoff(&model);
        for plan in &taken.sheets {
            let spacer = |id: &str| id.contains("/header spacer/");
            if !plan.pieces.iter().all(|it| spacer(&it.part)) || !params.stock.sheets.is_empty() {
                continue;
            }
            seen += 1;
            let area = plan.sheet.width.to_inches() * plan.sheet.length.to_inches();
            assert!(area < 48.0 * 96.0, "{name}: {:?}", plan.sheet);
            let name = plan.sheet.name(params.project.unit);
            let lines = taken.buy.iter();
            let own = lines.filter(|it| it.section == Section::Sheets && it.item == name);
            assert_eq!(own.count(), 1);
        }
    }
    assert!(seen > 0);
}

#[test]
fn every_blank_has_a_name_of_its_own() {
    let names: BTreeSet<&str> = Measured::ALL.iter().map(|it| it.name()).collect();
    assert_eq!(names.len(), Measured::ALL.len());
    let is_plain = |it: &str| it.chars().all(|it| it.is_ascii_lowercase() || it == '_');
    assert!(names.iter().all(|it| is_plain(it)));
    assert!(names.contains("rough_opening_width"));
    let model = design(&demo("reading-room"));
    let blanks = takeoff(&model).as_built;
    let planned = |measured| {
        let blank = blanks.iter().find(|it| it.measured == measured).unwrap();
        blank.planned.unwrap()
    };
    let unit = &model.params.appliance;
    let both = planned(Measured::GapBesideLeft) + planned(Measured::GapBesideRight);
    // the opening is the body and the two gaps beside it
    assert_near(
        planned(Measured::RoughOpeningWidth).to_mm(),
        (unit.body_width + both).to_mm(),
        1e-6,
    );
    let above = planned(Measured::GapAbove);
    assert_near(
        planned(Measured::RoughOpeningHeight).to_mm(),
        (unit.body_height + above).to_mm(),
        1e-6,
    );
    assert!(planned(Measured::PipeToWood).is_positive());
}
