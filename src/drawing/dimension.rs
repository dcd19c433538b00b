//! Dimensions in chains: where a chain runs, and where its numbers stand so that none lies on another.
//!
//! *Units*: a chain is in lengths of the model along one axis of the view; what is made of it is in
//! millimetres of paper with y up. Numbers are tape text of exact differences, never of rounded ones.

use glam::DVec2;

use super::ink::{Pen, Rect, Text};
use super::letters::{ASCENT, DESCENT, LINE, SMALLEST, width};
use crate::design::Span;
use crate::units::{Length, Rounding, TapeUnit};

/// Size of the numbers.
pub(super) const NUMBER: f64 = SMALLEST;
/// From the view to the first chain, from chain to chain, and how far extension lines run past.
const FIRST: f64 = 7.0;
const PAST: f64 = 1.5;
/// Between the view and where its extension lines begin.
const GAP: f64 = 1.5;
/// Height of a line of numbers.
const ROW: f64 = LINE;
/// From a running line to its numbers, and how far apart these stand.
const LEADER: f64 = 4.0;
const PITCH: f64 = LINE;
/// Half the length of the stroke that ends a dimension line.
const TICK: f64 = 1.1;

/// The side of the view that a chain runs along.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Under the view.
    Below,
    /// Over the view.
    Above,
    /// At the left of the view.
    Left,
    /// At the right of the view.
    Right,
}

/// Dimensions that follow one another along a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// Where it runs.
    pub side: Side,
    /// From where to where each of them reaches, along the view's own axis, in rising order.
    pub stops: Vec<Length>,
    /// Whether every number counts from the first stop, as marks on a plate do, and not from the stop before.
    pub running: bool,
    /// Where its stops lie on a tape's marks, if it runs over the edges of something that is cut.
    pub marks: Option<OnMarks>,
}

/// A chain whose numbers are what lies between marks of the tape, so that what is cut is never too small and its edges
/// and its size agree.
#[derive(Debug, Clone, PartialEq)]
pub struct OnMarks {
    /// Where the tape is held.
    from: Length,
    /// Stops at edges, and which way each goes to its mark; any other goes to the nearest.
    edges: Vec<(Length, Rounding)>,
}

/// A chain on paper.
#[derive(Debug, Clone, Default)]
pub(super) struct Drawn {
    pub(super) lines: Vec<(Pen, DVec2, DVec2)>,
    pub(super) texts: Vec<Text>,
    /// How much room it takes, outward from where it began.
    pub(super) depth: f64,
}

impl Chain {
    /// A chain over stops, put in order; stops that coincide are one.
    pub(super) fn new(side: Side, stops: impl IntoIterator<Item = Length>) -> Self {
        let mut stops: Vec<Length> = stops.into_iter().collect();
        stops.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
        stops.dedup_by(|a, b| !(*a - *b).abs().is_positive());
        Self {
            side,
            stops,
            running: false,
            marks: None,
        }
    }

    /// The same with every number counted from the first stop.
    pub(super) fn running(self) -> Self {
        Self {
            running: true,
            ..self
        }
    }

    /// The same with every stop on a mark of the tape that is held at `from`: the edges of what is cut go as they are said
    /// to, any other stop to the nearest.
    pub(super) fn on_marks(
        self,
        from: Length,
        edges: impl IntoIterator<Item = (Length, Rounding)>,
    ) -> Self {
        let edges = edges.into_iter().collect();
        Self {
            marks: Some(OnMarks { from, edges }),
            ..self
        }
    }

    /// The same where a hole is cut between two of its stops: each goes outward.
    pub(super) fn around(self, from: Length, hole: Span) -> Self {
        self.on_marks(
            from,
            [(hole.low, Rounding::Down), (hole.high, Rounding::Up)],
        )
    }

    /// The lengths between its stops, exactly, in order.
    pub fn lengths(&self) -> Vec<Length> {
        self.between(&self.stops)
    }

    fn between(&self, stops: &[Length]) -> Vec<Length> {
        let from = |pair: &[Length]| if self.running { stops[0] } else { pair[0] };
        stops.windows(2).map(|pair| pair[1] - from(pair)).collect()
    }

    /// The numbers that it says: on a metric drawing without the unit, which the title block says (ISO 129-1:2018).
    pub fn numbers(&self, unit: TapeUnit) -> Vec<String> {
        let stops = self.stops.iter().map(|it| match &self.marks {
            Some(marks) => marks.of(*it, unit),
            None => *it,
        });
        let stops: Vec<Length> = stops.collect();
        let texts = self.between(&stops).into_iter();
        let texts = texts.map(|it| it.tape(unit, Rounding::Nearest));
        texts
            .map(|it| it.trim_end_matches(" mm").to_owned())
            .collect()
    }

