//! Rules that look at the sticks themselves: each at its limit, with a stick moved, cut or taken away.

use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Kind, Part, design};
use chasewright::geom::{Body, Profile, Shape, Swept};
use chasewright::params::Value;
use chasewright::units::Length;

use crate::rules::{MARK, finding, margin, moved};
use crate::scenarios::demo;
use crate::support::{changed, seeds};

fn part_mut<'a>(model: &'a mut Design, id: &str) -> &'a mut Part {
    let found = model.parts.iter_mut().find(|it| it.id == id);
    found.unwrap_or_else(|| panic!("no part {id}"))
}

/// A level stick of a rectangular profile, shorter at its far end.
fn shorten(part: &mut Part, by: Length) {
    let Shape::Swept(swept) = &part.body.shape else {
        panic!("{} is no stick", part.id)
    };
    let size = swept.profile.outline[2];
    let length = Length::mm(swept.top[0].height) - by;
    let profile = Profile::rectangle(Length::mm(size.x), Length::mm(size.y));
    part.body = Body::new(Swept::square(profile, length), part.body.frame);
}

/// The first block in a wall whose middle lies within 3 in of a height.
fn block_near(model: &Design, wall: &str, inches: f64) -> String {
    let near = |it: &&Part| {
        it.kind == Kind::Blocking
            && it.id.starts_with(wall)
            && (it.body.bounds.center().z / 25.4 - inches).abs() < 3.0
    };
    let found = model.parts.iter().find(near);
    found.expect("a block there").id.clone()
}

/// 1-1/2 in without wood is let pass, 1/64 in more is not.
#[test]
fn wood_stands_behind_what_hangs_on_the_wall() {
    let cases = [
        (
            "blocking",
            "longest stretch without wood behind the mantel",
            "front/",
            51.0,
        ),
        ("board joint", "longest stretch", "front/", 57.0),
        (
            "blocking",
            "longest stretch without wood behind the screen's mount, lower",
            "recess/",
            76.75,
        ),
        (
            "blocking",
            "longest stretch without wood behind the screen's mount, upper",
            "recess/",
            82.25,
        ),
    ];
    for (rule, about, wall, height) in cases {
        let model = design(&demo("flat-with-cabinets"));
        assert_eq!(
            finding(&model, rule, about).verdict,
            Verdict::Pass,
            "{about}"
        );
        let id = block_near(&model, wall, height);
        for (gap, verdict) in [
            (Length::inches(1.5), Verdict::Tight),
            (Length::inches(1.5) + MARK, Verdict::Fail),
        ] {
            let mut model = model.clone();
            shorten(part_mut(&mut model, &id), gap);
            let found = finding(&model, rule, about);
            assert_eq!(found.verdict, verdict, "{about}: {:?}", found.numbers);
            let off = margin(&found) - (Length::inches(1.5) - gap);
            assert!(!off.abs().is_positive(), "{about}: {:?}", found.numbers);
        }
    }
}

#[test]
fn without_blocks_it_is_a_question_what_things_hang_on() {
    let cases = [
        (
            "blocking.mantel",
            "blocking",
            "longest stretch without wood behind the mantel",
        ),
        (
            "blocking.screen",
            "blocking",
            "longest stretch without wood behind the screen's mount, lower",
        ),
        ("blocking.board_joint", "board joint", "longest stretch"),
    ];
    for (key, rule, about) in cases {
        let params = demo("flat-with-cabinets").with(key, &Value::Flag(false));
        let found = finding(&design(&params.unwrap()), rule, about);
        assert_eq!(found.verdict, Verdict::Ask, "{about}");
        assert!(found.question.is_some());
    }
}

/// On the ledge the mantel is carried; 1/2 in above it, it hangs on the set-back wall's studs.
#[test]
fn a_mantel_on_the_ledge_needs_no_blocks() {
    let params = demo("stepped-face");
    let judged = |model: &Design| {
        let findings = check(model);
        let of = findings
            .into_iter()
            .filter(|it| it.subject.to_string().ends_with("the mantel"));
        of.filter(|it| it.rule == "blocking").count()
    };
    assert_eq!(judged(&design(&params)), 0);
    let above = design(&moved(&params, "mantel.underside", Length::inches(0.5)));
    assert_eq!(judged(&above), 1);
    let found = finding(
        &above,
        "blocking",
        "longest stretch without wood behind the mantel",
    );
    assert_eq!(found.verdict, Verdict::Pass, "{:?}", found.numbers);
    assert!(block_near(&above, "set-back/", 45.0).starts_with("set-back/"));
}

