//! Drawings: words apart from one another and on the sheet, chains that close, true scales, the same bytes.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use chasewright::check::{Quantity, check};
use chasewright::cli::{BuildForm, WORK};
use chasewright::design::{Group, design};
use chasewright::drawing::{self, Chain, Drawing, Ink, Paper, Pen, Rect, Sheet, Side, digest};
use chasewright::export::{drawings_pdf, sheet_svg};
use chasewright::geom::Shape;
use chasewright::params::{PARAMETERS, Params, read};
use chasewright::takeoff::{marks, takeoff};
use chasewright::units::{Length, Rounding, Slope, TapeUnit};
use glam::{DVec2, DVec3};
use serde_json::{Value, json};

use crate::generate::random_params;
use crate::outside::{folder, parameter_files};
use crate::scenarios::demo;
use crate::support::assert_near;

const DEMOS: [&str; 4] = [
    "reading-room",
    "stepped-face",
    "rises-away-from-wall",
    "flat-with-cabinets",
];

fn sheets(params: &Params, paper: Paper) -> Vec<Sheet> {
    let design = design(params);
    drawing::sheets(&design, &takeoff(&design), paper)
}

/// Every sheet of the demos on every paper, and of random designs on the usual one.
static ALL_SHEETS: LazyLock<Vec<(String, Sheet)>> = LazyLock::new(all_sheets);

fn all_sheets() -> Vec<(String, Sheet)> {
    let mut found = Vec::new();
    for (name, params) in parameter_files("params") {
        for (word, paper) in Paper::ALL {
            let named = |sheet: Sheet| (format!("{name} on {word}: {}", sheet.title), sheet);
            found.extend(sheets(&params, paper).into_iter().map(named));
        }
    }
    for seed in 0..16 {
        let params = random_params(seed);
        let paper = Paper::usual(params.project.unit);
        let named = |sheet: Sheet| (format!("random {seed}: {}", sheet.title), sheet);
        found.extend(sheets(&params, paper).into_iter().map(named));
    }
    assert!(found.len() > 1000, "{} sheets", found.len());
    found
}

#[test]
fn words_lie_on_the_sheet_and_on_no_other_words_or_lines() {
    for (name, sheet) in ALL_SHEETS.iter() {
        let texts: Vec<(Rect, &str)> = sheet
            .texts()
            .map(|it| (it.bounds(), it.text.as_str()))
            .collect();
        assert!(texts.len() > 8, "{name}: too few words");
        let paper = Rect {
            low: DVec2::splat(5.0),
            high: sheet.paper.size() - 5.0,
        };
        for text in sheet.texts() {
            // ISO 3098-1:2015: capitals of 2.5 mm; the face's are 0.729 of its size
            assert!(
                text.size * 0.729 > 2.499,
                "{name}: {:?} is too small",
                text.text
            );
        }
        for (place, (bounds, text)) in texts.iter().enumerate() {
            assert!(paper.contains(bounds), "{name}: {text:?} leaves the sheet");
            for (other, second) in &texts[..place] {
                assert!(!bounds.overlaps(other), "{name}: {text:?} on {second:?}");
            }
            for ink in &sheet.ink {
                if let Ink::Line { from, to, pen } = ink {
                    let crossed = bounds.common(*from, *to).is_some();
                    assert!(!crossed, "{name}: a line of {pen:?} through {text:?}");
                }
            }
        }
        for ink in &sheet.ink {
            if let Ink::Line { from, to, .. } = ink {
                let around = Rect::around([*from, *to]);
                assert!(paper.contains(&around), "{name}: a line leaves the sheet");
            }
        }
    }
}

