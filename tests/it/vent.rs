//! The vent's path, its passes and what keeps clear of it, against worked numbers and over random paths.
//!
//! The worked numbers are arithmetic on the sizes in the demos: tape arithmetic and right triangles,
//! nothing of them from this project's own output.

use chasewright::catalog::Material;
use chasewright::check::{Verdict, check, interference, unheld};
use chasewright::design::{
    Clearance, ClearanceKind, Design, Group, Kind, Part, Piece, Sections, Stock, design,
};
use chasewright::geom::{Body, CenterLine, Frame, Shape, Swept, overlap};
use chasewright::params::{Lie, Params, Value, read};
use chasewright::units::{Angle, Length, TapeUnit};
use glam::DVec3;

use crate::generate::{PATHS, random_params};
use crate::scenarios::demo;
use crate::support::{assert_near, is_quick, seeds};

const STEPPED: &str = include_str!("../params/good/stepped.toml");
const ONE_WALL: &str = include_str!("../params/good/one_wall.toml");

/// A good file's text with its rise replaced by a path, which may say where the collar looks.
fn text_with(text: &str, path: &str) -> String {
    let own_collar = path.starts_with("collar");
    let lines = text
        .lines()
        .filter(|line| !(own_collar && line.starts_with("collar = ")));
    let lines = lines.map(|line| {
        if line.starts_with("rise = ") {
            path
        } else {
            line
        }
    });
    lines.collect::<Vec<_>>().join("\n")
}

fn with_path(text: &str, path: &str) -> Params {
    read(&text_with(text, path)).unwrap_or_else(|faults| panic!("{path}: {faults:#?}"))
}

fn part<'a>(design: &'a Design, id: &str) -> &'a Part {
    let found = design.parts.iter().find(|it| it.id == id);
    found.unwrap_or_else(|| panic!("no part {id}"))
}

fn volume<'a>(design: &'a Design, id: &str) -> &'a Clearance {
    let found = design.clearances.iter().find(|it| it.id == id);
    found.unwrap_or_else(|| panic!("no volume {id}"))
}

#[test]
fn every_path_of_the_generator_is_good() {
    for path in PATHS {
        with_path(STEPPED, path);
        with_path(ONE_WALL, path);
    }
}

/// The short form is a path: written out, it makes the same design.
#[test]
fn the_rise_is_short_for_a_path() {
    let path =
        r#"path = ["go 20 in", "turn 90 deg toward back", "through back wall rising 1/4:12"]"#;
    let (short, long) = (read(STEPPED).unwrap(), with_path(STEPPED, path));
    let (short, long) = (design(&short), design(&long));
    assert_eq!(short.parts.len(), long.parts.len());
    for (a, b) in short.parts.iter().zip(&long.parts) {
        assert_eq!(a.id, b.id);
        assert!(
            (a.body.bounds.low - b.body.bounds.low).length() < 1e-9,
            "{}",
            a.id
        );
        assert!(
            (a.body.bounds.high - b.body.bounds.high).length() < 1e-9,
            "{}",
            a.id
        );
    }
    assert_eq!(short.clearances.len(), long.clearances.len());
}

/// The demo's pipe stands 22 − 10-1/2 in out from the wall, and its clearance reaches 3-1/4 + 1 farther:
/// 15-3/4. Offset by 4 toward the room it reaches 19-3/4, and the recess has to stay before that.
#[test]
fn an_offset_toward_the_room_comes_nearer_to_the_recess() {
    let text = include_str!("../../params/roof-pass.toml");
    let required = |text: &str| {
        let findings = check(&design(&read(text).unwrap()));
        let found = findings.iter().find(|it| it.rule == "recess and pipe");
        found.unwrap().numbers.unwrap().required
    };
    assert_near(required(text), 15.75 * 25.4, 1e-9);
    let nearer = text.replace("offset 9 in toward left", "offset 4 in toward out");
    assert_near(required(&nearer), 19.75 * 25.4, 1e-9);
}

