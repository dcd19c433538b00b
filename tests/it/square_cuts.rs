//! Cuts that the saw's tolerance lets be square, and top plates with the edges that they are sold with.

use chasewright::check::{clearances, unheld};
use chasewright::design::{Branch, Design, Kind, Left, Part, Stock, Wedge, design};
use chasewright::geom::{Shape, Swept, contact, overlaps};
use chasewright::params::{ChaseWall, Params, Value};
use chasewright::takeoff::{End, takeoff};
use chasewright::units::{Length, Span};
use glam::DVec3;

use crate::generate::random_params;
use crate::support::{assert_near, changed, demos, seeds};

fn swept(part: &Part) -> &Swept {
    match &part.body.shape {
        Shape::Swept(swept) => swept,
        Shape::Tube(_) => panic!("{} is a tube", part.id),
    }
}

fn sticks(design: &Design) -> impl Iterator<Item = &Part> {
    let cut = |it: &&Part| matches!(it.stock, Stock::Stick(_) | Stock::Rip(_));
    design.parts.iter().filter(cut)
}

/// Every upright of a wall that reaches its plates.
fn studs(design: &Design, wall: ChaseWall) -> Vec<&Part> {
    let studs = sticks(design).filter(|it| it.kind == Kind::Stud);
    studs.filter(|it| it.branch == Branch::Wall(wall)).collect()
}

/// The shortest of a stick's long edges, in inches.
fn short_point(part: &Part) -> f64 {
    let shape = swept(part);
    let lengths = shape.profile.outline.iter().map(|corner| {
        let top = shape.top.iter().map(|it| it.z(*corner));
        let bottom = shape.bottom.iter().map(|it| it.z(*corner));
        top.fold(f64::INFINITY, f64::min) - bottom.fold(f64::NEG_INFINITY, f64::max)
    });
    lengths.fold(f64::INFINITY, f64::min) / 25.4
}

/// The reading room, its ceiling 1/10 in 12 higher to the right: 1/120 makes 1/80 in through a stud 1-1/2 in thick, and
/// 7/240 in across one 3-1/2 in wide.
fn nearly_level(tolerance: &str) -> Design {
    let changes = [
        ("ceiling.rise_right", "\"0.1:12\""),
        ("saw.tolerance", tolerance),
        ("chase.plate_edges", "\"ripped\""),
    ];
    design(&changed("reading-room", &changes))
}

/// By hand: the set-back wall's studs keep the miter of 3 in 12 over their wide face and lose the bevel; the side
/// walls' studs keep the bevel of 3 in 12 and lose the miter. Each is as long as the short point was.
#[test]
fn an_angle_under_the_tolerance_is_left_out_and_the_other_stays() {
    let exact = nearly_level("0");
    let square = nearly_level("\"1/16 in\"");
    for wall in [
        ChaseWall::SetBack,
        ChaseWall::LeftSide,
        ChaseWall::RightSide,
    ] {
        let (before, after) = (studs(&exact, wall), studs(&square, wall));
        assert!(before.len() == after.len() && !after.is_empty());
        for (before, after) in before.into_iter().zip(after) {
            // a level plate is less thick, plumb, than a tilted one: by 1/25000
            let [after_short, before_short] = [after, before].map(short_point);
            assert!(after_short >= before_short - 1e-9);
            assert_near(after_short, before_short, 2e-4);
            let top = swept(after).top[0].slope;
            let (through, across) = if wall == ChaseWall::SetBack {
                (0.0, 0.25)
            } else {
                (0.25, 0.0)
            };
            assert_near(top.x.abs(), through, 1e-9);
            assert_near(top.y.abs(), across, 1e-9);
        }
    }
    // 0.0125 in to the right, where the ceiling is higher, on every stud of the set-back wall
    for stud in studs(&square, ChaseWall::SetBack) {
        let wedges = stud.wedges();
        let [wedge] = wedges.as_slice() else {
            panic!("{}: {wedges:?}", stud.id)
        };
        let Wedge {
            end,
            thick_at,
            thickness,
            left,
        } = wedge;
        assert_eq!(*left, Left::Miter);
        assert_near(thickness.to_inches(), 0.0125, 1e-9);
        assert_near(end.dot(DVec3::Z), 1.0, 1e-9);
        assert_eq!(thick_at.len(), 1);
        assert_near(thick_at[0].dot(DVec3::X), 1.0, 1e-9);
    }
    let shims = takeoff(&square);
    let shims = shims.buy.iter().filter(|it| it.item == "tapered wood shim");
    let bought: usize = shims.map(|it| it.count).sum();
    let all = sticks(&square).filter(|it| {
        matches!(
            it.kind,
            Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple
        )
    });
    assert_eq!(bought, all.map(|it| it.wedges().len()).sum::<usize>());
    assert!(bought >= studs(&square, ChaseWall::SetBack).len());
}

