//! Walls of light-gauge steel: sections against published ones, and the demo against a computation by hand.

use chasewright::catalog::{FramingMember, Material, SteelForm, steel, track_for};
use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, Kind, Part, Stock, design};
use chasewright::geom::{Shape, contact};
use chasewright::params::{Params, Value, read};
use chasewright::takeoff::takeoff;
use chasewright::units::Length;

use crate::support::{assert_near, read_table, without, written};

const DEMO: &str = include_str!("../../params/steel-front.toml");
/// Thickness for design of 33 mil steel, in inches: AISI S220-15, from memory.
const THICK: f64 = 0.0346;
/// Web and flange of a 362S125, in inches.
const WEB: f64 = 3.625;
const FLANGE: f64 = 1.25;

fn demo() -> Params {
    read(DEMO).expect("the demo is good")
}

fn with(keys: &[(&str, Value)]) -> Params {
    let mut params = demo();
    if keys.iter().any(|it| it.0.starts_with("ceiling.rise")) {
        params.ceiling.slope = None;
    }
    keys.iter().fold(params, |params, (key, value)| {
        params
            .with(key, value)
            .unwrap_or_else(|faults| panic!("{key}: {faults:?}"))
    })
}

fn member(name: &str) -> Value {
    Value::Lumber(steel(name).expect("a designation").into())
}

fn of<'a>(design: &'a Design, id: &str) -> &'a Part {
    let found = design.parts.iter().find(|it| it.id == id);
    found.unwrap_or_else(|| panic!("no {id}"))
}

fn inches(mm: f64) -> f64 {
    Length::mm(mm).to_inches()
}

/// From its lowest to its highest coordinate along each axis, in inches; y counts out from the wall.
#[track_caller]
fn assert_lies(part: &Part, x: [f64; 2], out: [f64; 2], z: [f64; 2]) {
    let bounds = &part.body.bounds;
    for (found, expected) in [
        (inches(bounds.low.x), x[0]),
        (inches(bounds.high.x), x[1]),
        (inches(-bounds.high.y), out[0]),
        (inches(-bounds.low.y), out[1]),
        (inches(bounds.low.z), z[0]),
        (inches(bounds.high.z), z[1]),
    ] {
        assert!(
            (found - expected).abs() < 1e-9,
            "{}: {found} in, expected {expected} in",
            part.id
        );
    }
}

/// Area in square inches as the trade's section tables print it, rounded bends and all (SSMA product
/// technical information, from memory). Sharp bends add up to 3 %.
#[test]
fn sections_agree_with_the_trade_s_tables() {
    for (name, area) in [
        ("362S162-33", 0.262),
        ("362S162-43", 0.340),
        ("362S162-54", 0.422),
        ("600S162-43", 0.447),
        ("600S162-54", 0.556),
    ] {
        let member = steel(name).expect(name);
        let found = member.area() / (25.4 * 25.4);
        assert!(
            found >= area && found <= area * 1.03,
            "{name}: {found} in², printed {area} in²"
        );
    }
}

/// What wood and steel answer alike: along the wall, its depth, the height of a plate, and behind its faces,
/// in inches. The 2x4 as DOC PS 20 dresses it; the stud by its web, its flange and 0.0312 in of steel.
#[test]
fn both_stocks_answer_how_a_wall_of_them_measures() {
    let answers = |it: &FramingMember| [it.breadth(), it.depth(), it.plate(), it.nested()];
    for (name, by_hand) in [
        ("2x4", [1.5, 3.5, 1.5, 0.0]),
        ("362S125-30", [1.25, 3.6874, 0.0312, 0.0312]),
    ] {
        let found = answers(&chasewright::catalog::member(name).expect(name));
        for (found, by_hand) in found.into_iter().zip(by_hand) {
            assert_near(found.to_inches(), by_hand, 1e-12);
        }
    }
    assert!(
        chasewright::catalog::member("2x7").is_none(),
        "the standard has no 2x7"
    );
}

