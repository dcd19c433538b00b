//! The takeoff: what holds of every cut list, plan and list of marks, and published values; the source stands beside each.

use std::collections::BTreeMap;
use std::sync::LazyLock;
use std::time::Duration;

use chasewright::catalog::lumber;
use chasewright::cli;
use chasewright::cli::{Exit, Stop};
use chasewright::design::{Branch, Design, Kind, Stock, design, fit_of, raising};
use chasewright::drawing::{Ink, Paper, Pen, cut_sheets};
use chasewright::export::{FORMATS, Products, Set};
use chasewright::geom::Shape;
use chasewright::params::{self, ChaseWall, Fit, Manual, Params, SheetKind, Value};
use chasewright::takeoff::{Line, Purpose, Takeoff, Weighed, board_feet, takeoff};
use chasewright::units::{Angle, Length, Money, Rounding, Slope, TapeUnit, Weight};

use crate::generate::random_params;
use crate::scenarios::demo;
use crate::support::{assert_near, file, run_watched, run_with, seeds};

const STEPPED: &str = include_str!("../params/good/stepped.toml");

/// Demos and random designs with what is taken off them, worked out once for all tests.
fn designs() -> &'static [(String, Design, Takeoff)] {
    static DESIGNS: LazyLock<Vec<(String, Design, Takeoff)>> = LazyLock::new(|| {
        let taken = |(name, design)| {
            let takeoff = takeoff(&design);
            (name, design, takeoff)
        };
        some_designs().map(taken).collect()
    });
    &DESIGNS
}

fn some_designs() -> impl Iterator<Item = (String, Design)> {
    let demos = [
        "reading-room",
        "stepped-face",
        "flat-with-cabinets",
        "rises-away-from-wall",
    ];
    let demos = demos.map(|name| (name.to_owned(), design(&demo(name))));
    let random = (0..60).map(|seed| (format!("random {seed}"), design(&random_params(seed))));
    demos.into_iter().chain(random)
}

fn sloped(right: f64, out: f64) -> (Design, Takeoff) {
    let base: Params = demo("rises-away-from-wall");
    let slope = |ratio: f64| Value::Slope(Slope::ratio(ratio));
    let changed = base
        .with("ceiling.rise_right", &slope(right))
        .and_then(|it| it.with("ceiling.rise_out", &slope(out)))
        // as the trade's figures of plates have them
        .and_then(|it| it.with("chase.plate_edges", &Value::Choice("ripped")));
    let design = design(&changed.expect("the slopes are possible"));
    let takeoff = takeoff(&design);
    (design, takeoff)
}

#[test]
fn every_stick_stands_in_the_list_once() {
    for (name, design, takeoff) in designs() {
        let mut listed: Vec<&String> = takeoff.cut_list.iter().flat_map(|it| &it.parts).collect();
        let sticks = design
            .parts
            .iter()
            .filter(|it| matches!(it.stock, Stock::Stick(_) | Stock::Rip(_) | Stock::Steel(_)));
        let mut sticks: Vec<&String> = sticks.map(|it| &it.id).collect();
        listed.sort();
        sticks.sort();
        assert_eq!(listed, sticks, "{name}");
        let mut marks: Vec<&String> = takeoff.cut_list.iter().map(|it| &it.mark).collect();
        marks.sort();
        marks.dedup();
        assert_eq!(
            marks.len(),
            takeoff.cut_list.len(),
            "{name}: a mark stands twice"
        );
    }
}

#[test]
fn boards_hold_what_is_cut_from_them() {
    for (name, design, takeoff) in designs() {
        let stock = &design.params.stock;
        let mut cut: BTreeMap<&str, usize> = BTreeMap::new();
        for board in takeoff.boards.iter().flat_map(|it| &it.boards) {
            let pieces: Length = board.pieces.iter().map(|it| it.1.exact).sum();
            let cuts = stock.kerf * board.pieces.len() as f64;
            let used = stock.end_trim + pieces + cuts + board.offcut;
            // the last piece may end where the board does, and then there is no last cut
            let over = used - board.sold.length;
            assert!(
                over.to_mm() < stock.kerf.to_mm() + 1e-3 && over.to_mm() > -1e-3,
                "{name}: {} over",
                over.to_mm()
            );
            for (mark, _) in &board.pieces {
                *cut.entry(mark).or_default() += 1;
            }
        }
        if takeoff.faults.is_empty() {
            for row in &takeoff.cut_list {
                assert_eq!(
                    cut.get(row.mark.as_str()),
                    Some(&row.quantity()),
                    "{name}: {}",
                    row.mark
                );
            }
        }
    }
}

#[test]
fn sheets_hold_every_piece_and_no_two_in_one_place() {
    for (name, design, takeoff) in designs() {
        for plan in &takeoff.sheets {
            let mut placed = 0;
            for sheet in &plan.sheets {
                let boxes: Vec<[f64; 4]> = sheet
                    .pieces
                    .iter()
                    .map(|placed| {
                        let piece = plan.piece(&placed.mark).expect("a piece");
                        let size = piece.high - piece.low;
                        let size = if placed.is_turned {
                            glam::DVec2::new(size.y, size.x)
                        } else {
                            size
                        };
                        let (side, end) = (placed.from_side.to_mm(), placed.from_end.to_mm());
                        [side, end, side + size.x, end + size.y]
                    })
                    .collect();
                placed += boxes.len();
                for (at, a) in boxes.iter().enumerate() {
                    let inside = a[2] <= plan.sheet.width.to_mm() + 1e-3
                        && a[3] <= plan.sheet.length.to_mm() + 1e-3;
                    assert!(inside, "{name}: {a:?} in {:?}", plan.sheet);
                    for b in &boxes[..at] {
                        let cut = plan.kerf.to_mm() - 1e-6;
                        let apart = a[0] >= b[2] + cut
                            || b[0] >= a[2] + cut
                            || a[1] >= b[3] + cut
                            || b[1] >= a[3] + cut;
                        assert!(apart, "{name}: {a:?} on {b:?}");
                    }
                }
            }
            assert_eq!(placed, plan.pieces.len(), "{name}: every piece is cut once");
            assert!(plan.sheets.len() >= plan.least, "{name}");
            // the pieces of a part are as large as the part
            let mut areas: BTreeMap<&str, f64> = BTreeMap::new();
            for piece in &plan.pieces {
                *areas.entry(&piece.part).or_default() += piece.area;
            }
            for (id, area) in areas {
                let part = design.parts.iter().find(|it| it.id == id).expect("a part");
                let whole = part.body.volume() / plan.sheet.thickness.to_mm();
                assert_near(area / whole, 1.0, 1e-6);
            }
        }
    }
}

