//! What the chase is screwed to, and what passes through its studs: each rule at its limit.

use std::f64::consts::PI;

use chasewright::check::{Finding, Verdict, check, interference};
use chasewright::design::{Design, Kind, Part, design};
use chasewright::params::{Params, Value, read};
use chasewright::units::Length;

use crate::rules::{MARK, finding, margin};
use crate::scenarios::demo;

/// A demo with lines put at its end; what they leave out is as it is drawn.
fn demo_with(name: &str, lines: &str) -> Params {
    let path = format!("{}/params/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let table = lines.lines().next().unwrap();
    let text = if text.contains(&format!("\n{table}\n")) {
        text.replacen(table, lines, 1)
    } else {
        format!("{text}\n{lines}\n")
    };
    let mut params = read(&text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    params.untold.clear();
    params
}

fn of(model: &Design, about: &str) -> Finding {
    finding(model, "attachment", about)
}

/// The left side wall of the flat demo ends at 39 to 42-1/2 in; studs stand at 15 in and every 16: one at 47.
/// With the first at 11-1/4 in one stands at 43-1/4, from 42-1/2 on: moved left by 3/4 in, just enough of it
/// lies behind the wall's end.
#[test]
fn a_side_wall_ends_at_a_stud() {
    let base = demo("flat-with-cabinets");
    let about = "left side: stud where this wall ends";
    let at = |first: Length| {
        let params = base.with("wall.first_stud", &Value::Length(first));
        of(&design(&params.unwrap()), about)
    };
    let enough = Length::inches(10.5);
    assert_eq!(at(enough).verdict, Verdict::Tight);
    assert!(!margin(&at(enough)).abs().is_positive());
    let missed = at(enough + MARK);
    assert_eq!(missed.verdict, Verdict::Ask);
    assert!(!(margin(&missed) + MARK).abs().is_positive());
    assert!(missed.question.unwrap().contains("blocking.behind_sides"));
    // blocks from stud to stud answer it
    let blocked = base
        .with("wall.first_stud", &Value::Length(enough + MARK))
        .and_then(|it| it.with("blocking.behind_sides", &Value::Flag(true)));
    let model = design(&blocked.unwrap());
    assert_eq!(of(&model, about).verdict, Verdict::Pass);
    let blocks = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Blocking && it.id.starts_with("existing wall/"));
    // 9 ft less the gap and a plate: five rows, 24 in apart or less
    assert!(blocks.count() >= 5);
    // they stand in the wall, where they belong
    assert_eq!(chasewright::check::outside(&model), []);
    assert_sound(&model);
}

/// Nothing new stands in anything, and every stick is held.
fn assert_sound(model: &Design) {
    let bad: Vec<String> = check(model)
        .into_iter()
        .filter(|it| it.verdict == Verdict::Fail)
        .filter(|it| ["held", "part in part", "clearance", "inside the room"].contains(&it.rule))
        .map(|it| it.subject.to_string())
        .collect();
    assert!(bad.is_empty(), "{bad:#?}");
}

#[test]
fn without_rafters_it_is_asked_what_carries_the_ceiling() {
    let found = of(
        &design(&demo("flat-with-cabinets")),
        "framing of the ceiling",
    );
    assert_eq!(found.verdict, Verdict::Ask);
}

/// The flat demo's left side wall runs out from 0 to 23 in, its plate from 39 to 42-1/2 in. Rafters that run out
/// lie over it or not: one from 41-3/4 to 43-1/4 in holds it by 3/4 in, 1/64 in to the right it does not.
#[test]
fn a_plate_along_the_rafters_lies_under_one_or_gets_blocks() {
    let about = "left side: top plate";
    let at = |first: Length, blocks: &str| {
        let lines = format!(
            "[rafters]\nkind = \"joist\"\nfirst = \"{:.6} mm\"\n{blocks}",
            first.to_mm()
        );
        design(&demo_with("flat-with-cabinets", &lines))
    };
    // every 16 in: 10-1/2, 26-1/2, 42-1/2
    let under = Length::inches(10.5);
    assert_eq!(of(&at(under, ""), about).verdict, Verdict::Pass);
    let beside = at(under + MARK, "");
    let found = of(&beside, about);
    assert_eq!(found.verdict, Verdict::Ask);
    assert!(found.question.unwrap().contains("2 blocks"));
    let blocked = at(under + MARK, "blocks = true");
    assert_eq!(of(&blocked, about).verdict, Verdict::Pass);
    let blocks: Vec<_> = blocked
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Blocking && it.id.starts_with("ceiling/"))
        .collect();
    // from joist to joist: 16 − 1-1/2
    assert!(blocks.len() >= 2);
    for block in &blocks {
        let size = block.body.bounds.size();
        crate::support::assert_near(size.x / 25.4, 14.5, 1e-6);
    }
    assert_sound(&blocked);
    // the front's plate crosses six of them, at most 16 in apart
    let front = of(&blocked, "front: top plate");
    crate::support::assert_near(front.numbers.unwrap().measured / 25.4, 16.0, 1e-6);
}