/// Steel weighs 40.8 lb/ft² for each inch of thickness, 489.6 lb/ft³ (AISC Steel Construction Manual, part 17).
/// The stud's strip at its middle line, by hand: 3.625 + 2·(1.25 − 0.0346) + 2·(0.1875 − 0.0346) in = 6.3616 in,
/// so 6.3616/12 · 0.0346 · 40.8 = 0.74837 lb/ft.
#[test]
fn a_stud_weighs_what_its_strip_weighs() {
    let by_hand = 0.748_37;
    let params = demo();
    let model = design(&params);
    let stud = of(&model, "front/stud/1");
    let feet = inches(stud.body.bounds.size().z) / 12.0;
    let pounds = stud.body.volume() * 1e-9 * Material::STEEL.density / 0.453_592_37;
    // 7850 kg/m³ is 490.06 lb/ft³
    assert_near(pounds / feet, by_hand * 490.06 / 489.6, 2e-5);
    let area = steel("362S125-33").map(|it| it.area());
    let volume = area.expect("a stud") * stud.body.bounds.size().z;
    assert_near(stud.body.volume() / volume, 1.0, 1e-12);
}

#[test]
fn designations_say_what_they_are() {
    let stud = steel("362S125-30").expect("a stud");
    assert_eq!((stud.form, stud.mils), (SteelForm::Stud, 30));
    assert_near(stud.web.to_inches(), 3.625, 1e-12);
    assert_near(stud.lip.to_inches(), 0.1875, 1e-12);
    let track = track_for(&stud).expect("its track");
    assert_eq!(track.name, "362T125-30");
    assert_eq!(track.form, SteelForm::Track);
    assert_near(stud.wall_depth().to_inches(), 3.625 + 2.0 * 0.0312, 1e-12);
    for wrong in [
        "362S125",
        "362S125-31",
        "362X125-30",
        "363S125-30",
        "2x4",
        "S-",
        "",
    ] {
        assert!(steel(wrong).is_none(), "{wrong}");
    }
}

/// By hand, in inches. The wall is 3.625 + 2·0.0346 = 3.6942 deep, from 25 to 21.3058 out; studs stand from
/// 24.9654 to 21.3404. It begins at 52.5; the opening is 40 + 2·0.5 = 41 wide about 90.5: 70 to 111. The
/// platform is 5.5 + 0.75 = 6.25 high, so the header begins at 6.25 + 34 + 4 = 44.25 and is 3.625 + 2·0.0346
/// high: to 47.9442. The top track lies under 108 − 0.25 = 107.75, so studs end at 107.7154.
#[test]
fn the_demo_is_framed_as_computed_by_hand() {
    let model = design(&demo());
    let studs = [21.3404, 24.9654];
    let wall = [21.3058, 25.0];
    let tall = [THICK, 107.7154];
    assert_lies(of(&model, "front/stud/1"), [52.5, 53.75], studs, tall);
    assert_lies(of(&model, "front/stud/3"), [127.25, 128.5], studs, tall);
    // 64 on center from the left end, the only one of the layout beside the opening
    assert_lies(of(&model, "front/stud/2"), [115.875, 117.125], studs, tall);
    assert_lies(of(&model, "front/king/1"), [67.5, 68.75], studs, tall);
    assert_lies(of(&model, "front/king/2"), [112.25, 113.5], studs, tall);
    let jack = [THICK, 44.25];
    assert_lies(of(&model, "front/jack/1"), [68.75, 70.0], studs, jack);
    assert_lies(of(&model, "front/jack/2"), [111.0, 112.25], studs, jack);
    // 32 and 48 on center
    let cripple = [47.9442, 107.7154];
    assert_lies(
        of(&model, "front/cripple/1"),
        [83.875, 85.125],
        studs,
        cripple,
    );
    assert_lies(
        of(&model, "front/cripple/2"),
        [99.875, 101.125],
        studs,
        cripple,
    );
    let track = [0.0, FLANGE];
    assert_lies(of(&model, "front/sole plate/1"), [52.5, 70.0], wall, track);
    assert_lies(
        of(&model, "front/sole plate/2"),
        [111.0, 128.5],
        wall,
        track,
    );
    let top = [107.75 - FLANGE, 107.75];
    assert_lies(of(&model, "front/top plate/1"), [52.5, 128.5], wall, top);
    // track, two members toe to toe, track
    let over = [68.75, 112.25];
    let headers: Vec<&Part> = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Header)
        .collect();
    let expected = [
        (wall, [44.25, 44.25 + FLANGE]),
        ([24.9654 - FLANGE, 24.9654], [44.2846, 44.2846 + WEB]),
        ([21.3404, 21.3404 + FLANGE], [44.2846, 44.2846 + WEB]),
        (wall, [47.9096, 47.9096 + FLANGE]),
    ];
    assert_eq!(headers.len(), 4);
    for (part, (out, z)) in headers.into_iter().zip(expected) {
        assert_lies(part, over, out, z);
    }
}