/// Sides are drawn as they are seen from outside, so that one is the mirror image of the other and the room lies on the
/// right of the left one.
#[test]
fn sheets_show_their_good_face() {
    let takeoff = takeoff(&design(&demo("reading-room")));
    let outline = |part: &str, mirrored: bool| {
        let pieces = takeoff.sheets.iter().flat_map(|it| &it.pieces);
        let corners = pieces
            .filter(|it| it.part == part)
            .flat_map(|it| it.loops.iter().flatten());
        let sign = if mirrored { -1.0 } else { 1.0 };
        let tape = |mm: f64| Length::mm(mm).tape(TapeUnit::Inch, Rounding::Nearest);
        let mut corners: Vec<(String, String)> =
            corners.map(|it| (tape(sign * it.x), tape(it.y))).collect();
        corners.sort();
        corners.dedup();
        corners
    };
    let (left, right) = ("left face/board/1", "right face/board/1");
    assert!(outline(left, false).len() > 4, "the side is stepped");
    assert_eq!(outline(left, false), outline(right, true));
    // the lower, deeper half of the side reaches farthest into the room
    let pieces = takeoff.sheets.iter().flat_map(|it| &it.pieces);
    let lower = pieces
        .filter(|it| it.part == left)
        .flat_map(|it| it.loops.iter().flatten())
        .max_by(|a, b| a.x.total_cmp(&b.x))
        .expect("corners");
    assert!(lower.y < 44.0 * 25.4, "{lower}");
}

/// Every sheet of the demos is cut with no more sheets than any plan of rectangles needs; in the reading room no two
/// of five pieces of gypsum board go into one 4 by 8 ft sheet, by hand: 48 + 29, 29 + 29, 63-5/8 + 32-1/2,
/// 63-5/8 + 36, 32-1/2 + 36 and so on are all too much for 48 or 96.
#[test]
fn sheets_are_as_few_as_can_be() {
    let takeoff = takeoff(&design(&demo("reading-room")));
    for plan in &takeoff.sheets {
        assert_eq!(plan.sheets.len(), plan.least, "{:?}", plan.sheet);
    }
    let gypsum = takeoff
        .sheets
        .iter()
        .find(|it| it.sheet.material == SheetKind::GypsumBoard);
    assert_eq!(gypsum.expect("gypsum board").least, 5);
}

