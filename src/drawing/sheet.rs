//! A figure in, its sheet out: paper and scale chosen, title block filled in, lines broken where words stand.
//!
//! *Units and frame*: millimetres of paper from the upper left corner, y down.

use glam::DVec2;

use super::digest::digest;
use super::dimension::Chain;
use super::figure::Figure;
use super::ink::{Fill, Ink, Pen, Rect, Stroke, Text, strokes};
use super::layout::{Beside, Laid};
use super::letters::{LINE, SMALLEST, shortened, wrapped};
use super::paper::{Paper, Scale};
use super::subject::Subject;
use super::view::Drawing;
use crate::geom::edges;
use crate::params::FloorDatum;
use crate::units::TapeUnit;

/// From the paper's edge to the frame, and from the frame to what is drawn.
const MARGIN: f64 = 8.0;
const INNER: f64 = 5.0;
/// Height of the title block.
const BLOCK: f64 = 32.0;
/// Where the title block is divided, as shares of its width.
const CELLS: [f64; 5] = [0.0, 0.3, 0.58, 0.93, 1.0];
/// From a division to the words.
const INSET: f64 = 2.5;
/// From the top of the title block to the first line under the title, and to that under the scale bar.
const UNDER_TITLE: f64 = 20.5;
const UNDER_BAR: f64 = 20.0;
/// Lines keep this far from words.
const CLEAR: f64 = 0.35;

/// What holds for every sheet.
const CAUTIONS: [&str; 3] = [
    "Every distance to heat comes from the manual of the unit on site; its listing governs.",
    "Gas work is done and tested by a licensed fitter.",
    "A planning aid: manual, local code, inspector and licensed trades decide. Check the scale bar before measuring a print.",
];

/// A sheet that is ready to be written.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// What it shows.
    pub shows: Drawing,
    /// The same in words.
    pub title: String,
    /// Its paper, on the long side.
    pub paper: Paper,
    /// The scale it is drawn to.
    pub scale: Scale,
    /// Where the view's own origin lies: x of the view runs right from here, y up.
    pub origin: DVec2,
    /// The dimensions it says.
    pub chains: Vec<Chain>,
    /// What lies on it, in the order it is drawn.
    pub ink: Vec<Ink>,
}

impl Sheet {
    /// Every text on it.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.ink.iter().filter_map(|ink| match ink {
            Ink::Text(text) => Some(text),
            Ink::Line { .. } | Ink::Area { .. } | Ink::Circle { .. } => None,
        })
    }

    /// What a pen draws on it, in its order; lines that follow one another are one stroke.
    pub fn strokes(&self, pen: Pen) -> Vec<Stroke> {
        strokes(&self.ink, pen)
    }
}

/// Lays a figure out on a sheet: in the largest scale that fits, on larger paper where none does.
pub(super) fn lay_out(
    subject: &Subject<'_>,
    (shows, figure): (Drawing, Figure),
    paper: Paper,
    number: (usize, usize),
) -> Sheet {
    let unit = subject.design.params.project.unit;
    let (paper, laid) = fitted(&figure, paper, unit);
    let room = room(paper, &figure);
    let shift = room.center() - DVec2::new(laid.bounds.center().x, -laid.bounds.center().y);
    let place = |point: DVec2| shift + DVec2::new(point.x, -point.y);
    let mut texts: Vec<Text> = laid
        .texts
        .iter()
        .map(|text| Text {
            at: place(text.at),
            ..text.clone()
        })
        .collect();
    texts.extend(notes(paper, &figure, &room));
    let mut ink = Vec::new();
    let boxes: Vec<Rect> = texts.iter().map(|it| it.bounds().grown(CLEAR)).collect();
    for (pen, from, to) in &laid.lines {
        ink.extend(broken(*pen, place(*from), place(*to), &boxes));
    }
    let circles = laid.circles.iter();
    ink.extend(circles.map(|(pen, center, radius)| Ink::Circle {
        center: place(*center),
        radius: *radius,
        pen: *pen,
    }));
    ink.extend(texts.into_iter().map(Ink::Text));
    Block {
        subject,
        figure: &figure,
        paper,
        scale: laid.scale,
        unit,
    }
    .draw(number, &mut ink);
    // one stop measures nothing, and is not drawn
    let mut chains = figure.chains;
    chains.retain(|it| it.stops.len() > 1);
    Sheet {
        shows,
        title: figure.title,
        paper,
        scale: laid.scale,
        origin: shift,
        chains,
        ink,
    }
}

