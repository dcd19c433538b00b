//! Outlines of a sheet with cut-outs: what lies inside becomes an opening, what crosses an edge a notch.

use glam::DVec2;

use crate::geom::{Profile, roofline};
use crate::layout::rectangle;
use crate::units::{Length, Span};

/// A sheet before its cut-outs: straight sides, a level bottom, a top that may slope and turn down.
pub(super) struct Band {
    /// Left and right edge.
    pub(super) sides: Span,
    /// The bottom edge.
    pub(super) bottom: Length,
    /// Corners of the top edge from the left to the right side: to the right, and up. It nowhere
    /// turns up.
    pub(super) top: Vec<DVec2>,
}

/// A rectangle to be cut out.
#[derive(Clone, Copy)]
pub(in super::super) struct Cut {
    /// Left and right edge.
    pub(in super::super) sides: Span,
    /// Bottom and top edge.
    pub(in super::super) heights: Span,
}

impl Band {
    /// The sheet's outlines: one, or several where a cut-out goes from edge to edge; none where
    /// the bottom does not lie under the top.
    pub(super) fn profiles(&self, cuts: &[Cut]) -> Vec<Profile> {
        let mut pieces = vec![self.sides];
        let mut rest = Vec::new();
        let cuts = merged(cuts);
        for cut in cuts.iter().filter(|cut| self.is_hit(cut)) {
            if self.is_cut_through(cut) {
                pieces = pieces
                    .into_iter()
                    .flat_map(|piece| without(piece, cut.sides))
                    .collect();
            } else {
                rest.push(*cut);
            }
        }
        pieces
            .into_iter()
            .filter_map(|piece| self.piece(piece, &rest))
            .collect()
    }

    /// The sheet under lines that are given by their heights at its two sides, as far as they lie
    /// over its bottom; `None` where none of it is left.
    pub(super) fn under(sides: Span, bottom: Length, lines: &[(f64, f64)]) -> Option<Self> {
        let top = roofline(lines, (sides.low.to_mm(), sides.high.to_mm()));
        let floor = bottom.to_mm();
        let mut kept: Vec<DVec2> = Vec::new();
        for pair in top.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let crossing = || a.lerp(b, (floor - a.y) / (b.y - a.y));
            if kept.is_empty() && a.y > floor {
                kept.push(a);
            }
            if a.y <= floor && b.y > floor {
                kept.push(crossing());
            }
            if b.y > floor {
                kept.push(b);
            } else if a.y > floor {
                kept.push(crossing());
            }
        }
        let (first, last) = (kept.first()?.x, kept.last()?.x);
        Some(Self {
            sides: Span::new(Length::mm(first), Length::mm(last)),
            bottom,
            top: kept,
        })
    }

    fn top_at(&self, right: Length) -> Length {
        let place = right.to_mm();
        let last = self.top.len().saturating_sub(2);
        let edge = self.top.windows(2).enumerate();
        let mut over = edge.filter(|(at, pair)| place <= pair[1].x || *at == last);
        over.next().map_or(self.bottom, |(_, pair)| {
            let share = (place - pair[0].x) / (pair[1].x - pair[0].x);
            Length::mm(pair[0].y + (pair[1].y - pair[0].y) * share)
        })
    }

    /// The corners of the top edge within part of the sheet, from the right.
    fn turns(&self, within: Span) -> impl Iterator<Item = DVec2> {
        let inside = move |it: &DVec2| it.x > within.low.to_mm() && it.x < within.high.to_mm();
        self.top.iter().rev().copied().filter(inside)
    }

    /// The highest top edge over part of the sheet.
    fn highest_top(&self, sides: Span) -> Length {
        let ends = self.top_at(sides.low).max(self.top_at(sides.high));
        self.turns(sides)
            .fold(ends, |high, it| high.max(Length::mm(it.y)))
    }

    /// The lowest top edge over part of the sheet.
    fn lowest_top(&self, sides: Span) -> Length {
        self.top_at(sides.low).min(self.top_at(sides.high))
    }

    fn is_hit(&self, cut: &Cut) -> bool {
        let roof = self.highest_top(cut.sides);
        cut.sides.overlaps(self.sides) && cut.heights.overlaps(Span::new(self.bottom, roof))
    }

    fn is_cut_through(&self, cut: &Cut) -> bool {
        self.is_notched_below(cut) && self.is_notched_above(cut)
    }

    fn is_notched_below(&self, cut: &Cut) -> bool {
        !(cut.heights.low - self.bottom).is_positive()
    }

    fn is_notched_above(&self, cut: &Cut) -> bool {
        !(self.lowest_top(cut.sides) - cut.heights.high).is_positive()
    }

    /// One outline, with the notches and openings that lie within its sides.
    fn piece(&self, sides: Span, cuts: &[Cut]) -> Option<Profile> {
        if !(self.highest_top(sides) - self.bottom).is_positive() || !sides.size().is_positive() {
            return None;
        }
        let mut within: Vec<Cut> = cuts
            .iter()
            .filter(|cut| cut.sides.overlaps(sides))
            .map(|cut| Cut {
                sides: Span::new(cut.sides.low.max(sides.low), cut.sides.high.min(sides.high)),
                ..*cut
            })
            .collect();
        within.sort_by(|a, b| a.sides.low.to_mm().total_cmp(&b.sides.low.to_mm()));
        let corner = |right: Length, up: Length| DVec2::new(right.to_mm(), up.to_mm());
        let mut outline = vec![corner(sides.low, self.bottom)];
        for cut in within.iter().filter(|cut| self.is_notched_below(cut)) {
            outline.push(corner(cut.sides.low, self.bottom));
            outline.push(corner(cut.sides.low, cut.heights.high));
            outline.push(corner(cut.sides.high, cut.heights.high));
            outline.push(corner(cut.sides.high, self.bottom));
        }
        outline.push(corner(sides.high, self.bottom));
        outline.push(corner(sides.high, self.top_at(sides.high)));
        let mut right = sides.high;
        for cut in within.iter().rev().filter(|cut| self.is_notched_above(cut)) {
            outline.extend(self.turns(Span::new(cut.sides.high, right)));
            right = cut.sides.low;
            outline.push(corner(cut.sides.high, self.top_at(cut.sides.high)));
            outline.push(corner(cut.sides.high, cut.heights.low));
            outline.push(corner(cut.sides.low, cut.heights.low));
            outline.push(corner(cut.sides.low, self.top_at(cut.sides.low)));
        }
        outline.extend(self.turns(Span::new(sides.low, right)));
        outline.push(corner(sides.low, self.top_at(sides.low)));
        let mut profile = Profile::polygon(tidy(outline));
        for cut in &within {
            if !self.is_notched_below(cut) && !self.is_notched_above(cut) {
                profile = profile.with_opening(rectangle(cut.sides, cut.heights));
            }
        }
        Some(profile)
    }
}

