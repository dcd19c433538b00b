//! A chase set into a wall of the room. The hand computations stand in the tests.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, Kind, Part, Stock, design};
use chasewright::params::{Params, RoomWall, Value, read};
use chasewright::takeoff::takeoff;
use glam::DVec3;

use crate::scenarios::demo;
use crate::support::assert_near;

const FLUSH: &str = include_str!("../../params/flush-in-a-wall.toml");
/// The lines of the demo that say what lies behind, and those of a closet before an outside wall.
const OUTDOORS: &str =
    "space = \"outdoors\"\nlining = \"1/2 in\"\ncover = \"1 in\"\nwall_plates = 2\n";
const CLOSET: &str = "space = \"indoors\"\ncover = \"1/2 in\"\n\n[far_wall]\nfirst_stud = \"6 in\"\nsheathing = \"3/4 in\"\n";

/// The demo with these changes; nothing is said of the ceiling behind but what they say.
fn with(changes: &[(&str, &str)]) -> String {
    let silent = FLUSH.replace("ceiling_runs_on = true      # under the same eave\n", "");
    changes.iter().fold(silent, |text, (old, new)| {
        assert!(text.contains(old), "{old}");
        text.replacen(old, new, 1)
    })
}

fn flush(changes: &[(&str, &str)]) -> Params {
    read(&with(changes)).expect("the demo with good changes is good")
}

fn part<'a>(design: &'a Design, id: &str) -> &'a Part {
    let found = design.parts.iter().find(|part| part.id == id);
    found.unwrap_or_else(|| panic!("no part {id}"))
}

/// Low and high end along an axis, in inches.
fn ends(part: &Part, axis: DVec3) -> (f64, f64) {
    let [low, high] = [part.body.bounds.low, part.body.bounds.high].map(|it| it.dot(axis) / 25.4);
    (low, high)
}

fn assert_ends(part: &Part, axis: DVec3, low: f64, high: f64) {
    let found = ends(part, axis);
    assert_near(found.0, low, 1e-6);
    assert_near(found.1, high, 1e-6);
}

fn count(design: &Design, start: &str) -> usize {
    design
        .parts
        .iter()
        .filter(|it| it.id.starts_with(start))
        .count()
}

fn finding<'a>(findings: &'a [Finding], rule: &str, about: &str) -> &'a Finding {
    let found = findings
        .iter()
        .find(|it| it.rule == rule && it.subject.to_string().contains(about));
    found.unwrap_or_else(|| panic!("no finding of {rule}: {about}"))
}

fn failing(design: &Design) -> Vec<String> {
    let failing = check(design)
        .into_iter()
        .filter(|it| it.verdict == Verdict::Fail);
    failing
        .map(|it| format!("{}: {}", it.rule, it.subject))
        .collect()
}

