//! The display list: what lies on a sheet, in the order it is drawn.
//!
//! *Units and frame*: millimetres of paper from the sheet's upper left corner, x to the right, y down.

use glam::DVec2;

use super::letters::{ASCENT, DESCENT, width};
use crate::units::TOLERANCE;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// Where something is cut.
    Cut,
    /// An edge that is seen.
    Edge,
    /// An edge of a sheet as it was made, which needs no cut.
    Factory,
    /// An edge of what is there already.
    Context,
    /// What lies behind or before, dashed.
    Hidden,
    /// The bounds of a clearance volume, dash and dot.
    Clearance,
    /// A center line, long dashes.
    Center,
    /// Dimension lines, extension lines and leaders.
    Thin,
    /// Hatching.
    Hatch,
    /// The sheet's frame and title block.
    Frame,
}

/// What fills an area.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill {
    /// The pen's own black.
    Black,
    /// A light gray.
    Gray,
}

/// One thing on a sheet.
#[derive(Debug, Clone, PartialEq)]
pub enum Ink {
    /// A straight line.
    Line {
        /// One end.
        from: DVec2,
        /// The other end.
        to: DVec2,
        /// How it is drawn.
        pen: Pen,
    },
    /// An area inside closed outlines; where an odd number of them surrounds a point it is filled.
    Area {
        /// The outlines.
        loops: Vec<Vec<DVec2>>,
        /// What fills it.
        fill: Fill,
    },
    /// A circle.
    Circle {
        /// Its middle.
        center: DVec2,
        /// Its radius.
        radius: f64,
        /// How it is drawn.
        pen: Pen,
    },
    /// A line of text.
    Text(Text),
}

/// A line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where the line that it stands on begins.
    pub at: DVec2,
    /// Size of the letters.
    pub size: f64,
    /// Whether it reads upward.
    pub turned: bool,
    /// What it says.
    pub text: String,
}

/// A rectangle with upright sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// The corner with the smallest coordinates.
    pub low: DVec2,
    /// The corner with the largest coordinates.
    pub high: DVec2,
}

/// What a pen draws without being lifted.
#[derive(Debug, Clone, PartialEq)]
pub enum Stroke {
    /// Straight lines, each from where the last one ends.
    Run(Vec<DVec2>),
    /// A circle.
    Circle {
        /// Its middle.
        center: DVec2,
        /// Its radius.
        radius: f64,
    },
}

/// What one pen draws of a list, in its order; lines that follow one another are one run.
pub(super) fn strokes(ink: &[Ink], pen: Pen) -> Vec<Stroke> {
    let mut strokes = Vec::new();
    for ink in ink {
        match ink {
            Ink::Line { from, to, pen: own } if *own == pen => match strokes.last_mut() {
                Some(Stroke::Run(points)) if points.last() == Some(from) => points.push(*to),
                _ => strokes.push(Stroke::Run(vec![*from, *to])),
            },
            Ink::Circle {
                center,
                radius,
                pen: own,
            } if *own == pen => strokes.push(Stroke::Circle {
                center: *center,
                radius: *radius,
            }),
            Ink::Line { .. } | Ink::Area { .. } | Ink::Circle { .. } | Ink::Text(_) => {}
        }
    }
    strokes
}

impl Pen {
    /// Every pen, in the order in which they draw.
    pub const ALL: [Self; 10] = [
        Self::Cut,
        Self::Edge,
        Self::Factory,
        Self::Context,
        Self::Hidden,
        Self::Clearance,
        Self::Center,
        Self::Thin,
        Self::Hatch,
        Self::Frame,
    ];

    /// Width of the line in millimetres: 0.5, 0.25 and 0.13, which are wide and narrow lines in 2 : 1 and half of that
    /// again, of the row of widths of ISO 128-2:2020 (its clause on line widths, from memory).
    pub const fn width(self) -> f64 {
        match self {
            Self::Factory | Self::Cut | Self::Frame => 0.5,
            Self::Edge | Self::Clearance | Self::Hidden => 0.25,
            Self::Context | Self::Thin | Self::Center | Self::Hatch => 0.13,
        }
    }