/// A vent 12° from square through a wall 155 mm thick. Diameter 170, 25 beside and below, 75 above;
/// the pipe stands 350 out from the wall in the middle of the chase, 2300 from the left corner; the
/// elbow's center lies at 200 + 860 + 520 = 1580; the run rises 2 % of its level length.
#[test]
fn a_pass_at_12_degrees_has_the_worked_hole() {
    let model = design(&demo("pass-at-an-angle"));
    let pass = &model.layout.pass;
    let angle = Angle::degrees(12.0);
    let (sin, cos, tan) = (angle.sin(), angle.cos(), angle.tan());
    assert_near(pass.angle.to_degrees(), 12.0, 1e-9);
    // 220 / cos 12° + 155 · tan 12° = 224.915 + 32.946
    assert_near(pass.sides.size().to_mm(), 257.861, 0.001);
    assert_near(pass.sides.size().to_mm(), 220.0 / cos + 155.0 * tan, 1e-9);
    // the middle leaves the finished face at 2300 + 350 · tan 12° = 2374.4, the outside at 505 · tan 12°
    assert_near(pass.inside.0.to_mm(), 2374.394, 0.001);
    assert_near(pass.outside.0.to_mm(), 2300.0 + 505.0 * tan, 1e-9);
    assert_near(pass.sides.center().to_mm(), 2300.0 + 427.5 * tan, 1e-9);
    // up to the face the run is 350 / cos 12° long in plan and rises 2 % of that: 7 in 358
    assert_near(350.0 / cos, 357.8, 0.05);
    assert_near(pass.inside.1.to_mm(), 1580.0 + 0.02 * 350.0 / cos, 1e-9);
    // 170 + 75 + 25, square to the run, and what it rises across the wall, corner to corner
    let stretch = 1.0004_f64.sqrt();
    let across = 155.0 / cos + 220.0 * sin / cos;
    assert_near(
        pass.heights.size().to_mm(),
        270.0 * stretch + 0.02 * across,
        1e-9,
    );
    // without slope in height the middle is 25 over the pipe's: (75 − 25) / 2; at mid-wall 1613.7
    let middle = 1580.0 + 0.02 * 427.5 / cos + 25.0 * stretch;
    assert_near(pass.heights.center().to_mm(), middle, 1e-9);
    // the clear bay between studs at 2149 and 2599
    assert_near(pass.bay.low.to_mm(), 2171.5, 1e-9);
    assert_near(pass.bay.size().to_mm(), 405.0, 1e-9);
}

#[test]
fn a_pass_at_an_angle_is_asked_about_unless_the_manual_has_answered() {
    let params = demo("pass-at-an-angle");
    let verdict = |params: &Params| {
        let findings = check(&design(params));
        let found = findings.iter().find(|it| it.rule == "pass angle");
        found.map(|it| it.verdict)
    };
    assert_eq!(verdict(&params), Some(Verdict::Ask));
    assert_eq!(verdict(&demo("reading-room")), None);
    let answered = |word| {
        let value = Value::Manual {
            value: Box::new(Value::Choice(word)),
            page: "15".to_owned(),
        };
        params.with("vent.angled_pass", &value).unwrap()
    };
    assert_eq!(verdict(&answered("no")), Some(Verdict::Fail));
    assert_eq!(verdict(&answered("yes")), None);
}