/// The unit is 38 wide about 70, with 1 in to either side and 1/2 in of ease: the opening goes from 49-3/4 to
/// 90-1/4. Its header lies on 5-1/2 + 3/4 + 31 + 4 + 1/4 = 41-1/2 and is 7-1/4 high, so its top is at 48-3/4.
/// - The wall's studs stand at 13 + 16 n: 61 and 77 lie within the header's 48-1/4 to 91-3/4 and are cut; 93 is
///   in the way of the king from 91-3/4 to 93-1/4 and is taken out; 45, up to 45-3/4, clears the other, from 46-3/4.
/// - Between the old plates, 97 − 3 × 1-1/2, kings are 92-1/2 long; what is left of a cut stud is 94 − 48-3/4.
/// - The old board ends at 40 and 100, and a new stud stands behind either joint, 39-1/4 to 40-3/4.
#[test]
fn the_wall_of_the_room_is_opened_for_the_unit() {
    let design = design(&flush(&[]));
    let opened = design.layout.opened.as_ref().expect("a wall is opened");
    let inches = |centers: &[chasewright::units::Length]| -> Vec<f64> {
        centers
            .iter()
            .map(|it| (it.to_inches() * 1e6).round() / 1e6)
            .collect()
    };
    assert_eq!(inches(&opened.cut), [61.0, 77.0]);
    assert_eq!(inches(&opened.taken_out), [93.0]);
    assert_eq!(
        inches(&opened.kept),
        [13.0, 29.0, 45.0, 109.0, 125.0, 141.0, 157.0, 173.0]
    );
    assert_eq!(inches(&opened.added), [40.0, 100.0]);
    assert_eq!(count(&design, "opened wall/existing stud/"), 10);

    let header = part(&design, "opened wall/header/1");
    assert_ends(header, DVec3::X, 48.25, 91.75);
    assert_ends(header, DVec3::Z, 41.5, 48.75);
    let king = part(&design, "opened wall/king/1");
    assert_ends(king, DVec3::Z, 1.5, 94.0);
    assert_ends(king, DVec3::X, 46.75, 48.25);
    // in the plane of the wall's own studs: 26 out to the stud face, 2x6 behind it
    assert_ends(king, DVec3::Y, -26.0, -20.5);
    let cut = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::ExistingStud && it.body.bounds.low.z > 100.0);
    let cut: Vec<&Part> = cut.collect();
    assert_eq!(cut.len(), 2);
    for stud in cut {
        assert_ends(stud, DVec3::Z, 48.75, 94.0);
        assert_ends(stud, DVec3::Y, -26.0, -20.5);
    }
    let added = part(&design, "opened wall/stud/1");
    assert_ends(added, DVec3::X, 39.25, 40.75);
    // old board and new in one plane, the finish 5/8 before both
    let old = part(&design, "opened wall/wall layer/1");
    let new = part(&design, "face/board/1");
    assert_ends(old, DVec3::Y, -26.5, -26.0);
    assert_ends(new, DVec3::Y, -26.5, -26.0);
    assert_ends(old, DVec3::X, 0.0, 40.0);
    assert_ends(new, DVec3::X, 40.0, 100.0);
    assert_ends(part(&design, "face/finish/1"), DVec3::Y, -27.125, -26.5);
    assert_eq!(failing(&design), [""; 0]);
}

/// The bay behind: its inside is 26 in to the stud face, of which the wall takes 5-1/2 and its sheathing 1, so the
/// sides' plates run from the back's studs, behind 1/2 in of lining, 19-1/2 + 1/2 = 20 in. Behind the unit 26 − 18 =
/// 8 in are left of 1; between the linings 60 − 2 × (3-1/2 + 1/2) = 52 of 40. The back is 3-1/2 and 1 in of cover
/// behind its lining, so the vent's run from the riser at 13 is 13 + 5 = 18 in. The mantel's front, at 26 + 1/2 +
/// 5/8 + 6 = 33-1/8, leaves 162 + 26-1/2 − 33-1/8 = 155-3/8 to the wall opposite.
#[test]
fn the_enclosure_stands_behind_the_wall() {
    let params = flush(&[]);
    let design = design(&params);
    for side in ["left", "right"] {
        assert_ends(
            part(&design, &format!("{side} side/sole plate/1")),
            DVec3::Y,
            -19.5,
            0.5,
        );
        assert_ends(
            part(&design, &format!("{side} lining/board/1")),
            DVec3::Y,
            -19.5,
            0.0,
        );
        assert_ends(
            part(&design, &format!("{side} cover/board/1")),
            DVec3::Y,
            -19.5,
            4.0,
        );
    }
    assert_ends(part(&design, "back/sole plate/1"), DVec3::X, 40.0, 100.0);
    assert_ends(part(&design, "back/sole plate/1"), DVec3::Y, 0.5, 4.0);
    assert_ends(part(&design, "back lining/board/1"), DVec3::X, 43.5, 96.5);
    assert_ends(part(&design, "back cover/board/1"), DVec3::X, 39.0, 101.0);
    assert_ends(part(&design, "back cover/board/1"), DVec3::Y, 4.0, 5.0);
    let findings = check(&design);
    let numbers = |rule: &str, about: &str| {
        let numbers = finding(&findings, rule, about).numbers.expect("numbers");
        (numbers.measured / 25.4, numbers.required / 25.4)
    };
    for (rule, about, measured, required) in [
        ("unit in the chase", "behind", 8.0, 1.0),
        ("unit in the chase", "between", 52.0, 40.0),
        ("vent limits", "run from", 18.0, 120.0),
        ("walkway", "", 155.375, 36.0),
    ] {
        let found = numbers(rule, about);
        assert_near(found.0, measured, 1e-9);
        assert_near(found.1, required, 1e-9);
    }
    // insulation: back 60 and sides 19-1/2 each, 97 high, less 9-1/2 + 3 by 11-1/2 + 3 round the hole:
    // 97 × 99 − 12-1/2 × 14-1/2 = 9,421.75 sq in, 65.4 sq ft
    let bought = takeoff(&design).buy;
    let insulation = bought
        .iter()
        .find(|it| it.item.contains("insulation of the enclosure"));
    assert_eq!(insulation.expect("insulation is listed").count, 66);
}