    /// How light the line is, from 0 for black to 255 for white: what is there already stands back.
    pub const fn lightness(self) -> u8 {
        match self {
            Self::Context => 0x70,
            Self::Factory
            | Self::Cut
            | Self::Frame
            | Self::Edge
            | Self::Clearance
            | Self::Hidden
            | Self::Thin
            | Self::Center
            | Self::Hatch => 0,
        }
    }

    /// Lengths of dashes and gaps in millimetres; empty for a full line.
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Hidden => &[2.0, 1.0],
            Self::Clearance => &[4.0, 1.0, 0.6, 1.0],
            Self::Center => &[7.0, 1.2, 1.2, 1.2],
            Self::Cut
            | Self::Edge
            | Self::Factory
            | Self::Context
            | Self::Thin
            | Self::Hatch
            | Self::Frame => &[],
        }
    }
}

impl Text {
    /// A text that begins at a point.
    pub fn new(at: DVec2, size: f64, text: impl Into<String>) -> Self {
        Self {
            at,
            size,
            turned: false,
            text: text.into(),
        }
    }

    /// The box around it.
    pub fn bounds(&self) -> Rect {
        let long = width(&self.text, self.size);
        let (up, down) = (ASCENT * self.size, DESCENT * self.size);
        let (low, high) = if self.turned {
            (DVec2::new(-up, -long), DVec2::new(down, 0.0))
        } else {
            (DVec2::new(0.0, -up), DVec2::new(long, down))
        };
        Rect {
            low: self.at + low,
            high: self.at + high,
        }
    }

    /// The text so that the middle of its box lies on a point.
    #[must_use]
    pub fn centered(mut self, middle: DVec2) -> Self {
        let bounds = self.bounds();
        self.at += middle - (bounds.low + bounds.high) / 2.0;
        self
    }
}

impl Rect {
    /// The box around points; inside out when there are none.
    pub fn around(points: impl IntoIterator<Item = DVec2>) -> Self {
        let nothing = Self {
            low: DVec2::INFINITY,
            high: DVec2::NEG_INFINITY,
        };
        points.into_iter().fold(nothing, |found, point| Self {
            low: found.low.min(point),
            high: found.high.max(point),
        })
    }

    /// Lengths of the sides.
    pub fn size(&self) -> DVec2 {
        self.high - self.low
    }

    /// The middle.
    pub fn center(&self) -> DVec2 {
        (self.low + self.high) / 2.0
    }

    /// The rectangle with every side moved outward.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self {
            low: self.low - by,
            high: self.high + by,
        }
    }

    /// Whether two rectangles share more than an edge.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.low.cmplt(other.high).all() && other.low.cmplt(self.high).all()
    }

    /// Whether another rectangle lies in this one.
    pub fn contains(&self, other: &Self) -> bool {
        self.low.cmple(other.low).all() && other.high.cmple(self.high).all()
    }

    /// Whether a line lies on one of the sides.
    pub fn has_on_edge(&self, from: DVec2, to: DVec2) -> bool {
        let on = |side: f64, axis: usize| {
            (from[axis] - side).abs() <= TOLERANCE && (to[axis] - side).abs() <= TOLERANCE
        };
        let sides = [self.low, self.high];
        sides.iter().any(|it| on(it.x, 0) || on(it.y, 1))
    }

    /// The part of a line inside, as shares of its way.
    pub fn common(&self, from: DVec2, to: DVec2) -> Option<(f64, f64)> {
        let way = to - from;
        let mut range = (0.0_f64, 1.0_f64);
        for axis in [0, 1] {
            let (low, high) = (self.low[axis] - from[axis], self.high[axis] - from[axis]);
            if way[axis].abs() < 1e-12 {
                if low >= 0.0 || high <= 0.0 {
                    return None;
                }
                continue;
            }
            let (a, b) = (low / way[axis], high / way[axis]);
            range = (range.0.max(a.min(b)), range.1.min(a.max(b)));
        }
        (range.0 < range.1).then_some(range)
    }
}