/// A web lies where screws and header need it: of jacks and kings toward the opening, of end studs outward.
#[test]
fn webs_face_the_opening_and_the_ends() {
    let model = design(&demo());
    let at_low = |id: &str| {
        let part = of(&model, id);
        let Shape::Swept(swept) = &part.body.shape else {
            panic!("{id} is swept");
        };
        // the web is the side with the longest edge
        let low = swept.profile.centroid().x;
        low < FLANGE * 25.4 / 2.0
    };
    for (id, low) in [
        ("front/jack/1", false),
        ("front/jack/2", true),
        ("front/king/1", false),
        ("front/king/2", true),
        ("front/stud/1", true),
        ("front/stud/3", false),
    ] {
        assert_eq!(at_low(id), low, "{id}");
    }
}

#[test]
fn nothing_of_the_demo_fails_and_nothing_lies_in_another() {
    let findings = check(&design(&demo()));
    let failing: Vec<_> = findings
        .iter()
        .filter(|it| it.verdict == Verdict::Fail)
        .map(|it| (it.rule, it.subject.to_string()))
        .collect();
    assert!(failing.is_empty(), "{failing:?}");
}

/// The same front of wood is barred where the manual allows no wood behind the facing.
#[test]
fn wood_in_the_same_place_fails_where_steel_does_not() {
    let lumber =
        |name: &str| Value::Lumber(chasewright::catalog::lumber(name).expect("nominal").into());
    let wood = with(&[
        ("front.stud", lumber("2x4")),
        ("front.header", lumber("2x4")),
    ]);
    let barred = |params: &Params| {
        let findings = check(&design(params));
        let mut own = findings
            .into_iter()
            .filter(|it| it.rule == "clearance" && it.verdict == Verdict::Fail);
        own.any(|it| it.parts.iter().any(|it| it.starts_with("clearance/behind")))
    };
    assert!(barred(&wood));
    assert!(!barred(&demo()));
}

/// Straps of the track's gauge lie on the studs: 1.25 in of stud between two bays, half of it for each.
#[test]
fn straps_back_the_mantel_and_touch_studs_and_board() {
    let model = design(&demo());
    let straps: Vec<&Part> = model
        .parts
        .iter()
        .filter(|it| it.branch.name() == "front" && it.kind == Kind::Blocking)
        .collect();
    assert!(!straps.is_empty());
    for strap in straps {
        assert_eq!(strap.material, Material::STEEL, "{}", strap.id);
        assert_near(inches(strap.body.bounds.size().y), THICK, 1e-9);
        for end in [strap.body.bounds.low.x, strap.body.bounds.high.x] {
            let ends_on = |it: &Part| {
                it.branch.name() == "front"
                    && it.kind != Kind::Blocking
                    && (it.body.bounds.center().x - end).abs() < 1e-6
            };
            assert!(
                model.parts.iter().any(ends_on),
                "{} ends at {end}",
                strap.id
            );
        }
        let touched = model
            .parts
            .iter()
            .filter(|it| it.id != strap.id && contact(&strap.body, &it.body).is_some());
        let touched: Vec<&str> = touched.map(|it| it.id.as_str()).collect();
        assert!(
            touched.iter().filter(|it| it.starts_with("front/")).count() >= 2,
            "{touched:?}"
        );
        assert!(
            touched.iter().any(|it| it.contains("board")),
            "{}: {touched:?}",
            strap.id
        );
    }
}