/// A block that would stand in another part, or in a clearance that keeps wood out, is not made: in no
/// random design does one, whatever its stock.
#[test]
fn no_block_stands_in_a_part_or_in_a_clearance() {
    let mut blocks = 0;
    for seed in seeds(0..120) {
        let model = design(&crate::generate::random_params(seed));
        let walls = [
            "front/",
            "set-back/",
            "bump-out/",
            "left side/",
            "right side/",
        ];
        let of_rows =
            |id: &str| id.contains("/blocking/") && walls.iter().any(|it| id.starts_with(it));
        blocks += model.parts.iter().filter(|it| of_rows(&it.id)).count();
        for found in check(&model) {
            let block = found.parts.iter().any(|id| of_rows(id));
            let inside = matches!(found.rule, "clearance" | "part in part" | "held");
            let bad = block && inside && found.verdict == Verdict::Fail;
            assert!(!bad, "seed {seed}: {}: {:?}", found.subject, found.numbers);
        }
    }
    assert!(blocks > 500, "{blocks}");
}

#[test]
fn a_rail_on_the_side_walls_gets_its_blocks() {
    let rail = Value::Length(Length::inches(34.5));
    let model = design(
        &demo("flat-with-cabinets")
            .with("blocking.side_rail", &rail)
            .unwrap(),
    );
    for side in ["left side", "right side"] {
        let found = finding(
            &model,
            "blocking",
            &format!("longest stretch without wood behind the rail, {side}"),
        );
        assert_eq!(found.verdict, Verdict::Pass, "{:?}", found.numbers);
        let mut less = model.clone();
        let id = block_near(&model, side, 34.5);
        less.parts.retain(|it| it.id != id);
        let found = finding(&less, "blocking", &found.subject.to_string());
        assert_eq!(found.verdict, Verdict::Fail);
    }
}

/// A jack moved in until body and jack touch leaves nothing; 1/64 in more and the body does not pass.
#[test]
fn the_unit_passes_between_the_sticks_themselves() {
    let about = "opening's width";
    let model = design(&demo("stepped-face"));
    let free = margin(&finding(&model, "unit through the opening", about));
    assert!(!(free - Length::inches(2.0)).abs().is_positive());
    for wall in ["bump-out", "set-back"] {
        for (left, verdict) in [(Length::ZERO, Verdict::Tight), (-MARK, Verdict::Fail)] {
            let mut model = model.clone();
            let opening = model.layout.rough_opening.low.to_mm();
            let beside = |it: &&mut Part| {
                it.kind == Kind::Jack
                    && it.id.starts_with(wall)
                    && (it.body.bounds.high.x - opening).abs() < 1e-6
            };
            let jack = model.parts.iter_mut().find(beside).expect("a jack");
            jack.body = jack.body.moved(glam::DVec3::X * (free - left).to_mm());
            let found = finding(&model, "unit through the opening", about);
            assert!(
                !(margin(&found) - left).abs().is_positive(),
                "{wall}: {:?}",
                found.numbers
            );
            assert_eq!(found.verdict, verdict, "{wall}");
        }
    }
}

