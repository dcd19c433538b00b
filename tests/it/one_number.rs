//! One number is one number: a stick's length and a hole's size read the same wherever they are written, and a hole that is
//! cut is rounded outward.

use std::collections::BTreeMap;

use chasewright::check::check;
use chasewright::cli::{self, Exit};
use chasewright::design::{Design, design};
use chasewright::drawing::{self, Paper, Sheet, Side};
use chasewright::export::{Products, takeoff_json};
use chasewright::takeoff::{SheetPiece, Takeoff, takeoff};
use chasewright::units::{Length, Rounding, TapeUnit};
use glam::DVec2;
use serde_json::Value;

use crate::packet::{page_of, text_of};
use crate::support::{demos, file, run_with};
use crate::takeoff::records;

/// Marks with a length of the tape behind them: at most `most` spaces lie between.
fn lengths_of_marks(text: &str, most: usize) -> Vec<(&str, String)> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices('S') {
        let before = text[..at].chars().next_back();
        let word = text[at..].split_whitespace().next().unwrap_or_default();
        if before.is_some_and(char::is_alphanumeric) || !is_mark(word) {
            continue;
        }
        let rest = &text[at + word.len()..];
        let gap = rest.len() - rest.trim_start_matches(' ').len();
        if (1..=most).contains(&gap) {
            found.extend(length_at(&rest[gap..]).map(|it| (word, it)));
        }
    }
    found
}

fn is_mark(word: &str) -> bool {
    let number = word
        .strip_prefix('S')
        .map(|it| it.trim_end_matches(['L', 'R']));
    number.is_some_and(|it| !it.is_empty() && it.bytes().all(|it| it.is_ascii_digit()))
}

/// The length that a text begins with.
fn length_at(text: &str) -> Option<String> {
    let end = text.find(|it: char| !it.is_ascii_digit() && !"/-' ".contains(it))?;
    let number = &text[..end];
    if !number.starts_with(|it: char| it.is_ascii_digit()) {
        return None;
    }
    // words of another column stand farther off
    if number.contains("  ") {
        None
    } else if text[end..].starts_with('"') {
        Some(format!("{number}\""))
    } else if text[end..].starts_with("mm") {
        Some(format!("{number}mm"))
    } else {
        None
    }
}

#[test]
fn marks_are_found_with_their_lengths() {
    let text = "2 x S1 top, S2 106-7/8\", S3L 12'-0 1/2\"  S4  3-1/2\"; S5 2 2x4, S6 1204 mm";
    let expected = [
        ("S2", "106-7/8\""),
        ("S3L", "12'-0 1/2\""),
        ("S6", "1204 mm"),
    ];
    assert_eq!(
        lengths_of_marks(text, 1),
        expected.map(|(mark, length)| (mark, length.to_owned()))
    );
}

/// Long points by mark, as the cut list writes them.
fn cut_list(name: &str, bytes: &[u8]) -> BTreeMap<String, String> {
    let rows = records(std::str::from_utf8(bytes).unwrap());
    let head = &rows[0];
    let column = |title: &str| head.iter().position(|it| it == title).expect(name);
    let (mark, long) = (column("mark"), column("long point"));
    let rows = rows[1..].iter();
    rows.map(|row| (row[mark].clone(), row[long].clone()))
        .collect()
}