/// A side wall's plate is a stick as sold, level across: nothing is ripped, and the cut list says what is left over it.
#[test]
fn a_plate_under_the_tolerance_lies_level_across() {
    let plate = |design: &Design| {
        let mut plates = sticks(design).filter(|it| it.kind == Kind::TopPlate);
        let found = plates.find(|it| it.branch == Branch::Wall(ChaseWall::LeftSide));
        found.expect("the wall has a plate").clone()
    };
    let (exact, square) = (nearly_level("0"), nearly_level("\"1/16 in\""));
    assert!(matches!(plate(&exact).stock, Stock::Rip(_)));
    let plate = plate(&square);
    assert!(matches!(plate.stock, Stock::Stick(_)));
    let list = takeoff(&square).cut_list;
    let row = list.iter().find(|it| it.parts.contains(&plate.id));
    let row = row.expect("the plate is cut");
    assert!(row.rip.is_none(), "{row:?}");
    let said = row
        .notes
        .iter()
        .any(|it| it.contains("level across; shim 1/16\""));
    assert!(said, "{:?}", row.notes);
    let stud = studs(&square, ChaseWall::SetBack)[0];
    let row = list.iter().find(|it| it.parts.contains(&stud.id));
    let notes = &row.expect("the stud is cut").notes;
    let words = "top end: no bevel; shim 1/16\" at the right, the side that is short";
    assert!(notes.iter().any(|it| it.starts_with(words)), "{notes:?}");
}

/// At the tolerance itself the angle is cut, a hair below it is not.
#[test]
fn the_tolerance_is_a_boundary() {
    let bevel = |rise: &str| {
        let changes = [("ceiling.rise_right", rise)];
        let design = design(&changed("reading-room", &changes));
        swept(studs(&design, ChaseWall::SetBack)[0]).top[0].slope.x
    };
    // 1/2 in 12 makes 1/16 in over 1-1/2 in
    assert_near(bevel("\"0.5:12\""), 1.0 / 24.0, 1e-9);
    assert_near(bevel("\"0.499:12\""), 0.0, 1e-12);
}

/// Whether sticks are in one another, and where.
fn in_one_another(design: &Design) -> Vec<String> {
    let framing: Vec<&Part> = sticks(design).collect();
    let mut found = Vec::new();
    for (at, a) in framing.iter().enumerate() {
        for b in &framing[at + 1..] {
            if a.body.bounds.touches(&b.body.bounds) && overlaps(&a.body, &b.body) {
                found.push(format!("{} and {}", a.id, b.id));
            }
        }
    }
    found
}

fn with(params: &Params, key: &str, value: &Value) -> Params {
    let changed = params.with(key, value);
    changed.unwrap_or_else(|faults| panic!("{key}: {faults:?}"))
}

fn exact(params: &Params) -> Params {
    with(params, "saw.tolerance", &Value::Length(Length::ZERO))
}