/// A nonbearing wall gets the header of the parameters: 2x8 plies of 1-1/2 in, three in 5-1/2 in. In any
/// other the room of one that a licensed designer sizes is kept, and nothing is cut for it.
#[test]
fn a_header_is_drawn_as_settled_only_where_nothing_bears() {
    for bearing in ["unknown", "yes"] {
        let line = format!("bearing = \"{bearing}\"");
        let design = design(&flush(&[("bearing = \"unknown\"", &line)]));
        let header = part(&design, "opened wall/header/1");
        assert_eq!(header.stock, Stock::Bought);
        assert_ends(header, DVec3::Y, -26.0, -20.5);
        assert_eq!(count(&design, "opened wall/header"), 1);
        let findings = check(&design);
        let asked = finding(&findings, "existing stud cut", "opening for the unit");
        assert_eq!(asked.verdict, Verdict::Ask);
        let studs = "61\", 77\" cut over the header; 93\" taken out for a king";
        assert!(asked.detail.as_deref().unwrap_or_default().ends_with(studs));
        assert!(
            asked
                .question
                .as_deref()
                .unwrap_or_default()
                .contains("licensed designer")
        );
        assert!(findings.iter().all(|it| it.rule != "unit header"));
        let bought = takeoff(&design).buy;
        assert!(
            bought
                .iter()
                .any(|it| it.item == "header over the unit, as designed")
        );
    }
    let design = design(&flush(&[("bearing = \"unknown\"", "bearing = \"no\"")]));
    assert_eq!(count(&design, "opened wall/header/"), 3);
    assert_eq!(count(&design, "opened wall/header spacer/"), 2);
    let findings = check(&design);
    assert_eq!(finding(&findings, "unit header", "").verdict, Verdict::Pass);
    let asked = finding(&findings, "existing stud cut", "opening for the unit");
    assert!(
        asked
            .question
            .as_deref()
            .unwrap_or_default()
            .contains("nonbearing")
    );
    let bought = takeoff(&design).buy;
    assert!(bought.iter().all(|it| !it.item.contains("as designed")));
}

/// A stud that holds both boards' edges already needs no new one; beside a stud that stands too near, the new one
/// lies against it. First studs at 8: one at 40, none at 100. At 9: one from 40-1/4 on, so the new one ends there.
#[test]
fn a_new_stud_stands_behind_the_joint_of_old_board_and_new() {
    for (first, added) in [("8 in", vec![100.0]), ("9 in", vec![39.5, 100.0])] {
        let line = format!("first_stud = \"{first}\"");
        let design = design(&flush(&[("first_stud = \"13 in\"", &line)]));
        let opened = design.layout.opened.as_ref().expect("a wall is opened");
        let found: Vec<f64> = opened.added.iter().map(|it| it.to_inches()).collect();
        assert_eq!(found.len(), added.len(), "{first}: {found:?}");
        for (found, added) in found.iter().zip(added) {
            assert_near(*found, added, 1e-9);
        }
        assert_eq!(failing(&design), [""; 0]);
    }
}