/// A piece's factory edges are where it lies on its sheet's edge, whichever way it is turned.
#[test]
fn factory_edges_lie_on_the_edge_of_the_sheet() {
    let mut seen = 0;
    for (name, _, takeoff) in designs().iter().take(12) {
        for plan in &takeoff.sheets {
            for placed in plan.sheets.iter().flat_map(|it| &it.pieces) {
                let piece = plan.piece(&placed.mark).expect("a piece");
                let size = piece.high - piece.low;
                for edge in plan.factory_edges(placed) {
                    // a quarter turn clockwise brings the piece's left edge up
                    let across = matches!(edge, "left" | "right") != placed.is_turned;
                    let far = match (edge, placed.is_turned) {
                        ("left", _) | ("top", false) | ("bottom", true) => false,
                        ("right", _) | ("bottom", false) | ("top", true) => true,
                        other => panic!("{other:?}"),
                    };
                    let (from, whole) = if across {
                        (placed.from_side, plan.sheet.width)
                    } else {
                        (placed.from_end, plan.sheet.length)
                    };
                    // the piece's own left and right lie its width apart
                    let is_side = matches!(edge, "left" | "right");
                    let own = if is_side { size.x } else { size.y };
                    let reached = from.to_mm() + if far { own } else { 0.0 };
                    let wanted = if far { whole.to_mm() } else { 0.0 };
                    assert!((reached - wanted).abs() < 1e-6, "{name}: {placed:?} {edge}");
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 50, "only {seen}");
}

/// The drawings hold every piece of every sheet, and their elements are closed.
#[test]
fn sheets_are_drawn() {
    let design = design(&demo("reading-room"));
    let products = Products::of(&design);
    let svg = text("sheets.svg", &products);
    assert!(
        svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\"") && svg.ends_with("</svg>\n")
    );
    assert!(!svg.contains("NaN") && !svg.contains("-0.00"));
    let drawings = cut_sheets(&design, products.takeoff(), products.paper);
    for (open, close) in [("<g ", "</g>"), ("<text ", "</text>")] {
        assert_eq!(svg.matches(open).count(), svg.matches(close).count());
    }
    assert_eq!(svg.matches("<g ").count(), drawings.len());
    let plans = &products.takeoff().sheets;
    assert!(drawings.len() >= plans.len() && !plans.is_empty());
    for piece in plans.iter().flat_map(|it| &it.pieces) {
        let labels = [' ', '<'].map(|end| format!(">{}{end}", piece.mark));
        let count: usize = labels.iter().map(|it| svg.matches(it).count()).sum();
        assert_eq!(count, 1, "{}", piece.mark);
    }
}

/// Two plain pieces in one sheet: each of their edges that needs no cut is a thick line, and no other.
#[test]
fn factory_edges_are_thick() {
    let design = design(&demo("reading-room"));
    let takeoff = takeoff(&design);
    let plan = &takeoff.sheets[0];
    assert!(plan.sheets.len() == 1 && plan.pieces.iter().all(|it| it.loops[0].len() == 4));
    let edges = plan.sheets[0]
        .pieces
        .iter()
        .map(|it| plan.factory_edges(it).len());
    let drawn = &cut_sheets(&design, &takeoff, Paper::Tabloid)[0];
    let thick = |it: &&Ink| {
        matches!(
            it,
            Ink::Line {
                pen: Pen::Factory,
                ..
            }
        )
    };
    assert_eq!(drawn.ink.iter().filter(thick).count(), edges.sum::<usize>());
}

/// Both slopes: uprights have compound ends, and those of the left and right side are mirror images.
#[test]
fn a_ceiling_that_slopes_both_ways_needs_compound_cuts_and_marks_of_two_hands() {
    let (_, takeoff) = sloped(2.0 / 12.0, 3.0 / 12.0);
    let studs = takeoff
        .cut_list
        .iter()
        .filter(|it| it.kinds.contains(&Kind::Stud));
    for row in studs {
        let (miter, bevel) = row.setting(&row.ends[1]);
        assert!(
            miter.to_degrees() > 1.0 && bevel.to_degrees() > 1.0,
            "{}",
            row.mark
        );
    }
    // the plane of the ceiling and a level plane meet at acos(1/√(1 + 1/36 + 1/16))
    let row = takeoff
        .cut_list
        .iter()
        .find(|it| it.parts[0].starts_with("front/stud/"))
        .expect("a stud");
    let (miter, bevel) = row.setting(&row.ends[1]);
    let tilt = libm_acos(miter.cos() * bevel.cos());
    assert_near(
        tilt,
        libm_acos(1.0 / (1.0_f64 + 1.0 / 36.0 + 1.0 / 16.0).sqrt()),
        1e-9,
    );
}

fn libm_acos(value: f64) -> f64 {
    value.acos()
}

/// A ceiling that rises along the wall leans the two side walls' plates the same way; front pieces have no hand.
#[test]
fn pieces_that_are_their_own_mirror_image_have_no_hand() {
    let (_, takeoff) = sloped(0.0, 3.0 / 12.0);
    for row in &takeoff.cut_list {
        assert!(
            !row.mark.ends_with(['L', 'R']),
            "{}: {:?}",
            row.mark,
            row.parts
        );
    }
    let (_, takeoff) = sloped(2.0 / 12.0, 3.0 / 12.0);
    let hands: Vec<&str> = takeoff
        .cut_list
        .iter()
        .filter_map(|it| it.mark.strip_suffix('L'))
        .collect();
    for number in hands {
        assert!(
            takeoff
                .cut_list
                .iter()
                .any(|it| it.mark == format!("{number}R")),
            "{number} has no right hand"
        );
    }
}

/// Trade arithmetic, common practice, no source: a board that covers 3-1/2 in plumb to plumb at 3-1/2 in 12
/// is 3-1/2·√(1 + (3.5/12)²) = 3.646 in along the slope, and takes 3.646 + 1-1/2·(3.5/12) = 4.083 in of board.
#[test]
fn a_plate_with_plumb_edges_says_which_board_it_comes_from() {
    let (_, takeoff) = sloped(0.0, 3.5 / 12.0);
    let plate = takeoff
        .cut_list
        .iter()
        .find(|it| it.parts[0] == "front/top plate/1")
        .expect("a plate");
    let rip = plate.rip.expect("the plate is ripped");
    assert_near(rip.width.to_inches(), 4.083, 5e-4);
    assert_near(rip.edge.to_degrees(), 16.26, 5e-3);
    assert_eq!(plate.board.size.name(), "2x6");
}

/// Trade arithmetic, common practice, no source: at 3 in 12 (14.04°) the 15° stop opens 1/16 in over 3-1/2 in, too
/// much, and 1/32 in over 1-1/2 in, which passes; the test cut is 3 in in 12.
#[test]
fn stops_are_used_where_the_gap_is_small() {
    let (_, takeoff) = sloped(0.0, 3.0 / 12.0);
    let find = |bevel: bool| {
        takeoff
            .saw
            .iter()
            .find(|it| (it.bevel.to_radians() > 0.0) == bevel)
            .expect("a set-up")
    };
    let miter = find(false).miter_stop.expect("a stop");
    assert_near(find(false).miter.to_degrees(), 14.0362, 5e-5);
    assert_near(miter.angle.to_degrees(), 15.0, 1e-12);
    assert_near(miter.gap.to_inches(), 1.0 / 16.0, 1e-3);
    assert!(!miter.good);
    let bevel = find(true).bevel_stop.expect("a stop");
    assert_near(bevel.gap.to_inches(), 0.0269, 1e-4);
    assert!(bevel.good);
    assert_near(find(false).test.to_inches(), 3.0, 1e-12);
}

/// A saw that cannot turn so far is told, with a way out.
#[test]
fn cuts_past_the_saw_are_flagged() {
    let base = demo("rises-away-from-wall");
    let small = base.with("saw.largest_miter", &Value::Angle(Angle::degrees(5.0)));
    let small =
        small.and_then(|it| it.with("saw.largest_bevel", &Value::Angle(Angle::degrees(5.0))));
    let takeoff = takeoff(&design(&small.expect("a small saw")));
    assert!(!takeoff.saw.is_empty());
    for setup in &takeoff.saw {
        assert!(!setup.in_range && setup.way_out.is_some());
    }
}

/// DOC PS 20, from memory: board feet are nominal thickness × nominal width × feet / 12.
#[test]
fn board_feet_are_nominal() {
    let feet = |size: &str, feet: f64| {
        board_feet(size, Length::inches(feet * 12.0)).expect("a nominal size")
    };
    assert_near(feet("2x4", 8.0), 5.333, 5e-4);
    assert_near(feet("2x6", 16.0), 16.0, 1e-12);
    assert_near(feet("1x12", 10.0), 10.0, 1e-12);
    assert_near(feet("5/4x6", 12.0), 7.5, 1e-12);
    assert_eq!(board_feet("45x95 mm", Length::mm(2400.0)), None);
}

/// Weights in pounds per foot at 35 lb/ft³: a reference table that quotes the sizes of DOC PS 20.
#[test]
fn dressed_sizes_weigh_what_the_table_says() {
    let table = [
        ("1x4", 0.64),
        ("1x6", 1.00),
        ("2x4", 1.28),
        ("2x6", 2.00),
        ("2x12", 4.10),
        ("4x4", 2.98),
    ];
    for (name, pounds) in table {
        let size = lumber(name).expect("a nominal size");
        let square_feet = size.thickness.to_inches() * size.width.to_inches() / 144.0;
        assert_near(square_feet * 35.0, pounds, 0.01);
    }
}

/// Washington Administrative Code 246-359-340, table 340: stud to sole plate 2-16d end nailed or 4-8d toe nailed.
#[test]
fn studs_are_nailed_by_the_published_schedule() {
    let raised = |it: Fit| matches!(it, Fit::TiltUp | Fit::PlateFirst);
    for word in ["tilt_up", "in_place"] {
        let design = design(&with_room_to_raise(word));
        let takeoff = takeoff(&design);
        let walls = raising(&design);
        let standing = |is_raised: bool| -> usize {
            let plates = takeoff.plates.iter();
            let sole = plates.filter(|it| it.plate.contains("sole plate"));
            let of_way = sole.filter(|it| {
                let wall = walls
                    .iter()
                    .find(|wall| it.plate.starts_with(wall.wall.name()));
                raised(wall.expect("a wall").method.fit()) == is_raised
            });
            of_way.map(|it| it.marks.len()).sum()
        };
        assert!(standing(word == "tilt_up") > 0, "{word}");
        for (purpose, size, each, is_raised) in [
            (Purpose::StudToSoleEnd, "16d", 2, true),
            (Purpose::StudToSoleToe, "8d", 4, false),
        ] {
            let nails = takeoff.fasteners.iter().find(|it| it.purpose == purpose);
            assert_eq!(
                nails.map_or(0, |it| it.count),
                each * standing(is_raised),
                "{word}: {purpose:?}"
            );
            if let Some(nails) = nails {
                assert!(
                    nails.item.starts_with(size) && nails.item.contains("galvanized"),
                    "{nails:?}"
                );
            }
        }
    }
}

/// By hand, common practice, no source: 9 ft of flat ceiling less 1/4 in and two plates leave end studs of 104-3/4 in,
/// which begin seven steps of 16 in, so each of the two has eight screws, and of 8 in fifteen. A screw passes 1-1/2 in
/// of stud and 1/2 in of board and bites 1-1/2 in. In the corner of a room the side wall along it stands on edge
/// before it, and only ends are screwed.
#[test]
fn the_ends_of_the_chase_are_screwed_to_the_rooms_walls() {
    let counted = |params: &Params| {
        let fasteners = takeoff(&design(params)).fasteners.into_iter();
        let own = fasteners.filter(|it| it.purpose == Purpose::EndStuds);
        own.map(|it| (it.item, it.count)).collect::<Vec<_>>()
    };
    let flat = demo("flat-with-cabinets");
    assert_eq!(counted(&flat), [("3-1/2\" wood screws".to_owned(), 16)]);
    let closer = flat.with(
        "fasteners.wall_screw_spacing",
        &Value::Length(Length::inches(8.0)),
    );
    assert_eq!(counted(&closer.expect("a spacing"))[0].1, 2 * 15);
    for (item, _) in counted(&demo("crooked-room")) {
        assert_eq!(item, "3-1/2\" wood screws");
    }
}

/// What framers pull at 16 in on center, common practice, no source: 15-1/4, 31-1/4, 47-1/4 to the near edge.
#[test]
fn layout_marks_are_near_edges_from_one_end() {
    let takeoff = takeoff(&design(&demo("rises-away-from-wall")));
    let plate = takeoff
        .plates
        .iter()
        .find(|it| it.plate == "front/top plate/1")
        .expect("a plate");
    let text: Vec<String> = plate
        .marks
        .iter()
        .map(|it| it.edge.tape(TapeUnit::Inch, Rounding::Nearest))
        .collect();
    for mark in ["15-1/4\"", "31-1/4\"", "47-1/4\""] {
        assert!(text.contains(&mark.to_owned()), "{mark} in {text:?}");
    }
    for plate in &takeoff.plates {
        assert!(
            plate
                .marks
                .windows(2)
                .all(|pair| pair[0].edge <= pair[1].edge),
            "{}",
            plate.plate
        );
    }
}

/// Studs at 16 in on center under 7 in 12 step by 9-1/3 in: a builders' forum has "just over 9-5/16 in"; under 6 in 12
/// by 8 in (US Navy NAVEDTRA 14044, figure 2-29, for the same square).
#[test]
fn long_points_step_by_the_common_difference() {
    for (rise, step) in [(7.0, 9.3333), (6.0, 8.0)] {
        let base = demo("rises-away-from-wall");
        let changed = base
            .with("ceiling.rise_out", &Value::Slope(Slope::ratio(rise / 12.0)))
            .and_then(|it| it.with("chase.depth", &Value::Length(Length::inches(80.0))));
        let design = design(&changed.expect("a steep ceiling"));
        let takeoff = takeoff(&design);
        let long = |id: &str| {
            let row = takeoff
                .cut_list
                .iter()
                .find(|it| it.parts.iter().any(|part| part == id));
            row.expect("a stud").long_point
        };
        let found = (long("left side/stud/3") - long("left side/stud/2")).to_inches();
        assert_near(found.abs(), step, 1e-4);
    }
}

/// Under a flat ceiling, far enough from it for the front to be raised.
fn with_room_to_raise(fit: &'static str) -> Params {
    let mut flat = demo("flat-with-cabinets");
    flat.ceiling.gap = Length::inches(1.0);
    flat.with("chase.fit", &Value::Choice(fit))
        .expect("a way to build")
}

#[test]
fn rows_are_rounded_as_the_wall_goes_up() {
    for (fit, rounding) in [("tilt_up", Rounding::Down), ("in_place", Rounding::Up)] {
        let design = design(&with_room_to_raise(fit));
        let walls = raising(&design);
        for row in takeoff(&design).cut_list {
            let asked = |(branch, _): &(Branch, usize)| {
                fit_of(&walls, &design, *branch) == design.params.chase.fit
            };
            if row.kinds == [Kind::Stud] && row.places.iter().all(asked) {
                assert_eq!(row.rounding, rounding, "{:?}", row.places);
            }
            if row.kinds == [Kind::Jack] {
                assert_eq!(row.rounding, Rounding::Up, "an opening is rounded up");
            }
        }
    }
}

#[test]
fn prices_make_the_plan_and_the_cost() {
    let text = STEPPED.to_owned()
        + r#"
[stock]
boards = [
  { size = "2x4", length = "8 ft", price = 3.10 },
  { size = "2x4", length = "12 ft", price = 9.90 },
]
prices = [{ item = "vent elbow", price = 41.5 }]
"#;
    let takeoff = takeoff(&design(&params::read(&text).expect("a file with prices")));
    let plan = takeoff
        .boards
        .iter()
        .find(|it| it.board.name() == "2x4")
        .expect("2x4");
    let sum: Money = plan.boards.iter().filter_map(|it| it.sold.price).sum();
    assert_eq!(plan.cost, chasewright::takeoff::PlanCost::Money(sum));
    let elbow = takeoff
        .buy
        .iter()
        .find(|it| it.item == "vent elbow")
        .expect("an elbow");
    assert_eq!(elbow.cost(), Some(Money::hundredths(4150)));
    let listed: Money = takeoff.buy.iter().filter_map(Line::cost).sum();
    assert_eq!(takeoff.cost(), listed);
    assert!(takeoff.without_price().any(|it| it == "vent cap"));
}

/// 185 lb is 83.9146 kg (1 lb = 0.45359237 kg exactly: NIST SP 811, 2008, appendix B.8). What has no weight is named,
/// and what the model does not know is bought where the user counts it.
#[test]
fn weights_and_counts_are_the_users_own() {
    let read = |rows: &str| {
        let text = format!("{STEPPED}\n[stock]\nprices = [{rows}]\n");
        takeoff(&design(&params::read(&text).expect("a good file")))
    };
    let slab = |takeoff: &Takeoff| {
        let last = takeoff.weights.last().expect("the slab");
        assert_eq!(last.what, Weighed::Slab);
        last.mass
    };
    let none = read("");
    let lacks = |takeoff: &Takeoff, item: &str| takeoff.without_weight().any(|it| it == item);
    assert!(lacks(&none, "the unit") && lacks(&none, "vent cap"));
    let some = read(
        "{ item = \"the unit\", weight = \"185 lb\" }, { item = \"vent cap\", weight = \"4 kg\", price = 80 }, \
         { item = \"foil tape\", count = 2, price = 9.50, weight = 1 }",
    );
    assert!(!lacks(&some, "the unit") && !lacks(&some, "vent cap") && lacks(&some, "vent elbow"));
    let added = 83.914_588_45 + 4.0 + 2.0 * 0.453_592_37;
    assert_near(slab(&some) - slab(&none), added, 1e-9);
    let unit = some
        .weights
        .iter()
        .find(|it| it.what.to_string() == "the unit");
    assert_eq!(unit.expect("the unit").two_can_lift, Some(false));
    let tape = some.buy.iter().find(|it| it.item == "foil tape");
    let tape = tape.expect("what the user counts");
    assert_eq!(
        (tape.count, tape.cost()),
        (2, Some(Money::hundredths(1900)))
    );
    for row in [
        "{ item = \"the unit\", weight = \"-2 lb\" }",
        "{ item = \"the unit\", weight = \"185 stone\" }",
        "{ item = \"foil tape\", count = 0 }",
        "{ item = \"foil tape\", count = 1.5 }",
    ] {
        let text = format!("{STEPPED}\n[stock]\nprices = [{row}]\n");
        let faults = params::read(&text).expect_err(row);
        assert_eq!(&*faults[0].key, "stock.prices", "{row}");
    }
}

#[test]
fn pipe_is_made_of_sections_less_their_overlap() {
    let takeoff = takeoff(&design(&params::read(STEPPED).expect("a good file")));
    for run in &takeoff.pipes.runs {
        let overlap = Length::inches(1.25);
        let net: Length = run.made.sections.iter().map(|it| *it - overlap).sum();
        let reach = net + run.made.adjustable.unwrap_or_default() + run.made.rest;
        assert_near(reach.to_mm(), run.length.to_mm(), 1e-9);
        assert!(
            run.made.rest.to_mm() < 1e-6,
            "the adjustable section reaches the rest"
        );
    }
    assert_eq!(takeoff.pipes.screws, Some(takeoff.pipes.joints * 3));
    assert_eq!(takeoff.pipes.clamps, Some(0));
}

#[test]
fn finish_is_measured_on_its_face() {
    for (_, design, takeoff) in designs().iter().take(4) {
        let faces = design.parts.iter().filter(|it| it.kind == Kind::Finish);
        let area: f64 = faces
            .map(|it| match &it.body.shape {
                Shape::Swept(swept) => swept.profile.area(),
                Shape::Tube(_) => 0.0,
            })
            .sum();
        let listed: f64 = takeoff.finish.iter().map(|it| it.area).sum();
        assert_near(listed, area, 1e-3);
    }
}

/// RFC 4180: fields in quotes may hold commas, and quotes within are doubled; every record has as many fields.
#[test]
fn tables_are_comma_separated_as_the_standard_says() {
    let design = design(&demo("reading-room"));
    let products = Products::of(&design);
    for name in names().filter(|it| it.rsplit('.').next() == Some("csv")) {
        let records = records(&text(name, &products));
        assert!(records.len() > 1, "{name}");
        for record in &records {
            assert_eq!(record.len(), records[0].len(), "{name}: {record:?}");
        }
    }
}

/// Names of the takeoff's files.
fn names() -> impl Iterator<Item = &'static str> {
    let formats = FORMATS.iter().filter(|it| it.set == Set::Takeoff);
    formats.map(|it| it.file)
}

fn text(name: &str, products: &Products<'_>) -> String {
    String::from_utf8(file(name, products)).expect("text")
}

pub(crate) fn records(text: &str) -> Vec<Vec<String>> {
    let mut records = vec![vec![String::new()]];
    let (mut quoted, mut characters) = (false, text.chars().peekable());
    while let Some(character) = characters.next() {
        let last = records.last_mut().unwrap();
        match (quoted, character) {
            (true, '"') if characters.peek() == Some(&'"') => {
                characters.next();
                last.last_mut().unwrap().push('"');
            }
            (_, '"') => quoted = !quoted,
            (false, ',') => last.push(String::new()),
            (false, '\r') => {
                assert_eq!(characters.next(), Some('\n'), "a line ends with CR LF");
                records.push(vec![String::new()]);
            }
            (_, other) => last.last_mut().unwrap().push(other),
        }
    }
    assert_eq!(
        records.pop(),
        Some(vec![String::new()]),
        "the last line ends too"
    );
    records
}

#[test]
fn the_terminal_tables_fit_100_columns() {
    for name in ["reading-room", "flat-with-cabinets"] {
        let ended = run_with(
            &["takeoff", &format!("params/{name}.toml")],
            &cli::WORK,
            false,
        );
        assert_eq!((ended.exit, ended.err.as_str()), (Exit::Clean, ""));
        for line in ended
            .out
            .lines()
            .filter(|it| it.contains('─') || it.contains("  "))
        {
            assert!(line.chars().count() <= 100, "{line}");
        }
        assert!(ended.out.contains("square"), "a square end is said");
    }
}

#[test]
fn lists_are_the_same_twice_and_in_both_commands() {
    let folder = tempfile::tempdir().unwrap();
    let out = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let file = "params/rises-away-from-wall.toml";
    for (command, name) in [("takeoff", "a"), ("takeoff", "b"), ("build", "c")] {
        run_with(&[command, file, "--out", &out(name)], &cli::WORK, false);
    }
    for file in names() {
        let read = |name: &str| std::fs::read(folder.path().join(name).join(file)).unwrap();
        assert_eq!(read("a"), read("b"), "{file}");
        assert_eq!(read("a"), read("c"), "{file}");
    }
}

/// A piece longer than any board: the key is named, and nothing is written.
#[test]
fn a_stick_too_long_for_the_yard_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("short.toml");
    std::fs::write(
        &file,
        STEPPED.to_owned() + "\n[stock]\nlengths = [\"6 ft\"]\n",
    )
    .unwrap();
    for command in ["takeoff", "build"] {
        let out = folder.path().join("out");
        let arguments = [
            command,
            file.to_str().unwrap(),
            "--out",
            out.to_str().unwrap(),
        ];
        let ended = run_with(&arguments, &cli::WORK, false);
        assert_eq!(
            (ended.exit, ended.out.as_str()),
            (Exit::Unusable, ""),
            "{command}"
        );
        assert!(ended.err.contains("stock.lengths"), "{}", ended.err);
        assert!(ended.err.contains("lengths = [\"6 ft\"]"), "{}", ended.err);
        assert!(!out.exists(), "{command} wrote something");
    }
}

