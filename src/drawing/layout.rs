//! A figure and a scale in, everything in its place around the view out.
//!
//! *Units and frame*: millimetres of paper, y up, from the view's own origin. Words never lie on one another:
//! each takes the first place that is free, and what has none goes beside the view, on a leader.

use glam::DVec2;

use super::dimension::{Side, bounds_up, centered};
use super::figure::{Callout, Figure, Label};
use super::ink::{Pen, Rect, Text};
use super::letters::{LINE, SMALLEST, wrapped};
use super::paper::Scale;
use crate::units::TapeUnit;

/// Size of the words on sticks, and of those beside the view.
const WORD: f64 = SMALLEST;
/// The room between words beside the view and the next.
const BETWEEN: f64 = 1.6;
/// How far beside the view its words stand.
const BESIDE: f64 = 7.0;

/// How the words beside a view are set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Beside {
    /// How wide they may be.
    column: f64,
    /// All at the right, not each at its nearer side.
    right_only: bool,
}

impl Beside {
    /// The ways to set them, the best first.
    pub(super) const ALL: [Self; 3] = [
        Self {
            column: 68.0,
            right_only: false,
        },
        Self {
            column: 47.0,
            right_only: false,
        },
        Self {
            column: 68.0,
            right_only: true,
        },
    ];
}

/// Words beside the view, with every place they speak of.
struct Said {
    text: String,
    lines: Vec<String>,
    places: Vec<DVec2>,
}

impl Said {
    fn height(&self) -> f64 {
        self.lines.len() as f64 * LINE
    }
}

/// A figure on paper.
#[derive(Debug, Clone)]
pub(super) struct Laid {
    pub(super) scale: Scale,
    pub(super) lines: Vec<(Pen, DVec2, DVec2)>,
    pub(super) circles: Vec<(Pen, DVec2, f64)>,
    pub(super) texts: Vec<Text>,
    /// The box around all of it.
    pub(super) bounds: Rect,
}

impl Laid {
    /// Lays a figure out in a scale.
    pub(super) fn new(figure: &Figure, scale: Scale, unit: TapeUnit, beside: Beside) -> Self {
        let per = 1.0 / scale.ratio;
        let view = figure.bounds();
        let view = Rect {
            low: view.low * per,
            high: view.high * per,
        };
        let mut laid = Self {
            scale,
            lines: Vec::new(),
            circles: Vec::new(),
            texts: Vec::new(),
            bounds: view,
        };
        let lines = figure.lines.iter();
        laid.lines
            .extend(lines.map(|(pen, [a, b])| (*pen, *a * per, *b * per)));
        let circles = figure.circles.iter();
        laid.circles
            .extend(circles.map(|(pen, center, radius)| (*pen, *center * per, radius * per)));
        laid.texts.extend(figure.words.iter().map(|it| {
            let mut text = Text::new(DVec2::ZERO, WORD, it.text.clone());
            text.turned = it.turned;
            centered(text, it.at * per)
        }));
        let mut callouts = figure.callouts.clone();
        laid.labels(&figure.labels, per, &mut callouts);
        laid.hatch(figure, per);
        let depths = laid.chains(figure, &view, per, unit);
        laid.call_out(&callouts, &view, per, (depths, beside));
        laid.bounds = laid.around();
        laid
    }

    fn hatch(&mut self, figure: &Figure, per: f64) {
        for area in &figure.areas {
            let scaled = |corners: &Vec<DVec2>| corners.iter().map(|it| *it * per).collect();
            let loops: Vec<Vec<DVec2>> = area.loops.iter().map(scaled).collect();
            let lines = area.hatch.lines(&loops).into_iter();
            self.lines.extend(lines.map(|[a, b]| (Pen::Hatch, a, b)));
        }
    }

    /// Draws the chains, and says how far they reach at the left and at the right.
    fn chains(&mut self, figure: &Figure, view: &Rect, per: f64, unit: TapeUnit) -> (f64, f64) {
        let mut depths = [0.0; 4];
        for chain in figure.chains.iter().filter(|it| it.stops.len() > 1) {
            let depth = match chain.side {
                Side::Below => &mut depths[0],
                Side::Above => &mut depths[1],
                Side::Left => &mut depths[2],
                Side::Right => &mut depths[3],
            };
            let drawn = chain.draw(view, *depth, per, unit);
            *depth = drawn.depth;
            self.lines.extend(drawn.lines);
            self.texts.extend(drawn.texts);
        }
        (depths[2], depths[3])
    }

    fn labels(&mut self, labels: &[Label], per: f64, callouts: &mut Vec<Callout>) {
        for label in labels {
            let around = Rect {
                low: label.around.low * per,
                high: label.around.high * per,
            };
            let short = label.short.as_ref();
            let texts = std::iter::once(&label.text).chain(short);
            let places: Vec<Text> = texts
                .flat_map(|text| places(text, &around, short.is_some()))
                .collect();
            // a dashed line may be broken by a mark, where there is no place without one
            let free = |text: &&Text| self.is_free(text, |_| true);
            let over_dashes = |text: &&Text| self.is_free(text, |pen| pen != Pen::Hidden);
            let mut found = places.iter().find(free);
            found = found.or_else(|| places.iter().find(over_dashes));
            match found.cloned() {
                Some(text) => self.texts.push(text),
                None => callouts.push(Callout {
                    text: label.text.clone(),
                    at: label.around.center(),
                }),
            }
        }
    }

