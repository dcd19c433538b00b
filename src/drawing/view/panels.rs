//! The sheets of board and panel, each with the pieces that come out of it.

use glam::DVec2;

use crate::drawing::dimension::{Chain, Side};
use crate::drawing::figure::{Figure, Label};
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::Subject;
use crate::geom::{edges, is_inside};
use crate::takeoff::{CutSheet, SheetPiece, SheetPlan};
use crate::units::Length;

/// Sheets in a drawing, and the room between two of them, in millimetres of the model.
const SHEETS: usize = 5;
const APART: f64 = 250.0;

/// A drawing of each kind of sheet.
pub(in crate::drawing) fn panels(subject: &Subject<'_>) -> Vec<Figure> {
    let plans = subject.takeoff.sheets.iter();
    plans
        .flat_map(|plan| {
            let drawings = plan.sheets.len().div_ceil(SHEETS);
            let chunks = plan.sheets.chunks(SHEETS).enumerate();
            chunks
                .map(|(place, sheets)| {
                    let part =
                        (drawings > 1).then(|| format!(", part {} of {drawings}", place + 1));
                    drawing(subject, plan, sheets, &part.unwrap_or_default())
                })
                .collect::<Vec<_>>()
        })
        .collect()
}

fn drawing(subject: &Subject<'_>, plan: &SheetPlan, sheets: &[CutSheet], part: &str) -> Figure {
    let sheet = &plan.sheet;
    let name = sheet.material.name();
    let mut figure = Figure::new(
        format!("Sheets: {} {name}{part}", subject.tape(sheet.thickness)),
        "Measure each opening as built before you cut a sheet.",
    );
    let (width, length) = (sheet.width.to_mm(), sheet.length.to_mm());
    for (place, cut) in sheets.iter().enumerate() {
        let corner = DVec2::new((width + APART) * place as f64, 0.0);
        let outline = Rect {
            low: corner,
            high: corner + DVec2::new(width, length),
        };
        figure.rectangle(Pen::Edge, &outline);
        for placed in &cut.pieces {
            let piece = plan.pieces.iter().find(|it| it.mark == placed.mark);
            if let Some(piece) = piece {
                let size = piece.high - piece.low;
                let height = if placed.is_turned { size.x } else { size.y };
                // counted from the sheet's upper end
                let up = length - placed.from_end.to_mm() - height;
                let at = corner + DVec2::new(placed.from_side.to_mm(), up);
                let place = (at, placed.is_turned);
                draw(subject, &mut figure, piece, place, &outline);
            }
        }
    }
    figure.chains = vec![
        Chain::new(Side::Below, [Length::ZERO, sheet.width]),
        Chain::new(Side::Left, [Length::ZERO, sheet.length]),
    ];
    let places = plan.pieces.iter().filter(|piece| {
        let cut = sheets.iter().flat_map(|it| &it.pieces);
        cut.map(|it| &it.mark).any(|mark| *mark == piece.mark)
    });
    let places: Vec<String> = places
        .map(|it| format!("{}: {}", it.mark, it.part.replace('/', " ")))
        .collect();
    let places = places.join("; ");
    let note = format!("Thick lines are factory edges. {places}");
    figure.notes.push(note);
    figure
}

/// A piece in its place on the sheet, with what is cut out of it.
fn draw(
    subject: &Subject<'_>,
    figure: &mut Figure,
    piece: &SheetPiece,
    (at, turned): (DVec2, bool),
    sheet: &Rect,
) {
    let size = piece.high - piece.low;
    let place = |corner: DVec2| {
        let own = corner - piece.low;
        if turned {
            // a quarter turn clockwise
            at + DVec2::new(own.y, size.x - own.x)
        } else {
            at + own
        }
    };
    let placed = piece.loops.iter();
    let placed: Vec<Vec<DVec2>> = placed
        .map(|corners| corners.iter().map(|it| place(*it)).collect())
        .collect();
    for corners in &placed {
        for (from, to) in edges(corners) {
            let factory = sheet.has_on_edge(from, to);
            let pen = if factory { Pen::Factory } else { Pen::Edge };
            figure.line(pen, from, to);
        }
    }
    let (wide, high) = (Length::mm(size.x), Length::mm(size.y));
    figure.labels.push(Label {
        text: format!(
            "{}  {} x {}",
            piece.mark,
            subject.tape(wide),
            subject.tape(high)
        ),
        short: Some(piece.mark.clone()),
        around: roomiest(&placed),
    });
}

/// The largest upright rectangle between the corners of an outline that lies inside it.
pub(super) fn roomiest(loops: &[Vec<DVec2>]) -> Rect {
    let lines = |axis: usize| {
        let mut found: Vec<f64> = loops.iter().flatten().map(|it| it[axis]).collect();
        found.sort_by(f64::total_cmp);
        found.dedup_by(|a, b| *a - *b < 1.0);
        found
    };
    let (across, up) = (lines(0), lines(1));
    let mut best = Rect::around(loops.iter().flatten().copied());
    let mut largest = 0.0;
    for (left, right) in pairs(&across) {
        for (low, high) in pairs(&up) {
            let rect = Rect {
                low: DVec2::new(across[left], up[low]),
                high: DVec2::new(across[right], up[high]),
            };
            let area = rect.size().x * rect.size().y;
            let mut cells = (left..right).flat_map(|x| (low..high).map(move |y| (x, y)));
            let full = |(x, y): (usize, usize)| {
                let middle = DVec2::new(across[x] + across[x + 1], up[y] + up[y + 1]) / 2.0;
                is_inside(loops, middle)
            };
            if area > largest && cells.all(full) {
                largest = area;
                best = rect;
            }
        }
    }
    best
}

/// Every two places in a list, the first before the second.
fn pairs(list: &[f64]) -> impl Iterator<Item = (usize, usize)> {
    let count = list.len();
    (0..count).flat_map(move |low| (low + 1..count).map(move |high| (low, high)))
}