/// In the demo jack and header stand from the slab's plate to 48-1/2 in: 8 in of platform, 31 of body, 6 of
/// clearance, 3-1/2 of header. A bracket 3/4 in below that holds, 1/64 in higher it does not.
#[test]
fn brackets_land_on_wood() {
    let verdicts = |above: Length| {
        let heights = Value::Lengths(vec![Length::inches(12.0), above]);
        let params = demo("flat-with-cabinets")
            // blocks behind the mantel would be wood too
            .with("blocking.mantel", &Value::Flag(false))
            .and_then(|it| it.with("appliance.brackets", &heights));
        let findings = check(&design(&params.unwrap()));
        let of = findings.iter().filter(|it| it.rule == "brackets");
        let mut verdicts: Vec<Verdict> = of.map(|it| it.verdict).collect();
        verdicts.sort();
        verdicts
    };
    let highest = Length::inches(48.5 - 8.0 - 0.75);
    assert_eq!(
        verdicts(highest),
        [Verdict::Tight, Verdict::Tight, Verdict::Pass, Verdict::Pass]
    );
    assert_eq!(
        verdicts(highest + MARK),
        [Verdict::Fail, Verdict::Fail, Verdict::Pass, Verdict::Pass]
    );
    assert_eq!(verdicts(highest + Length::inches(3.0))[0], Verdict::Fail);
    let none = check(&design(&demo("flat-with-cabinets")));
    assert!(none.iter().all(|it| it.rule != "brackets"));
}

/// A 2x4 with square edges, tilted by atan(3.5/12) = 16.26°, covers 3-1/2 · cos = 3.36 in of the stud and
/// takes 3.36 + 1-1/2 · sin = 3.78 in in plan: enough where it is flush with the face that takes board; where the plate
/// was to be ripped, which covers all and is proud of nothing, it is wrong.
#[test]
fn a_square_edged_plate_on_a_tilt_covers_less_and_stands_proud() {
    let square = [("chase.plate_edges", "\"square\"")];
    let as_sold = design(&changed("rises-away-from-wall", &square));
    let verdict = |about: &str| finding(&as_sold, "plates", about).verdict;
    assert_eq!(verdict("front: plate's cover"), Verdict::Pass);
    assert_eq!(verdict("front: plate's edge"), Verdict::Flush);
    let ripped = [("chase.plate_edges", "\"ripped\"")];
    let model = design(&changed("rises-away-from-wall", &ripped));
    for about in ["front: plate's cover", "front: plate's edge"] {
        assert_eq!(finding(&model, "plates", about).verdict, Verdict::Flush);
    }
    let mut square = model.clone();
    let plate = part_mut(&mut square, "front/top plate/1");
    let Shape::Swept(swept) = &plate.body.shape else {
        panic!("a plate is a stick")
    };
    let tilt = libm::atan(3.5 / 12.0);
    let corner = swept.profile.outline[0];
    let (along, up) = (
        glam::DVec2::new(libm::cos(tilt), -libm::sin(tilt)),
        glam::DVec2::new(libm::sin(tilt), libm::cos(tilt)),
    );
    let (w, t) = (3.5 * 25.4, 1.5 * 25.4);
    let outline = vec![
        corner,
        corner + along * w,
        corner + along * w + up * t,
        corner + up * t,
    ];
    let swept = Swept {
        profile: Profile::polygon(outline),
        ..swept.clone()
    };
    plate.body = Body::new(swept, plate.body.frame);
    let cover = finding(&square, "plates", "front: plate's cover");
    let edge = finding(&square, "plates", "front: plate's edge");
    crate::support::assert_near(
        cover.numbers.unwrap().measured / 25.4,
        3.5 * libm::cos(tilt),
        1e-6,
    );
    crate::support::assert_near(
        edge.numbers.unwrap().measured / 25.4,
        3.5 * libm::cos(tilt) + 1.5 * libm::sin(tilt) - 3.5,
        1e-6,
    );
    assert_eq!(cover.verdict, Verdict::Fail);
    assert_eq!(edge.verdict, Verdict::Fail);
}