#[test]
fn chains_close_and_say_what_they_measure() {
    for (name, sheet) in ALL_SHEETS.iter() {
        let unit = if Paper::usual(TapeUnit::Inch) == Paper::Tabloid
            && sheet.scale.name.contains("in =")
        {
            TapeUnit::Inch
        } else {
            TapeUnit::Millimeter
        };
        for chain in &sheet.chains {
            let lengths = chain.lengths();
            let (Some(first), Some(last)) = (chain.stops.first(), chain.stops.last()) else {
                continue;
            };
            let end = if chain.running {
                lengths.last().copied().unwrap_or(Length::ZERO)
            } else {
                lengths.iter().copied().sum()
            };
            assert_near(end.to_mm(), (*last - *first).to_mm(), 1e-9);
            for (length, text) in lengths.into_iter().zip(chain.numbers(unit)) {
                assert!(length.is_positive(), "{name}: a dimension of nothing");
                // ISO 129-1: the unit is left out where the title block says it
                let exact = length.tape(unit, Rounding::Nearest);
                if chain.marks.is_none() {
                    assert_eq!(text, exact.trim_end_matches(" mm"), "{name}");
                }
                assert!(
                    sheet.texts().any(|it| it.text == text),
                    "{name}: {text} is not said"
                );
            }
            // each end of a dimension has its stroke, at true scale
            for stop in &chain.stops {
                let place = stop.to_mm() / sheet.scale.ratio;
                let marked = sheet.ink.iter().any(|ink| match ink {
                    Ink::Line {
                        from,
                        to,
                        pen: Pen::Edge,
                    } => {
                        let middle = (*from + *to) / 2.0 - sheet.origin;
                        (middle.x - place).abs() < 1e-6 || (middle.y + place).abs() < 1e-6
                    }
                    _ => false,
                });
                assert!(marked, "{name}: no stroke at {stop:?}");
            }
        }
    }
}

/// Wide lines are twice as wide as narrow ones, all of them widths of ISO 128-2:2020; what is there already is grey and as
/// thin as dimensions, in both files.
#[test]
fn lines_are_wide_narrow_or_thin() {
    let row = [0.13, 0.25, 0.5];
    for pen in Pen::ALL {
        let known = row.iter().any(|it| (it - pen.width()).abs() < 1e-12);
        assert!(known, "{pen:?}: {}", pen.width());
        assert_eq!(pen.lightness() > 0, pen == Pen::Context, "{pen:?}");
    }
    assert_near(Pen::Cut.width(), 2.0 * Pen::Edge.width(), 1e-12);
    assert_near(Pen::Context.width(), Pen::Thin.width(), 1e-12);
    let sheets = sheets(&demo("reading-room"), Paper::Tabloid);
    let plan = sheets.iter().find(|it| it.shows == Drawing::Plan).unwrap();
    let svg = sheet_svg(plan);
    let read = roxmltree::Document::parse(&svg).unwrap();
    let mut grey = 0;
    for path in read.descendants().filter(|it| it.has_attribute("stroke")) {
        let wide: f64 = path.attribute("stroke-width").unwrap().parse().unwrap();
        assert!(row.iter().any(|it| (it - wide).abs() < 1e-12), "{wide}");
        if path.attribute("stroke") != Some("black") {
            assert_near(wide, 0.13, 1e-12);
            grey += 1;
        }
    }
    assert_eq!(grey, 1);
}

/// The packet's drawings lie on the paper that is asked for, and else on the usual one.
#[test]
fn a_packet_is_drawn_on_the_paper_asked_for() {
    let params = demo("room-divider");
    // coreutils: printf '<svg xmlns="http://www.w3.org/2000/svg" width="279.4mm" hei' | base64, without its end
    let begun = "PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSI";
    for (paper, wide) in [
        (None, "0MzEuOG1tIiBoZWln"),
        (Some(Paper::Letter), "yNzkuNG1tIiBoZWln"),
    ] {
        let form = BuildForm {
            paper,
            ..BuildForm::default()
        };
        let packet = (WORK.packet)(&params, form, &mut |_| true).unwrap();
        let page = String::from_utf8(packet.files[0].bytes.clone()).unwrap();
        let found = page.contains(&format!("svg+xml;base64,{begun}{wide}"));
        assert!(found, "{paper:?}");
    }
}