/// The paper and the scale that a figure fits in; the smallest scale on the largest paper if none does.
fn fitted(figure: &Figure, paper: Paper, unit: TapeUnit) -> (Paper, Laid) {
    let scales = figure
        .scale
        .as_ref()
        .map_or_else(|| Scale::all(unit), std::slice::from_ref);
    let larger = match unit {
        TapeUnit::Inch => [Paper::Tabloid, Paper::ArchC],
        TapeUnit::Millimeter => [Paper::A3, Paper::ArchC],
    };
    let larger = larger.into_iter().filter(|it| it.size().x > paper.size().x);
    let view = figure.bounds().size();
    let mut last = None;
    for paper in std::iter::once(paper).chain(larger) {
        let size = room(paper, figure).size();
        // most scales are too large for the view alone, and need not be laid out
        let fits_bare = |scale: &&Scale| (view / scale.ratio).cmple(size).all();
        for scale in scales.iter().filter(fits_bare) {
            for beside in Beside::ALL {
                let laid = Laid::new(figure, *scale, unit, beside);
                if laid.bounds.size().cmple(size).all() {
                    return (paper, laid);
                }
                last = Some((paper, laid));
            }
        }
    }
    last.unwrap_or_else(|| {
        let laid = Laid::new(figure, scales[scales.len() - 1], unit, Beside::ALL[0]);
        (paper, laid)
    })
}

/// Width and height of a paper that a view with this caution and three lines of notes may take up.
pub(super) fn usable(paper: Paper, caution: &'static str) -> DVec2 {
    let mut figure = Figure::new("", caution);
    figure.notes = vec!["note".to_owned(); 3];
    room(paper, &figure).size()
}

/// Where the view and what belongs to it may lie.
fn room(paper: Paper, figure: &Figure) -> Rect {
    let size = paper.size();
    let notes = note_lines(paper, figure).len() as f64 * LINE;
    Rect {
        low: DVec2::splat(MARGIN + INNER),
        high: size
            - DVec2::new(
                MARGIN + INNER,
                MARGIN + block_height(paper, figure) + INNER + notes,
            ),
    }
}

/// The cautions, in lines: those of every sheet, and the figure's own.
fn caution_lines(paper: Paper, figure: &Figure) -> Vec<String> {
    let wide = cell_width(paper, 2);
    let own = std::iter::once(figure.caution).filter(|it| !it.is_empty());
    let all = CAUTIONS.iter().copied().chain(own);
    all.flat_map(|it| wrapped(it, SMALLEST, wide)).collect()
}

/// Width of a cell of the title block that words may take up.
fn cell_width(paper: Paper, place: usize) -> f64 {
    (paper.size().x - 2.0 * MARGIN) * (CELLS[place + 1] - CELLS[place]) - 2.0 * INSET
}

/// Height of the title block: as much as its fullest cell needs, the same for every datum and unit.
fn block_height(paper: Paper, figure: &Figure) -> f64 {
    let cautions = caution_lines(paper, figure).len() as f64 * LINE + 3.0;
    let longest = [
        datum_words(FloorDatum::FinishedFloor),
        unit_words(TapeUnit::Inch),
    ];
    let under_bar = lines_in_cell(&longest, cell_width(paper, 1)).len() as f64;
    BLOCK.max(cautions).max(UNDER_BAR + LINE * under_bar)
}