#[test]
fn bad_stock_names_its_key() {
    let cases = [
        ("stock", "lengths = []", "stock.lengths"),
        (
            "stock",
            "boards = [{ size = \"2x4\", length = \"8 ft\", price = -3 }]",
            "stock.boards",
        ),
        (
            "stock",
            "prices = [{ item = \"mantel\", price = 1.005 }]",
            "stock.prices",
        ),
        (
            "stock",
            "sheets = [{ material = \"drywal\", thickness = 0.5, width = 48, length = 96 }]",
            "stock.sheets",
        ),
        ("stock", "boards = [{ size = \"2x4\" }]", "stock.boards"),
        ("stock", "search_nodes = 0", "stock.search_nodes"),
        (
            "fasteners",
            "board_screw_spacing = 0",
            "fasteners.board_screw_spacing",
        ),
        (
            "fasteners",
            "anchor_spacing = 0",
            "fasteners.anchor_spacing",
        ),
        ("saw", "stops = [95]", "saw.stops"),
        ("saw", "largest_miter = \"ninety\"", "saw.largest_miter"),
    ];
    for (table, line, key) in cases {
        let heading = format!("\n[{table}]\n");
        let text = if STEPPED.contains(&heading) {
            STEPPED.replacen(&heading, &format!("{heading}{line}\n"), 1)
        } else {
            format!("{STEPPED}{heading}{line}\n")
        };
        let faults = params::read(&text).expect_err(line);
        assert_eq!(faults.len(), 1, "{line}: {faults:?}");
        assert_eq!(&*faults[0].key, key, "{line}");
        assert!(faults[0].place.is_some(), "{line}");
    }
}