/// Joists at 24 in hold the front's plate, at 24-1/64 in they do not.
/// Blocks over one plate hold no other. The side walls' plates lie from 50 to 53-1/2 and from 130-1/2 to 134 in,
/// between rafters at 46 and 70, 118 and 142.
#[test]
fn each_plate_has_blocks_of_its_own() {
    let lines = "[rafters]\nkind = \"rafter\"\nruns = \"out\"\nfirst = \"22 in\"\nspacing = \"24 in\"\nblocks = true";
    let mut model = design(&demo_with("reading-room", lines));
    let sides = ["left side: top plate", "right side: top plate"];
    for side in sides {
        assert_eq!(of(&model, side).verdict, Verdict::Pass, "{side}");
    }
    let middle = model.params.site().chase.low + model.params.site().width / 2.0;
    let over_left =
        |it: &Part| it.id.starts_with("ceiling/") && it.body.bounds.high.x < middle.to_mm();
    let one = model
        .parts
        .iter()
        .position(over_left)
        .expect("a block over the left side");
    model.parts.remove(one);
    let verdicts = sides.map(|it| of(&model, it).verdict);
    assert_eq!(verdicts, [Verdict::Ask, Verdict::Pass]);
}

#[test]
fn a_plate_across_the_rafters_is_held_every_two_feet() {
    for (spacing, verdict) in [
        (Length::inches(24.0), Verdict::Tight),
        (Length::inches(24.0) + MARK, Verdict::Fail),
    ] {
        let lines = format!(
            "[rafters]\nkind = \"joist\"\nfirst = \"24 in\"\nspacing = \"{:.6} mm\"",
            spacing.to_mm()
        );
        let model = design(&demo_with("flat-with-cabinets", &lines));
        assert_eq!(of(&model, "front: top plate").verdict, verdict);
    }
}

/// Blocks follow a slope, too, and the members of a sloped ceiling carry them.
#[test]
fn blocks_over_a_sloped_ceiling_are_held() {
    for runs in ["out", "along"] {
        let lines = format!(
            "[rafters]\nkind = \"rafter\"\nruns = \"{runs}\"\nfirst = \"6 in\"\nspacing = \"24 in\"\nblocks = true"
        );
        for name in ["reading-room", "rises-away-from-wall", "stepped-face"] {
            let model = design(&demo_with(name, &lines));
            let blocks = model
                .parts
                .iter()
                .filter(|it| it.id.starts_with("ceiling/"));
            assert!(blocks.count() > 0, "{name} {runs}");
            let asked = check(&model).into_iter().filter(|it| {
                it.rule == "attachment"
                    && it.verdict == Verdict::Ask
                    && it.subject.to_string().contains("plate")
            });
            assert_eq!(
                asked.map(|it| it.subject.to_string()).collect::<Vec<_>>(),
                [""; 0],
                "{name} {runs}"
            );
            // they lie over the ceiling, where they belong
            let beyond = chasewright::check::outside(&model);
            assert_eq!(beyond, [], "{name} {runs}");
            assert_sound(&model);
        }
    }
}