/// By hand: 5 uprights of 107.6808 in, each from a stick of 10 ft; 2 cripples of 59.7712, 2 jacks of 44.2154
/// and 2 members of a header of 43.5, none longer than 8 ft. Of track 76, 2 · 43.5 and 2 · 17.5 in.
#[test]
fn the_takeoff_names_steel_by_its_designation() {
    let model = design(&demo());
    let takeoff = takeoff(&model);
    assert!(takeoff.faults.is_empty(), "{:?}", takeoff.faults);
    let pieces = |name: &str| {
        let rows = takeoff
            .cut_list
            .iter()
            .filter(|it| it.board.size.name() == name);
        let mut found: Vec<(f64, usize)> = rows
            .map(|it| {
                (
                    (it.long_point.to_inches() * 1e4).round() / 1e4,
                    it.quantity(),
                )
            })
            .collect();
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found
    };
    let studs = [(107.6808, 5), (59.7712, 2), (44.2154, 2), (43.5, 2)];
    assert_eq!(pieces("362S125-33"), studs);
    assert_eq!(pieces("362T125-33"), [(76.0, 1), (43.5, 2), (17.5, 2)]);
    let steel = takeoff
        .cut_list
        .iter()
        .filter(|it| it.board.size.steel().is_some());
    for row in steel {
        assert!(
            row.rip.is_none() && row.notes[0].starts_with("snips"),
            "{row:?}"
        );
    }
    let bought = |item: &str| takeoff.buy.iter().find(|it| it.item.starts_with(item));
    let long = bought("362S125-33 x 10'").expect("sticks of 10 ft");
    assert!(long.section.name() == "steel" && long.count >= 5 && long.board_feet.is_none());
    assert!(bought("362T125-33 x 10'").is_some());
    assert!(bought("steel strap").is_some());
    assert!(bought("#8 x 1/2\" pan head framing screws").is_some());
    assert!(bought("slab anchors or drive pins, for track").is_some());
    // 33 mil wants drill points; of 1/2 in of board and 3/8 in, the next that is sold of either kind
    assert!(bought("1\" gypsum board screws, type S-12").is_some());
    assert!(bought("1-1/4\" cement board screws, type S-12").is_some());
    let wood = |it: &&chasewright::takeoff::Setup| {
        it.cuts.iter().any(|cut| {
            let mut rows = takeoff.cut_list.iter();
            rows.any(|row| row.mark == cut.mark && row.board.size.steel().is_some())
        })
    };
    assert!(
        !takeoff.saw.iter().any(|it| wood(&it)),
        "steel goes on no miter saw"
    );
}

/// Under a slope of 3 in 12 along the wall a stud 1.25 in wide ends 1.25 · 3/12 = 0.3125 in lower than its
/// track's web over its high side; the track's plumb flanges still lap it, and nothing hangs in the air.
#[test]
fn studs_under_a_slope_are_cut_square_below_their_track() {
    for key in ["ceiling.rise_right", "ceiling.rise_out"] {
        let slope = Value::Slope(chasewright::units::Slope::ratio(0.25));
        let params = with(&[(key, slope), ("rafters.blocks", Value::Flag(false))]);
        let model = design(&params);
        let stud = of(&model, "front/stud/1");
        let Shape::Swept(swept) = &stud.body.shape else {
            panic!("swept");
        };
        assert_eq!(swept.top.len(), 1);
        assert_eq!(swept.top[0].slope, glam::DVec2::ZERO, "{key}");
        let track = of(&model, "front/top plate/1");
        let touch = contact(&stud.body, &track.body).expect("the flanges lap the stud");
        assert!(inches(touch.high.z - touch.low.z) > 0.5, "{key}");
        let unheld = framing_that_fails(&model);
        assert!(unheld.is_empty(), "{key}: {unheld:?}");
    }
    let slope = Value::Slope(chasewright::units::Slope::ratio(0.25));
    let model = design(&with(&[("ceiling.rise_right", slope)]));
    // the left end stud: its low side is its left one, right under the track's web
    let stud = of(&model, "front/stud/1");
    let ceiling = 108.0 + 0.25 * 52.5 - 0.25;
    let web = THICK * (1.0_f64 + 0.25 * 0.25).sqrt();
    assert_near(inches(stud.body.bounds.high.z), ceiling - web, 1e-9);
}

