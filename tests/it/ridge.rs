//! A ridge over or beside the chase: plates that meet plumb, studs cut to both planes, and everything
//! that hangs or lies under them.

use chasewright::check::{Verdict, check};
use chasewright::design::{Design, Kind, Part, design};
use chasewright::geom::{EndPlane, Shape, Swept, Underside, overlap, roofline};
use chasewright::params::{Params, RidgeRun, Value, read};
use chasewright::takeoff::{StickFace, takeoff};
use chasewright::units::{Length, Slope};
use glam::{DVec2, DVec3};

use crate::generate::{Random, random_params};
use crate::scenarios::demo;
use crate::support::{assert_near, is_quick, seeds};

fn part<'a>(design: &'a Design, id: &str) -> &'a Part {
    let found = design.parts.iter().find(|it| it.id == id);
    found.unwrap_or_else(|| panic!("no part {id}"))
}

fn swept(part: &Part) -> &Swept {
    match &part.body.shape {
        Shape::Swept(swept) => swept,
        Shape::Tube(_) => panic!("{} is a tube", part.id),
    }
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

/// The worked design: "two plates meet at the ridge: plumb-cut 18.43° each". Framing square, rise 4:
/// 12.65 in of rafter for each foot of run, 18.4349° (read in print; see `published.rs`).
#[test]
fn plates_meet_under_the_ridge_with_plumb_cuts() {
    let design = design(&demo("ridge-over-chase"));
    let plates = [1, 2].map(|number| part(&design, &format!("front/top plate/{number}")));
    for plate in plates {
        let shape = swept(plate);
        for end in [shape.bottom[0], shape.top[0]] {
            assert_near(libm::atan(end.slope.y.abs()).to_degrees(), 18.4349, 5e-5);
        }
        let length = (shape.top[0].height - shape.bottom[0].height) / 25.4;
        assert_near(length / 38.0 * 12.0, 12.65, 0.005_1);
    }
    // the joint is plumb, at 100 in
    let [left, right] = plates.map(|plate| plate.body.bounds);
    assert_near(left.high.x / 25.4, 100.0, 1e-9);
    assert_near(right.low.x / 25.4, 100.0, 1e-9);
    assert_near(left.high.z, right.high.z, 1e-9);
    // 90 + 100/3 less the gap
    assert_near(left.high.z / 25.4, 123.0 + 1.0 / 3.0 - 0.25, 1e-9);
}

#[test]
fn a_stud_under_the_joint_is_cut_to_both_planes() {
    let design = design(&demo("ridge-over-chase"));
    let peaked: Vec<&Part> = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Cripple && swept(it).top.len() == 2)
        .collect();
    assert_eq!(peaked.len(), 1);
    // in the middle of the chase, its peak under the joint
    let bounds = peaked[0].body.bounds;
    assert_near(bounds.center().x / 25.4, 100.0, 1e-9);
    let plate = 1.5 * (1.0 + 1.0 / 9.0_f64).sqrt();
    assert_near(bounds.high.z / 25.4, 123.0 + 1.0 / 3.0 - 0.25 - plate, 1e-9);
    // the end studs are mirror images: one is the other turned over
    let ends = [1, 2].map(|number| swept(part(&design, &format!("front/stud/{number}"))));
    assert_near(ends[0].top[0].slope.x, -ends[1].top[0].slope.x, 1e-12);
    let length = |stud: &Swept| {
        stud.top[0]
            .z(DVec2::ZERO)
            .max(stud.top[0].z(DVec2::X * 38.1))
    };
    assert_near(length(ends[0]), length(ends[1]), 1e-9);
    let list = takeoff(&design).cut_list;
    let row = |id: &str| list.iter().find(|row| row.parts.iter().any(|it| it == id));
    let (left, right) = (row("front/stud/1").unwrap(), row("front/stud/2").unwrap());
    assert_eq!(left.mark, right.mark, "one piece of wood, turned round");
    // and the saw's list has both cuts of the peak
    let row = row(&peaked[0].id).unwrap();
    let second = row.ends[1].second.as_ref().expect("two cuts");
    assert_eq!(second.from, StickFace::Left);
    assert_near(second.at.to_inches(), 0.75, 1e-9);
    for cut in row.ends[1].cuts() {
        let (miter, bevel) = row.setting(&cut);
        let angle = miter.to_degrees().max(bevel.to_degrees());
        assert_near(angle, 18.4349, 5e-5);
    }
}