#[test]
fn the_gap_follows_what_is_over_it() {
    let at = |kind: &str, gap: Length| {
        let lines = format!("[rafters]\nkind = \"{kind}\"\nfirst = \"10 in\"");
        let params =
            demo_with("flat-with-cabinets", &lines).with("ceiling.gap", &Value::Length(gap));
        of(&design(&params.unwrap()), "gap over the plates").verdict
    };
    let (quarter, half) = (Length::inches(0.25), Length::inches(0.5));
    assert_eq!(at("rafter", quarter), Verdict::Pass);
    // over it with shims or clips, and however high
    assert_eq!(at("joist", quarter + MARK), Verdict::Ask);
    assert_eq!(at("rafter", Length::inches(3.5)), Verdict::Ask);
    assert_eq!(at("truss", half), Verdict::Pass);
    assert_eq!(at("truss", half - MARK), Verdict::Fail);
}

/// A plate of 1-1/2 in, the gap of 1/4, board of 1/2 and 1-1/2 in of bite: 3-3/4 in.
#[test]
fn ceiling_screws_reach_the_rafter() {
    for (screw, verdict) in [(3.75, Verdict::Pass), (3.75 - 1.0 / 64.0, Verdict::Fail)] {
        let lines = format!("[fasteners]\nceiling_screw = \"{:.6} mm\"", screw * 25.4);
        let model = design(&demo_with("flat-with-cabinets", &lines));
        assert_eq!(of(&model, "bite").verdict, verdict, "{screw}");
    }
}

/// A side wall's plate runs 22 − 3-1/2 = 18-1/2 in out from the wall. One rafter crosses it, 4 in out; the next, 20 in
/// out, lies beyond its end: 14-1/2 in are left.
#[test]
fn a_rafter_beyond_a_plate_does_not_hold_it() {
    let found = of(&design(&demo("roof-pass")), "left side: top plate");
    let measured = found.numbers.unwrap().measured / 25.4;
    assert!((measured - 14.5).abs() < 1e-9, "{measured}");
}

/// A cable through the left side wall of the gable demo: square through the stud that it meets.
fn crossing(diameter: Length, out: Length, up: f64) -> Design {
    let lines = format!(
        "[cables]\ndiameter = \"{:.6} mm\"\nroute = [[\"39 in\", \"{out:.6} mm\", \"{up:.6} in\"], [\"50 in\", \"{out:.6} mm\", \"{up:.6} in\"]]",
        diameter.to_mm(),
        out = out.to_mm()
    );
    design(&demo_with("flat-with-cabinets", &lines))
}

fn through(model: &Design, what: &str) -> Vec<(Verdict, f64)> {
    let findings = check(model).into_iter();
    findings
        .filter(|it| it.rule == "bores and notches" && it.subject.to_string().ends_with(what))
        .map(|it| (it.verdict, it.numbers.unwrap().required / 25.4))
        .collect()
}

/// The side wall's studs stand along the way out; the cable goes to the right, through their 3-1/2 in: there a
/// stud is 1-1/2 in wide across the bore. 60 % of that are 0.9 in, 7/8 on a tape; what is left beside it is less
/// than 5/8 in from 1/4 in on (IRC 2018 R602.6).
#[test]
fn a_bore_through_the_narrow_face_leaves_too_little() {
    let middle = stud_center();
    let model = crossing(Length::inches(0.25), middle, 20.0);
    assert_eq!(through(&model, "bore"), [(Verdict::Pass, 0.875)]);
    assert_eq!(through(&model, "edge"), [(Verdict::Tight, 0.625)]);
    let wider = crossing(Length::inches(0.25) + MARK, middle, 20.0);
    assert_eq!(through(&wider, "edge"), [(Verdict::Fail, 0.625)]);
    assert!(clashes(&model).is_empty(), "{:?}", clashes(&model));
    // the bore is open, 1/4 in wide and 3-1/2 long, so the cable lies in nothing
    let clashing = interference(&model).into_iter();
    let in_studs = clashing.filter(|it| it.first.starts_with("left side/"));
    assert_eq!(in_studs.count(), 0);
    let bored = model
        .parts
        .iter()
        .filter(|it| !it.body.shape.bores().is_empty());
    let taken = bored.map(|it| it.body.shape.unbored().volume() - it.body.volume());
    let taken: Vec<f64> = taken.map(|it| it / 25.4_f64.powi(3)).collect();
    assert_eq!(taken.len(), 1);
    assert!((taken[0] - PI / 4.0 / 16.0 * 3.5).abs() < 1e-9, "{taken:?}");
}