/// Sentences in lines of a cell of the title block, each begun on its own.
fn lines_in_cell(sentences: &[&str], wide: f64) -> Vec<String> {
    let lines = sentences.iter();
    lines.flat_map(|it| wrapped(it, SMALLEST, wide)).collect()
}

/// What heights count from.
const fn datum_words(datum: FloorDatum) -> &'static str {
    match datum {
        FloorDatum::BareSlab => "Heights are measured from the bare slab.",
        FloorDatum::FinishedFloor => "Heights are measured from the finished floor.",
    }
}

/// What lengths are in.
const fn unit_words(unit: TapeUnit) -> &'static str {
    match unit {
        TapeUnit::Inch => "Inches to the nearest 1/16, each by itself.",
        TapeUnit::Millimeter => "Millimetres, each rounded by itself.",
    }
}

/// The notes under the view, in lines.
fn note_lines(paper: Paper, figure: &Figure) -> Vec<String> {
    let wide = paper.size().x - 2.0 * (MARGIN + INNER);
    let notes = figure.notes.iter();
    notes
        .flat_map(|note| wrapped(note, SMALLEST, wide))
        .collect()
}

fn notes(paper: Paper, figure: &Figure, room: &Rect) -> Vec<Text> {
    let lines = note_lines(paper, figure).into_iter().enumerate();
    lines
        .map(|(row, line)| {
            let down = LINE * (row as f64 + 1.0) + 1.0;
            Text::new(DVec2::new(room.low.x, room.high.y + down), SMALLEST, line)
        })
        .collect()
}

/// A line without what lies under words.
fn broken(pen: Pen, from: DVec2, to: DVec2, boxes: &[Rect]) -> Vec<Ink> {
    let mut gaps: Vec<(f64, f64)> = boxes.iter().filter_map(|it| it.common(from, to)).collect();
    gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut parts = Vec::new();
    let mut begin = 0.0;
    for (gap, after) in gaps.into_iter().chain(std::iter::once((1.0, 1.0))) {
        if gap - begin > 1e-9 {
            parts.push(Ink::Line {
                from: from.lerp(to, begin),
                to: from.lerp(to, gap),
                pen,
            });
        }
        begin = after.max(begin);
    }
    parts
}

/// The title block along the foot of a sheet.
struct Block<'a> {
    subject: &'a Subject<'a>,
    figure: &'a Figure,
    paper: Paper,
    scale: Scale,
    unit: TapeUnit,
}