/// Every fault of the yard and of the spacings: the key is named, and neither command writes anything.
#[test]
fn bad_takeoffs_write_nothing() {
    let stock = |line: &str| format!("{STEPPED}\n[stock]\n{line}\n");
    let cases = [
        (stock("lengths = []"), "stock.lengths"),
        (stock("lengths = [\"4 ft\"]"), "stock.lengths"),
        (
            stock("boards = [{ size = \"2x4\", length = \"5 ft\", price = 2 }]"),
            "stock.boards",
        ),
        (
            stock("boards = [{ size = \"2x4\", length = \"8 ft\", price = -0.01 }]"),
            "stock.boards",
        ),
        (
            stock(
                "sheets = [{ material = \"gypsum_board\", thickness = 0.5, width = 48, length = 96, price = -1 }]",
            ),
            "stock.sheets",
        ),
        (
            stock("prices = [{ item = \"mantel\", price = -210 }]"),
            "stock.prices",
        ),
        (
            STEPPED.replacen("[chase]", "[chase]\nstud_spacing = 0", 1),
            "chase.stud_spacing",
        ),
        (
            format!("{STEPPED}\n[fasteners]\npanel_screw_spacing = 0\n"),
            "fasteners.panel_screw_spacing",
        ),
    ];
    let folder = tempfile::tempdir().unwrap();
    let (file, out) = (folder.path().join("bad.toml"), folder.path().join("out"));
    for (text, key) in cases {
        std::fs::write(&file, text).unwrap();
        for command in ["takeoff", "build"] {
            let arguments = [
                command,
                file.to_str().unwrap(),
                "--out",
                out.to_str().unwrap(),
            ];
            let ended = run_with(&arguments, &cli::WORK, false);
            let said = (ended.exit, ended.out.as_str());
            assert_eq!(said, (Exit::Unusable, ""), "{command}: {key}");
            assert!(ended.err.contains(key), "{command}: {}", ended.err);
            assert!(!out.exists(), "{command}: {key}: something is written");
        }
    }
}