/// A print says which parameters it was drawn from: comments, blank lines and the order of tables do not change that; a
/// value does.
#[test]
fn every_sheet_says_which_parameters_it_is_of() {
    let path = format!("{}/params/reading-room.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let own = digest(&read(&text).unwrap());
    let at = text.find("\n[room]").unwrap();
    let end = text[at + 1..].find("\n[").map(|it| it + at + 1).unwrap();
    let moved = format!(
        "# a remark\n{}{}\n{}",
        &text[..at],
        &text[end..],
        &text[at..end]
    );
    assert_ne!(moved, text);
    assert_eq!(digest(&read(&moved).unwrap()), own);
    let mut params = read(&text).unwrap();
    for sheet in sheets(&params, Paper::Tabloid) {
        let words = format!("Parameters {own}");
        assert!(sheet.texts().any(|it| it.text == words), "{}", sheet.title);
    }
    params.room.width += Length::mm(1.0);
    assert_ne!(digest(&params), own);
    let mut params = read(&text).unwrap();
    params.untold.push("room.width");
    assert_ne!(digest(&params), own);
}

/// Sizes of paper: ISO 216:2007 (A4, A3), ANSI/ASME Y14.1 (A, B and architectural C).
#[test]
fn papers_have_their_published_sizes() {
    let sizes = [
        (Paper::A4, 297.0, 210.0),
        (Paper::A3, 420.0, 297.0),
        (Paper::Letter, 11.0 * 25.4, 8.5 * 25.4),
        (Paper::Tabloid, 17.0 * 25.4, 11.0 * 25.4),
        (Paper::ArchC, 24.0 * 25.4, 18.0 * 25.4),
    ];
    for (paper, width, height) in sizes {
        assert_near(paper.size().x, width, 1e-9);
        assert_near(paper.size().y, height, 1e-9);
    }
}

/// A scale of so many inches to the foot is 12 over that many.
#[test]
fn scales_are_what_they_are_called() {
    let scales = drawing::Scale::all(TapeUnit::Inch);
    for scale in scales {
        let inches = scale.name.split(" in").next().unwrap();
        let inches: f64 = inches
            .split('-')
            .map(|part| match part.split_once('/') {
                Some((a, b)) => a.parse::<f64>().unwrap() / b.parse::<f64>().unwrap(),
                None => part.parse().unwrap(),
            })
            .sum();
        assert_near(scale.ratio, 12.0 / inches, 1e-9);
    }
    for scale in drawing::Scale::all(TapeUnit::Millimeter) {
        let ratio: f64 = scale.name.strip_prefix("1:").unwrap().parse().unwrap();
        assert_near(scale.ratio, ratio, 1e-9);
    }
}

/// The views that issue to an inspector (common practice, no source).
#[test]
fn every_demo_has_its_views_and_they_stay_on_the_paper_asked_for() {
    let wanted = [
        "Plan",
        "Finished front",
        "Section",
        "Side",
        "Framing: left side",
        "Framing: right side",
        "Wall pass",
        "Outside",
        "Framing, platform",
        "Exploded view",
        "Plumb lines",
        "Top plate",
        "Sole plate",
        "Cutting plan",
        "Sheets: ",
        "Story pole",
    ];
    for name in DEMOS {
        for paper in [Paper::Tabloid, Paper::ArchC, Paper::A3] {
            let sheets = sheets(&demo(name), paper);
            for title in wanted {
                let found = sheets.iter().find(|it| it.title.starts_with(title));
                let sheet = found.unwrap_or_else(|| panic!("{name}: no {title}"));
                assert_eq!(sheet.paper, paper, "{name}: {title}");
            }
        }
    }
}

/// The titles of a demo's sheets.
fn titles(name: &str) -> Vec<String> {
    let sheets = sheets(&demo(name), Paper::Tabloid).into_iter();
    sheets.map(|it| it.title).collect()
}

/// A view shows only what is there: no hole in a wall that the vent does not go through, and no side that stands against a
/// wall of the room.
#[test]
fn views_of_other_placements_show_what_is_there() {
    let has = |titles: &[String], start: &str| titles.iter().any(|it| it.starts_with(start));
    let roof = titles("roof-pass");
    assert!(has(&roof, "Roof pass") && has(&roof, "Plumb lines on the existing"));
    assert!(!has(&roof, "Wall pass") && !has(&roof, "Outside"));
    let divider = titles("room-divider");
    assert!(has(&divider, "Side, seen from the right"));
    assert!(!has(&divider, "Plumb lines") && !has(&divider, "Wall pass"));
    let corner = titles("across-the-corner");
    assert!(has(&corner, "Wall pass") && has(&corner, "Outside"));
    assert!(!has(&corner, "Side"));
    assert!(!has(&titles("reading-room"), "Roof pass"));
}

/// Square in the left corner, 84 in of framing: the finish ends at 84 + 1/2 + 3/8 on the right and at the wall on the
/// left. Flush, 60 in from joint to joint, it has no sides.
#[test]
fn a_front_is_as_wide_as_its_finish() {
    for (name, low, high) in [
        ("square-in-a-corner", 0.0, 84.875),
        ("flush-in-a-wall", 40.0, 100.0),
        ("reading-room", 49.125, 134.875),
    ] {
        let params = demo(name);
        let sheets = sheets(&params, Paper::Tabloid);
        let front = sheets.iter().find(|it| it.title == "Finished front");
        let chains = &front.expect("a front").chains;
        let below = chains.iter().filter(|it| it.side == Side::Below);
        let wide = below.map(|it| it.stops.iter().copied());
        let mut ends = wide.map(|it| {
            it.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), stop| {
                (a.min(stop.to_mm()), b.max(stop.to_mm()))
            })
        });
        let (a, b) = ends.next_back().expect("a chain");
        assert_near(a / 25.4, low, 1e-6);
        assert_near(b / 25.4, high, 1e-6);
    }
}