#[test]
fn board_and_room_follow_the_ridge() {
    let design = design(&demo("ridge-over-chase"));
    let peak = (90.0 + 100.0 / 3.0) * 25.4;
    for id in ["face/board/2", "face/finish/1", "room/wall layer/1"] {
        assert_near(part(&design, id).body.bounds.high.z, peak, 1e-9);
    }
    let ceilings: Vec<&Part> = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Ceiling)
        .collect();
    assert_eq!(ceilings.len(), 2);
    let area: f64 = ceilings.iter().map(|it| swept(it).profile.area()).sum();
    assert_near(area / 25.4 / 25.4, 200.0 * 228.0, 1e-6);
}

/// By hand: 3 + 6 s and 7 − 2 s are both 6 at s = 1/2; a third line, 4 + 20 s, crosses them where it is not the lowest.
#[test]
fn a_roofline_turns_where_its_lowest_lines_cross() {
    let found = roofline(&[(3.0, 9.0), (7.0, 5.0), (4.0, 24.0)], (0.0, 10.0));
    let expected = [(0.0, 3.0), (5.0, 6.0), (10.0, 5.0)];
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (corner, (x, y)) in found.iter().zip(expected) {
        assert_near(corner.x, x, 1e-12);
        assert_near(corner.y, y, 1e-12);
    }
}

/// The two demos: sound frames; the one check that fails is the flat header under a high gable.
#[test]
fn the_demos_under_a_steep_ceiling_are_sound() {
    for name in ["ridge-over-chase", "metric-mono-slope"] {
        let failed: Vec<String> = check(&design(&demo(name)))
            .into_iter()
            .filter(|it| it.verdict == Verdict::Fail && it.rule != "recess header")
            .map(|it| format!("{}: {}", it.rule, it.subject))
            .collect();
        assert_eq!(failed, Vec::<String>::new(), "{name}");
    }
}

fn with_ridge(base: &Params, runs: RidgeRun, at: f64, (rise, fall): (f64, f64)) -> Option<Params> {
    let mut params = base.clone();
    let ridge = params.ridge.as_mut()?;
    ridge.runs = runs;
    ridge.at = Length::inches(at);
    ridge.fall = Some(Slope::ratio(fall));
    ridge.far_height = None;
    params.ceiling.rise_right = Some(Slope::LEVEL);
    match runs {
        RidgeRun::Out => params.ceiling.rise_right = Some(Slope::ratio(rise)),
        RidgeRun::Along => params.ceiling.rise_out = Some(Slope::ratio(rise)),
    }
    // judged as if written
    let key = Value::Length(params.ceiling.height.unwrap());
    params.with("ceiling.height", &key).ok()
}

/// The ridge goes over the whole chase step by step, both ways, with one plate and with two.
#[test]
fn the_frame_is_sound_wherever_the_ridge_lies() {
    let mut base = demo("ridge-over-chase");
    base.ceiling.height = Some(Length::inches(112.0));
    base.vent.rise = Some(Length::inches(52.0));
    let mut tried = 0;
    for plates in [1, 2] {
        base.chase.top_plates = plates;
        for (rise, fall) in [(1.0 / 3.0, 1.0 / 3.0), (0.75, 0.0), (0.0, 0.1), (1.0, 0.25)] {
            for step in 0..60 {
                let places = [
                    (RidgeRun::Out, 60.0 + f64::from(step) * 1.3125),
                    (RidgeRun::Along, 0.25 + f64::from(step) * 0.4375),
                ];
                for (runs, at) in places {
                    let Some(params) = with_ridge(&base, runs, at, (rise, fall)) else {
                        continue;
                    };
                    let found = unsound(&design(&params));
                    assert!(
                        found.is_empty(),
                        "{runs:?} at {at}, {rise} and {fall}, {plates}: {found:#?}"
                    );
                    tried += 1;
                }
            }
        }
    }
    assert!(tried > 600, "{tried}");
}

/// Random designs with a ridge: our own sticks are not in one another, and nothing reaches through
/// the ceiling.
#[test]
fn random_designs_under_a_ridge_hold() {
    let mut ridges = 0;
    for seed in seeds(5000..5400) {
        let params = random_params(seed);
        if params.ridge.is_none() {
            continue;
        }
        let model = design(&params);
        // a chase too narrow for its opening, or too low for its vent, has sticks in one another, ridge or not
        let cramped = check(&model).iter().any(|it| {
            let rules = [
                "opening in the front",
                "recess in the front",
                "recess under the ceiling",
                "run under the ceiling",
            ];
            it.verdict == Verdict::Fail && rules.contains(&it.rule)
        });
        if cramped {
            continue;
        }
        ridges += 1;
        let ours: Vec<&Part> = model
            .parts
            .iter()
            .filter(|it| {
                matches!(
                    it.kind,
                    Kind::TopPlate | Kind::Stud | Kind::King | Kind::Cripple
                )
            })
            .collect();
        for (at, part) in ours.iter().enumerate() {
            for other in &ours[at + 1..] {
                let walls = [part, other].map(|it| it.id.split('/').next());
                let one = walls[0] == walls[1] && overlap(&part.body, &other.body).is_some();
                assert!(!one, "seed {seed}: {} in {}", part.id, other.id);
            }
            for plane in model.layout.ceiling_of(part).planes() {
                let highest = part.body.farthest(plane.up());
                let above = highest.z - plane.z(highest.truncate());
                assert!(above < 1e-6, "seed {seed}: {} by {above}", part.id);
            }
        }
    }
    assert!(is_quick() || ridges > 40, "{ridges}");
}