/// A search shows how far it has come on the error stream alone, and takes the line away again.
#[test]
fn a_search_shows_its_progress() {
    let arguments = ["takeoff", "params/reading-room.toml"];
    let quiet = run_with(&arguments, &cli::WORK, false);
    let shown = run_watched(
        &arguments,
        &cli::WORK,
        false,
        (Some(Duration::ZERO), &Stop::new()),
    );
    assert_eq!(quiet.err, "");
    assert_eq!(shown.out, quiet.out);
    let planned = shown
        .err
        .contains("\rplanning 2x6: $26.80 so far, at least $24.00, 0 nodes");
    assert!(planned, "{}", shown.err);
    let wiped = format!("\r{:99}\r", "");
    assert!(shown.err.ends_with(&wiped), "{:?}", shown.err);
    for line in shown.err.split('\r') {
        assert!(line.chars().count() < 100, "{line}");
    }
}

/// A search that somebody stops says so, in every form, and gives whole plans all the same.
#[test]
fn a_stopped_search_says_so() {
    let stop = Stop::new();
    assert!(!stop.ask(), "there is no search yet");
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap();
    let arguments = ["takeoff", "params/reading-room.toml", "--out", out];
    let ended = run_watched(&arguments, &cli::WORK, false, (None, &stop));
    assert_eq!(ended.exit, Exit::Clean);
    assert!(
        ended.out.contains("no plan takes less than")
            && ended.out.contains("the search was stopped."),
        "{}",
        ended.out
    );
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    assert!(read("cutting-plan.csv").contains("\"no, stopped\""));
    assert!(read("takeoff.json").contains("\"stopped\": true"));
    let whole = run_with(&["takeoff", "params/reading-room.toml"], &cli::WORK, false);
    assert!(!whole.out.contains("stopped"));
}

