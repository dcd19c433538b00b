//! The cutting plan as bars: each board with its pieces in the order they are cut, and what is left.

use glam::DVec2;

use crate::drawing::figure::{Area, Figure, Hatch, Label, corners};
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::paper::Scale;
use crate::drawing::sheet::usable;
use crate::drawing::subject::Subject;
use crate::takeoff::{BoardPlan, CutBoard};

/// Height of a bar, and from one to the next, in millimetres of paper.
const BAR: f64 = 4.4;
const STEP: f64 = 8.6;
/// What stands beside a bar, in millimetres of paper.
const BESIDE: f64 = 80.0;

const CAUTION: &str = "Cut the first of each mark, try it in its place, then cut the others.";

/// A board, and how often it is cut so.
struct Bar<'a> {
    /// Its number in the plan.
    number: usize,
    plan: &'a BoardPlan,
    board: &'a CutBoard,
    times: usize,
}

/// The bars.
pub(in crate::drawing) fn bars(subject: &Subject<'_>) -> Vec<Figure> {
    let mut bars: Vec<Bar<'_>> = Vec::new();
    for plan in &subject.takeoff.boards {
        for board in &plan.boards {
            let same = bars.iter_mut().find(|it| {
                it.plan.board == plan.board
                    && it.board.sold == board.sold
                    && it.board.pieces == board.pieces
            });
            match same {
                Some(bar) => bar.times += 1,
                None => bars.push(Bar {
                    number: bars.len() + 1,
                    plan,
                    board,
                    times: 1,
                }),
            }
        }
    }
    let room = usable(subject.paper, CAUTION);
    let longest = bars.iter().map(|it| it.board.sold.length.to_mm());
    let longest = longest.fold(0.0, f64::max);
    let scales = Scale::all(subject.params().project.unit);
    let fits = |scale: &&Scale| longest / scale.ratio + BESIDE <= room.x;
    let scale = scales.iter().find(fits).unwrap_or(&Scale::FULL);
    let rows = (1..=bars.len()).take_while(|rows| *rows as f64 * STEP <= room.y);
    let rows = rows.last().unwrap_or(1);
    let sheets = bars.len().div_ceil(rows);
    let figures = bars.chunks(rows).enumerate();
    figures
        .map(|(place, bars)| {
            let title = if sheets > 1 {
                format!("Cutting plan, part {} of {sheets}", place + 1)
            } else {
                "Cutting plan".to_owned()
            };
            sheet(subject, (title, *scale), bars)
        })
        .collect()
}

fn sheet(subject: &Subject<'_>, (title, scale): (String, Scale), bars: &[Bar<'_>]) -> Figure {
    let stock = &subject.params().stock;
    let mut figure = Figure::new(title, CAUTION);
    figure.scale = Some(scale);
    for (row, bar) in bars.iter().enumerate() {
        let top = -(row as f64) * STEP * scale.ratio;
        draw(subject, &mut figure, bar, (top - BAR * scale.ratio, top));
    }
    figure.notes.push(format!(
        "From the left: {} trimmed off, then the pieces with a saw cut of {} between two; lengths are from long point to \
         long point. Hatched: what is left. Widths are not to scale. The saw set-up says which way each end leans.",
        subject.tape(stock.end_trim),
        subject.tape(stock.kerf)
    ));
    figure
}

fn draw(subject: &Subject<'_>, figure: &mut Figure, bar: &Bar<'_>, (low, high): (f64, f64)) {
    let stock = &subject.params().stock;
    let whole = bar.board.sold.length.to_mm();
    let rect = |from: f64, to: f64| Rect {
        low: DVec2::new(from, low),
        high: DVec2::new(to, high),
    };
    figure.rectangle(Pen::Edge, &rect(0.0, whole));
    figure.call(
        DVec2::new(0.0, f64::midpoint(low, high)),
        format!(
            "{}:  {} × {}, {}",
            bar.number,
            bar.times,
            bar.plan.board.name(),
            subject.tape(bar.board.sold.length)
        ),
    );
    let mut from = stock.end_trim.to_mm();
    for (mark, length) in &bar.board.pieces {
        let to = from + length.exact.to_mm();
        for side in [from, to] {
            figure.line(Pen::Edge, DVec2::new(side, low), DVec2::new(side, high));
        }
        figure.labels.push(Label {
            text: format!("{mark}  {}", length.tape(subject.unit())),
            short: Some(mark.clone()),
            around: rect(from, to),
        });
        from = to + stock.kerf.to_mm();
    }
    if from < whole {
        figure.areas.push(Area {
            loops: vec![corners(&rect(from, whole)).to_vec()],
            hatch: Hatch::Wood,
        });
    }
}