/// What is cut square lies within what would fit, is held by the same, and is as long in the list as in the model.
#[test]
fn square_cuts_put_no_stick_into_another_and_leave_none_in_the_air() {
    let mut squared = 0;
    for seed in seeds(0..60) {
        let params = random_params(seed);
        let before = design(&exact(&params));
        let after = design(&params);
        squared += sticks(&after).filter(|it| !it.wedges().is_empty()).count();
        let known = in_one_another(&before);
        let new: Vec<String> = in_one_another(&after);
        assert!(new.iter().all(|it| known.contains(it)), "{seed}: {new:?}");
        let lacks = |design: &Design| -> Vec<String> {
            unheld(design).into_iter().map(|it| it.part).collect()
        };
        let (known, new) = (lacks(&before), lacks(&after));
        assert!(
            new.iter().all(|it| known.contains(it)),
            "{seed}: {new:?}, {known:?}"
        );
        for row in takeoff(&after).cut_list {
            for id in &row.parts {
                let part = after.parts.iter().find(|it| it.id == *id).expect(id);
                assert!(
                    reach_of(part, row.long_point),
                    "{seed}: {id} is {}",
                    row.long_point.to_mm()
                );
            }
        }
    }
    assert!(squared > 0);
}

/// Whether a part is so long along one of its own axes.
fn reach_of(part: &Part, length: Length) -> bool {
    let frame = &part.body.frame;
    let axes = [frame.x, frame.y, frame.z];
    axes.into_iter().any(|axis| {
        let reach: Span = part.reach(axis);
        (reach.size() - length).abs().to_mm() < 1e-5
    })
}

/// The one top plate of a wall.
fn plate(design: &Design, wall: ChaseWall) -> &Part {
    let mut plates = sticks(design).filter(|it| it.kind == Kind::TopPlate);
    let found = plates.find(|it| it.branch == Branch::Wall(wall));
    found.expect("the wall has a plate")
}

/// From where to where a part reaches toward the wall, in inches.
fn toward_wall(part: &Part) -> (f64, f64) {
    let reach = part.reach(DVec3::Y);
    (reach.low.to_inches(), reach.high.to_inches())
}

/// How much of a stud of the wall its plate covers, in inches.
fn cover(design: &Design, wall: ChaseWall) -> f64 {
    let touch = contact(&studs(design, wall)[0].body, &plate(design, wall).body);
    let touch = touch.expect("the plate lies on the stud");
    (touch.high.y - touch.low.y) / 25.4
}

/// The reading room with plates as sold, and these changes.
fn as_sold(changes: &[(&str, &str)]) -> Params {
    let square = [("chase.plate_edges", "\"square\"")];
    changed("reading-room", &[square.as_slice(), changes].concat())
}

/// By hand, at 3 in 12: cos 0.970143, sin 0.242536. The ceiling rises away from the wall, so that the plate's lower
/// corner is the one at the face; it covers 3.5 cos = 3.3955, its edge leans 1.5 sin = 0.3638, and both together are its
/// footprint, 3.7593: 0.2593 past the studs. Side walls begin 29 − 3.5 = 25.5 out; their plates stop so much short.
#[test]
fn a_plate_as_sold_leans_with_the_ceiling() {
    let design = design(&as_sold(&[]));
    let front = plate(&design, ChaseWall::SetBack);
    assert!(matches!(front.stock, Stock::Stick(_)));
    let (stud, own) = (
        toward_wall(studs(&design, ChaseWall::SetBack)[0]),
        toward_wall(front),
    );
    assert_near(own.0, stud.0, 1e-9);
    assert_near(own.1 - own.0, 3.759_303, 1e-6);
    assert_near(own.1 - stud.1, 0.259_303, 1e-6);
    assert_near(cover(&design, ChaseWall::SetBack), 3.395_499, 1e-6);
    for wall in [ChaseWall::LeftSide, ChaseWall::RightSide] {
        let side = toward_wall(plate(&design, wall));
        assert_near(side.0 - stud.1, 0.259_303, 1e-6);
        let studs = studs(&design, wall).into_iter().map(toward_wall);
        let first = studs.map(|it| it.0).fold(f64::INFINITY, f64::min);
        assert_near(first, stud.1, 1e-9);
    }
    let list = takeoff(&design).cut_list;
    let row = list.iter().find(|it| it.parts.contains(&front.id));
    let row = row.expect("the plate is cut");
    assert!(
        row.rip.is_none() && row.ends.iter().all(End::is_square),
        "{row:?}"
    );
    let size = (row.section.0.to_inches(), row.section.1.to_inches());
    assert_near(size.0, 3.5, 1e-9);
    assert_near(size.1, 1.5, 1e-9);
    assert!(in_one_another(&design).is_empty());
}