fn clashes(model: &Design) -> Vec<String> {
    let findings = check(model).into_iter();
    findings
        .filter(|it| it.rule == "part in part")
        .map(|it| it.subject.to_string())
        .collect()
}

/// Middle of a stud of the left side wall, out from the wall.
fn stud_center() -> Length {
    let model = design(&demo("flat-with-cabinets"));
    let studs = model
        .parts
        .iter()
        .filter(|it| it.id.starts_with("left side/stud"));
    let inner = studs
        .map(|it| -it.body.bounds.center().y)
        .find(|out| *out > 50.0);
    Length::mm(inner.unwrap())
}

/// Along the front wall a cable goes through the studs' width: bores up to 60 % of 3-1/2 in, 2.1, on a tape
/// 2-1/16; not 2-1/8, which is more (IRC 2018 R602.6).
#[test]
fn a_bore_is_at_most_sixty_percent_rounded_down() {
    let at = |diameter: Length, out: Length| {
        let lines = format!(
            "[cables]\ndiameter = \"{:.6} mm\"\nroute = [[\"41 in\", \"{out:.6} mm\", \"20 in\"], [\"57.25 in\", \"{out:.6} mm\", \"20 in\"]]",
            diameter.to_mm(),
            out = out.to_mm()
        );
        design(&demo_with("flat-with-cabinets", &lines))
    };
    // studs from 23 to 26-1/2 in out
    let middle = Length::inches(24.75);
    let most = Length::inches(2.0625);
    let model = at(most, middle);
    let bores = through(&model, "bore");
    assert!(!bores.is_empty());
    assert!(
        bores.iter().all(|it| *it == (Verdict::Pass, 2.0625)),
        "{bores:?}"
    );
    assert!(clashes(&model).is_empty(), "{:?}", clashes(&model));
    let over = through(&at(most + MARK, middle), "bore");
    assert!(over.iter().all(|it| it.0 == Verdict::Fail), "{over:?}");
    // 5/8 in to the edge: the middle of 1 in at 1-1/8 in
    let near = Length::inches(23.0 + 1.125);
    let ends = through(&at(Length::inches(1.0), near), "edge");
    assert!(ends.iter().all(|it| it.0 == Verdict::Tight), "{ends:?}");
    let ends = through(&at(Length::inches(1.0), near - MARK), "edge");
    assert!(ends.iter().all(|it| it.0 == Verdict::Fail), "{ends:?}");
    // a notch of 40 %: 1.4 in, on a tape 1-3/8
    let notch = |depth: f64| {
        through(
            &at(Length::inches(2.0), Length::inches(22.0 + depth)),
            "notch",
        )
    };
    let held = notch(1.375);
    assert!(!held.is_empty());
    assert!(
        held.iter().all(|it| *it == (Verdict::Tight, 1.375)),
        "{held:?}"
    );
    assert!(
        notch(1.375 + 1.0 / 64.0)
            .iter()
            .all(|it| it.0 == Verdict::Fail)
    );
}

/// A wall of the room carries until it is said not to, and the one behind the chase is an outside wall: 25 % and
/// 40 % there.
#[test]
fn an_outside_wall_takes_less() {
    let lines = "[gas]\nfuel = \"natural\"\nstub_right = \"60 in\"\nstub_out = \"6 in\"\nstub_up = \"6 in\"\nshutoff_right = \"60 in\"\nshutoff_out = \"9 in\"\nshutoff_up = \"6 in\"\npipe = \"1/2\"\nlongest_run = \"30 ft\"";
    let params = demo_with("flat-with-cabinets", lines);
    let mut model = design(&params);
    // the stub laid level through a stud of the wall behind: room stands in room, and is judged all the same
    let stud = model
        .parts
        .iter()
        .find(|it| it.kind == Kind::ExistingStud)
        .unwrap();
    let center = stud.body.bounds.center();
    for (diameter, verdict) in [(1.375, Verdict::Pass), (1.375 + 1.0 / 64.0, Verdict::Fail)] {
        let stub = model
            .parts
            .iter_mut()
            .find(|it| it.kind == Kind::GasStub)
            .unwrap();
        let radius = Length::inches(diameter / 2.0);
        let tube = chasewright::geom::Tube::straight(radius, Length::ZERO, Length::inches(6.0));
        let start = center - glam::DVec3::X * 3.0 * 25.4;
        let frame = chasewright::geom::Frame::new(start, glam::DVec3::Y, glam::DVec3::Z);
        stub.body = chasewright::geom::Body::new(tube, frame);
        assert_eq!(through(&model, "bore"), [(verdict, 1.375)], "{diameter}");
    }
}