/// Boards of 4 ft make joints: over studs in the lower plate, 24 in or more away in the upper one.
#[test]
fn long_plates_are_joined_apart() {
    let params = demo("reading-room")
        .with("stock.boards", &Value::Boards(Vec::new()))
        .and_then(|it| it.with("stock.lengths", &Value::Lengths(vec![Length::inches(54.0)])))
        .and_then(|it| it.with("chase.top_plates", &Value::Count(2)))
        .unwrap();
    let model = design(&params);
    let about = "set-back: between joints of the two plates";
    let found = finding(&model, "plates", about);
    assert_eq!(found.verdict, Verdict::Tight, "{:?}", found.numbers);
    let longest = finding(&model, "plates", "set-back: longest piece");
    assert_eq!(longest.verdict, Verdict::Pass, "{:?}", longest.numbers);
    let bad = check(&model);
    let bad: Vec<_> = bad
        .iter()
        .filter(|it| {
            it.verdict == Verdict::Fail && (it.rule == "held" || it.rule == "stud spacing")
        })
        .map(|it| it.subject.to_string())
        .collect();
    assert!(bad.is_empty(), "{bad:#?}");
    // the upper plate's joint moved to 24 in, and 1/64 in nearer
    let apart = margin(&found);
    let plates: Vec<String> = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::TopPlate && it.id.starts_with("set-back/"))
        .map(|it| it.id.clone())
        .collect();
    assert!(plates.len() >= 4, "{plates:?}");
    for (left, verdict) in [(Length::ZERO, Verdict::Tight), (-MARK, Verdict::Fail)] {
        let mut model = model.clone();
        let upper = plates.iter().find(|id| {
            let at = model.parts.iter().find(|it| &it.id == *id).unwrap();
            let own = model
                .parts
                .iter()
                .filter(|it| it.kind == Kind::TopPlate && it.id.starts_with("set-back/"));
            let top = own.map(|it| it.body.bounds.high.z).fold(f64::MIN, f64::max);
            at.body.bounds.low.x > params.site().chase.low.to_mm() + 1.0
                && (at.body.bounds.high.z - top).abs() < 1e-6
        });
        let upper = part_mut(&mut model, upper.unwrap());
        upper.body = upper.body.moved(glam::DVec3::X * (apart - left).to_mm());
        let found = finding(&model, "plates", about);
        assert_eq!(found.verdict, verdict, "{:?}", found.numbers);
    }
    // a piece longer than the longest board
    let mut long = model.clone();
    let mut params = demo("reading-room");
    params.stock.boards.clear();
    params.stock.lengths = vec![Length::inches(40.0)];
    long.params = params.into();
    let found = finding(&long, "plates", "set-back: longest piece");
    assert_eq!(found.verdict, Verdict::Fail);
}

/// With blocks every 10 ft no bay of a 14 ft wall is open over more; a block less, and one is.
#[test]
fn tall_bays_are_blocked_where_the_code_wants_it() {
    let params = demo("flat-with-cabinets")
        .with("ceiling.height", &Value::Length(Length::inches(168.0)))
        .and_then(|it| it.with("blocking.every_ten_feet", &Value::Flag(true)))
        .unwrap();
    let model = design(&params);
    for wall in ["front", "left side", "right side"] {
        let about = format!("{wall}: tallest stud bay");
        assert_eq!(
            finding(&model, "fireblocking", &about).verdict,
            Verdict::Pass
        );
    }
    let mut less = model.clone();
    less.parts
        .retain(|it| !it.id.starts_with("left side/blocking"));
    let found = finding(&less, "fireblocking", "left side: tallest stud bay");
    assert_eq!(found.verdict, Verdict::Fail);
    // sole, two rows of plates: 168 − 1/4 − 1-1/2 − 1-1/2
    crate::support::assert_near(found.numbers.unwrap().measured / 25.4, 164.75, 1e-6);
    less.parts.retain(|it| it.id != "front/top plate/1");
    let found = finding(
        &less,
        "fireblocking",
        "front: wall length not closed by a top plate",
    );
    assert_eq!(found.verdict, Verdict::Fail);
}

#[test]
fn a_board_across_a_wide_chase_stops_the_fire() {
    let wide = moved(
        &demo("flat-with-cabinets"),
        "chase.width",
        Length::inches(32.0),
    );
    assert_eq!(
        finding(&design(&wide), "fireblocking", "longest horizontal run").verdict,
        Verdict::Fail
    );
    let closed = wide
        .with(
            "blocking.across",
            &Value::Lengths(vec![Length::inches(46.0)]),
        )
        .unwrap();
    let found = finding(&design(&closed), "fireblocking", "longest horizontal run");
    assert_eq!(found.verdict, Verdict::Pass, "{:?}", found.numbers);
    // 39 + 128 − 3-1/2 − 46-1/4
    crate::support::assert_near(found.numbers.unwrap().measured / 25.4, 117.25, 1e-6);
}