/// Up, 9 in to the left by two 45° elbows, and through a ceiling that rises 4 in 12 to the right.
#[test]
fn a_vent_through_the_roof_has_the_worked_sizes() {
    let params = demo("roof-pass");
    let model = design(&params);
    let inch = |mm: f64| mm / 25.4;
    // 9 in sideways at 45° is 9 · √2 = 12.73 along the pipe: on the tape 12-3/4
    let legs = &model.layout.path.legs;
    assert_eq!(legs.len(), 3);
    assert_near(legs[1].length.to_inches(), 12.728, 0.001);
    assert_near(inch(legs[2].start.z - legs[1].start.z), 9.0, 1e-9);
    assert_near(legs[1].turn.to_degrees(), 45.0, 1e-9);
    let pass = model.layout.roof_pass.as_ref().unwrap();
    assert_near(pass.middle.0.to_inches(), 91.0, 1e-9);
    assert_near(-pass.middle.1.to_inches(), 11.5, 1e-9);
    // 6-1/2 + 2 · 1; along the slope 8-1/2 · √10 / 3 = 8.96
    assert_near(pass.right.size().to_inches(), 8.5, 1e-9);
    let (along, level) = pass.on_the_slope(TapeUnit::Inch);
    assert_near(along.to_inches(), 8.5 * 10.0_f64.sqrt() / 3.0, 1e-9);
    assert_near(level.to_inches(), 8.5, 1e-9);
    // rising as much the other way, the other side is the longer
    let mut turned = pass.clone();
    turned.ceiling.slope = turned.ceiling.slope.perp();
    let (level, along) = turned.on_the_slope(TapeUnit::Inch);
    assert_near(level.to_inches(), 8.5, 1e-9);
    assert_near(along / turned.back.size(), 10.0_f64.sqrt() / 3.0, 1e-9);
    // the keep-out lies 7-1/4 … 15-3/4 out, in the clear bay 4-3/4 … 19-1/4
    assert_near(-pass.back.high.to_inches(), 7.25, 1e-9);
    assert_near(-pass.back.low.to_inches(), 15.75, 1e-9);
    assert!(pass.cut.is_empty());
    let faces = ["room/rafter/1", "room/rafter/2"].map(|id| &part(&model, id).body.bounds);
    assert_near(-inch(faces[0].low.y), 4.75, 1e-9);
    assert_near(-inch(faces[1].high.y), 19.25, 1e-9);
    // a rafter runs from side to side of the room and rises with the ceiling, as deep as it is across the slope
    let (width, roof) = (params.room.width.to_inches(), params.roof.as_ref().unwrap());
    let deep = roof.rafter.depth().to_inches() * 10.0_f64.sqrt() / 3.0;
    assert_near(inch(faces[0].size().x), width, 1e-9);
    assert_near(inch(faces[0].size().z), width / 3.0 + deep, 1e-9);
    // the ceiling over the pipe's middle: 90 + 91 / 3 = 120-1/3, on the tape 120-5/16
    let ceiling = pass.ceiling.z(glam::DVec2::new(91.0 * 25.4, 0.0));
    assert_near(inch(ceiling), 120.0 + 1.0 / 3.0, 1e-9);
    // over the roof 24 in: 120-1/3 + 9-1/2 · √10 / 3 + 24
    let end = model.layout.path.last().unwrap().end();
    assert_near(
        inch(end.z),
        120.0 + 1.0 / 3.0 + 9.5 * 10.0_f64.sqrt() / 3.0 + 24.0,
        1e-9,
    );
}

/// A ridge board 1-1/2 thick over the old place of the pipe: 9 − 3/4 − 3-1/4 − 1 = 4 in to spare.
#[test]
fn the_offset_passes_a_ridge_board() {
    let model = design(&demo("roof-pass"));
    let inches = Length::inches;
    let board = Swept::block(inches(1.5), inches(40.0), inches(7.25));
    let corner = DVec3::new(100.0 - 0.75, -30.0, 122.0) * 25.4;
    let board = Body::new(board, Frame::at(corner));
    let pass = volume(&model, "clearance/roof pass");
    let gap = chasewright::geom::gap(&pass.body, &board);
    assert_near(gap / 25.4, 4.0, 1e-9);
}