/// The hole of a vent that goes out through a side wall is drawn in that wall: its pipe's center lies within the hole, and
/// studs of that wall stand beside it.
#[test]
fn a_pass_is_drawn_in_its_own_wall() {
    for (name, params) in parameter_files("params") {
        let design = design(&params);
        let pass = &design.layout.pass;
        let Some(wall) = pass.wall else { continue };
        let taken = takeoff(&design);
        let lines = taken.plumb_lines.iter().filter(|it| it.wall == wall);
        let lines: Vec<f64> = lines.map(|it| it.right.to_mm()).collect();
        for side in [pass.sides.low, pass.sides.high] {
            let found = lines.iter().any(|it| (it - side.to_mm()).abs() < 1e-9);
            assert!(found, "{name}: no plumb line at {side:?}");
        }
        let sheets = drawing::sheets(&design, &taken, Paper::Tabloid);
        let sheet = sheets.iter().find(|it| it.shows == Drawing::WallPass);
        let sheet = sheet.unwrap_or_else(|| panic!("{name}: no wall pass"));
        let across = sheet.chains.iter().find(|it| it.side == Side::Below);
        let stops = &across.expect("a chain under it").stops;
        assert_eq!(stops.len(), 5, "{name}: bay, hole and center in turn");
        let widest = *stops.last().unwrap() - stops[0];
        let stud = Length::inches(1.5);
        assert!(
            widest < Length::inches(16.0) - stud + Length::inches(16.0),
            "{name}: {widest:?}"
        );
    }
}

#[test]
fn every_mark_of_a_framed_wall_is_on_its_sheet() {
    for name in DEMOS {
        let design = design(&demo(name));
        let marks = marks(&design);
        let sheets = drawing::sheets(&design, &takeoff(&design), Paper::Tabloid);
        let mut seen = 0;
        for (part, mark) in &marks {
            let wall = part.split('/').next().unwrap();
            let title = format!("Framing: {wall}, ");
            if let Some(sheet) = sheets.iter().find(|it| it.title.starts_with(&title)) {
                assert!(
                    sheet.texts().any(|it| {
                        let counted = it.text.split_once(" × ");
                        counted.map_or(it.text.as_str(), |(_, mark)| mark) == mark
                    }),
                    "{name}: {mark} of {part}"
                );
                seen += 1;
            }
        }
        assert!(seen > 30, "{name}: {seen} marks");
    }
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    let params = demo("reading-room");
    let [first, second] = [(), ()].map(|()| sheets(&params, Paper::Tabloid));
    for (a, b) in first.iter().zip(&second) {
        assert_eq!(sheet_svg(a), sheet_svg(b));
    }
    let [a, b] = [&first, &second].map(|it| drawings_pdf(it, "Reading room").unwrap());
    assert_eq!(a, b);
    assert!(a.starts_with(b"%PDF-"));
}

/// The namespace of SVG (SVG 2, 5.1.1: from memory).
const SVG: &str = "http://www.w3.org/2000/svg";

