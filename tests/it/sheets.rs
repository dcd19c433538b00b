//! What single sheets say: the hand computations stand in the tests.

use chasewright::design::design;
use chasewright::drawing::letters::{width, wrapped};
use chasewright::drawing::{self, Drawing, Ink, Paper, Pen, Sheet, Side};
use chasewright::params::{Params, read};
use chasewright::takeoff::{marks, takeoff};
use chasewright::units::Length;

use crate::scenarios::demo;
use crate::support::assert_near;

fn sheets(params: &Params) -> Vec<Sheet> {
    let design = design(params);
    drawing::sheets(&design, &takeoff(&design), Paper::Tabloid)
}

fn sheet<'a>(sheets: &'a [Sheet], title: &str) -> &'a Sheet {
    let found = sheets.iter().find(|it| it.title.starts_with(title));
    found.unwrap_or_else(|| panic!("no {title}"))
}

/// A demo in which some words of its file are others.
fn changed(name: &str, changes: &[(&str, &str)]) -> Params {
    let path = format!("{}/params/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let text = text.replace("ceiling_runs_on = true      # under the same eave\n", "");
    let text = changes.iter().fold(text, |text, (old, new)| {
        assert!(text.contains(old), "{old}");
        text.replacen(old, new, 1)
    });
    read(&text).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

/// The stops of the chains at a side, in inches from the view's origin.
fn stops(sheet: &Sheet, side: Side) -> Vec<Vec<f64>> {
    let chains = sheet.chains.iter().filter(|it| it.side == side);
    let inches = |it: &drawing::Chain| it.stops.iter().map(|it| it.to_mm() / 25.4).collect();
    chains.map(inches).collect()
}

fn assert_stops(found: &[f64], expected: &[f64]) {
    assert_eq!(found.len(), expected.len(), "{found:?}, {expected:?}");
    for (a, b) in found.iter().zip(expected) {
        assert_near(*a, *b, 1e-4);
    }
}

/// Whether a line of a pen lies at so many inches to the right of the view's origin, upright.
fn has_upright(sheet: &Sheet, pen: Pen, right: f64) -> bool {
    let at = sheet.origin.x + right * 25.4 / sheet.scale.ratio;
    sheet.ink.iter().any(|ink| match ink {
        Ink::Line { from, to, pen: own } => {
            *own == pen && (from.x - at).abs() < 1e-3 && (to.x - at).abs() < 1e-3
        }
        _ => false,
    })
}

fn says(sheet: &Sheet, words: &str) -> bool {
    let all: Vec<&str> = sheet.texts().map(|it| it.text.as_str()).collect();
    all.join(" ").contains(words)
}

/// Studs of the wall behind stand at 18-1/2 in and every 16: at 50-1/2 and 66-1/2 on either side of the left side wall at
/// 52-1/2, at 114-1/2 and 130-1/2 round the right one, which ends at 128-1/2. So bays of 51-1/4 to 65-3/4 and 115-1/4 to
/// 129-3/4. The end studs reach from the slab to 108 - 1/4 - 1-1/2 = 106-1/4; no more than 24 in apart makes five rows,
/// 21-1/4 apart, the first at 10-5/8; a 2x4 laid flat reaches 1-3/4 below that.
#[test]
fn blocks_in_the_existing_wall_are_placed_from_the_corner_and_the_slab() {
    let sheets = sheets(&demo("steel-front"));
    let wall = sheet(&sheets, "Framing: existing wall");
    let below = stops(wall, Side::Below);
    assert_stops(&below[0], &[0.0, 51.25, 65.75, 115.25, 129.75]);
    assert_stops(&below[1], &[0.0, 180.0]);
    let rows = [0.0, 8.875, 30.125, 51.375, 72.625, 93.875];
    assert_stops(&stops(wall, Side::Left)[0], &rows);
    assert_stops(&stops(wall, Side::Right)[0], &rows);
    assert!(
        wall.chains
            .iter()
            .filter(|it| it.stops.len() > 2)
            .all(|it| it.running)
    );
    // the stud's far side is no block's side
    assert!(has_upright(wall, Pen::Context, 49.75), "the stud at 50-1/2");
    assert!(
        has_upright(wall, Pen::Context, 131.25),
        "the stud at 130-1/2"
    );
    assert!(
        has_upright(wall, Pen::Hidden, 56.0),
        "the end of the left side"
    );
    assert!(says(wall, "left corner of the room"));
}

/// In the crooked room blocks stand in two walls, each of which has its own view: those of the left wall are seen square,
/// so that no block is as narrow as its 1-1/2 in.
#[test]
fn blocks_of_each_wall_have_a_view_square_to_it() {
    let model = design(&demo("crooked-room"));
    let drawn = drawing::sheets(&model, &takeoff(&model), Paper::Tabloid);
    for (title, place) in [("existing wall", 0), ("left wall", 1)] {
        let found = sheet(&drawn, &format!("Framing: {title}"));
        let wall = &model.layout.standing[place];
        let own = model.parts.iter();
        let own = own.filter(|it| it.branch.name() == "existing wall" && wall.holds(it));
        let bottoms: Vec<f64> = own.map(|it| it.body.bounds.low.z).collect();
        assert!(bottoms.len() > 3, "{title}: {bottoms:?}");
        let said: Vec<f64> = [Side::Left, Side::Right]
            .iter()
            .flat_map(|side| stops(found, *side).concat())
            .map(|it| it * 25.4)
            .collect();
        for bottom in bottoms {
            assert!(
                said.iter().any(|it| (it - bottom).abs() < 1e-3),
                "{title}: {bottom}"
            );
        }
        let across = &stops(found, Side::Below)[0];
        for bay in across[1..].chunks_exact(2) {
            assert!(bay[1] - bay[0] > 3.5, "{title}: {bay:?}");
        }
    }
}

/// Joists at 14 in and every 16 run out: 46 and 62 on either side of the plate of the left side at 52-1/2 to 56, so a bay
/// of 46-3/4 to 61-1/4. The plate runs from the wall to the back of the front, 25 less the front's track of
/// 3-5/8 + 2 · 0.0346 (AISI S240-20, table B1.2-1: 33 mil is 0.0346 in thick): 21.3058 in. One block for each 24 in, but two
/// at least, at a quarter and three quarters: 5.3265 and 15.9794, each 3-1/2 wide.
#[test]
fn blocks_over_the_ceiling_are_placed_from_the_corner_and_the_wall() {
    let sheets = sheets(&demo("steel-front"));
    let ceiling = sheet(&sheets, "Framing: ceiling");
    let below = stops(ceiling, Side::Below);
    assert_stops(&below[0], &[0.0, 46.75, 61.25]);
    let out = &stops(ceiling, Side::Left)[0];
    let plate = 25.0 - 3.625 - 2.0 * 0.0346;
    for (found, expected) in out.iter().zip([
        0.0,
        plate / 4.0 - 1.75,
        plate / 4.0 + 1.75,
        plate * 0.75 - 1.75,
        plate * 0.75 + 1.75,
    ]) {
        assert_near(*found, expected, 2e-3);
    }
    assert_eq!(out.len(), 5);
    assert!(ceiling.chains.iter().all(|it| it.running));
    assert!(has_upright(ceiling, Pen::Context, 45.25), "the joist at 46");
    assert!(has_upright(ceiling, Pen::Cut, 0.0), "the left corner");
}

/// The same under a ceiling that rises 3 in 12 out from the wall: lengths along it are longer by √(1 + 1/16).
#[test]
fn distances_along_a_slope_are_true() {
    let slope = (1.0_f64 + 1.0 / 16.0).sqrt();
    let sheets = sheets(&changed(
        "steel-front",
        &[("slope = \"flat\"", "rise_right = 0\nrise_out = \"3:12\"")],
    ));
    let ceiling = sheet(&sheets, "Framing: ceiling");
    assert_stops(&stops(ceiling, Side::Below)[0], &[0.0, 46.75, 61.25]);
    let out = &stops(ceiling, Side::Left)[0];
    let out: Vec<f64> = out.iter().map(|it| it - out[0]).collect();
    let plate = 25.0 - 3.625 - 2.0 * 0.0346;
    // the block's sides are plumb, so its lower face is 3-1/2 in wide in plan
    assert_near(out[1], (plate / 4.0 - 1.75) * slope, 0.2);
    assert_near(out[2] - out[1], 3.5 * slope, 2e-3);
    assert_near(out[3] - out[1], plate / 2.0 * slope, 2e-3);
}

/// A bay outdoors behind the wall of the room: 60 in wide, 26 deep from its inside to the stud face of the room's wall of
/// 2x6 with 1 in of sheathing: its side is 26 - 5-1/2 - 1 = 19-1/2 in. Its back: 3-1/2 of studs, 1/2 of lining before them
/// is inside them; 1 in of cover.
#[test]
fn a_flush_chase_has_a_side() {
    let sheets = sheets(&demo("flush-in-a-wall"));
    let side = sheet(&sheets, "Side of the enclosure");
    let below = stops(side, Side::Below);
    // inside of the back, back of the room's wall, finished face 1/2 + 5/8 before its studs, mantel 6 before that
    assert_stops(&below[0][1..], &[0.0, 19.5, 27.125, 33.125]);
    assert_near(below[0][0], -5.0, 1e-4);
    assert!(says(side, "you are asked about them"));
}

/// A closet before an outside wall: the enclosure reaches that wall and has no back of its own, so that its side shows how
/// plates are held, and an end stud stands against the far wall. The closet's far wall has studs at 6 in and every 16.
#[test]
fn an_enclosure_before_a_far_wall_shows_how_it_is_held() {
    let closet = changed(
        "flush-in-a-wall",
        &[(
            "space = \"outdoors\"\nlining = \"1/2 in\"\ncover = \"1 in\"\nwall_plates = 2\n",
            "space = \"indoors\"\ncover = \"1/2 in\"\n\n[far_wall]\nfirst_stud = \"6 in\"\nsheathing = \"3/4 in\"\n",
        )],
    );
    let sheets = sheets(&closet);
    for title in ["Top plate", "Sole plate"] {
        let plate = sheet(&sheets, title);
        assert!(says(plate, "left side of the enclosure"), "{title}");
        // the framing of the side: 40 to 43-1/2 in
        let below = &stops(plate, Side::Below)[0];
        assert_near(below[0], 40.0, 1e-4);
        assert_near(below[1], 43.5, 1e-4);
    }
    let end = sheet(&sheets, "End of the left side at the wall behind the chase");
    assert!(says(end, "left end of the wall behind the chase"));
    assert!(
        sheets
            .iter()
            .any(|it| it.title.starts_with("Side of the enclosure"))
    );
}

/// Across a corner the vent turns 45° to the wall: the section through the unit's center has no line for it beyond the
/// elbow's plane but where it goes, and another is cut along the run, square to the wall.
#[test]
fn a_vent_that_leaves_the_center_plane_has_a_section_of_its_own() {
    for name in ["across-the-corner", "corner-with-wings", "pass-at-an-angle"] {
        let params = demo(name);
        let layout = design(&params).layout;
        let sheets = sheets(&params);
        let run = sheet(&sheets, "Section along the vent's run");
        assert!(says(run, "wall pass clearance"), "{name}");
        assert!(says(run, "horizontal pipe clearance"), "{name}");
        // through the wall's layers along the run: their depth over the cosine of the crossing
        let below = &stops(run, Side::Below)[0];
        let deep = layout.pass_wall().unwrap().depths.outside.to_inches();
        assert_near(
            below[1] - below[0],
            deep / layout.pass.angle.to_radians().cos(),
            1e-4,
        );
        let outside = &stops(run, Side::Left)[1];
        assert_near(outside[1], layout.pass.outside.1.to_inches(), 1e-6);
    }
    let roof = sheets(&demo("roof-pass"));
    let run = sheet(&roof, "Section along the vent's run");
    assert!(says(run, "roof pass clearance"));
    for name in ["reading-room", "room-divider"] {
        let sheets = sheets(&demo(name));
        assert!(!sheets.iter().any(|it| it.shows == Drawing::Run), "{name}");
    }
}

/// The section through the unit's center says nothing of a wall that it does not cut: no dimension ends at a place behind
/// the corner, or behind a divider, and the vent's height is told where it lies under the ceiling.
#[test]
fn a_section_dimensions_what_it_cuts() {
    for name in ["across-the-corner", "corner-with-wings", "room-divider"] {
        let sheets = sheets(&demo(name));
        let section = sheet(&sheets, "Section through");
        let below = stops(section, Side::Below).concat();
        assert!(below.iter().all(|it| *it >= 0.0), "{name}: {below:?}");
    }
    for name in ["roof-pass", "room-divider"] {
        let params = demo(name);
        let layout = design(&params).layout;
        let ceiling = layout.ceiling.height_at(layout.unit_center, Length::ZERO);
        let sheets = sheets(&params);
        let section = sheet(&sheets, "Section through");
        let up = stops(section, Side::Left).concat();
        let highest = up.iter().copied().fold(0.0, f64::max);
        assert_near(highest, ceiling.to_inches(), 1e-6);
    }
}

/// The header of the set-back wall of 2x4 has 3-1/2 - 2 · 1-1/2 = 1/2 in between two plies, that of the bump-out's 2x6
/// (5-1/2 - 3 · 1-1/2) / 2 = 1/2 in between three: three strips of the same panel, 3-1/2 by 41 in, from one sheet.
#[test]
fn strips_of_one_thickness_come_from_one_sheet() {
    let taken = takeoff(&design(&demo("stepped-face")));
    let thin = taken
        .sheets
        .iter()
        .filter(|it| (it.sheet.thickness.to_inches() - 0.5).abs() < 1e-6);
    let panels: Vec<_> = thin
        .filter(|it| it.pieces[0].part.contains("header spacer"))
        .collect();
    assert_eq!(panels.len(), 1);
    assert_eq!((panels[0].pieces.len(), panels[0].sheets.len()), (3, 1));
}

/// The chase is 27 in deep with a ledge of 5-1/2 in at 43 in, so the board of its side is 21-1/2 in wide over the ledge
/// and 27 under it; it hangs from 96 in. Its step is told from the face's ends.
#[test]
fn steps_and_cut_outs_of_board_have_dimensions() {
    let sheets = sheets(&demo("stepped-face"));
    let left = sheet(&sheets, "Board: left face");
    let differences = |side| {
        let stops = &stops(left, side)[0];
        stops.windows(2).map(|it| it[1] - it[0]).collect::<Vec<_>>()
    };
    assert_stops(&differences(Side::Above), &[21.5, 5.5]);
    assert_stops(&differences(Side::Right), &[43.0, 53.0]);
    let lower = sheet(&sheets, "Board: lower face");
    assert_eq!(stops(lower, Side::Above)[0].len(), 4, "the opening's sides");
    assert_eq!(stops(lower, Side::Right)[0].len(), 4, "its sill and head");
    assert!(says(
        sheet(&sheets, "Board: upper face"),
        "is 43\" above the bare slab"
    ));
}

/// The set-back wall begins at 36 in; the recess's rough opening is 57 in wide about the unit's center at 78, so 49-1/2 to
/// 106-1/2; five flat studs 3-1/2 in wide over (57 - 3-1/2) / 4 = 13-3/8 in each, 35 in tall on a sill whose top lies at
/// 47-1/2 in (48 finished less 1/2 in of board).
#[test]
fn framing_behind_a_recess_is_placed_from_its_wall_and_the_slab() {
    let sheets = sheets(&demo("stepped-face"));
    let recess = sheet(&sheets, "Framing: recess");
    let below = stops(recess, Side::Below);
    assert_stops(
        &below[0],
        &[36.0, 49.5, 62.875, 76.25, 89.625, 103.0, 106.5],
    );
    assert_stops(&below[1], &[36.0, 120.0]);
    assert_stops(&stops(recess, Side::Left)[0], &[0.0, 47.5, 82.5]);
    assert!(has_upright(recess, Pen::Context, 120.0));
}

/// No number is said twice at the two sides of a wall, and a plan says where the vent goes and nothing of a room that its
/// axes do not lie along.
#[test]
fn sheets_say_each_thing_once_and_what_is_there() {
    let stepped = sheets(&demo("stepped-face"));
    let side = sheet(&stepped, "Framing: left side");
    assert_stops(&stops(side, Side::Left)[1], &[0.0, 94.25]);
    assert_eq!(stops(side, Side::Right).len(), 1);
    assert_stops(&stops(side, Side::Right)[0], &[0.0, 95.75]);
    assert!(says(
        sheet(&stepped, "Plan"),
        "rising, then out through the back wall"
    ));
    let roof = sheets(&demo("roof-pass"));
    assert!(says(sheet(&roof, "Plan"), "out through the roof"));
    let corner = demo("across-the-corner");
    let chase = design(&corner).layout.site.chase;
    let corner = sheets(&corner);
    let plan = sheet(&corner, "Plan");
    let across = stops(plan, Side::Below).concat();
    assert!(
        across.iter().all(|it| *it <= chase.high.to_inches() + 1e-6),
        "{across:?}"
    );
    assert!(
        stops(plan, Side::Left)
            .concat()
            .iter()
            .all(|it| *it <= 1e-6)
    );
}

/// The unit's center lies at 70 in; 38 in of body, 1 in beside it at either side and 1/2 in of ease make an opening of
/// 40-1/2: 49-3/4 to 90-1/4, jacks and kings of 1-1/2 in beside it, new studs about the joints of board at 40 and 100.
/// The header lies on 6-1/4 + 31 + 4 + 1/4 = 41-1/2 and is 7-1/4 high. All of it counts from the corner and the slab.
#[test]
fn what_is_framed_into_a_wall_is_placed_from_the_corner_and_the_slab() {
    let sheets = sheets(&demo("flush-in-a-wall"));
    let wall = sheet(&sheets, "Framing: opened wall");
    let across = [0.0, 39.25, 46.75, 48.25, 90.25, 91.75, 99.25, 100.75];
    assert_stops(&stops(wall, Side::Below)[0], &across);
    assert_stops(&stops(wall, Side::Left)[0], &[0.0, 41.5, 48.75]);
    let blocks = &stops(wall, Side::Right)[0];
    assert!(blocks.len() > 1 && blocks[0].abs() < 1e-6, "{blocks:?}");
}

/// The mantel's backing, a 2x6 about its middle, has its lower edge told from the slab on the sheet of its wall; where a
/// sill or header is in its way it moves, so the model says where it is.
#[test]
fn blocks_of_a_wall_have_their_heights() {
    for name in ["flat-with-cabinets", "readings", "steel-front"] {
        let model = design(&demo(name));
        let drawn = drawing::sheets(&model, &takeoff(&model), Paper::Tabloid);
        let front = sheet(&drawn, "Framing: front");
        let chains = front.chains.iter();
        let said = chains.filter(|it| it.side == Side::Right && it.running);
        let said: Vec<f64> = said
            .flat_map(|it| it.stops.iter().map(|at| at.to_mm()))
            .collect();
        let blocks = model
            .parts
            .iter()
            .filter(|it| it.id.starts_with("front/blocking/"));
        let bottoms: Vec<f64> = blocks.map(|it| it.body.bounds.low.z).collect();
        assert!(!bottoms.is_empty(), "{name}");
        for bottom in bottoms {
            assert!(
                said.iter().any(|it| (it - bottom).abs() < 1e-6),
                "{name}: {bottom}"
            );
        }
    }
}

/// A cabinet as deep as the mantel hides the finished face from the side, and a switch on the wall beyond is named.
#[test]
fn a_side_names_what_is_seen() {
    let corner = sheets(&demo("square-in-a-corner"));
    let side = sheet(&corner, "Side, seen from the right");
    assert!(says(side, "cabinet") && says(side, "switch"));
    assert!(!says(side, "finished face around the unit"));
    let flat = sheets(&demo("flat-with-cabinets"));
    assert!(says(sheet(&flat, "Side"), "finished face around the unit"));
    assert!(says(sheet(&flat, "Finished front"), "leg"));
    let flush = sheets(&demo("flush-in-a-wall"));
    let apart = sheet(&flush, "Exploded view");
    assert!(says(apart, "blocks over the ceiling") && !says(apart, "ceiling wall"));
}

#[test]
fn a_number_stays_with_its_unit() {
    for text in [
        "to the pipe: 2300 mm, manual p. 12",
        "a mantel 12'-0 1/2\" long",
    ] {
        for room in 10..60 {
            for line in wrapped(text, 2.9, f64::from(room)) {
                let alone =
                    line.starts_with("mm") || line.starts_with("12,") || line.starts_with("1/2");
                assert!(!alone, "{line:?} of {text:?}");
                let parts = line.split(' ').count();
                assert!(
                    parts < 3 || width(&line, 2.9) <= f64::from(room),
                    "{line:?}"
                );
            }
        }
    }
}

/// 104 in of framing from wall to wall of a square corner end 52 · √2 = 73.54 in from it along either wall; wings 84 in
/// apart 42 · √2 = 59.40 in from it.
#[test]
fn a_plan_across_a_corner_says_where_framing_meets_the_walls() {
    for (name, along) in [
        ("across-the-corner", "73-9/16\""),
        ("corner-with-wings", "59-3/8\""),
    ] {
        let sheets = sheets(&demo(name));
        let plan = sheet(&sheets, "Plan");
        let words = format!("framing meets the wall {along} from the corner");
        assert!(says(plan, &words), "{name}");
    }
}

/// The stick that a side wall ends with is a stud, not a plate whose end touches the wall too.
#[test]
fn an_end_is_that_of_a_stud() {
    for (name, title) in [
        ("steel-front", "back wall"),
        ("flush-in-a-wall", "opened wall"),
    ] {
        let model = design(&demo(name));
        let drawn = drawing::sheets(&model, &takeoff(&model), Paper::Tabloid);
        let end = sheet(&drawn, &format!("End of the left side at the {title}"));
        let marks = marks(&model);
        let studs = marks
            .iter()
            .filter(|it| it.0.starts_with("left side/stud/"));
        let found = studs.filter(|it| says(end, &format!("end stud {},", it.1)));
        assert!(found.count() > 0, "{name}");
    }
}

/// The framing stands at 36 to 120 in, side walls of 3-1/2 in leave 39-1/2 to 116-1/2; the tongue fills the rough opening
/// of 36 + 2 · 1 in about 78: 59 to 97. The main part ends at the back of the set-back wall, 27 - 5-1/2 - 3-1/2 = 18 in
/// out, the tongue at 27.
#[test]
fn a_platform_has_a_plan() {
    let model = design(&demo("stepped-face"));
    let drawn = drawing::sheets(&model, &takeoff(&model), Paper::Tabloid);
    let plan = sheet(&drawn, "Platform");
    assert_stops(
        &stops(plan, Side::Above)[0],
        &[36.0, 39.5, 59.0, 97.0, 116.5],
    );
    assert_stops(&stops(plan, Side::Left)[0], &[-27.0, -18.0, 0.0]);
    let below = &stops(plan, Side::Below)[0];
    assert_near(below[0], 36.0, 1e-4);
    let sleepers = model
        .parts
        .iter()
        .filter(|it| it.id.starts_with("platform/sleeper/"));
    let lefts: Vec<f64> = sleepers.map(|it| it.sides().low.to_inches()).collect();
    assert!(lefts.len() > 3);
    for left in lefts {
        assert!(below.iter().any(|it| (it - left).abs() < 1e-6), "{left}");
    }
    let marks = marks(&model);
    for (part, mark) in marks
        .iter()
        .filter(|it| it.0.starts_with("platform/sleeper/"))
    {
        assert!(says(plan, mark), "{part}");
    }
}

/// Over the 110 mm of a template 0.3° is half a millimetre: no gauge is set by that.
#[test]
fn templates_are_of_angles_that_can_be_set() {
    for name in ["crooked-room", "readings"] {
        for sheet in sheets(&demo(name)) {
            if let Some(angle) = sheet.title.strip_prefix("Angle template, ") {
                let angle: f64 = angle.trim_end_matches('°').parse().unwrap();
                assert!(angle > 0.4, "{name}: {angle}");
            }
        }
    }
}

/// A cable 20 in up through the flat demo's left side: its bore is drawn and its middle dimensioned.
#[test]
fn a_bore_is_drawn_and_dimensioned() {
    let text = include_str!("../../params/flat-with-cabinets.toml");
    let cables = "[cables]\nroute = [[\"39 in\", \"11.5 in\", \"20 in\"], [\"50 in\", \"11.5 in\", \"20 in\"]]\n";
    let bored = sheets(&read(&format!("{text}\n{cables}")).unwrap());
    let whole = sheets(&read(text).unwrap());
    let [bored, whole] = [&bored, &whole].map(|it| sheet(it, "Framing: left side"));
    assert!(stops(bored, Side::Right).contains(&vec![0.0, 20.0]));
    assert!(!stops(whole, Side::Right).contains(&vec![0.0, 20.0]));
    assert!(says(bored, "centers of bores") && !says(whole, "centers of bores"));
    // two circles of 64 chords, one behind the other
    assert!(bored.ink.len() > whole.ink.len() + 60);
}
