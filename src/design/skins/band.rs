//! Outlines of a sheet with cut-outs: what lies inside becomes an opening, what crosses an edge a notch.

use glam::DVec2;

use crate::geom::{Profile, crossing, roofline};
use crate::layout::rectangle;
use crate::units::{Length, Span};

/// A sheet before its cut-outs: straight sides, a level bottom, a top that may slope and turn down.
#[derive(Debug)]
pub struct Band {
    /// Left and right edge.
    pub sides: Span,
    /// The bottom edge.
    pub bottom: Length,
    /// Corners of the top edge from the left to the right side: to the right, and up. It nowhere
    /// turns up.
    pub top: Vec<DVec2>,
}

/// A rectangle to be cut out.
#[derive(Debug, Clone, Copy)]
pub struct CutOut {
    /// Left and right edge.
    pub sides: Span,
    /// Bottom and top edge.
    pub heights: Span,
}

impl Band {
    /// The sheet's outlines: one, or several where a cut-out goes from edge to edge; none where
    /// the bottom does not lie under the top.
    pub fn profiles(&self, cuts: &[CutOut]) -> Vec<Profile> {
        let mut pieces = vec![self.sides];
        let mut rest = Vec::new();
        let cuts = merged(cuts).into_iter().map(|cut| cut.within(self.sides));
        for cut in cuts.filter(|cut| self.is_hit(cut)) {
            if self.is_cut_through(&cut) {
                pieces = pieces
                    .into_iter()
                    .flat_map(|piece| without(piece, cut.sides))
                    .collect();
            } else {
                rest.push(cut);
            }
        }
        pieces
            .into_iter()
            .flat_map(|piece| self.piece(piece, &rest))
            .collect()
    }

    /// The outlines between two places of the sheet: a cut-out that goes from the one to the other parts what lies
    /// under it from what lies over it.
    fn piece(&self, sides: Span, cuts: &[CutOut]) -> Vec<Profile> {
        let across = |cut: &&CutOut| {
            let (left, right) = (cut.sides.low - sides.low, sides.high - cut.sides.high);
            !left.is_positive() && !right.is_positive() && !self.is_notched(cut)
        };
        let Some(cut) = cuts.iter().find(across) else {
            return self.outline(sides, cuts).into_iter().collect();
        };
        let level = |right: Length| DVec2::new(right.to_mm(), cut.heights.low.to_mm());
        let under = Self {
            sides,
            bottom: self.bottom,
            top: vec![level(sides.low), level(sides.high)],
        };
        let over = Self {
            sides,
            bottom: cut.heights.high,
            top: self.top.clone(),
        };
        let both = [under, over];
        both.iter().flat_map(|it| it.profiles(cuts)).collect()
    }

    /// The sheet under lines that are given by their heights at its two sides, as far as they lie
    /// over its bottom; `None` where none of it is left.
    pub(super) fn under(sides: Span, bottom: Length, lines: &[(f64, f64)]) -> Option<Self> {
        let top = roofline(lines, (sides.low.to_mm(), sides.high.to_mm()));
        let floor = bottom.to_mm();
        let mut kept: Vec<DVec2> = Vec::new();
        for pair in top.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let crossing = || crossing([a, b], [a.y - floor, b.y - floor]);
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

    fn is_hit(&self, cut: &CutOut) -> bool {
        let roof = self.highest_top(cut.sides);
        cut.sides.overlaps(self.sides) && cut.heights.overlaps(Span::new(self.bottom, roof))
    }

    fn is_cut_through(&self, cut: &CutOut) -> bool {
        self.is_notched_below(cut) && self.is_notched_above(cut)
    }

    /// Whether a cut-out crosses the top or the bottom edge.
    fn is_notched(&self, cut: &CutOut) -> bool {
        self.is_notched_below(cut) || self.is_notched_above(cut)
    }

    fn is_notched_below(&self, cut: &CutOut) -> bool {
        !(cut.heights.low - self.bottom).is_positive()
    }

    fn is_notched_above(&self, cut: &CutOut) -> bool {
        !(self.lowest_top(cut.sides) - cut.heights.high).is_positive()
    }

    /// One outline, with the notches and openings that lie within its sides.
    fn outline(&self, sides: Span, cuts: &[CutOut]) -> Option<Profile> {
        if !(self.highest_top(sides) - self.bottom).is_positive() || !sides.size().is_positive() {
            return None;
        }
        let mut within: Vec<CutOut> = cuts
            .iter()
            .filter(|cut| cut.sides.overlaps(sides))
            .map(|cut| cut.within(sides))
            .collect();
        let (at_left, at_right) = self.notches_beside(sides, &within);
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
        for cut in &at_right {
            let (low, high) = (cut.heights.low, cut.heights.high);
            outline.push(corner(sides.high, low));
            outline.push(corner(cut.sides.low, low));
            outline.push(corner(cut.sides.low, high));
            outline.push(corner(sides.high, high));
        }
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
        for cut in at_left.iter().rev() {
            let (low, high) = (cut.heights.low, cut.heights.high);
            outline.push(corner(sides.low, high));
            outline.push(corner(cut.sides.high, high));
            outline.push(corner(cut.sides.high, low));
            outline.push(corner(sides.low, low));
        }
        let mut profile = Profile::polygon(tidy(outline));
        for cut in &within {
            let is_inside = sides.low < cut.sides.low && cut.sides.high < sides.high;
            if is_inside && !self.is_notched(cut) {
                profile = profile.with_opening(rectangle(cut.sides, cut.heights));
            }
        }
        Some(profile)
    }

    /// The cut-outs that cross the left side of part of the sheet, and the right side, from the bottom up.
    fn notches_beside(&self, sides: Span, within: &[CutOut]) -> (Vec<CutOut>, Vec<CutOut>) {
        let beside = |is_there: &dyn Fn(&CutOut) -> bool| {
            let cuts = within.iter().copied();
            let found = cuts.filter(|cut| is_there(cut) && !self.is_notched(cut));
            let mut found: Vec<CutOut> = found.collect();
            found.sort_by(|a, b| a.heights.low.to_mm().total_cmp(&b.heights.low.to_mm()));
            found
        };
        (
            beside(&|cut| cut.sides.low <= sides.low),
            beside(&|cut| sides.high <= cut.sides.high),
        )
    }
}

impl CutOut {
    /// As much of it as lies between two places; its edge lies on one of them where it comes as near as the tolerance.
    fn within(&self, sides: Span) -> Self {
        let reaches_left = !(self.sides.low - sides.low).is_positive();
        let reaches_right = !(sides.high - self.sides.high).is_positive();
        let low = if reaches_left {
            sides.low
        } else {
            self.sides.low
        };
        let high = if reaches_right {
            sides.high
        } else {
            self.sides.high
        };
        Self {
            sides: Span::new(low, high),
            ..*self
        }
    }
}

/// The cut-outs with those that meet made one, the rectangle round them: no strip of board stays
/// between them.
fn merged(cuts: &[CutOut]) -> Vec<CutOut> {
    let meet = |a: Span, b: Span| !(a.low.max(b.low) - a.high.min(b.high)).is_positive();
    let round = |a: Span, b: Span| Span::new(a.low.min(b.low), a.high.max(b.high));
    let mut merged: Vec<CutOut> = Vec::new();
    for cut in cuts {
        let mut whole = *cut;
        while let Some(at) = merged
            .iter()
            .position(|it| meet(it.sides, whole.sides) && meet(it.heights, whole.heights))
        {
            let other = merged.remove(at);
            whole = CutOut {
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