#[test]
fn names_are_escaped() {
    let mut params = demo("reading-room");
    params.project.name = "<script>alert('a & b')</script>\u{1}\"".to_owned();
    params.appliance.top_clearance.page = "<b>11</b>".to_owned();
    for sheet in sheets(&params, Paper::Tabloid) {
        let svg = sheet_svg(&sheet);
        assert!(!svg.contains("<script") && !svg.contains("<b>"));
        assert!(svg.contains("&lt;script&gt;"));
        // an outside reader of XML takes it, and finds what was written
        let read = roxmltree::Document::parse(&svg).unwrap();
        let texts: Vec<&str> = read.descendants().filter_map(|it| it.text()).collect();
        assert!(texts.iter().any(|it| it.contains("alert('a & b')")));
    }
}

/// A browser takes kerning from a rule of CSS, not from an attribute, and draws one space for two unless it is told.
#[test]
fn letters_of_the_svg_stand_as_they_were_measured() {
    for sheet in sheets(&demo("reading-room"), Paper::Tabloid) {
        let svg = sheet_svg(&sheet);
        let read = roxmltree::Document::parse(&svg).unwrap();
        let style = read
            .descendants()
            .find(|it| it.has_tag_name((SVG, "style")));
        let rule = style.and_then(|it| it.text()).unwrap();
        assert_eq!(rule, "text{font-kerning:none;white-space:pre}");
        let written = read
            .descendants()
            .filter(|it| it.has_tag_name((SVG, "text")));
        let written: Vec<&str> = written.filter_map(|it| it.text()).collect();
        let meant: Vec<&str> = sheet.texts().map(|it| it.text.as_str()).collect();
        assert_eq!(written, meant);
    }
}

/// Letters that the face has not, that turn a line's direction, or that have no shape.
#[test]
fn any_name_can_be_printed() {
    let mut params = demo("reading-room");
    for name in [
        "",
        " ",
        "\u{1}",
        "\u{202e}room\u{2066}\u{7}",
        "煖炉",
        "e\u{301}\u{10ffff}\u{fffe}",
    ] {
        params.project.name = name.to_owned();
        let sheets = sheets(&params, Paper::Letter);
        let pdf = drawings_pdf(&sheets[..1], name).unwrap();
        assert!(pdf.starts_with(b"%PDF-"), "{name:?}");
    }
}

/// Bodies of a few groups, seen along the axes and off them, for the kernel in `tests/outside/hidden.py`.
#[test]
fn lines_are_written_for_the_kernel_that_hides_them_again() {
    let turned = |yaw: f64, pitch: f64| {
        let ((a, b), (c, d)) = (yaw.sin_cos(), pitch.sin_cos());
        let right = DVec3::new(b, a, 0.0);
        (right, DVec3::new(-a * c, b * c, d))
    };
    let views = [
        ("front", (DVec3::X, DVec3::Z)),
        ("left", (DVec3::NEG_Y, DVec3::Z)),
        ("above", (DVec3::X, DVec3::Y)),
        ("isometric", turned(-std::f64::consts::FRAC_PI_4, 0.6155)),
        ("off the axes", turned(0.31, 0.47)),
    ];
    for name in DEMOS {
        let design = design(&demo(name));
        let flat = design.parts.iter().filter(|part| {
            matches!(part.group, Group::Framing | Group::Platform)
                && matches!(part.body.shape, Shape::Swept(_))
        });
        let flat: Vec<_> = flat.collect();
        let bodies: Vec<_> = flat.iter().map(|part| &part.body).collect();
        let ids: Vec<&str> = flat.iter().map(|part| part.id.as_str()).collect();
        let views: Vec<Value> = views
            .iter()
            .map(|(view, (right, up))| {
                let lines = drawing::visible_lines(&bodies, *right, *up);
                assert!(lines.len() > 5, "{name}, {view}: {} lines", lines.len());
                let lines: Vec<_> = lines
                    .iter()
                    .map(|[a, b]| [a.to_array(), b.to_array()])
                    .collect();
                json!({
                    "name": view,
                    "right": right.to_array(),
                    "back": right.cross(*up).to_array(),
                    "bodies": ids,
                    "lines": lines,
                })
            })
            .collect();
        let path = folder("outside", name).join("hidden.json");
        std::fs::write(path, json!({ "views": views }).to_string()).unwrap();
    }
}