#[test]
fn every_wall_of_steel_stands_without_wood() {
    for (key, stock) in [("chase.stud", "362S125-18"), ("chase.stud", "250S125-30")] {
        let params = with(&[
            (
                "front.header",
                member(if stock.starts_with('2') {
                    "250S125-30"
                } else {
                    stock
                }),
            ),
            ("front.stud", member(stock)),
            (key, member(stock)),
        ]);
        let model = design(&params);
        let framing = model
            .parts
            .iter()
            .filter(|it| ["front", "left side", "right side"].contains(&it.branch.name()));
        for part in framing {
            assert_eq!(part.material, Material::STEEL, "{}", part.id);
            assert!(
                matches!(part.stock, Stock::Steel(_) | Stock::Bought),
                "{}",
                part.id
            );
        }
        let failing = framing_that_fails(&model);
        assert!(failing.is_empty(), "{failing:?}");
    }
}

#[test]
fn steel_is_refused_where_it_is_not_modeled() {
    let faults = |key: &str, value: Value| {
        let faults = demo().with(key, &value).expect_err(key);
        faults
            .iter()
            .map(|it| it.key.to_string())
            .collect::<Vec<_>>()
    };
    assert_eq!(faults("wall.stud", member("362S125-30")), ["wall.stud"]);
    assert_eq!(faults("front.stud", member("362T125-30")), ["front.stud"]);
    let wood = Value::Lumber(chasewright::catalog::lumber("2x4").expect("nominal").into());
    assert_eq!(faults("front.header", wood), ["front.header"]);
    // two flanges of 2 in are wider than the wall's 3.625 in
    assert_eq!(
        faults("front.header", member("362S200-33")),
        ["front.header"]
    );
}

/// ASTM C645-04, 3.2.2: 100 lb/ft beside the board. A mantel of stone at 2400 kg/m³ and 8 in out: 100 lb/ft is
/// 148.8164 kg/m (NIST SP 811, B.8), so 148.8164 / (2400 · 0.2032) = 0.305 151 7 m thick at most, where no finish
/// hangs beside it.
#[test]
fn a_mantel_may_weigh_a_hundred_pounds_a_foot() {
    let verdict = |millimetres: f64| {
        let params = with(&[
            ("mantel.combustible", Value::Flag(false)),
            ("mantel.thickness", Value::Length(Length::mm(millimetres))),
            ("skins.lower_weight", weight(0.0)),
        ]);
        load(&params, "foot").verdict
    };
    assert_eq!(verdict(305.151), Verdict::Pass);
    assert_eq!(verdict(305.153), Verdict::Fail);
    // on studs of wood it says nothing
    let lumber =
        |name: &str| Value::Lumber(chasewright::catalog::lumber(name).expect("nominal").into());
    let wood = with(&[("front.stud", lumber("2x4"))]);
    assert!(
        check(&design(&wood))
            .iter()
            .all(|it| it.rule != "steel load")
    );
}

/// What `steel load` says of each foot, or of each stud.
fn load(params: &Params, of: &str) -> Finding {
    let mut findings = check(&design(params)).into_iter();
    let found = findings.find(|it| it.rule == "steel load" && it.subject.to_string().contains(of));
    found.expect("something hangs on steel")
}