#[test]
fn a_stick_has_one_length_everywhere() {
    for (name, params) in demos() {
        let design = design(&params);
        let taken = takeoff(&design);
        let list = file("cut-list.csv", &Products::of(&design));
        let list = cut_list(&name, &list);
        let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
        let mut same = |place: &'static str, mark: &str, length: &str| {
            assert_eq!(
                list.get(mark).map(String::as_str),
                Some(length),
                "{name}, {place}: {mark}"
            );
            *seen.entry(place).or_default() += 1;
        };
        let json: Value = serde_json::from_str(&takeoff_json(&design, &taken).unwrap()).unwrap();
        let text = |it: &Value| it.as_str().unwrap().to_owned();
        for row in json["cut_list"].as_array().unwrap() {
            same(
                "json, cut list",
                &text(&row["mark"]),
                &text(&row["long_point"]),
            );
        }
        for board in json["boards"].as_array().unwrap() {
            let boards = board["boards"].as_array().unwrap().iter();
            for piece in boards.flat_map(|it| it["pieces"].as_array().unwrap()) {
                same(
                    "json, cutting plan",
                    &text(&piece["mark"]),
                    &text(&piece["length"]),
                );
            }
        }
        for sheet in drawing::sheets(&design, &taken, Paper::Tabloid) {
            let texts: Vec<&str> = sheet.texts().map(|it| it.text.as_str()).collect();
            for (mark, length) in texts.iter().flat_map(|it| lengths_of_marks(it, 2)) {
                same("sheet of the cutting plan", mark, &length);
            }
        }
        let (page, files) = page_of(&design, &[], &taken, &[]);
        for (mark, length) in lengths_of_marks(&text_of(&page), 1) {
            same("packet", mark, &length);
        }
        for extras in extras(&files["model.glb"]) {
            if let (Some(mark), Some(length)) = (extras.get("mark"), extras.get("cut length")) {
                same("model", &text(mark), &text(length));
            }
        }
        let ended = run_with(
            &["takeoff", &format!("params/{name}.toml")],
            &cli::WORK,
            false,
        );
        assert_eq!(ended.exit, Exit::Clean, "{name}");
        for (mark, length) in lengths_of_marks(&ended.out, 1) {
            same("terminal, cutting plan", mark, &length);
        }
        for line in ended.out.lines().filter(|it| it.contains("[ ]")) {
            let words: Vec<&str> = line.split("  ").map(str::trim).collect();
            let mark = words.iter().find(|it| is_mark(it)).unwrap();
            let length = words.iter().find_map(|it| length_at(it)).unwrap();
            same("terminal, cut list", mark, &length);
        }
        let least = list.len() / 2;
        assert_eq!(seen.len(), 7, "{name}: {seen:?}");
        assert!(
            seen.values().all(|count| *count >= least),
            "{name}: {seen:?}"
        );
    }
}

/// The nodes of a model.
pub(crate) fn nodes(glb: &[u8]) -> Vec<Value> {
    // glTF 2.0, 4.4: 12 bytes of header, then the first chunk's length and kind
    let length = u32::from_le_bytes(glb[12..16].try_into().unwrap());
    let json = &glb[20..20 + usize::try_from(length).unwrap()];
    let document: Value = serde_json::from_slice(json).unwrap();
    document["nodes"].as_array().unwrap().clone()
}

/// What a model's nodes say beside their shapes.
fn extras(glb: &[u8]) -> Vec<Value> {
    let nodes = nodes(glb).into_iter();
    nodes.map(|it| it["extras"].clone()).collect()
}

/// What a tape's text says, in millimetres; on a metric drawing the unit stands in the title block.
fn millimetres(text: &str, unit: TapeUnit) -> f64 {
    let length = Length::parse(text, unit).unwrap_or_else(|fault| panic!("{text}: {fault}"));
    length.to_mm()
}

/// The holes of the layout marks: what is written and the exact place, by what is marked.
fn hole_marks(design: &Design, taken: &Takeoff) -> BTreeMap<String, (f64, f64)> {
    let products = Products {
        takeoff: taken.clone().into(),
        ..Products::of(design)
    };
    let marks = file("layout-marks.csv", &products);
    let rows = records(std::str::from_utf8(&marks).unwrap());
    let rows = rows
        .into_iter()
        .filter(|row| row.len() > 5 && row[5].starts_with("hole"));
    let unit = design.params.project.unit;
    rows.map(|row| {
        let exact: f64 = row[3].parse().unwrap();
        (row[5].clone(), (millimetres(&row[2], unit), exact))
    })
    .collect()
}

/// Numbers of a sheet's chains at a side, in millimetres.
fn numbers(sheet: &Sheet, side: Side, unit: TapeUnit) -> Vec<Vec<f64>> {
    let chains = sheet.chains.iter().filter(|it| it.side == side);
    let numbers = chains.map(|it| it.numbers(unit));
    numbers
        .map(|it| it.iter().map(|text| millimetres(text, unit)).collect())
        .collect()
}

fn starting<'a>(sheets: &'a [Sheet], title: &str) -> Vec<&'a Sheet> {
    sheets
        .iter()
        .filter(|it| it.title.starts_with(title))
        .collect()
}

/// Whether a list of chains has these numbers side by side somewhere.
fn has_run(chains: &[Vec<f64>], run: &[f64]) -> bool {
    let same = |window: &[f64]| window.iter().zip(run).all(|(a, b)| (a - b).abs() < 1e-6);
    chains.iter().any(|it| it.windows(run.len()).any(same))
}

/// Whether some of these numbers side by side, two or more, add up to a size.
fn has_sum(numbers: &[f64], size: f64) -> bool {
    let runs = (2..=numbers.len()).flat_map(|count| numbers.windows(count));
    runs.map(|it| it.iter().sum::<f64>())
        .any(|sum| (sum - size).abs() < 1e-6)
}

