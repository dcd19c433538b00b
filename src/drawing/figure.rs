//! What a view file says of its view: lines, areas, dimensions and words, before any of it has a place on paper.
//!
//! *Units and frame*: millimetres of the model, x to the right and y up.

use glam::DVec2;

use super::dimension::Chain;
use super::hidden::Segment;
use super::ink::{Pen, Rect};
use super::paper::Scale;
use crate::geom::{below, edges};
use crate::units::Length;

/// A view that is ready to be laid out.
#[derive(Debug, Clone, Default)]
pub(super) struct Figure {
    /// What it shows; the title of its sheet.
    pub(super) title: String,
    /// A line to read before it is used.
    pub(super) caution: &'static str,
    /// More to know, one line each.
    pub(super) notes: Vec<String>,
    /// Its scale, where it has to be drawn in that one; else the largest that fits.
    pub(super) scale: Option<Scale>,
    pub(super) lines: Vec<(Pen, Segment)>,
    pub(super) areas: Vec<Area>,
    pub(super) circles: Vec<(Pen, DVec2, f64)>,
    pub(super) chains: Vec<Chain>,
    pub(super) labels: Vec<Label>,
    pub(super) callouts: Vec<Callout>,
    pub(super) words: Vec<Words>,
}

/// A hatched area: closed outlines, of which an odd number surrounds what is inside.
#[derive(Debug, Clone)]
pub(super) struct Area {
    pub(super) loops: Vec<Vec<DVec2>>,
    pub(super) hatch: Hatch,
}

/// How an area is hatched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hatch {
    /// Cut sticks: lines rising to the right.
    Wood,
    /// A cut stick that touches one hatched so: the other way and wider (ISO 128-3:2022: adjacent parts differ).
    WoodBeside,
    /// Cut sheets and what is there already: lines falling to the right, close together.
    Sheet,
    /// A cut sheet that touches one hatched so: the other way.
    SheetBeside,
    /// A zone that nothing combustible may be in: wide lines both ways.
    Zone,
}

/// Words that belong to a stick: beside its length, or away on a leader where there is no room.
#[derive(Debug, Clone)]
pub(super) struct Label {
    pub(super) text: String,
    /// What is said where all of it has no room.
    pub(super) short: Option<String>,
    /// The box around the stick.
    pub(super) around: Rect,
}

/// Words in a place of their own.
#[derive(Debug, Clone)]
pub(super) struct Words {
    /// The middle of them.
    pub(super) at: DVec2,
    /// Whether they read upward.
    pub(super) turned: bool,
    pub(super) text: String,
}

/// Words beside the view, with a leader to the place they speak of.
#[derive(Debug, Clone)]
pub(super) struct Callout {
    pub(super) text: String,
    pub(super) at: DVec2,
}

impl Hatch {
    /// The hatch of a part that touches one hatched like this.
    pub(super) const fn beside(self) -> Self {
        match self {
            Self::Wood => Self::WoodBeside,
            Self::WoodBeside => Self::Wood,
            Self::Sheet => Self::SheetBeside,
            Self::SheetBeside => Self::Sheet,
            Self::Zone => Self::Zone,
        }
    }
}

impl Figure {
    /// A view without anything in it.
    pub(super) fn new(title: impl Into<String>, caution: &'static str) -> Self {
        Self {
            title: title.into(),
            caution,
            ..Self::default()
        }
    }

    /// Adds a line.
    pub(super) fn line(&mut self, pen: Pen, from: DVec2, to: DVec2) {
        self.lines.push((pen, [from, to]));
    }

    /// Adds the center lines of something round, level and plumb, each reaching so far from its middle.
    pub(super) fn center_lines(&mut self, middle: DVec2, arm: Length) {
        for way in [DVec2::X, DVec2::Y].map(|it| it * arm.to_mm()) {
            self.line(Pen::Center, middle - way, middle + way);
        }
    }

    /// Adds a rectangle's sides.
    pub(super) fn rectangle(&mut self, pen: Pen, rect: &Rect) {
        let [a, b, c, d] = corners(rect);
        for (from, to) in [(a, b), (b, c), (c, d), (d, a)] {
            self.line(pen, from, to);
        }
    }

    /// Adds the outline of an area and its hatch.
    pub(super) fn area(&mut self, pen: Pen, hatch: Option<Hatch>, loops: Vec<Vec<DVec2>>) {
        for corners in &loops {
            for (from, to) in edges(corners) {
                self.line(pen, from, to);
            }
        }
        self.areas.extend(hatch.map(|hatch| Area { loops, hatch }));
    }

    /// Adds words with a leader.
    pub(super) fn call(&mut self, at: DVec2, text: impl Into<String>) {
        self.callouts.push(Callout {
            text: text.into(),
            at,
        });
    }

    /// Leaves nothing outside a rectangle of the model.
    pub(super) fn crop(&mut self, to: &Rect) {
        let lines = self.lines.iter().filter_map(|(pen, [a, b])| {
            let (from, until) = to.common(*a, *b)?;
            Some((*pen, [a.lerp(*b, from), a.lerp(*b, until)]))
        });
        self.lines = lines.collect();
        let sides = [
            (DVec2::X, to.high.x),
            (DVec2::NEG_X, -to.low.x),
            (DVec2::Y, to.high.y),
            (DVec2::NEG_Y, -to.low.y),
        ];
        for area in &mut self.areas {
            for corners in &mut area.loops {
                for (out, limit) in sides {
                    *corners = below(corners, |corner| out.dot(corner) - limit);
                }
            }
            area.loops.retain(|it| it.len() > 2);
        }
    }

    /// The box around everything that is drawn.
    pub(super) fn bounds(&self) -> Rect {
        let lines = self.lines.iter().flat_map(|(_, ends)| *ends);
        let circles = self
            .circles
            .iter()
            .flat_map(|(_, center, radius)| [*center - *radius, *center + *radius]);
        let areas = self
            .areas
            .iter()
            .flat_map(|it| &it.loops)
            .flatten()
            .copied();
        Rect::around(lines.chain(circles).chain(areas))
    }
}

/// The corners of a rectangle, counter-clockwise where y runs up.
pub(super) fn corners(rect: &Rect) -> [DVec2; 4] {
    let (low, high) = (rect.low, rect.high);
    [
        low,
        DVec2::new(high.x, low.y),
        high,
        DVec2::new(low.x, high.y),
    ]
}