fn weight(pounds: f64) -> Value {
    Value::Amount(chasewright::units::AreaWeight::new(pounds).into())
}

/// The finish counts, and each stud by itself: the stricter reading of ASTM C645-04, 3.2.2. Over 108 in less nothing
/// 100 lb/ft are 100 / 9 = 11.111 lb/ft²; where studs stand 24 in apart, each of them then takes 200 lb.
#[test]
fn the_finish_on_steel_counts_by_the_foot_and_by_the_stud() {
    let bare = |params: &Params| {
        let mut bare = params.clone();
        bare.mantel = None;
        bare
    };
    let verdicts = |pounds: f64, spacing: f64| {
        let spacing = Value::Length(Length::inches(spacing));
        let params = with(&[
            ("skins.lower_weight", weight(pounds)),
            ("chase.stud_spacing", spacing),
        ]);
        ["foot", "each steel stud"].map(|it| load(&bare(&params), it).verdict)
    };
    let limit = 100.0 / 9.0;
    assert_eq!(verdicts(limit - 1e-6, 16.0), [Verdict::Pass; 2]);
    assert_eq!(verdicts(limit + 1e-3, 16.0), [Verdict::Fail, Verdict::Pass]);
    assert_eq!(verdicts(limit - 1e-6, 24.0), [Verdict::Pass; 2]);
    assert_eq!(verdicts(limit + 1e-3, 24.0), [Verdict::Fail; 2]);
    // 200 lb on a stud are reached first where they stand farther apart
    assert_eq!(verdicts(limit - 1e-3, 24.5), [Verdict::Pass, Verdict::Fail]);
}

/// A finish whose weight nobody has told is a question, and passes nothing.
#[test]
fn a_finish_without_weight_on_steel_is_a_question() {
    let file = without(&written("steel-front", &[]), "skins.lower_weight").expect("it has one");
    let params = read_table(&file).expect("it may be left out");
    let found = load(&params, "finish");
    assert_eq!(found.verdict, Verdict::Ask);
    assert!(
        found
            .question
            .is_some_and(|it| it.contains("skins.lower_weight"))
    );
}

/// Blocks between the room's own rafters and studs lie outside the room, and are meant to.
#[test]
fn blocks_of_the_room_are_not_outside_it() {
    let model = design(&demo());
    for branch in ["ceiling", "existing wall"] {
        assert!(
            model
                .parts
                .iter()
                .any(|it| it.branch.name() == branch && it.kind == Kind::Blocking),
            "the demo has blocks in {branch}"
        );
    }
    let findings = check(&model);
    assert!(
        findings
            .iter()
            .all(|it| it.rule != "inside the room" || it.verdict != Verdict::Fail)
    );
}

/// A recess in a wall of steel: sill and head are tracks, and what stands on them nests in their flanges.
#[test]
fn a_recess_is_framed_in_tracks() {
    let text = DEMO.replace("[stock]", "[recess]\nwidth = \"48 in\"\nheight = \"26 in\"\ndepth = \"3 in\"\nsill = \"66 in\"\n\n[stock]");
    let params = read(&text).expect("a recess fits");
    let model = design(&params);
    let sill = of(&model, "front/sill/1");
    // the lining is 1/2 in thick, so the web's top lies at 65.5
    assert_near(inches(sill.body.bounds.high.z), 65.5, 1e-9);
    assert_near(inches(sill.body.bounds.low.z), 65.5 - FLANGE, 1e-9);
    let kinds = |id: &str| of(&model, id).stock.clone();
    assert_eq!(kinds("front/sill/1"), Stock::Steel("362T125-33".to_owned()));
    let failing: Vec<_> = check(&model)
        .into_iter()
        .filter(|it| {
            [
                "held",
                "part in part",
                "stud spacing",
                "plates",
                "treated plate",
            ]
            .contains(&it.rule)
                && it.verdict != Verdict::Pass
                && it.verdict != Verdict::Flush
        })
        .map(|it| it.subject.to_string())
        .collect();
    assert!(failing.is_empty(), "{failing:?}");
}