/// A hole's edges go outward to the tape's marks, and its size is what lies between them, wherever it is written.
#[test]
fn a_hole_through_a_wall_is_rounded_outward() {
    let mut off_the_marks = 0;
    for (name, params) in demos() {
        let design = design(&params);
        let taken = takeoff(&design);
        let unit = params.project.unit;
        let marks = hole_marks(&design, &taken);
        if marks.is_empty() {
            continue;
        }
        let one = |end: &str| {
            let found = marks.iter().find(|it| it.0.ends_with(end));
            *found.unwrap_or_else(|| panic!("{name}: {end}")).1
        };
        let [left, right, bottom, top] = [", left", ", right", ", bottom", ", top"].map(one);
        // the exact places are written to a thousandth of a millimetre
        for (low, high) in [(left, right), (bottom, top)] {
            assert!(
                low.0 <= low.1 + 1e-3 && low.0 > low.1 - 2.0,
                "{name}: {low:?}"
            );
            assert!(
                high.0 >= high.1 - 1e-3 && high.0 < high.1 + 2.0,
                "{name}: {high:?}"
            );
            off_the_marks += usize::from(low.1 - low.0 + high.0 - high.1 > 0.01);
        }
        let (wide, tall) = (right.0 - left.0, top.0 - bottom.0);
        let sheets = drawing::sheets(&design, &taken, Paper::Tabloid);
        let pass = starting(&sheets, "Wall pass")[0];
        for (side, size) in [(Side::Below, wide), (Side::Left, tall)] {
            let chains = numbers(pass, side, unit);
            assert!(has_run(&chains, &[size]), "{name}: {size} in {chains:?}");
            let parted = chains.iter().any(|it| has_sum(it, size));
            assert!(parted, "{name}: {size} in {chains:?}");
        }
        for title in ["Plumb lines", "Run of the vent"] {
            for sheet in starting(&sheets, title) {
                let chains = numbers(sheet, Side::Left, unit);
                if chains.iter().any(|it| it.len() == 2) && sheet_has_hole(&chains, top.1) {
                    assert!(
                        has_run(&chains, &[bottom.0, tall]),
                        "{name}, {title}: {chains:?}"
                    );
                }
            }
        }
        let findings = check(&design);
        let bay = findings
            .iter()
            .find(|it| it.rule == "pass in its bay")
            .unwrap();
        let text = |mm: f64| Length::mm(mm).tape(unit, Rounding::Nearest);
        let said = format!("hole {} wide and {} high", text(wide), text(tall));
        assert!(
            bay.detail.as_deref().unwrap_or_default().contains(&said),
            "{name}: {bay:?}"
        );
        let page = text_of(&page_of(&design, &[], &taken, &[]).0);
        for (what, (shown, _)) in &marks {
            let text = text(*shown);
            let at = page
                .find(what.as_str())
                .unwrap_or_else(|| panic!("{name}: {what}"));
            let after: String = page[at..].chars().take(120).collect();
            assert!(after.contains(&text), "{name}: {what} {text}: {after}");
        }
    }
    assert!(off_the_marks > 3, "{off_the_marks} edges lie between marks");
}

/// Whether some chain reaches as high as the hole's top.
fn sheet_has_hole(chains: &[Vec<f64>], top: f64) -> bool {
    let reach = |it: &Vec<f64>| (it.iter().sum::<f64>() - top).abs() < 2.0;
    chains.iter().any(reach)
}

/// The hole of a roof is as large as the model's at least, and its halves make its whole.
#[test]
fn a_hole_through_a_roof_is_rounded_outward() {
    for (name, params) in demos() {
        let design = design(&params);
        let Some(pass) = &design.layout.roof_pass else {
            continue;
        };
        let unit = params.project.unit;
        let sheets = drawing::sheets(&design, &takeoff(&design), Paper::Tabloid);
        let sheet = starting(&sheets, "Roof pass")[0];
        for (side, span) in [(Side::Below, pass.right), (Side::Left, pass.back)] {
            let chains = numbers(sheet, side, unit);
            let (halves, whole) = (&chains[0], chains[1][0]);
            assert!(whole >= span.size().to_mm() - 1e-6, "{name}: {whole}");
            assert!(
                (halves.iter().sum::<f64>() - whole).abs() < 1e-6,
                "{name}: {chains:?}"
            );
        }
    }
}

