//! Studs of the layout, and what fills the slots that no hammer gets into.

use super::{Hole, LayoutFrom, Reach, Wall, kind_of};
use crate::catalog::FramingMember;
use crate::units::{Length, Span};

/// The nails draw a narrower slot shut; no rip is thinner (common practice, no source).
const THINNEST_RIP: Length = Length::inches(0.125);

impl Wall<'_> {
    /// Studs of the layout; an opening cuts them into cripples, and a stud gives way that would run through a jack,
    /// king or end stud or leave no room for a hammer beside it.
    pub(super) fn layout_studs(&mut self, holes: &[Hole]) {
        let breadth = self.stud.breadth();
        let mut gave_way = Vec::new();
        for place in self.layout_places() {
            let along = Span::about(place, breadth);
            for reach in self.around(along, holes) {
                if self.is_beside_others(along, reach) {
                    self.dropped.push(place);
                    gave_way.push((along, reach));
                } else {
                    self.upright(kind_of(reach, along, holes), along.low, reach);
                }
            }
        }
        for (along, reach) in gave_way {
            self.beside_a_gap((along, reach), holes);
        }
    }

    /// Centers of the layout: at the spacing from the end that it counts from, or at even steps no wider than that.
    fn layout_places(&self) -> Vec<Length> {
        let breadth = self.stud.breadth();
        if self.is_even {
            let whole = Span::new(Length::ZERO, self.length);
            let lefts = evenly(whole, breadth, self.spacing);
            let between = lefts.len().saturating_sub(2);
            let lefts = lefts.into_iter().skip(1).take(between);
            return lefts.map(|it| it + breadth / 2.0).collect();
        }
        let mut places = Vec::new();
        let mut center = self.spacing;
        while (self.length - center - breadth / 2.0).is_positive() {
            places.push(match self.layout_from {
                LayoutFrom::Left => center,
                LayoutFrom::Right => self.length - center,
            });
            center += self.spacing;
        }
        places
    }

    /// Whether a stick would stand in another one, or so near the next on either side that no hammer gets between.
    fn is_beside_others(&self, along: Span, reach: Reach) -> bool {
        let (mut before, mut after) = (Length::mm(f64::INFINITY), Length::mm(f64::INFINITY));
        for (other, _) in self.standing.iter().filter(|it| it.1.overlaps(reach)) {
            if other.overlaps(along) {
                return true;
            }
            if other.center() < along.center() {
                before = before.min(along.low - other.high);
            } else {
                after = after.min(other.low - along.high);
            }
        }
        self.is_slot(before) || self.is_slot(after)
    }

    /// Whether sticks with so much between them neither touch nor leave room for a hammer.
    fn is_slot(&self, between: Length) -> bool {
        between.is_positive() && (self.hammer_room - between).is_positive()
    }

    /// Where studs gave way to sticks that stand farther apart than a stud off the layout, one stands halfway between
    /// them, or against one of them where halfway leaves no room for a hammer.
    fn beside_a_gap(&mut self, (along, reach): (Span, Reach), holes: &[Hole]) {
        let breadth = self.stud.breadth();
        let Some((left, right)) = self.neighbors(along, reach) else {
            return;
        };
        let step = right.center() - left.center();
        if !(step - self.spacing - breadth).is_positive() {
            return;
        }
        let middle = Span::about(Span::new(left.high, right.low).center(), breadth);
        let after = Span::new(left.high, left.high + breadth);
        let before = Span::new(right.low - breadth, right.low);
        let places = [middle, before, after];
        let is_beside = |it: &&Span| !self.is_beside_others(**it, reach);
        // rather a slot than no stud
        let is_free = |it: &&Span| {
            let mut level = self.standing.iter().filter(|it| it.1.overlaps(reach));
            !level.any(|other| other.0.overlaps(**it))
        };
        let place = places.iter().find(is_beside);
        let Some(place) = place.or_else(|| places.iter().find(is_free)).copied() else {
            return;
        };
        for piece in self.around(place, holes) {
            let mut level = self.standing.iter().filter(|it| it.1.overlaps(piece));
            if piece.overlaps(reach) && !level.any(|it| it.0.overlaps(place)) {
                self.upright(kind_of(piece, place, holes), place.low, piece);
            }
        }
    }

    /// The sticks on both sides of a place at a height, by their middles.
    fn neighbors(&self, along: Span, reach: Reach) -> Option<(Span, Span)> {
        let center = along.center();
        let level = self.standing.iter().filter(|it| it.1.overlaps(reach));
        let beyond = |it: &Span| (it.center() - center).is_positive();
        let (right, left): (Vec<Span>, Vec<Span>) = level.map(|it| it.0).partition(beyond);
        let nearest = |a: &Span, b: &Span| {
            let apart = |it: &Span| (it.center() - center).abs().to_mm();
            apart(a).total_cmp(&apart(b))
        };
        Some((
            left.into_iter().min_by(nearest)?,
            right.into_iter().min_by(nearest)?,
        ))
    }

    /// Rips between sticks whose places an opening, a ridge or the wall's ends give, where no hammer gets between them.
    pub(super) fn pack_slots(&mut self, holes: &[Hole]) {
        if !matches!(self.stud, FramingMember::Wood(_)) {
            return;
        }
        let standing = self.standing.clone();
        let pairs = standing
            .iter()
            .flat_map(|left| standing.iter().map(move |right| (left, right)));
        for (left, right) in pairs.filter(|(left, right)| left.1.overlaps(right.1)) {
            let size = right.0.low - left.0.high;
            if self.is_slot(size) && !(THINNEST_RIP - size).is_positive() {
                let slot = Span::new(left.0.high, right.0.low);
                self.pack(slot, left.1.common(right.1), holes);
            }
        }
    }

    /// As many rips of one thickness as fill a slot.
    fn pack(&mut self, slot: Span, reach: Reach, holes: &[Hole]) {
        if self.is_at_skewed_end(slot) {
            return;
        }
        let count = (slot.size() / self.stud.breadth()).ceil().max(1.0);
        let thickness = slot.size() / count;
        for piece in self.around(slot, holes) {
            let mut level = self.standing.iter().filter(|it| it.1.overlaps(piece));
            if !piece.overlaps(reach) || level.any(|it| it.0.overlaps(slot)) {
                continue;
            }
            let piece = piece.common(reach);
            let mut left = slot.low;
            while (slot.high - left).is_positive() {
                self.upright_of(kind_of(piece, slot, holes), left, (thickness, 0.0), piece);
                left += thickness;
            }
        }
    }

    /// Whether a slot lies at an end stud that is not square, where it is no rectangle.
    fn is_at_skewed_end(&self, slot: Span) -> bool {
        let near = self.stud.depth() + self.stud.breadth() * 2.0;
        (self.skew[0] != 0.0 && (near - slot.low).is_positive())
            || (self.skew[1] != 0.0 && (slot.high + near - self.length).is_positive())
    }

    /// What is left of a full-height stud where openings cut it.
    pub(super) fn around(&self, along: Span, holes: &[Hole]) -> Vec<Reach> {
        let mut bottom = self.plate();
        let mut pieces = Vec::new();
        for hole in holes.iter().filter(|hole| hole.sides.overlaps(along)) {
            if (hole.heights.low - bottom).is_positive() {
                pieces.push(Reach::Between(bottom, hole.heights.low));
            }
            bottom = bottom.max(hole.heights.high);
        }
        if (self.lowest_stud_top(along) - bottom).is_positive() {
            pieces.push(Reach::ToPlates(bottom));
        }
        pieces
    }
}

/// Left edges of sticks of this width over a span: one at each end, the others evenly between at no
/// more than the spacing. A span too narrow for two has one.
pub(in super::super) fn evenly(span: Span, width: Length, spacing: Length) -> Vec<Length> {
    let clear = span.size() - width;
    if (width - clear).is_positive() {
        return vec![span.low];
    }
    let mut bays = 1_u32;
    while (clear / f64::from(bays) - spacing).is_positive() {
        bays += 1;
    }
    (0..=bays)
        .map(|bay| span.low + clear * (f64::from(bay) / f64::from(bays)))
        .collect()
}