/// What `tests/outside/drawings.py` looks for in the PDF.
#[test]
fn sheets_are_written_for_the_outside_reader() {
    for (name, params) in [
        parameter_files("params"),
        parameter_files("tests/params/good"),
    ]
    .concat()
    {
        let paper = Paper::usual(params.project.unit);
        let sheets = sheets(&params, paper);
        let entries: Vec<Value> = sheets.iter().map(entry).collect();
        let path = folder("outside", &name).join("drawings.json");
        std::fs::write(path, json!(entries).to_string()).unwrap();
    }
}

fn entry(sheet: &Sheet) -> Value {
    let stops = sheet.chains.iter().filter(|it| it.stops.len() > 1);
    let stops = stops.flat_map(|chain| {
        let level = matches!(chain.side, Side::Below | Side::Above);
        chain.stops.iter().map(move |stop| {
            let at = stop.to_mm() / sheet.scale.ratio;
            if level {
                json!([0, sheet.origin.x + at])
            } else {
                json!([1, sheet.origin.y - at])
            }
        })
    });
    let bars = if sheet.shows == Drawing::Template {
        vec![6.0 * 25.4, 100.0]
    } else {
        Vec::new()
    };
    json!({
        "title": sheet.title,
        "size": sheet.paper.size().to_array(),
        "texts": sheet.texts().map(|it| it.text.as_str()).collect::<Vec<_>>(),
        "stops": stops.collect::<Vec<_>>(),
        "bars": bars,
    })
}

/// Every number with a unit of length in a text.
fn lengths_in(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut last = "";
    let mut feet = String::new();
    for word in text.split_whitespace() {
        let word = word.trim_matches(|it: char| ",;:.()".contains(it));
        let number = |it: &str| it.starts_with(|first: char| first.is_ascii_digit());
        if word.ends_with('"') && number(word) {
            found.push(format!("{feet}{word}"));
        } else if word == "mm" && number(last) {
            found.push(format!("{last} mm"));
        }
        // 12'-0 1/2" has a gap in it
        feet = if word.contains('\'') && !word.ends_with('"') {
            format!("{word} ")
        } else {
            String::new()
        };
        last = word;
    }
    found
}

#[test]
fn lengths_are_found_in_texts() {
    let text = "clearance: 3\" above, 1-1/4\" below; 12'-0 1/2\" and 15'-4\", 450 mm, p. 25";
    let expected = ["3\"", "1-1/4\"", "12'-0 1/2\"", "15'-4\"", "450 mm"];
    assert_eq!(lengths_in(text), expected);
}

/// Everything that a takeoff, the checks and the parameter file say, as it is written on a tape.
fn reported(params: &Params) -> BTreeSet<String> {
    let unit = params.project.unit;
    let design = design(params);
    let taken = takeoff(&design);
    let mut lengths: Vec<Length> = Vec::new();
    lengths.extend(taken.story_pole.iter().map(|it| it.height));
    lengths.extend(taken.plumb_lines.iter().map(|it| it.right));
    for plate in &taken.plates {
        lengths.push(plate.length);
        lengths.extend(plate.marks.iter().flat_map(|it| [it.edge, it.level]));
    }
    for row in &taken.cut_list {
        lengths.extend([
            row.long_point,
            row.short_point,
            row.section.0,
            row.section.1,
        ]);
    }
    for plan in &taken.boards {
        lengths.extend(plan.boards.iter().map(|it| it.sold.length));
    }
    for plan in &taken.sheets {
        let sheet = &plan.sheet;
        lengths.extend([sheet.thickness, sheet.width, sheet.length]);
        for piece in &plan.pieces {
            let size = piece.high - piece.low;
            lengths.extend([Length::mm(size.x), Length::mm(size.y)]);
        }
    }
    for finding in check(&design) {
        if let Some(it) = finding.numbers.filter(|it| it.quantity == Quantity::Length) {
            lengths.extend([it.measured, it.required, it.margin].map(Length::mm));
        }
    }
    let mut found: BTreeSet<String> = lengths
        .iter()
        .flat_map(|it| {
            [Rounding::Nearest, Rounding::Down, Rounding::Up].map(|way| it.tape(unit, way))
        })
        .collect();
    for parameter in PARAMETERS {
        if let Some(value) = params.get(parameter.key) {
            found.extend(lengths_in(&value.text(unit)));
        }
    }
    found
}

