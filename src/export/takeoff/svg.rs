//! Sheets as a drawing: every sheet with its pieces, their marks, sizes and factory edges, at 1:10.
//!
//! *Frame*: the sheet's length runs down, its width to the right; millimetres on paper. A piece keeps its good face up:
//! one that does not stand upright is turned a quarter, never flipped.

use std::fmt::Write as _;

use glam::DVec2;

use super::{ExportError, TakeoffFormat};
use crate::design::Design;
use crate::takeoff::{CutSheet, PlacedPiece, SheetPiece, SheetPlan, Takeoff};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const SHEETS: TakeoffFormat = TakeoffFormat {
    file: "sheets.svg",
    write,
};

/// Paper to wood.
const SCALE: f64 = 0.1;
/// Space around and between sheets, in millimetres on paper.
const GAP: f64 = 12.0;
/// Sheets beside one another.
const ACROSS: usize = 4;
/// Height of letters, and how wide they are for that.
const TEXT: f64 = 4.0;
const LETTER: f64 = 0.6;

/// Where a sheet is drawn, in millimetres on paper.
struct View<'a> {
    plan: &'a SheetPlan,
    corner: DVec2,
    size: DVec2,
    unit: TapeUnit,
}

#[expect(clippy::unnecessary_wraps, reason = "the form of every writer")]
fn write(design: &Design, takeoff: &Takeoff) -> Result<Vec<u8>, ExportError> {
    let unit = design.params.project.unit;
    let mut drawn = String::new();
    let (mut width, mut down) = (0.0_f64, GAP);
    for plan in &takeoff.sheets {
        let size = DVec2::new(plan.sheet.width.to_mm(), plan.sheet.length.to_mm()) * SCALE;
        title(&mut drawn, plan, down, unit);
        down += TEXT * 2.0;
        for row in plan.sheets.chunks(ACROSS) {
            for (at, sheet) in row.iter().enumerate() {
                let corner = DVec2::new(GAP + (size.x + GAP) * at as f64, down);
                let view = View {
                    plan,
                    corner,
                    size,
                    unit,
                };
                draw(&mut drawn, &view, sheet);
                width = width.max(corner.x + size.x + GAP);
            }
            down += size.y + GAP;
        }
    }
    let width = width.max(100.0);
    let document = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.1}mm\" height=\"{down:.1}mm\" \
         viewBox=\"0 0 {width:.1} {down:.1}\">\n\
         <rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n{drawn}</svg>\n"
    );
    Ok(document.into_bytes())
}

fn title(drawn: &mut String, plan: &SheetPlan, down: f64, unit: TapeUnit) {
    let text = |length: Length| length.tape(unit, Rounding::Nearest);
    let sheet = &plan.sheet;
    let words = format!(
        "{} {}, {} x {}: {} in all; thick lines are factory edges",
        text(sheet.thickness),
        sheet.material.word().replace('_', " "),
        text(sheet.width),
        text(sheet.length),
        plan.sheets.len()
    );
    label(drawn, &words, DVec2::new(GAP, down), "start");
}

fn draw(drawn: &mut String, view: &View<'_>, sheet: &CutSheet) {
    let (corner, size) = (view.corner, view.size);
    let _ = writeln!(
        drawn,
        "<rect x=\"{:.2}\" y=\"{:.2}\" width=\"{:.2}\" height=\"{:.2}\" fill=\"#ddd\" stroke=\"black\" stroke-width=\"0.25\"/>",
        corner.x, corner.y, size.x, size.y
    );
    for placed in &sheet.pieces {
        let Some(piece) = view.plan.piece(&placed.mark) else {
            continue;
        };
        outline(drawn, piece, placed, (corner, size));

        let size = piece.high - piece.low;
        let lying = if placed.is_turned {
            size.perp().abs()
        } else {
            size
        };
        let place = DVec2::new(placed.from_side.to_mm(), placed.from_end.to_mm());
        let from = corner + place * SCALE;
        let to = from + lying * SCALE;
        let tape = |mm: f64| Length::mm(mm).tape(view.unit, Rounding::Nearest);
        let words = format!("{} {} x {}", placed.mark, tape(size.x), tape(size.y));
        inscribe(drawn, &words, from, to);
    }
}