/// The cut-outs with those that meet made one, the rectangle round them: no strip of board stays
/// between them.
fn merged(cuts: &[Cut]) -> Vec<Cut> {
    let meet = |a: Span, b: Span| !(a.low.max(b.low) - a.high.min(b.high)).is_positive();
    let round = |a: Span, b: Span| Span::new(a.low.min(b.low), a.high.max(b.high));
    let mut merged: Vec<Cut> = Vec::new();
    for cut in cuts {
        let mut whole = *cut;
        while let Some(at) = merged
            .iter()
            .position(|it| meet(it.sides, whole.sides) && meet(it.heights, whole.heights))
        {
            let other = merged.remove(at);
            whole = Cut {
                sides: round(whole.sides, other.sides),
                heights: round(whole.heights, other.heights),
            };
        }
        merged.push(whole);
    }
    merged
}

/// What is left of a span without another.
fn without(span: Span, gone: Span) -> Vec<Span> {
    [
        Span::new(span.low, gone.low.min(span.high)),
        Span::new(gone.high.max(span.low), span.high),
    ]
    .into_iter()
    .filter(|it| it.size().is_positive())
    .collect()
}

/// The corners without those that repeat or do not turn, as where a notch meets the sheet's side.
pub(in super::super) fn tidy(corners: Vec<DVec2>) -> Vec<DVec2> {
    let mut kept: Vec<DVec2> = corners;
    loop {
        let count = kept.len();
        let idle = (0..count).find(|i| {
            let (a, b, c) = (
                kept[(i + count - 1) % count],
                kept[*i],
                kept[(i + 1) % count],
            );
            (b - a).perp_dot(c - b).abs() <= crate::geom::TOLERANCE
        });
        match idle {
            Some(i) => kept.remove(i),
            None => return kept,
        };
    }
}