#[test]
fn heights_and_slopes_tell_the_same_ridge() {
    let told = |text: &str| {
        let base = include_str!("../../params/ridge-over-chase.toml");
        let ridge = base.find("[ridge]").unwrap();
        let wall = base.find("[wall]").unwrap();
        let text = format!("{}{text}\n{}", &base[..ridge], &base[wall..]);
        read(&text)
    };
    let slopes = told("[ridge]\nruns = \"out\"\nat = \"100 in\"\nfall = \"4:12\"").unwrap();
    let heights = told("[ridge]\nruns = \"out\"\nat = \"100 in\"\nfar_height = \"90 in\"").unwrap();
    for (a, b) in slopes
        .underside()
        .planes()
        .iter()
        .zip(heights.underside().planes())
    {
        assert_near(a.height, b.height, 1e-9);
        assert_near(a.slope.distance(b.slope), 0.0, 1e-12);
    }
    for bad in [
        "[ridge]\nruns = \"out\"\nat = \"100 in\"",
        "[ridge]\nruns = \"out\"\nat = \"100 in\"\nfall = \"4:12\"\nfar_height = \"90 in\"",
        "[ridge]\nruns = \"out\"\nat = \"100 in\"\nfall = \"-4:12\"",
        "[ridge]\nruns = \"out\"\nat = \"201 in\"\nfall = \"4:12\"",
        "[ridge]\nruns = \"out\"\nat = \"100 in\"\nheight = \"120 in\"\nfall = \"4:12\"",
        "[ridge]\nruns = \"out\"\nat = \"199 in\"\nfar_height = \"90 in\"",
    ] {
        let faults = told(bad).expect_err(bad);
        assert_eq!(faults.len(), 1, "{bad}: {faults:?}");
        assert!(faults[0].to_string().contains("ridge"), "{bad}: {faults:?}");
    }
}

/// Against sampling: the lower of the planes at every point, and of the lines at every share.
#[test]
fn areas_and_lines_under_several_planes_agree_with_samples() {
    let mut random = Random(77);
    for _ in 0..200 {
        let planes: Vec<EndPlane> = (0..=random.below(3))
            .map(|_| {
                let slope = DVec2::new(random.between(-1.0, 1.0), random.between(-1.0, 1.0));
                EndPlane::sloped(Length::mm(random.between(0.0, 60.0)), slope)
            })
            .collect();
        let under = Underside::new(planes);
        let area = [(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 40.0)].map(DVec2::from);
        let parts = under.over(&area);
        let total: f64 = parts
            .iter()
            .map(|(_, part)| chasewright::geom::Profile::polygon(part.clone()).area())
            .sum();
        assert_near(total, 4000.0, 1e-3);
        for (at, part) in &parts {
            let middle = part.iter().sum::<DVec2>() / part.len() as f64;
            assert_near(under.planes()[*at].z(middle), under.z(middle), 1e-9);
        }
        let lines: Vec<(f64, f64)> = under.lines(area[0], area[2]).collect();
        let roof = roofline(&lines, (0.0, 1.0));
        for step in 0..=50 {
            let share = f64::from(step) / 50.0;
            let edge = roof.windows(2).find(|pair| share <= pair[1].x).unwrap();
            let within = (share - edge[0].x) / (edge[1].x - edge[0].x);
            let found = edge[0].y + (edge[1].y - edge[0].y) * within;
            assert_near(found, under.z(area[0].lerp(area[2], share)), 1e-6);
        }
        let turned = chasewright::geom::Frame::new(
            DVec3::new(10.0, -20.0, 5.0),
            DVec3::new(0.6, 0.8, 0.0),
            DVec3::new(-0.8, 0.6, 0.0),
        );
        let back = under.seen_from(&turned).placed(&turned);
        assert_near(back.z(area[2]), under.z(area[2]), 1e-9);
    }
}