/// Into the pass through a roof from each of its four sides: a stick of its frame moved in by 1/4 in takes 1/4 in of
/// the clearance.
#[test]
fn the_roof_pass_keeps_clear_on_all_sides() {
    let model = design(&demo("roof-pass"));
    let pass = &volume(&model, "clearance/roof pass").body;
    for number in 1..=4 {
        let id = format!("roof pass/pass frame/{number}");
        let mut changed = model.clone();
        let stick = changed.parts.iter_mut().find(|it| it.id == id).unwrap();
        let toward = (pass.bounds.center() - stick.body.bounds.center()).with_z(0.0);
        let way = if toward.x.abs() > toward.y.abs() {
            toward.with_y(0.0).normalize()
        } else {
            toward.with_x(0.0).normalize()
        };
        let gap = chasewright::geom::gap(pass, &stick.body);
        stick.body = stick.body.moved(way * (gap + 0.25 * 25.4));
        let margins = chasewright::check::clearances(&changed);
        let own = margins
            .iter()
            .find(|it| it.clearance == "clearance/roof pass" && it.part == id);
        assert_near(own.unwrap().margin.to_inches(), -0.25, 1e-9);
    }
}

/// Round an elbow the clearance is the pipe's radius and the manual's number round it.
#[test]
fn an_elbow_keeps_its_own_clearance() {
    let model = design(&demo("reading-room"));
    let vent = &model.params.vent;
    let Shape::Tube(elbow) = volume(&model, "clearance/elbow").body.shape else {
        panic!("a bent tube");
    };
    let reaches = vent.pipe_diameter.to_mm() / 2.0 + vent.bend_clearance.value.to_mm();
    assert_near(elbow.outer, reaches, 1e-9);
}

/// The roof's framing stands between whole rafters, and everything of it is held.
#[test]
fn the_passes_are_framed_and_held() {
    for name in [
        "roof-pass",
        "pass-at-an-angle",
        "reading-room",
        "rises-away-from-wall",
    ] {
        let model = design(&demo(name));
        let frame = |it: &&Part| it.kind == Kind::PassFrame;
        assert!(model.parts.iter().filter(frame).count() >= 4, "{name}");
        let loose: Vec<_> = unheld(&model).into_iter().map(|it| it.part).collect();
        let loose: Vec<_> = loose.iter().filter(|it| it.contains("pass")).collect();
        assert!(loose.is_empty(), "{name}: {loose:?}");
    }
}

/// The frame round a hole: a stick as thick as the wall's own is one, and only a thinner one is ripped.
#[test]
fn a_whole_stick_round_a_pass_is_not_ripped() {
    for (name, branch, thickness) in [
        ("reading-room", "wall pass/", 1.5),
        ("roof-pass", "roof pass/", 1.5),
    ] {
        let model = design(&demo(name));
        let frame = model.parts.iter().filter(|it| it.id.starts_with(branch));
        let mut sticks = 0;
        for stick in frame.filter(|it| it.kind == Kind::PassFrame) {
            let size = stick.body.bounds.size().truncate().min_element() / 25.4;
            let thin = stick.body.bounds.size().min_element() / 25.4;
            let whole = (size - thickness).abs() < 1e-9 || (thin - thickness).abs() < 1e-9;
            assert_eq!(
                matches!(stick.stock, Stock::Stick(_)),
                whole,
                "{}: {size}",
                stick.id
            );
            sticks += usize::from(whole);
        }
        assert_eq!(sticks, 4, "{name}");
    }
}

/// A straight before the last step is pipe before the wall too: 6 in of it leave 11-1/2 − 6 = 5-1/2 to the wall.
#[test]
fn a_straight_before_the_wall_belongs_to_the_last_run() {
    let path = r#"path = ["go 20 in", "turn 90 deg toward back", "go 6 in", "through back wall"]"#;
    let stated = design(&with_path(STEPPED, path));
    let short = design(&with_path(STEPPED, &path.replace("\"go 6 in\", ", "")));
    let end = |model: &Design| model.layout.path.last().unwrap().end();
    assert_near(end(&stated).distance(end(&short)), 0.0, 1e-9);
}