/// Every number in words (not in a chain) is one that takeoff, checks or the parameter file say, or a difference of
/// two places in the model, such as the depth of a finished recess.
#[test]
fn every_number_in_words_is_reported() {
    for name in DEMOS {
        let params = demo(name);
        let unit = params.project.unit;
        let known = reported(&params);
        let places = places(&params);
        let mut unknown = BTreeSet::new();
        for sheet in sheets(&params, Paper::Tabloid) {
            let chained: BTreeSet<String> = sheet
                .chains
                .iter()
                .flat_map(Chain::lengths)
                .map(|it| it.tape(unit, Rounding::Nearest))
                .collect();
            for text in sheet.texts() {
                // the ends of the story pole's tiles are whole steps of the tape, and a bar proves the print
                let end = sheet.shows == Drawing::Pole && !text.turned
                    || text.text == "100 mm, measure it";
                for length in lengths_in(&text.text) {
                    let between = || {
                        places.iter().any(|a| {
                            places
                                .iter()
                                .any(|b| Length::mm(b - a).tape(unit, Rounding::Nearest) == length)
                        })
                    };
                    if !end && !known.contains(&length) && !chained.contains(&length) && !between()
                    {
                        unknown.insert(format!("{}: {}", sheet.title, text.text));
                    }
                }
            }
        }
        assert!(unknown.is_empty(), "{name}: {unknown:#?}");
    }
}

/// Distances from the left corner, from the wall and from the datum at which something in the model begins, ends or
/// has its middle, in millimetres.
fn places(params: &Params) -> Vec<f64> {
    let design = design(params);
    let bodies = design.parts.iter().map(|it| &it.body);
    let bodies = bodies.chain(design.clearances.iter().map(|it| &it.body));
    let mut found: Vec<f64> = vec![0.0];
    for body in bodies {
        let bounds = body.bounds;
        for corner in [bounds.low, bounds.high, bounds.center()] {
            found.extend(corner.to_array());
        }
        for piece in &body.pieces {
            for corner in &piece.vertices {
                found.extend(corner.to_array());
            }
        }
    }
    for place in &mut found {
        *place = (*place * 1e6).round() / 1e6;
    }
    found.sort_by(f64::total_cmp);
    found.dedup();
    found
}

/// Every stop of every chain lies on something of the model: a face, a corner or a middle; or on the ceiling or the
/// vent's center line, which are computed here a second time from the parameter file.
#[test]
fn every_dimension_runs_between_places_of_the_model() {
    for name in DEMOS {
        let params = demo(name);
        let layout = design(&params).layout;
        let mut places = places(&params);
        let (ceiling, vent) = (&params.ceiling, &params.vent);
        let mut add = |length: Length| places.push(length.to_mm());
        let rise = |slope: Option<Slope>, way| slope.map_or(Length::ZERO, |it| it.rise(way));
        for out in [
            Length::ZERO,
            layout.faces.upper_finished,
            layout.faces.lower_finished,
        ] {
            for right in [
                0.0,
                params.site().chase.low.to_mm(),
                layout.unit_center.to_mm(),
                params.room.width.to_mm(),
            ] {
                for skin in [Length::ZERO, params.skins.board + params.skins.side_finish] {
                    let right = Length::mm(right) - skin;
                    add(ceiling.height.unwrap_or_default()
                        + rise(ceiling.rise_out, out)
                        + rise(ceiling.rise_right, right));
                }
            }
        }
        for behind in [Length::ZERO, params.wall.thickness()] {
            add(layout.path.elbow_height() + vent.slope.value.rise(layout.path.pipe_out() + behind));
        }
        add(params.appliance.facing_zone_side.value);
        let mut strange = BTreeSet::new();
        for sheet in sheets(&params, Paper::Tabloid) {
            for stop in sheet.chains.iter().flat_map(|it| &it.stops) {
                let stop = stop.to_mm();
                let near = places
                    .iter()
                    .any(|it| (it - stop).abs() < 1e-5 || (it + stop).abs() < 1e-5);
                // joints of board are the takeoff's places, not the model's
                let own = ["Sheets", "Board: "]
                    .iter()
                    .any(|it| sheet.title.starts_with(it));
                if !near && !own {
                    strange.insert(format!("{}: {stop}", sheet.title));
                }
            }
        }
        assert!(strange.is_empty(), "{name}: {strange:#?}");
    }
}
