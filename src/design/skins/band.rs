//! Outlines of a sheet with cut-outs: what lies inside becomes an opening, what crosses an edge a notch.

use glam::DVec2;

use crate::geom::{Profile, roofline};
use crate::layout::rectangle;
use crate::units::{Length, Span};

/// A sheet before its cut-outs: straight sides, a level bottom, a top that may slope and turn down.
pub(in super::super) struct Band {
    /// Left and right edge.
    pub(in super::super) sides: Span,
    /// The bottom edge.
    pub(in super::super) bottom: Length,
    /// Corners of the top edge from the left to the right side: to the right, and up. It nowhere
    /// turns up.
    pub(in super::super) top: Vec<DVec2>,
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
    pub(in super::super) fn profiles(&self, cuts: &[Cut]) -> Vec<Profile> {
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
    fn piece(&self, sides: Span, cuts: &[Cut]) -> Vec<Profile> {
        let across = |cut: &&Cut| {
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

    /// Whether a cut-out crosses the top or the bottom edge.
    fn is_notched(&self, cut: &Cut) -> bool {
        self.is_notched_below(cut) || self.is_notched_above(cut)
    }

    fn is_notched_below(&self, cut: &Cut) -> bool {
        !(cut.heights.low - self.bottom).is_positive()
    }

    fn is_notched_above(&self, cut: &Cut) -> bool {
        !(self.lowest_top(cut.sides) - cut.heights.high).is_positive()
    }

    /// One outline, with the notches and openings that lie within its sides.
    fn outline(&self, sides: Span, cuts: &[Cut]) -> Option<Profile> {
        if !(self.highest_top(sides) - self.bottom).is_positive() || !sides.size().is_positive() {
            return None;
        }
        let mut within: Vec<Cut> = cuts
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
    fn notches_beside(&self, sides: Span, within: &[Cut]) -> (Vec<Cut>, Vec<Cut>) {
        let beside = |is_there: &dyn Fn(&Cut) -> bool| {
            let cuts = within.iter().copied();
            let found = cuts.filter(|cut| is_there(cut) && !self.is_notched(cut));
            let mut found: Vec<Cut> = found.collect();
            found.sort_by(|a, b| a.heights.low.to_mm().total_cmp(&b.heights.low.to_mm()));
            found
        };
        (
            beside(&|cut| cut.sides.low <= sides.low),
            beside(&|cut| sides.high <= cut.sides.high),
        )
    }
}

impl Cut {
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

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::{Band, Cut};
    use crate::geom::Profile;
    use crate::units::Length;
    use crate::units::Span;

    fn span(low: f64, high: f64) -> Span {
        Span::new(Length::mm(low), Length::mm(high))
    }

    /// Whether every opening keeps clear of the sheet's edges.
    fn is_proper(profile: &Profile) -> bool {
        let inside = |it: &DVec2| it.x > 0.0 && it.x < 100.0 && it.y > 0.0 && it.y < 60.0;
        profile.openings.iter().flatten().all(inside)
    }

    /// A sheet 100 by 60 with a cut-out anywhere: what is left is the sheet less what both share.
    #[test]
    fn a_cut_out_may_cross_any_edge() {
        let band = Band {
            sides: span(0.0, 100.0),
            bottom: Length::ZERO,
            top: vec![DVec2::new(0.0, 60.0), DVec2::new(100.0, 60.0)],
        };
        let (lows, widths) = (
            [-30.0, 0.0, 1e-7, 20.0, 80.0, 120.0],
            [10.0, 20.0, 50.0, 100.0, 200.0],
        );
        let (bottoms, heights) = ([-30.0, 0.0, 10.0, 40.0, 70.0], [10.0, 20.0, 60.0, 100.0]);
        for low in lows {
            for width in widths {
                for bottom in bottoms {
                    for height in heights {
                        let cut = Cut {
                            sides: span(low, low + width),
                            heights: span(bottom, bottom + height),
                        };
                        let profiles = band.profiles(&[cut]);
                        let shared =
                            |low: f64, high: f64, end: f64| (high.min(end) - low.max(0.0)).max(0.0);
                        let gone =
                            shared(low, low + width, 100.0) * shared(bottom, bottom + height, 60.0);
                        let left: f64 = profiles.iter().map(Profile::area).sum();
                        let case = format!("{low} {width} {bottom} {height}: {profiles:?}");
                        assert!(
                            (left - (6000.0 - gone)).abs() < 1e-3,
                            "{left}, not {}: {case}",
                            6000.0 - gone
                        );
                        assert!(profiles.iter().all(is_proper), "{case}");
                    }
                }
            }
        }
    }

    /// Two cut-outs, one from side to side: the other stays in its own piece.
    #[test]
    fn what_a_cut_out_parts_keeps_its_own_openings() {
        let band = Band {
            sides: span(0.0, 100.0),
            bottom: Length::ZERO,
            top: vec![DVec2::new(0.0, 60.0), DVec2::new(100.0, 70.0)],
        };
        let across = Cut {
            sides: span(-5.0, 105.0),
            heights: span(20.0, 30.0),
        };
        let over = Cut {
            sides: span(40.0, 50.0),
            heights: span(40.0, 50.0),
        };
        let profiles = band.profiles(&[across, over]);
        let openings: Vec<usize> = profiles.iter().map(|it| it.openings.len()).collect();
        assert_eq!(openings, [0, 1]);
        let areas: Vec<f64> = profiles.iter().map(Profile::area).collect();
        assert!((areas[0] - 2000.0).abs() < 1e-9, "{areas:?}");
        assert!((areas[1] - (3500.0 - 100.0)).abs() < 1e-9, "{areas:?}");
    }
}