/// Where the ceiling falls into the room the upper corner is the one at the face, and the lower edge begins 0.3638
/// behind it: 3.1362 is covered.
#[test]
fn a_plate_that_rises_inward_covers_less() {
    let design = design(&as_sold(&[("ceiling.rise_out", "\"-3:12\"")]));
    let front = plate(&design, ChaseWall::SetBack);
    let stud = toward_wall(studs(&design, ChaseWall::SetBack)[0]);
    assert_near(toward_wall(front).0, stud.0, 1e-9);
    assert_near(cover(&design, ChaseWall::SetBack), 3.136_197, 1e-6);
}

/// By hand: 3.5 cos is 3.0232 at 7 in 12 and 2.9122 at 8 in 12, where 3 in are wanted.
#[test]
fn a_plate_that_would_cover_too_little_is_ripped() {
    for (rise, is_square) in [("\"7:12\"", true), ("\"8:12\"", false)] {
        let design = design(&as_sold(&[("ceiling.rise_out", rise)]));
        let front = plate(&design, ChaseWall::SetBack);
        assert_eq!(matches!(front.stock, Stock::Stick(_)), is_square, "{rise}");
    }
    let wanted = [("chase.plate_cover", "\"3.4 in\"")];
    let design = design(&as_sold(&wanted));
    let front = plate(&design, ChaseWall::SetBack);
    assert!(matches!(front.stock, Stock::Rip(_)));
    assert_near(cover(&design, ChaseWall::SetBack), 3.5, 1e-6);
}

/// A design as it is where every plate is ripped.
fn ripped(params: &Params) -> Params {
    with(params, "chase.plate_edges", &Value::Choice("ripped"))
}

/// Ripped, and with every angle cut, nothing leans and nothing is left out.
#[test]
fn ripped_plates_and_a_tolerance_of_nothing_cut_every_angle() {
    for (name, params) in demos() {
        let design = design(&ripped(&exact(&params)));
        assert!(sticks(&design).all(|it| it.wedges().is_empty()), "{name}");
        for it in sticks(&design).filter(|it| it.kind == Kind::TopPlate) {
            let outline = &swept(it).profile.outline;
            let plumb = |at: usize| (outline[(at + 1) % 4].x - outline[at].x).abs() < 1e-9;
            assert!(
                (0..4).filter(|at| plumb(*at)).count() == 2,
                "{name}: {}",
                it.id
            );
        }
    }
}

/// Plates as sold lie in no other stick and in nothing's clearance, and whatever was held by ripped ones is held by them.
#[test]
fn plates_as_sold_are_in_nothings_way() {
    let mut leaning = 0;
    for seed in seeds(0..60) {
        let params = random_params(seed);
        let before = design(&ripped(&params));
        let square = Value::Choice("square");
        let after = design(&with(&params, "chase.plate_edges", &square));
        let of_plates = |design: &Design| -> Vec<String> {
            let found = clearances(design)
                .into_iter()
                .filter(|it| it.margin.to_mm() < -1e-6);
            let found = found.map(|it| format!("{} in {}", it.part, it.clearance));
            found.filter(|it| it.contains("top plate")).collect()
        };
        let news = [
            (in_one_another(&before), in_one_another(&after)),
            (of_plates(&before), of_plates(&after)),
        ];
        for (known, new) in news {
            assert!(new.iter().all(|it| known.contains(it)), "{seed}: {new:?}");
        }
        let lacks = |design: &Design| -> Vec<String> {
            unheld(design).into_iter().map(|it| it.part).collect()
        };
        let (known, new) = (lacks(&before), lacks(&after));
        assert!(new.iter().all(|it| known.contains(it)), "{seed}: {new:?}");
        let plates = |design: &Design| {
            let plates = sticks(design).filter(|it| it.kind == Kind::TopPlate);
            plates
                .filter(|it| matches!(it.stock, Stock::Stick(_)))
                .count()
        };
        leaning += plates(&after) - plates(&before);
    }
    assert!(leaning > 0);
}