/// The flat studs behind a recess lap the tracks over and under it, whose flanges are 1-1/4 in long, however wide the
/// flanges of the studs are: 1-5/8 in here (both of the members' own designations).
#[test]
fn studs_behind_a_recess_lap_the_flanges_of_its_tracks() {
    let text = DEMO.replace("[stock]", "[recess]\nwidth = \"48 in\"\nheight = \"26 in\"\ndepth = \"5 in\"\nsill = \"66 in\"\n\n[stock]");
    let params = read(&text).expect("a recess fits");
    let wide = ["front.stud", "front.header"].iter();
    let wide = wide.fold(params, |params, key| {
        params.with(key, &member("362S162-33")).expect("steel")
    });
    let model = design(&wide);
    let flat = of(&model, "recess/recess framing/1").body.bounds;
    assert_near(inches(flat.low.z), 65.5 - FLANGE, 1e-9);
    assert_near(inches(flat.high.z), 92.5 + FLANGE, 1e-9);
}

/// A stepped face with both of its walls of steel, and a wall of wood with a header of steel alone.
#[test]
fn steel_stands_in_a_stepped_face_and_over_an_opening_alone() {
    let stepped = read(include_str!("../../params/stepped-face.toml")).expect("a demo");
    let steel_walls = ["front.header", "front.stud", "front.bump_out_stud"];
    let all = steel_walls.iter().fold(stepped.clone(), |params, key| {
        params.with(key, &member("350S125-30")).expect("steel")
    });
    // the ledge lies two tracks of 0.0312 in higher than on a header of 3-1/2 in
    let higher = |params: Params, key: &str| {
        let Some(Value::Length(at)) = params.get(key) else {
            panic!("{key}");
        };
        let at = Value::Length(at + Length::inches(2.0 * 0.0312));
        params.with(key, &at).expect("a little higher")
    };
    let all = higher(higher(all, "mantel.underside"), "skins.noncombustible_to");
    let header = stepped
        .with("front.header", &member("350S162-33"))
        .expect("steel");
    for params in [all, header] {
        let before: Vec<String> = failing(&stepped);
        let new: Vec<String> = failing(&params)
            .into_iter()
            .filter(|it| !before.contains(it))
            .collect();
        assert!(new.is_empty(), "{new:?}");
    }
    let alone = design(
        &stepped
            .with("front.header", &member("350S162-33"))
            .expect("steel"),
    );
    let headers = alone
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Header && it.branch.name() == "bump-out");
    let headers: Vec<&Part> = headers.collect();
    assert_eq!(headers.len(), 2);
    for header in headers {
        assert_eq!(header.material, Material::STEEL);
        assert_near(inches(header.body.bounds.size().z), 3.5, 1e-9);
    }
}

fn failing(params: &Params) -> Vec<String> {
    check(&design(params))
        .into_iter()
        .filter(|it| it.verdict == Verdict::Fail)
        .map(|it| format!("{}: {}", it.rule, it.subject))
        .collect()
}

/// IRC 2018 R603.2.6.1, from memory: a hole in the web is no wider than half of its depth, 3.625/2 = 1-13/16 in,
/// and than 2-1/2 in. Whether there is a punch-out is asked; a wider hole is none.
#[test]
fn a_cable_goes_through_a_punch_out_or_not_at_all() {
    let said = |diameter: f64| {
        let lines = format!(
            "[cables]\ndiameter = \"{diameter} in\"\nroute = [[\"114.5 in\", \"23.1529 in\", \"20 in\"], [\"119 in\", \"23.1529 in\", \"20 in\"]]\n\n[stock]"
        );
        let params = read(&DEMO.replace("[stock]", &lines)).expect("a cable");
        let findings = check(&design(&params)).into_iter();
        let own = findings.filter(|it| {
            it.parts.iter().any(|it| it == "front/stud/2")
                && ["bores and notches", "part in part"].contains(&it.rule)
        });
        own.map(|it| (it.rule, it.verdict)).collect::<Vec<_>>()
    };
    let bores = "bores and notches";
    // 1-1/2 in, the smaller of two numbers that are remembered, is less than half of 3-5/8
    assert_eq!(said(1.5), [(bores, Verdict::Ask)]);
    assert_eq!(said(1.5 + 1.0 / 64.0), [(bores, Verdict::Fail)]);
}