/// The marks of the list are those in the model.
#[test]
fn marks_stand_in_the_model() {
    let design = design(&demo("reading-room"));
    let takeoff = takeoff(&design);
    let built = (cli::WORK.build)(
        &demo("reading-room"),
        cli::BuildForm::default(),
        &mut |_| true,
    )
    .unwrap();
    let file = |name: &str| {
        let file = built.files.iter().find(|it| it.name == name).unwrap();
        String::from_utf8_lossy(&file.bytes).into_owned()
    };
    let (step, glb) = (file("model.step"), file("model.glb"));
    for row in &takeoff.cut_list {
        for part in &row.parts {
            assert!(
                step.contains(&format!(
                    "DESCRIPTIVE_REPRESENTATION_ITEM('mark','{}')",
                    row.mark
                )),
                "{part} in the STEP tree"
            );
            let extras = format!("\"id\":\"{part}\"");
            let at = glb.find(&extras).expect("the part's node");
            let end = glb[at..].find('}').expect("the end of its data");
            assert!(
                glb[at..at + end].contains(&format!("\"mark\":\"{}\"", row.mark)),
                "{part} in the viewer"
            );
        }
    }
}

/// Sheets, plans and lists come to an end for whatever the parameters allow.
#[test]
fn random_designs_are_taken_off() {
    for seed in seeds(0..120) {
        let mut params = random_params(seed);
        params.stock.search_nodes = 20;
        let takeoff = takeoff(&design(&params));
        assert!(!takeoff.cut_list.is_empty(), "seed {seed}");
    }
}

/// What is listed under a name in the buy list of a design.
fn bought(params: &Params, item: &str) -> Option<usize> {
    let taken = takeoff(&design(params));
    let line = taken.buy.iter().find(|it| it.item == item);
    line.map(|it| it.count)
}