/// In a closet the enclosure reaches the outside wall behind: it has no back of its own, its sides begin at that
/// wall's finished face, 20 − 1/2 = 19-1/2 in long, and nothing lines it; the vent goes through that wall, whose
/// studs at 6 + 16 n are 70 and others: the one at 70 is in the hole.
#[test]
fn an_enclosure_in_a_closet_reaches_the_outside_wall() {
    let design = design(&flush(&[(OUTDOORS, CLOSET)]));
    assert_eq!(count(&design, "back"), 0);
    assert_eq!(count(&design, "left lining"), 0);
    assert_ends(
        part(&design, "left side/sole plate/1"),
        DVec3::Y,
        -19.5,
        0.0,
    );
    assert_ends(part(&design, "right cover/board/1"), DVec3::Y, -19.5, 0.0);
    assert_eq!(design.layout.pass.wall, Some(RoomWall::Behind));
    let findings = check(&design);
    let cut = finding(&findings, "existing stud cut", "hole through the wall");
    assert_near(cut.numbers.expect("numbers").measured, 1.0, 1e-9);
    assert_eq!(failing(&design), [""; 0]);
}

/// In the demo before a closet the enclosure is 24 − 3-1/2 − 1/2 = 20 in deep, from the outside wall to the board of the
/// wall that is opened.
/// - Under the closet's ceiling at 88 and 1/4 of gap lie two plates, from 88 − 1/4 − 3 = 84-3/4 up to 87-3/4; studs from
///   1-1/2 up to them are 83-1/4 long. Covers, and the outside wall's studs, reach 88 itself.
/// - In the opened wall, under the room's 101-1/2 and between its own two plates, kings end at 98-1/2; the joists over
///   the room end where that wall does, 24 + 1/2 − (1/2 + 3-1/2 + 1/2) = 20 in out.
/// - The vent runs 13 in from the riser to the outside wall and 1/2 + 5-1/2 + 3/4 through it, 19-3/4. Its middle lies at
///   3-1/2 + 3/4 + 30 + 26 = 60-1/4 over the riser and 13/48 higher at the wall, so the top of its clearance lies there
///   3-1/4 + 3 higher, at 66-1/2 + 13/48.
/// - Plates that turn about their foot sweep √(87-3/4² + 3-1/2²) = 87.8198 in.
#[test]
fn an_enclosure_stands_under_the_ceiling_of_its_closet() {
    let design = design(&demo("flush-before-a-closet"));
    for (side, inner) in [("left", -20.0), ("right", -20.0)] {
        let own = |what: &str| part(&design, &format!("{side} {what}"));
        assert_ends(own("side/sole plate/1"), DVec3::Y, inner, 0.0);
        assert_ends(own("side/stud/1"), DVec3::Z, 1.5, 84.75);
        assert_ends(own("side/top plate/1"), DVec3::Z, 84.75, 86.25);
        assert_ends(own("side/top plate/2"), DVec3::Z, 86.25, 87.75);
        assert_ends(own("cover/board/1"), DVec3::Z, 0.0, 88.0);
    }
    let far = design.layout.standing_wall(RoomWall::Behind);
    assert_near(
        far.expect("a far wall")
            .top_at(chasewright::units::Length::ZERO)
            .to_inches(),
        88.0,
        1e-9,
    );
    assert_ends(part(&design, "opened wall/king/1"), DVec3::Z, 1.5, 98.5);
    assert_ends(
        part(&design, "opened wall/wall layer/1"),
        DVec3::Z,
        0.0,
        101.5,
    );
    // the closet's ceiling, and the room's over the opened wall
    let closet = part(&design, "behind/ceiling/1");
    assert_ends(closet, DVec3::Z, 88.0, 88.5);
    assert_ends(closet, DVec3::Y, -20.0, 6.75);
    let over_wall = part(&design, "behind/ceiling/2");
    assert_ends(over_wall, DVec3::Z, 101.5, 102.0);
    assert_ends(over_wall, DVec3::Y, -24.5, -20.0);
    let joists = design.parts.iter().filter(|it| it.kind == Kind::Rafter);
    let ends_of_joists: Vec<f64> = joists.map(|it| ends(it, DVec3::Y).1).collect();
    assert!(!ends_of_joists.is_empty());
    for end in ends_of_joists {
        assert_near(end, -20.0, 1e-6);
    }
    let findings = check(&design);
    // the run's 3-1/4 and 3 in over its middle, square to it, make so much more plumb at the wall's face
    let steeper = 6.25 * (1.0_f64.hypot(1.0 / 48.0) - 1.0);
    let top = 66.5 + 13.0 / 48.0 + steeper;
    for (rule, about, measured, required) in [
        ("vent limits", "run from", 19.75, 96.0),
        ("run under the ceiling", "", 88.0, top),
    ] {
        let numbers = finding(&findings, rule, about).numbers.expect("numbers");
        assert_near(numbers.measured / 25.4, measured, 1e-6);
        assert_near(numbers.required / 25.4, required, 1e-6);
    }
    let raised = demo("flush-before-a-closet").with("chase.fit", &Value::Choice("tilt_up"));
    let raised = check(&chasewright::design::design(
        &raised.expect("a way to build"),
    ));
    let on_the_way = finding(&raised, "tilt-up", "left side: room to tilt");
    let numbers = on_the_way.numbers.expect("numbers");
    assert_near(numbers.measured / 25.4, 88.0, 1e-6);
    assert_near(numbers.required / 25.4, 87.75_f64.hypot(3.5), 1e-6);
    // the ceiling is known there: only the floor is asked about, and what carries that ceiling
    let asked = finding(&findings, "enclosure", "floor of the enclosure");
    let question = asked.question.as_deref().unwrap_or_default();
    assert!(!question.contains("ceiling") && question.contains("platform"));
    let carried = finding(&findings, "attachment", "behind the wall");
    assert_eq!(carried.verdict, Verdict::Ask);
    assert_eq!(carried.parts, ["behind/ceiling/1"]);
    assert_eq!(failing(&design), [""; 0]);
}