/// Limiting heights, spans of headers and what a strap holds stand in no code's table; neither does a block
/// in a bay of steel (IRC R302.11 speaks of combustible construction).
#[test]
fn what_only_the_maker_knows_is_asked() {
    let asked = |params: &Params| {
        let findings = check(&design(params)).into_iter();
        let asks = findings.filter(|it| it.verdict == Verdict::Ask && it.question.is_some());
        asks.map(|it| format!("{}: {}", it.rule, it.subject))
            .collect::<Vec<_>>()
    };
    let of_steel = [
        "stud height: longest stud of steel",
        "unit header: load on the header over the unit in the front wall",
        "mantel hold: bite of the mantel's screws into the studs beside its brackets",
    ];
    let found = asked(&demo());
    for about in of_steel {
        assert!(found.iter().any(|it| it == about), "{about}: {found:?}");
    }
    let bay = "fireblocking: front: tallest stud bay without a fireblock";
    let tall = with(&[
        ("ceiling.height", Value::Length(Length::inches(150.0))),
        ("blocking.every_ten_feet", Value::Flag(true)),
    ]);
    assert!(asked(&tall).iter().any(|it| it == bay));
    let wood = Value::Lumber(chasewright::catalog::lumber("2x4").expect("nominal").into());
    let wood = with(&[("front.stud", wood.clone()), ("front.header", wood)]);
    let found = asked(&wood);
    for about in of_steel {
        assert!(!found.iter().any(|it| it == about), "{about}");
    }
}

/// Behind a bump-out of steel whose ledge is wider than its studs each end is closed by half a track, as high
/// as from the slab to the ledge: a leg of 5.5 − (2.5 + 2·0.0312) = 2.9376 in of web, and a flange of 1.25.
#[test]
fn returns_behind_steel_are_half_a_track() {
    let stepped = read(include_str!("../../params/stepped-face.toml")).expect("a demo");
    let keys = ["front.header", "front.stud", "front.bump_out_stud"];
    let params = keys.iter().fold(stepped, |params, key| {
        params.with(key, &member("250S125-30")).expect("steel")
    });
    let model = design(&params);
    let returns: Vec<&Part> = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Return)
        .collect();
    assert_eq!(returns.len(), 2);
    for part in returns {
        let size = part.body.bounds.size();
        assert_near(inches(size.x), FLANGE, 1e-9);
        assert_near(inches(size.y), 5.5 - (2.5 + 2.0 * 0.0312), 1e-9);
        let area = (2.9376 + FLANGE - 0.0312) * 0.0312;
        let volume = area * inches(size.z) * 25.4_f64.powi(3);
        assert_near(part.body.volume() / volume, 1.0, 1e-9);
    }
    let rows = takeoff(&model).cut_list;
    let row = rows.iter().find(|it| it.kinds.contains(&Kind::Return));
    let row = row.expect("a row of returns");
    assert!(
        row.notes.iter().any(|it| it.starts_with("half of a track")),
        "{:?}",
        row.notes
    );
    assert_eq!(row.board.size.name(), "250T125-30");
}

/// What fails of the rules of sticks that hold and touch one another.
fn framing_that_fails(model: &Design) -> Vec<String> {
    let rules = ["held", "part in part", "stud spacing", "plates"];
    let found = check(model).into_iter();
    let failing = found.filter(|it| rules.contains(&it.rule) && it.verdict == Verdict::Fail);
    failing.map(|it| it.subject.to_string()).collect()
}