/// Words in the middle of a piece, upright where it is narrow, as large as it allows.
fn inscribe(drawn: &mut String, words: &str, from: DVec2, to: DVec2) {
    let size = to - from;
    let (along, across) = (size.max_element(), size.min_element());
    let is_upright = size.y > size.x;
    let fits = along * 0.9 / (words.chars().count() as f64 * LETTER);
    let height = TEXT.min(across * 0.8).min(fits);
    let middle = (from + to) / 2.0;
    let turn = if is_upright { -90 } else { 0 };
    let _ = writeln!(
        drawn,
        "<text transform=\"translate({:.2} {:.2}) rotate({turn})\" dy=\"0.35em\" font-family=\"sans-serif\" font-size=\"{height:.2}\" text-anchor=\"middle\">{}</text>",
        middle.x,
        middle.y,
        escaped(words)
    );
}

fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;")
}

/// The outline of a piece with its holes, as it lies on the sheet.
fn outline(
    drawn: &mut String,
    piece: &SheetPiece,
    placed: &PlacedPiece,
    (corner, sheet): (DVec2, DVec2),
) {
    let place = DVec2::new(placed.from_side.to_mm(), placed.from_end.to_mm());
    let size = piece.high - piece.low;
    let lying = |point: &DVec2| {
        let from = *point - piece.low;
        // the paper's y runs down, so that up on the piece is less of it
        let upright = DVec2::new(from.x, size.y - from.y);
        let lying = if placed.is_turned {
            DVec2::new(size.y - upright.y, upright.x)
        } else {
            upright
        };
        corner + (place + lying) * SCALE
    };
    let mut path = String::new();
    for corners in &piece.loops {
        for (at, point) in corners.iter().map(lying).enumerate() {
            let command = if at == 0 { 'M' } else { 'L' };
            let _ = write!(path, "{command}{:.2} {:.2} ", point.x + 0.0, point.y + 0.0);
        }
        path.push('Z');
    }
    let edges = piece.loops.iter().flat_map(|corners| {
        let next = corners.iter().cycle().skip(1).map(lying);
        corners.iter().map(lying).zip(next)
    });
    let _ = writeln!(
        drawn,
        "<path d=\"{path}\" fill=\"white\" fill-rule=\"evenodd\" stroke=\"black\" stroke-width=\"0.25\"/>"
    );
    // edges of the sheet itself, which need no cut
    let on_side = |a: DVec2, b: DVec2| {
        let near = |from: DVec2| from.abs().max_element() < 0.001;
        let (low, high) = (corner, corner + sheet);
        let along = |x: f64, u: f64, v: f64| near(DVec2::new(u - x, v - x));
        along(low.x, a.x, b.x)
            || along(high.x, a.x, b.x)
            || along(low.y, a.y, b.y)
            || along(high.y, a.y, b.y)
    };
    for (a, b) in edges.filter(|(a, b)| on_side(*a, *b)) {
        let _ = writeln!(
            drawn,
            "<line x1=\"{:.2}\" y1=\"{:.2}\" x2=\"{:.2}\" y2=\"{:.2}\" stroke=\"black\" stroke-width=\"1\"/>",
            a.x, a.y, b.x, b.y
        );
    }
}

fn label(drawn: &mut String, words: &str, at: DVec2, anchor: &str) {
    let words = escaped(words);
    let _ = writeln!(
        drawn,
        "<text x=\"{:.2}\" y=\"{:.2}\" font-family=\"sans-serif\" font-size=\"{TEXT}\" text-anchor=\"{anchor}\">{words}</text>",
        at.x, at.y
    );
}