impl Block<'_> {
    fn draw(&self, (number, count): (usize, usize), ink: &mut Vec<Ink>) {
        let size = self.paper.size();
        let frame = Rect {
            low: DVec2::splat(MARGIN),
            high: size - MARGIN,
        };
        let top = frame.high.y - block_height(self.paper, self.figure);
        outline(&frame, ink);
        frame_line(
            DVec2::new(frame.low.x, top),
            DVec2::new(frame.high.x, top),
            ink,
        );
        let wide = frame.size().x;
        let cuts = CELLS.map(|share| frame.low.x + wide * share);
        for cut in &cuts[1..4] {
            frame_line(DVec2::new(*cut, top), DVec2::new(*cut, frame.high.y), ink);
        }
        let cell = |place: usize| Rect {
            low: DVec2::new(cuts[place] + INSET, top),
            high: DVec2::new(cuts[place + 1] - INSET, frame.high.y),
        };
        self.names(&cell(0), ink);
        self.scale_cell(&cell(1), ink);
        self.cautions(&cell(2), ink);
        let last = cell(3);
        say(
            ink,
            last.low + DVec2::new(0.0, 6.0),
            SMALLEST,
            "sheet",
            last.size().x,
        );
        say(
            ink,
            last.low + DVec2::new(0.0, 14.0),
            6.0,
            &number.to_string(),
            last.size().x,
        );
        say(
            ink,
            last.low + DVec2::new(0.0, 21.0),
            SMALLEST,
            &format!("of {count}"),
            last.size().x,
        );
    }

    fn names(&self, cell: &Rect, ink: &mut Vec<Ink>) {
        let project = &self.subject.design.params.project;
        let wide = cell.size().x;
        say(
            ink,
            cell.low + DVec2::new(0.0, 6.2),
            SMALLEST,
            &project.name,
            wide,
        );
        let mut size = 5.0;
        while super::letters::width(&self.figure.title, size) > wide && size > SMALLEST {
            size = (size - 0.25).max(SMALLEST);
        }
        say(
            ink,
            cell.low + DVec2::new(0.0, 14.0),
            size,
            &self.figure.title,
            wide,
        );
        let parameters = format!("Parameters {}", digest(&self.subject.design.params));
        let lines = [
            parameters.as_str(),
            "Revision and owner:",
            "Checked on site by, and date:",
        ];
        for (row, line) in lines.into_iter().enumerate() {
            let down = UNDER_TITLE + LINE * row as f64;
            say(ink, cell.low + DVec2::new(0.0, down), SMALLEST, line, wide);
        }
    }

    fn scale_cell(&self, cell: &Rect, ink: &mut Vec<Ink>) {
        let wide = cell.size().x;
        let scale = format!("Scale {} on {}", self.scale.name, self.paper.name());
        say(ink, cell.low + DVec2::new(0.0, 5.6), SMALLEST, &scale, wide);
        self.bar(cell.low + DVec2::new(0.0, 9.0), ink);
        let datum = self.subject.design.params.project.floor_datum;
        let words = [datum_words(datum), unit_words(self.unit)];
        for (row, line) in lines_in_cell(&words, wide).iter().enumerate() {
            let down = UNDER_BAR + LINE * row as f64;
            say(ink, cell.low + DVec2::new(0.0, down), SMALLEST, line, wide);
        }
    }

    /// The scale bar: four fields, black and white by turns.
    fn bar(&self, at: DVec2, ink: &mut Vec<Ink>) {
        let (length, text) = self.scale.bar(self.unit);
        let long = length.to_mm() / self.scale.ratio;
        for field in 0..4 {
            let rect = Rect {
                low: at + DVec2::new(long * f64::from(field) / 4.0, 0.0),
                high: at + DVec2::new(long * f64::from(field + 1) / 4.0, 1.8),
            };
            outline(&rect, ink);
            if field % 2 == 0 {
                ink.push(Ink::Area {
                    loops: vec![super::figure::corners(&rect).to_vec()],
                    fill: Fill::Black,
                });
            }
        }
        say(ink, at + DVec2::new(0.0, 5.4), SMALLEST, "0", 10.0);
        let end = Text::new(DVec2::ZERO, SMALLEST, text);
        let middle = DVec2::new(long, 4.6);
        ink.push(Ink::Text(end.centered(at + middle)));
    }

    fn cautions(&self, cell: &Rect, ink: &mut Vec<Ink>) {
        for (row, line) in caution_lines(self.paper, self.figure).iter().enumerate() {
            let down = 1.0 + LINE * (row as f64 + 1.0);
            let at = cell.low + DVec2::new(0.0, down);
            say(ink, at, SMALLEST, line, cell.size().x);
        }
    }
}

fn say(ink: &mut Vec<Ink>, at: DVec2, size: f64, text: &str, room: f64) {
    ink.push(Ink::Text(Text::new(at, size, shortened(text, size, room))));
}

fn frame_line(from: DVec2, to: DVec2, ink: &mut Vec<Ink>) {
    ink.push(Ink::Line {
        from,
        to,
        pen: Pen::Frame,
    });
}

fn outline(rect: &Rect, ink: &mut Vec<Ink>) {
    let corners = super::figure::corners(rect);
    for (from, to) in edges(&corners) {
        frame_line(from, to, ink);
    }
}