    /// Whether a text would lie on no other and on no line of these pens.
    fn is_free(&self, text: &Text, counts: impl Fn(Pen) -> bool) -> bool {
        let bounds = bounds_up(text).grown(0.25);
        let apart = |other: &Text| !bounds_up(other).grown(0.4).overlaps(&bounds);
        self.texts.iter().all(apart)
            && self
                .lines
                .iter()
                .filter(|it| counts(it.0))
                .all(|(_, a, b)| bounds.common(*a, *b).is_none())
    }

    /// Words beside the view, each at the side that its place is nearer to.
    fn call_out(
        &mut self,
        callouts: &[Callout],
        view: &Rect,
        per: f64,
        (depths, beside): ((f64, f64), Beside),
    ) {
        let edges = (view.low.x - depths.0, view.high.x + depths.1);
        let mut sides: [Vec<Said>; 2] = Default::default();
        for callout in callouts {
            let at = callout.at * per;
            let nearer = usize::from(at.x - edges.0 > edges.1 - at.x);
            let side = if beside.right_only { 1 } else { nearer };
            let known = sides[side].iter_mut().find(|it| it.text == callout.text);
            match known {
                Some(said) => said.places.push(at),
                None => sides[side].push(Said {
                    text: callout.text.clone(),
                    lines: wrapped(&callout.text, WORD, beside.column),
                    places: vec![at],
                }),
            }
        }
        let [left, right] = sides;
        self.column(right, view, edges.1 + BESIDE, false);
        self.column(left, view, edges.0 - BESIDE, true);
    }

    /// Words in a column that begins (or, at the left, ends) at `edge`, each as near its place as the others let it.
    fn column(&mut self, mut entries: Vec<Said>, view: &Rect, edge: f64, at_left: bool) {
        entries.sort_by(|a, b| {
            let (a, b) = (a.places[0], b.places[0]);
            b.y.total_cmp(&a.y).then(a.x.total_cmp(&b.x))
        });
        let whole: f64 = entries.iter().map(|it| it.height() + BETWEEN).sum();
        let mut below: f64 = whole;
        let lowest = view.low.y.min(view.center().y - whole / 2.0);
        let mut top = view.high.y.max(view.center().y + whole / 2.0);
        for said in &entries {
            let height = said.height();
            top = top.min(said.places[0].y + height / 2.0).max(lowest + below);
            below -= height + BETWEEN;
            self.words(said, (edge, top), at_left);
            top -= height + BETWEEN;
        }
    }

    fn words(&mut self, said: &Said, (edge, top): (f64, f64), at_left: bool) {
        for (row, line) in said.lines.iter().enumerate() {
            let base = top - LINE * (row as f64 + 1.0) + 0.8;
            let mut text = Text::new(DVec2::new(edge, base), WORD, line.clone());
            if at_left {
                text.at.x -= bounds_up(&text).size().x;
            }
            self.texts.push(text);
        }
        let toward = if at_left { 1.0 } else { -1.0 };
        let end = DVec2::new(edge + toward * 0.8, top - LINE / 2.0);
        let knee = end + DVec2::new(toward * 2.5, 0.0);
        self.lines.push((Pen::Thin, end, knee));
        for at in &said.places {
            self.lines.push((Pen::Thin, knee, *at));
            self.circles.push((Pen::Edge, *at, 0.4));
        }
    }

    fn around(&self) -> Rect {
        let texts = self.texts.iter().map(bounds_up);
        let texts = texts.flat_map(|it| [it.low, it.high]);
        let lines = self.lines.iter().flat_map(|(_, a, b)| [*a, *b]);
        let circles = self.circles.iter();
        let circles =
            circles.flat_map(|(_, center, radius)| [*center - *radius, *center + *radius]);
        Rect::around(texts.chain(lines).chain(circles))
    }
}

/// Where a mark may stand: in its stick, then (unless it has to be inside) beside it at one side and the other, in
/// the middle first.
fn places(text: &str, around: &Rect, inside: bool) -> Vec<Text> {
    let size = around.size();
    let upright = size.y > size.x;
    let mut text = Text::new(DVec2::ZERO, WORD, text);
    text.turned = upright;
    let own = bounds_up(&text).size();
    let (along, across) = if upright {
        (own.y, own.x)
    } else {
        (own.x, own.y)
    };
    let long = if upright { size.y } else { size.x };
    let wide = if upright { size.x } else { size.y };
    let mut sides = Vec::new();
    if wide > across + 0.6 {
        sides.push(0.0);
    }
    if inside && along + 1.0 > long {
        return Vec::new();
    }
    if !inside {
        let beside = wide / 2.0 + across / 2.0 + 0.5;
        sides.extend([beside, -beside]);
    }
    let mut found = Vec::new();
    for side in sides {
        for share in [0.0, -0.17, 0.17, -0.33, 0.33, -0.43, 0.43] {
            let shift = share * (long - along).max(0.0);
            let offset = if upright {
                DVec2::new(side, shift)
            } else {
                DVec2::new(shift, side)
            };
            found.push(centered(text.clone(), around.center() + offset));
        }
    }
    found
}