/// What is cut out of board is no smaller on the sheets than in the model, and never by more than two marks larger.
#[test]
fn cut_outs_of_board_are_rounded_outward() {
    let (mut holes, mut drawn) = (0, 0);
    for (name, params) in demos() {
        let design = design(&params);
        let taken = takeoff(&design);
        let unit = params.project.unit;
        let sheets = drawing::sheets(&design, &taken, Paper::Tabloid);
        let list = file("sheets.csv", &Products::of(&design));
        let rows = records(std::str::from_utf8(&list).unwrap());
        let pieces: Vec<&SheetPiece> = taken.sheets.iter().flat_map(|it| &it.pieces).collect();
        for piece in &pieces {
            let row = rows
                .iter()
                .find(|row| row.len() > 6 && row[2] == piece.mark)
                .unwrap();
            for (exact, text) in piece.loops.iter().zip(row[6].split("; hole: ")).skip(1) {
                holes += 1;
                let written = text.split(", ").map(|corner| {
                    let (across, up) = corner.split_once(" across ").unwrap();
                    let up = up.strip_suffix(" up").unwrap();
                    piece.low + DVec2::new(millimetres(across, unit), millimetres(up, unit))
                });
                let written: Vec<DVec2> = written.collect();
                assert_outward(&name, limits(exact), limits(&written));
            }
            drawn += on_the_face(&name, piece, &pieces, (&sheets, unit));
        }
    }
    assert!(
        holes > 3 && drawn > 1,
        "{holes} holes in board, {drawn} drawn"
    );
}

fn limits(corners: &[DVec2]) -> (DVec2, DVec2) {
    let low = corners.iter().copied().reduce(DVec2::min).unwrap();
    (low, corners.iter().copied().reduce(DVec2::max).unwrap())
}

fn assert_outward(name: &str, exact: (DVec2, DVec2), written: (DVec2, DVec2)) {
    let (low, high) = (exact.0 - written.0, written.1 - exact.1);
    for more in [low.x, low.y, high.x, high.y] {
        assert!(
            (-1e-6..2.0).contains(&more),
            "{name}: {exact:?} as {written:?}"
        );
    }
}

/// The drawing of a face says the edges of a hole from the face's ends: how many holes are drawn so.
fn on_the_face(
    name: &str,
    piece: &SheetPiece,
    all: &[&SheetPiece],
    (sheets, unit): (&[Sheet], TapeUnit),
) -> usize {
    let face = piece.part.split('/').next().unwrap();
    let along = |piece: &SheetPiece, corner: DVec2| {
        let point = piece.frame.point(corner.extend(0.0));
        DVec2::new(point.dot(piece.frame.x), point.dot(piece.frame.y))
    };
    let is_near = |it: &&&SheetPiece| {
        it.part.split('/').next() == Some(face) && it.frame.z.dot(piece.frame.z) > 1.0 - 1e-9
    };
    let own = all.iter().filter(is_near);
    let origin = own.map(|it| along(it, it.low)).reduce(DVec2::min).unwrap();
    let title = format!("Board: {face}");
    let drawn = |hole: &&Vec<DVec2>| {
        let (low, high) = limits(hole);
        let exact = [low, high].map(|it| along(piece, it) - origin);
        let of = |sheet: &Sheet| {
            let [across, up] = [(0, Side::Above), (1, Side::Right)].map(|(axis, side)| {
                let of = |it: DVec2| written_near(sheet, side, it[axis], unit);
                Some((of(exact[0])?, of(exact[1])?))
            });
            Some([across?, up?])
        };
        // two faces that look different ways may have one name
        let mut named = sheets.iter().filter(|it| it.title == title);
        let Some(written) = named.find_map(of) else {
            return false;
        };
        for (axis, (low, high)) in written.into_iter().enumerate() {
            let (less, more) = (exact[0][axis] - low, high - exact[1][axis]);
            let outward = less > -1e-6 && more > -1e-6;
            assert!(outward, "{name}, {face}: {exact:?} as {written:?}");
        }
        true
    };
    piece.loops.iter().skip(1).filter(drawn).count()
}

/// What a sheet's chain says of the stop that lies so far from its first.
fn written_near(sheet: &Sheet, side: Side, place: f64, unit: TapeUnit) -> Option<f64> {
    let chain = sheet.chains.iter().find(|it| it.side == side)?;
    let from = chain.stops.first()?.to_mm();
    let mut stops = chain.stops.iter();
    let at = stops.position(|it| (it.to_mm() - from - place).abs() < 1e-6)?;
    let texts = chain.numbers(unit);
    let before = texts[..at].iter();
    Some(before.map(|text| millimetres(text, unit)).sum())
}