/// A ceiling behind as high as the room's changes no stick and no sheet of the enclosure, indoors and outdoors.
#[test]
fn a_ceiling_behind_at_the_height_of_the_rooms_changes_no_stick() {
    for space in [OUTDOORS, CLOSET] {
        let with_key = space.replacen("cover", "ceiling = \"97 in\"\ncover", 1);
        let [run_on, own] = [space, &with_key].map(|lines| design(&flush(&[(OUTDOORS, lines)])));
        let sticks = |design: &Design| {
            let parts = design.parts.iter().filter(|it| {
                !matches!(it.kind, Kind::Ceiling | Kind::Rafter) && it.branch.name() != "ceiling"
            });
            let boxes = parts.map(|it| (it.id.clone(), it.body.bounds.low, it.body.bounds.high));
            boxes.collect::<Vec<_>>()
        };
        assert_eq!(sticks(&run_on), sticks(&own));
    }
}

/// Higher than the room's, the closet's ceiling carries the enclosure up past the top of the opened wall. At 39 in it
/// lies 4-3/4 over the body, whose top is at 34-1/4, and the manual asks 5: it stands in the clearance, 1/4 in.
/// Either side of 39-1/4 decides.
#[test]
fn the_ceiling_behind_is_held_against_the_units_clearance() {
    let under = |height: &str| {
        let line = format!("ceiling = \"{height}\"");
        let text = include_str!("../../params/flush-before-a-closet.toml");
        design(&read(&text.replacen("ceiling = \"88 in\"", &line, 1)).expect("a good file"))
    };
    let high = under("110 in");
    assert_ends(
        part(&high, "left side/top plate/2"),
        DVec3::Z,
        108.25,
        109.75,
    );
    assert_eq!(failing(&high), [""; 0]);
    let unit_top = |design: &Design| {
        let findings = check(design);
        let own = findings.iter().find(|it| {
            it.subject.to_string().contains("behind/ceiling/1")
                && it.subject.to_string().contains("unit top")
        });
        own.map(|it| (it.verdict, it.numbers.expect("numbers").margin / 25.4))
    };
    let (verdict, margin) = unit_top(&under("39 in")).expect("a finding");
    assert_eq!(verdict, Verdict::Fail);
    assert_near(margin, -0.25, 1e-6);
    let passes = unit_top(&under("39-1/2 in"));
    assert!(passes.is_none_or(|it| it.0 != Verdict::Fail), "{passes:?}");
}