/// Adhesive by the length of its bead: a cartridge that goes as far as the whole bead is one, half as far two.
#[test]
fn adhesive_and_sealant_are_counted_by_the_users_reach() {
    for (name, feet) in [
        (
            "construction adhesive",
            "construction adhesive, feet of bead",
        ),
        (
            "firestop sealant or foil tape",
            "firestop sealant or foil tape, feet of bead",
        ),
    ] {
        let mut params = demo("reading-room");
        let length = bought(&params, feet).expect("a bead of some length");
        assert!(length > 2, "{feet}: {length}");
        for parts in [1, 2] {
            let reach = Some(Length::inches(12.0 * length as f64 / f64::from(parts)));
            params.fasteners.adhesive_reach = reach;
            params.fasteners.sealant_reach = reach;
            let count = bought(&params, name).unwrap();
            assert!(
                count == usize::try_from(parts).unwrap()
                    || count + 1 == usize::try_from(parts).unwrap(),
                "{name}: {count}"
            );
            assert_eq!(bought(&params, feet), None);
        }
    }
}

/// Round the firestop's plate of the demo: its four sides and the pipe's circle, in whole feet.
#[test]
fn the_sealants_bead_goes_round_plate_and_pipe() {
    let params = demo("reading-room");
    let pass = design(&params).layout.pass;
    // the plate laps 1-1/2 in over the hole on every side (common practice, no source)
    let sides = pass.sides.size().to_inches() + pass.heights.size().to_inches() + 4.0 * 1.5;
    let round = params.vent.pipe_diameter.to_inches() * std::f64::consts::PI;
    let feet = ((2.0 * sides + round) / 12.0).ceil();
    let item = "firestop sealant or foil tape, feet of bead";
    assert_near(bought(&params, item).unwrap() as f64, feet, 1e-9);
}

#[test]
fn what_stands_beside_the_opening_is_bought_too() {
    let cabinets = demo("flat-with-cabinets");
    assert_eq!(bought(&cabinets, "cabinet"), Some(2));
    let legs = if cabinets.legs.is_some() {
        Some(2)
    } else {
        None
    };
    assert_eq!(bought(&cabinets, "leg under the mantel"), legs);
    assert_eq!(bought(&demo("reading-room"), "cabinet"), None);
}

/// Straps, one for each spacing begun of each straight.
#[test]
fn straps_come_from_the_users_spacing() {
    let mut params = demo("reading-room");
    assert_eq!(bought(&params, "vent straps"), None);
    let taken = takeoff(&design(&params));
    let spacing = Length::inches(10.0);
    let kit = params.pipe.as_mut().expect("the demo has a kit");
    kit.strap_spacing = Some(Manual {
        value: spacing,
        page: "30".to_owned(),
    });
    let runs = taken.pipes.runs.iter();
    let wanted: f64 = runs.map(|it| (it.length / spacing).ceil()).sum();
    assert_near(bought(&params, "vent straps").unwrap() as f64, wanted, 1e-9);
}

/// A wall that two lift under one limit is too heavy under another: exactly its own weight is not.
#[test]
fn the_lift_limit_is_the_users() {
    let mut params = demo("reading-room");
    let front = |params: &Params| {
        let taken = takeoff(&design(params));
        let wall = taken
            .weights
            .into_iter()
            .find(|it| it.what.is_wall(ChaseWall::SetBack));
        wall.unwrap()
    };
    let mass = front(&params).mass;
    for (limit, can) in [(mass, true), (mass - 0.01, false)] {
        params.chase.two_lift = Weight::new(limit);
        assert_eq!(front(&params).two_can_lift, Some(can));
    }
}

/// Of the reading room's face around the recess each sheet gets a part of the opening: a notch in its outline, whose
/// edges nobody sees as a hole with a strip of nothing beside it.
#[test]
fn an_opening_at_a_joint_is_a_notch() {
    let design = design(&demo("reading-room"));
    let plans = takeoff(&design).sheets;
    let pieces = plans.iter().flat_map(|it| &it.pieces);
    let notched: Vec<_> = pieces
        .filter(|it| it.part == "upper face/board/1")
        .collect();
    assert_eq!(notched.len(), 3);
    let corners: Vec<Vec<usize>> = notched
        .iter()
        .map(|it| it.loops.iter().map(Vec::len).collect())
        .collect();
    assert_eq!(corners, [vec![8], vec![8], vec![4]]);
    for piece in notched {
        let around = |corners: &Vec<glam::DVec2>| {
            let next = corners.iter().cycle().skip(1);
            corners
                .iter()
                .zip(next)
                .map(|(a, b)| a.perp_dot(*b))
                .sum::<f64>()
                / 2.0
        };
        let area: f64 = piece.loops.iter().map(around).sum();
        assert!((area - piece.area).abs() < 1e-6, "{}", piece.mark);
    }
}

/// A cable through the flat demo's left side: its stud stands on a plate of 1-1/2 in, so that 20 in up are 18-1/2 up
/// from its foot, and the middle of its 1-1/2 in is 3/4 in from either edge. 0.6 in of cable takes 5/8.
#[test]
fn a_bore_is_marked_from_the_foot_of_its_stick() {
    let text = include_str!("../../params/flat-with-cabinets.toml");
    let cables = "[cables]\ndiameter = \"0.6 in\"\nroute = [[\"39 in\", \"11.5 in\", \"20 in\"], [\"50 in\", \"11.5 in\", \"20 in\"]]\n";
    let model = design(&params::read(&format!("{text}\n{cables}")).unwrap());
    let found = takeoff(&model).bores;
    assert_eq!(found.len(), 1);
    assert!(found[0].part.starts_with("left side/stud/"));
    assert_eq!(found[0].service, "cables/cable/1");
    assert_near(found[0].up.to_inches(), 18.5, 1e-9);
    assert_near(found[0].from_edge.to_inches(), 0.75, 1e-9);
    assert_near(found[0].diameter.to_inches(), 0.625, 1e-9);
}