/// A stud in the way ends under the sill and over the head of the pass, and both run from whole stud to
/// whole stud.
#[test]
fn a_stud_in_the_way_is_headed_off() {
    let params = demo("reading-room");
    // studs at 4 + 16 · n: one at 100; the pipe's middle at 98
    let value = Value::Length(Length::inches(98.0));
    let params = params.with("appliance.center", &value).unwrap();
    let model = design(&params);
    let studs = model
        .parts
        .iter()
        .filter(|it| it.kind == Kind::ExistingStud);
    let cut: Vec<_> = studs
        .filter(|it| (it.body.bounds.center().x / 25.4 - 100.0).abs() < 1e-6)
        .collect();
    assert_eq!(cut.len(), 2);
    let pass = &model.layout.pass;
    let ends = (
        cut[0].body.bounds.high.z / 25.4,
        cut[1].body.bounds.low.z / 25.4,
    );
    assert_near(ends.0, pass.heights.low.to_inches() - 1.5, 1e-9);
    assert_near(ends.1, pass.heights.high.to_inches() + 1.5, 1e-9);
    for id in ["wall pass/pass frame/1", "wall pass/pass frame/2"] {
        let bounds = &part(&model, id).body.bounds;
        assert_near(bounds.low.x / 25.4, 84.75, 1e-9);
        assert_near(bounds.high.x / 25.4, 115.25, 1e-9);
    }
}

/// Through the wall to the left: the same hole as behind, in the other wall's frame.
#[test]
fn a_side_wall_has_the_same_pass() {
    let path = PATHS[3];
    assert!(path.contains("through left wall"));
    let model = design(&with_path(STEPPED, path));
    let pass = &model.layout.pass;
    // u counts from the far end of the wall: the room's depth less how far out the pipe stands
    let out = model.layout.path.pipe_out();
    assert_near(
        pass.inside.0.to_mm(),
        (model.params.room.depth - out).to_mm(),
        1e-6,
    );
    assert_near(pass.angle.to_degrees(), 0.0, 1e-9);
    let firestop = &part(&model, "vent/firestop/1").body.bounds;
    assert_near(firestop.low.x, 0.0, 1e-9);
    let cap = &part(&model, "vent/cap/2").body.bounds;
    let outside = model.layout.standing[1].depths.outside;
    let depth = outside + model.params.vent.cap_depth;
    assert_near(cap.low.x, -depth.to_mm(), 1e-9);
}

#[test]
fn steel_in_the_pass_does_not_burn() {
    let model = design(&with_path(STEPPED, PATHS[0]));
    let frame = model.parts.iter().filter(|it| it.kind == Kind::PassFrame);
    assert!(frame.into_iter().all(|it| it.material == Material::STEEL));
}

/// A collar that looks back, straight out: no elbow, and no rule of a riser has anything to say.
#[test]
fn a_collar_may_look_back() {
    let model = design(&with_path(STEPPED, PATHS[7]));
    assert_eq!(model.layout.path.pieces.len(), 1);
    let collar = &part(&model, "unit/collar/1").body.bounds;
    assert_near(-collar.low.y, model.layout.faces.unit_back.to_mm(), 1e-9);
    let height = model.layout.heights.platform_top + model.params.vent.collar_offset;
    assert_near(collar.center().z, height.to_mm(), 1e-6);
    let findings = check(&model);
    for rule in ["vent rise", "pipe behind the front", "pipe before the wall"] {
        assert!(findings.iter().all(|it| it.rule != rule), "{rule}");
    }
}