/// A roof is described over the room's ceiling; a vent up through it does not go with another ceiling behind the wall.
#[test]
fn a_vent_through_the_roof_goes_through_the_rooms_ceiling() {
    let roof = "[roof]\nthickness = \"10 in\"\nfirst_rafter = \"10 in\"\npass_clearance = { value = \"2 in\", page = \"19\" }\ncap_above = { value = \"24 in\", page = \"22\" }\n\n[mantel]";
    let changes = |ceiling: &str| {
        with(&[
            ("rise = \"24 in\"", "path = [\"through roof\"]"),
            ("[mantel]", roof),
            ("cover = \"1 in\"", &format!("cover = \"1 in\"\n{ceiling}")),
        ])
    };
    let told = |text: &str| {
        let faults = read(text).err().unwrap_or_default();
        faults.iter().any(|it| *it.key == *"behind.ceiling")
    };
    assert!(!told(&changes("")));
    assert!(told(&changes("ceiling = \"97 in\"")));
}

/// An enclosure that nothing covers is a fault; 1/16 in of cover is none that this rule knows.
#[test]
fn an_enclosure_is_covered() {
    for (cover, verdict) in [("0", Verdict::Fail), ("1/16 in", Verdict::Ask)] {
        let line = format!("cover = \"{cover}\"");
        let design = design(&flush(&[("cover = \"1 in\"", &line)]));
        let findings = check(&design);
        let worst = findings
            .iter()
            .find(|it| it.rule == "enclosure")
            .expect("a finding");
        assert_eq!(worst.verdict, verdict, "{cover}");
    }
}

/// What does not go together is told, with the key.
#[test]
fn faults_between_the_keys_of_a_flush_chase_are_told() {
    let cases: &[(&[(&str, &str)], &str)] = &[
        (&[("[behind]\n", ""), (OUTDOORS, "")], "chase.placement"),
        (
            &[("placement = \"flush\"", "placement = \"projecting\"")],
            "behind.space",
        ),
        (
            &[("[chase]", "[far_wall]\nfirst_stud = 6\n\n[chase]")],
            "far_wall.first_stud",
        ),
        (
            &[("form = \"one_wall\"", "form = \"stepped\"\nledge = \"2x6\"")],
            "front.form",
        ),
        (
            &[(
                "[mantel]",
                "[recess]\nwidth = 40\nheight = 20\ndepth = 3\nsill = 62\n\n[mantel]",
            )],
            "recess.width",
        ),
        (&[("depth = \"26 in\"", "depth = \"8 in\"")], "chase.depth"),
        // indoors the pipe cannot end in the closet
        (&[(OUTDOORS, "space = \"indoors\"\n")], "behind.space"),
    ];
    for (changes, key) in cases {
        let faults = read(&with(changes)).expect_err("a fault");
        assert!(
            faults.iter().any(|it| *it.key == **key),
            "{key}: {faults:#?}"
        );
    }
}