    /// The chain on paper: `view` is the view's box and `begin` how far outside of it the chain may begin.
    pub(super) fn draw(&self, view: &Rect, begin: f64, per: f64, unit: TapeUnit) -> Drawn {
        let line = begin + if begin > 0.0 { ROW } else { FIRST };
        let mut drawn = Drawn::default();
        let at = |along: f64, out: f64| self.point(view, along, out);
        let stops: Vec<f64> = self.stops.iter().map(|it| it.to_mm() * per).collect();
        for stop in &stops {
            drawn
                .lines
                .push((Pen::Thin, at(*stop, GAP), at(*stop, line + PAST)));
            let middle = at(*stop, line);
            let slant = DVec2::new(TICK, TICK);
            drawn
                .lines
                .push((Pen::Edge, middle - slant, middle + slant));
        }
        if let (Some(first), Some(last)) = (stops.first(), stops.last()) {
            drawn
                .lines
                .push((Pen::Thin, at(*first, line), at(*last, line)));
        }
        let numbers = self.numbers(unit);
        if self.running {
            self.run(&mut drawn, (&stops, numbers), line, at);
            return drawn;
        }
        let rows = rows(&stops, &numbers);
        let mut deepest = 0.0_f64;
        for ((pair, number), (middle, row)) in stops.windows(2).zip(&numbers).zip(&rows) {
            let out = line + 0.9 + ROW / 2.0 + row * ROW;
            deepest = deepest.max(*row);
            if *row > 0.0 {
                let from = at(f64::midpoint(pair[0], pair[1]), line);
                drawn
                    .lines
                    .push((Pen::Thin, from, at(*middle, out - ROW * 0.42)));
            }
            let mut text = Text::new(DVec2::ZERO, NUMBER, number.clone());
            text.turned = self.is_upright();
            drawn.texts.push(centered(text, at(*middle, out)));
        }
        drawn.depth = line + 0.9 + (deepest + 1.0) * ROW;
        drawn
    }

    /// Numbers square to the line, each beside its own stop or on a leader from it.
    fn run(
        &self,
        drawn: &mut Drawn,
        (stops, numbers): (&[f64], Vec<String>),
        line: f64,
        at: impl Fn(f64, f64) -> DVec2,
    ) {
        let begin = line + PAST + LEADER;
        let longest = numbers.iter().map(|it| width(it, NUMBER));
        drawn.depth = begin + longest.fold(0.0, f64::max) + 1.5;
        let own = stops.get(1..).unwrap_or_default();
        let limit = stops.last().copied().unwrap_or_default() + PITCH;
        let places = spread(own.to_vec(), limit, PITCH);
        for ((stop, place), number) in own.iter().zip(places).zip(numbers) {
            drawn
                .lines
                .push((Pen::Thin, at(*stop, line + PAST), at(place, begin - 0.8)));
            let middle = at(place, begin + width(&number, NUMBER) / 2.0);
            let mut text = Text::new(DVec2::ZERO, NUMBER, number);
            text.turned = !self.is_upright();
            drawn.texts.push(centered(text, middle));
        }
    }

    fn is_upright(&self) -> bool {
        matches!(self.side, Side::Left | Side::Right)
    }

    fn point(&self, view: &Rect, along: f64, out: f64) -> DVec2 {
        match self.side {
            Side::Below => DVec2::new(along, view.low.y - out),
            Side::Above => DVec2::new(along, view.high.y + out),
            Side::Left => DVec2::new(view.low.x - out, along),
            Side::Right => DVec2::new(view.high.x + out, along),
        }
    }
}

impl OnMarks {
    /// The mark that a stop goes to, counted from where the tape is held.
    fn of(&self, stop: Length, unit: TapeUnit) -> Length {
        let same = |it: &&(Length, Rounding)| !(it.0 - stop).abs().is_positive();
        let edge = self.edges.iter().find(same);
        let rounding = edge.map_or(Rounding::Nearest, |it| it.1);
        (stop - self.from).to_mark(unit, rounding)
    }
}

/// A text whose box has its middle at a point, with y up: see [`bounds_up`].
pub(super) fn centered(mut text: Text, middle: DVec2) -> Text {
    let bounds = bounds_up(&text);
    text.at += middle - bounds.center();
    text
}

/// The box around a text where y runs up.
pub(super) fn bounds_up(text: &Text) -> Rect {
    let long = width(&text.text, text.size);
    let (up, down) = (ASCENT * text.size, DESCENT * text.size);
    let (low, high) = if text.turned {
        (DVec2::new(-up, 0.0), DVec2::new(down, long))
    } else {
        (DVec2::new(0.0, -down), DVec2::new(long, up))
    };
    Rect {
        low: text.at + low,
        high: text.at + high,
    }
}

/// Places in rising order moved apart by a pitch at least, none past a limit.
pub(super) fn spread(mut places: Vec<f64>, limit: f64, pitch: f64) -> Vec<f64> {
    let mut least = f64::NEG_INFINITY;
    for place in &mut places {
        *place = place.max(least);
        least = *place + pitch;
    }
    let mut most = limit;
    for place in places.iter_mut().rev() {
        *place = place.min(most);
        most = *place - pitch;
    }
    places
}

/// For each number where its middle stands along the chain, and in which row: over its own dimension where it
/// fits there, else in the first row that has room for it.
fn rows(stops: &[f64], numbers: &[String]) -> Vec<(f64, f64)> {
    let spans: Vec<(f64, f64, f64)> = stops
        .windows(2)
        .zip(numbers)
        .map(|(pair, number)| (pair[0], pair[1], width(number, NUMBER) + 3.2))
        .collect();
    let mut taken: Vec<(f64, f64, f64)> = Vec::new();
    let fits = |(low, high, wide): &(f64, f64, f64)| *wide <= high - low;
    for (low, high, wide) in spans.iter().filter(|it| fits(it)) {
        let middle = f64::midpoint(*low, *high);
        taken.push((middle - wide / 2.0, middle + wide / 2.0, 0.0));
    }
    let mut found = Vec::new();
    for span in &spans {
        let middle = f64::midpoint(span.0, span.1);
        if fits(span) {
            found.push((middle, 0.0));
            continue;
        }
        let (from, to) = (middle - span.2 / 2.0, middle + span.2 / 2.0);
        let mut row = 1.0;
        while taken
            .iter()
            .any(|it| it.2 >= row - 0.5 && it.2 <= row + 0.5 && it.0 < to && from < it.1)
        {
            row += 1.0;
        }
        taken.push((from, to, row));
        found.push((middle, row));
    }
    found
}