#[test]
fn paths_that_make_no_pipe_are_told_step_by_step() {
    let cases = [
        (r#"["go 20 in"]"#, "step 1: the vent does not end"),
        (
            r#"["go 20 in", "turn 90 deg toward up", "through roof"]"#,
            "step 2: the pipe already goes that way",
        ),
        (
            r#"["go 3 in", "turn 90 deg toward back", "through back wall"]"#,
            "step 2: the straight before it is too short",
        ),
        (
            r#"["go 20 in", "turn 90 deg toward back", "through left wall"]"#,
            "step 3: the pipe does not head for the left wall",
        ),
        (
            r#"["go 20 in", "turn 90 deg toward back", "through roof"]"#,
            "step 3: the pipe does not go up plumb",
        ),
        (
            r#"["go 20 in rising 1/4:12", "turn 90 deg toward back", "through back wall"]"#,
            "step 1: this pipe is not a level run",
        ),
        (
            r#"["through roof", "go 20 in"]"#,
            "step 2: the vent has ended before this step",
        ),
        (
            r#"["go 20 in", "offset 60 in toward back with 45 deg", "through roof"]"#,
            "the pipe leaves the room",
        ),
        (
            r#"["go 20 in", "turn 90 deg toward back", "go 60 in", "through back wall"]"#,
            "step 4: the pipe is already past the face of the back wall",
        ),
        (
            r#"["go 400 in", "through roof"]"#,
            "step 2: the pipe is already above the roof",
        ),
    ];
    for (path, problem) in cases {
        let text = text_with(STEPPED, &format!("path = {path}"));
        let faults = read(&text).err().unwrap_or_default();
        assert!(
            faults.iter().any(|it| it.problem.contains(problem)),
            "{path}: {faults:#?}"
        );
    }
    let words = [
        (
            r#"["rise 20 in"]"#,
            "a step that begins with go, turn, offset or through",
        ),
        (r#"["turn 90 toward back"]"#, "an elbow such as"),
        (r#"["offset 9 in toward left"]"#, "an offset such as"),
        (r#"["through floor"]"#, "roof; a wall may have"),
        (r#"["go far"]"#, "a straight such as"),
    ];
    for (path, expected) in words {
        let text = text_with(STEPPED, &format!("path = {path}"));
        let faults = read(&text).err().unwrap_or_default();
        assert!(
            faults.iter().any(|it| it.expected.contains(expected)),
            "{path}: {faults:#?}"
        );
    }
}

/// Sections are not cut: less their overlaps they are never longer than their straight, and what is left is told.
#[test]
fn sections_are_never_longer_than_their_straight() {
    let params = demo("roof-pass");
    let kit = params.pipe.as_ref().unwrap();
    for quarters in 1..400 {
        let length = Length::inches(f64::from(quarters) / 4.0);
        let made = Sections::of(kit, length);
        let net: Length = made.sections.iter().map(|it| *it - kit.overlap.value).sum();
        assert!(!(net - length).is_positive(), "{length:?}: {made:?}");
        let rest = made.adjustable.unwrap_or_default() + made.rest;
        assert_near((net + rest).to_mm(), length.to_mm(), 1e-9);
    }
}

/// Sections less their overlap fill each straight; so the joints are where they end.
#[test]
fn joints_lie_where_sections_end() {
    let model = design(&demo("roof-pass"));
    let joints = model.vent_joints();
    // the first straight: 40 in to the elbow's center less its leg, 6-1/2 · tan 22.5° = 2.692, and less
    // the collar's 1 in: 36.308. Sections of 36 and 1-1/4 overlap give 34-3/4, and 1.558 is left for the
    // adjustable one.
    let ups: Vec<f64> = joints
        .iter()
        .filter(|it| (it.x / 25.4 - 100.0).abs() < 1e-6)
        .map(|it| it.z / 25.4 - 32.75)
        .collect();
    assert_near(ups[0], 1.0, 1e-9);
    assert_near(ups[1], 35.75, 1e-9);
    assert_near(ups[2], 40.0 - 2.692_388, 1e-5);
}

/// Whether a small probe at a place is inside one of the volumes.
fn is_kept_clear(volumes: &[&Clearance], place: DVec3) -> bool {
    let size = Length::mm(0.02);
    let corner = place - DVec3::splat(0.01);
    let probe = Body::new(Swept::block(size, size, size), Frame::at(corner));
    volumes.iter().any(|it| overlap(&probe, &it.body).is_some())
}

/// How far a piece keeps clear in a direction square to it.
fn room(params: &Params, piece: &Piece, way: DVec3) -> Option<Length> {
    let vent = &params.vent;
    let up = piece.frame.y.dot(way);
    match piece.lie {
        None => Some(vent.bend_clearance.value),
        Some(Lie::Plumb) => Some(vent.vertical_clearance.value),
        Some(_) if up > 0.99 => Some(vent.top_clearance.value),
        Some(_) if up < -0.99 => Some(vent.bottom_clearance.value),
        Some(_) if up.abs() < 0.01 => Some(vent.side_clearance.value),
        Some(_) => None,
    }
}

/// Places on the pipe's surface, moved out by the manual's number less a hair.
fn places(model: &Design, piece: &Piece) -> Vec<DVec3> {
    let radius = model.params.vent.pipe_diameter / 2.0;
    let mut found = Vec::new();
    for part in 1..8 {
        let (middle, along) = piece.line.at(f64::from(part) / 8.0);
        let side = DVec3::Y;
        for (x, y) in [
            (1.0, 0.0),
            (-1.0, 0.0),
            (0.0, 1.0),
            (0.0, -1.0),
            (0.6, 0.8),
            (-0.8, 0.6),
        ] {
            let way = piece.frame.vector(side.cross(along) * x + side * y);
            if let Some(room) = room(&model.params, piece, way) {
                let out = (radius + room).to_mm() - 0.05;
                found.push(piece.frame.point(middle) + way * out);
            }
        }
    }
    found
}

/// Whether a place is still in the house: before the wall's outside, or under the pass of the roof.
fn is_within(model: &Design, place: DVec3) -> bool {
    let layout = &model.layout;
    let behind = layout.standing.iter().all(|wall| {
        layout.pass.wall != Some(wall.place)
            || wall.frame.local_point(place).y < wall.depths.outside.to_mm() - 0.1
    });
    let under = layout.roof_pass.as_ref();
    behind && under.is_none_or(|pass| place.z < pass.low.to_mm() - 0.1)
}

#[test]
fn clearances_follow_random_paths_and_no_pipe_meets_its_frame() {
    let mut ways = std::collections::BTreeMap::new();
    let mut tried = 0;
    for seed in seeds(0..240) {
        let params = random_params(seed);
        if params.vent.path.is_none() {
            continue;
        }
        let model = design(&params);
        let volumes: Vec<&Clearance> = model
            .clearances
            .iter()
            .filter(|it| {
                use ClearanceKind::{Bend, HorizontalPipe, RoofPass, VerticalPipe, WallPass};
                matches!(
                    it.kind,
                    Bend | HorizontalPipe | RoofPass | VerticalPipe | WallPass
                )
            })
            .collect();
        let whole = model
            .notes
            .iter()
            .all(|it| !format!("{it:?}").contains("clearance"));
        for piece in &model.layout.path.pieces {
            for place in places(&model, piece) {
                let kept = is_kept_clear(&volumes, place) || !is_within(&model, place);
                assert!(kept || !whole, "seed {seed}: {place} beside {piece:?}");
                tried += 1;
            }
        }
        for clash in interference(&model) {
            let both = [&clash.first, &clash.second].map(|id| part(&model, id).group);
            assert_ne!(both, [Group::Vent; 2], "seed {seed}: {clash:?}");
        }
        *ways
            .entry(format!("{:?}", model.layout.path.exit))
            .or_insert(0) += 1;
    }
    assert!(is_quick() || tried > 5_000, "{tried}");
    assert!(
        is_quick() || ways.len() == 5,
        "every exit is tried: {ways:?}"
    );
}

/// Every straight and every elbow joins the next without a step or a kink.
#[test]
fn the_pieces_of_random_paths_join_smoothly() {
    for seed in seeds(0..400) {
        let path = design(&random_params(seed)).layout.path;
        for pair in path.pieces.windows(2) {
            let [a, b] = pair else { panic!() };
            assert!(
                (a.end() - b.frame.origin).length() < 1e-6,
                "seed {seed}: {pair:?}"
            );
            let along = a.frame.vector(a.line.at(1.0).1);
            assert!((along - b.frame.z).length() < 1e-9, "seed {seed}: {pair:?}");
        }
    }
}

/// The flue runs in the pipe from the body to the end, bend by bend.
#[test]
fn a_flue_follows_its_pipe() {
    let model = design(&demo("roof-pass"));
    let flues = model.parts.iter().filter(|it| it.kind == Kind::Flue);
    let length: f64 = flues
        .map(|it| match &it.body.shape {
            Shape::Tube(tube) => {
                assert_near(tube.outer, 2.0 * 25.4, 1e-9);
                tube.center_line.length()
            }
            Shape::Swept(_) => panic!("a flue is a tube"),
        })
        .sum();
    let whole: f64 = model
        .layout
        .path
        .pieces
        .iter()
        .map(|it| it.line.length())
        .sum();
    assert_near(length, whole, 1e-9);
    let bends = model.layout.path.pieces.iter();
    let bends = bends.filter(|it| matches!(it.line, CenterLine::Arc { .. }));
    assert_eq!(bends.count(), 2);
}

/// What is said of the cap and of the hole is said of where they are, through whichever wall or roof the vent goes.
#[test]
fn places_of_the_cap_and_the_hole_are_theirs() {
    let mut seen = 0;
    for (name, params) in crate::support::demos() {
        let model = design(&params);
        let parts = model.parts.iter().map(|it| (&it.id, it.body.bounds));
        let volumes = model.clearances.iter().map(|it| (&it.id, it.body.bounds));
        let all: Vec<_> = parts.chain(volumes).collect();
        for finding in check(&model) {
            let own = ["terminal", "insulation", "vent limits"].contains(&finding.rule);
            let Some(at) = finding.location.filter(|_| own) else {
                continue;
            };
            let named = all.iter().filter(|it| finding.parts.contains(it.0));
            let inside = named.map(|it| it.1).any(|it| {
                let (low, high) = (it.low - 1e-6, it.high + 1e-6);
                low.cmple(at).all() && at.cmple(high).all()
            });
            assert!(inside, "{name}: {} at {at}", finding.heading());
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen}");
}

/// A run has to rise as the manual says, straight by straight; a path that says nothing rises just so.
#[test]
fn each_run_rises_as_the_manual_asks() {
    // the manual's slope in this file is 1/4 in a foot
    let found = |path: &str| {
        let findings = check(&design(&with_path(STEPPED, path)));
        let own = findings.into_iter().filter(|it| it.rule == "run slope");
        own.map(|it| it.verdict).collect::<Vec<_>>()
    };
    let through = |rising: &str| {
        format!(r#"path = ["go 20 in", "turn 90 deg toward back", "through back wall{rising}"]"#)
    };
    for (rising, verdict) in [
        ("", Verdict::Pass),
        (" rising 1/4:12", Verdict::Pass),
        (" rising 0.2499:12", Verdict::Fail),
        (" rising 0:12", Verdict::Fail),
        (" rising 1:12", Verdict::Pass),
    ] {
        assert_eq!(found(&through(rising)), [verdict], "{rising}");
    }
    let two = r#"path = ["go 14 in", "turn 90 deg toward right", "go 14 in rising 0:12", "turn 90 deg toward back", "through back wall"]"#;
    assert_eq!(found(two), [Verdict::Fail, Verdict::Pass]);
    let offset = r#"path = ["go 14 in", "offset 9 in toward right with 45 deg", "go 14 in", "turn 90 deg toward back", "through back wall"]"#;
    assert!(found(offset).iter().all(|it| *it == Verdict::Pass));
}

/// Each straight is judged by itself, whatever else of the vent could not be made.
#[test]
fn a_level_run_is_found_without_the_pipe_before_it() {
    let path = r#"path = ["go 20 in", "turn 90 deg toward back", "through back wall rising 0:12"]"#;
    let mut model = design(&with_path(STEPPED, path));
    model.parts.retain(|it| it.id != "vent/pipe/1");
    let findings = check(&model);
    let own = findings.iter().filter(|it| it.rule == "run slope");
    let own: Vec<_> = own.map(|it| (it.verdict, it.parts.clone())).collect();
    assert_eq!(own, [(Verdict::Fail, vec!["vent/pipe/2".to_owned()])]);
}