/// A stud of a side wall of the room, bored along the wall: 60 % of its width where the wall is nonbearing, 40 %
/// where nobody has said so (IRC 2018 R602.6), rounded down to 1/16 in.
#[test]
fn a_side_wall_that_carries_nothing_takes_more() {
    let lines = "[gas]\nfuel = \"natural\"\nstub_right = \"60 in\"\nstub_out = \"6 in\"\nstub_up = \"6 in\"\nshutoff_right = \"60 in\"\nshutoff_out = \"9 in\"\nshutoff_up = \"6 in\"\npipe = \"1/2\"\nlongest_run = \"30 ft\"";
    for (bearing, share) in [("no", 0.6), ("unknown", 0.4)] {
        let params = demo_with("crooked-room", lines)
            .with("left_wall.bearing", &Value::Choice(bearing))
            .unwrap();
        let mut model = design(&params);
        let beside_the_room =
            |it: &&Part| it.kind == Kind::ExistingStud && it.body.bounds.high.x < 0.0;
        let bounds = model
            .parts
            .iter()
            .find(beside_the_room)
            .unwrap()
            .body
            .bounds;
        let stub = model
            .parts
            .iter_mut()
            .find(|it| it.kind == Kind::GasStub)
            .unwrap();
        let radius = Length::inches(0.25);
        let tube = chasewright::geom::Tube::straight(radius, Length::ZERO, Length::inches(6.0));
        let start = bounds.center() - glam::DVec3::Y * 3.0 * 25.4;
        let frame = chasewright::geom::Frame::new(start, glam::DVec3::Z, glam::DVec3::X);
        stub.body = chasewright::geom::Body::new(tube, frame);
        let most = (bounds.size().x / 25.4 * share * 16.0).floor() / 16.0;
        assert_eq!(
            through(&model, "bore"),
            [(Verdict::Pass, most)],
            "{bearing}"
        );
    }
}

/// What ends inside a stud, or runs up along it, is in its way.
#[test]
fn what_does_not_pass_through_stays_a_clash() {
    let lines =
        "[cables]\nroute = [[\"39 in\", \"10 in\", \"20 in\"], [\"41 in\", \"10 in\", \"20 in\"]]";
    let ending = format!("{lines}\n").replace("10 in", &format!("{} mm", stud_center().to_mm()));
    let model = design(&demo_with("flat-with-cabinets", &ending));
    assert!(through(&model, "bore").is_empty());
    assert_eq!(clashes(&model).len(), 1, "{:?}", clashes(&model));
    // half over the stud's end, half in the plate under it
    let stud = model.parts.iter().find(|it| {
        it.id.starts_with("left side/stud")
            && (it.body.bounds.center().y + stud_center().to_mm()).abs() < 1e-6
    });
    let foot = stud.unwrap().body.bounds.low.z / 25.4;
    // a hole that just touches the end is no bore either
    let touching = crossing(Length::inches(0.25), stud_center(), foot + 0.125);
    let bored = touching.parts.iter();
    assert_eq!(
        bored.filter(|it| !it.body.shape.bores().is_empty()).count(),
        0
    );
    assert!(!clashes(&touching).is_empty());
    let over_its_end = crossing(Length::inches(0.25), stud_center(), foot);
    assert!(through(&over_its_end, "bore").is_empty());
    assert!(!clashes(&over_its_end).is_empty());
}
