//! Openings in a wall: the unit's rough opening, and a recess above it.

use super::super::Kind;
use super::super::span::Span;
use super::stick::Flat;
use super::{Hole, Reach, Wall};
use crate::catalog::{Lumber, Material};
use crate::units::Length;

/// The rough opening for the unit, in the wall's own frame.
pub(in super::super) struct Opening<'a> {
    /// Its sides along the wall.
    pub(in super::super) sides: Span,
    /// Underside of its header.
    pub(in super::super) header_bottom: Length,
    /// Stock of the header's plies.
    pub(in super::super) header: &'a Lumber,
}

/// The rough opening of a recess, in the wall's own frame.
pub(in super::super) struct Recess {
    /// Its sides along the wall.
    pub(in super::super) sides: Span,
    /// Its sill and head.
    pub(in super::super) heights: HeadHeights,
}

/// Where a recess begins and ends, upward.
#[derive(Clone, Copy)]
pub(in super::super) struct HeadHeights {
    /// Top of the sill.
    pub(in super::super) sill: Length,
    /// Underside of the header.
    pub(in super::super) head: Length,
}

/// A recess whose sides have been fitted to the unit's opening below it.
pub(super) struct FittedRecess {
    sides: [Side; 2],
    /// Between the jacks, which may stand wider apart than the recess needs.
    between: Span,
    heights: HeadHeights,
}

/// One side of a fitted recess.
#[derive(Clone, Copy)]
struct Side {
    /// What its jack and king stand on.
    stand: Stand,
    /// Filler between the jack and the recess's own side.
    fill: Option<Span>,
}

/// What carries one side of a recess.
#[derive(Clone, Copy, PartialEq)]
enum Stand {
    /// Jack and king run down to the sole, outside the unit's kings.
    Sole,
    /// Jack and king stand on the unit's header.
    Header,
    /// The jack stands on the unit's header, against the unit's own king.
    UnitKing,
}

impl Opening<'_> {
    pub(super) fn header_top(&self) -> Length {
        self.header_bottom + self.header.width
    }
}

impl Recess {
    /// Fits the recess to the unit's opening. Its jacks stand outside the unit's kings and run to
    /// the floor, or inside them and stand on the unit's header. Between the two a recess is framed
    /// wider and filled in: to the unit's own kings where it is no wider than the opening, else
    /// past them.
    pub(super) fn fit(&self, opening: &Opening<'_>, thickness: Length) -> FittedRecess {
        // How far the recess's side lies inside the opening's.
        let left = fit_side(self.sides.low - opening.sides.low, thickness);
        let right = fit_side(opening.sides.high - self.sides.high, thickness);
        let side = |(stand, wider): (Stand, Length), needed: Length, outward: f64| {
            let far = needed + wider.min(thickness) * outward;
            Side {
                stand,
                fill: wider
                    .is_positive()
                    .then(|| Span::new(needed.min(far), needed.max(far))),
            }
        };
        FittedRecess {
            sides: [
                side(left, self.sides.low, -1.0),
                side(right, self.sides.high, 1.0),
            ],
            between: framed_sides(self.sides, opening.sides, thickness),
            heights: self.heights,
        }
    }
}

/// The sides that a recess is framed to over the unit's opening, which may be wider than it needs.
pub(in super::super) fn framed_sides(recess: Span, opening: Span, thickness: Length) -> Span {
    let (_, left) = fit_side(recess.low - opening.low, thickness);
    let (_, right) = fit_side(opening.high - recess.high, thickness);
    Span::new(recess.low - left, recess.high + right)
}

/// What carries the side of a recess that lies so far inside the opening's side, and how much wider
/// than needed it is framed there.
fn fit_side(inside: Length, thickness: Length) -> (Stand, Length) {
    let past_king = inside + 2.0 * thickness;
    if !past_king.is_positive() {
        (Stand::Sole, Length::ZERO)
    } else if !(thickness - inside).is_positive() {
        (Stand::Header, Length::ZERO)
    } else if (-inside).is_positive() {
        (Stand::Sole, past_king)
    } else {
        (Stand::UnitKing, inside)
    }
}

impl Wall<'_> {
    /// Jacks, kings and header of the unit's opening.
    pub(super) fn frame_opening(&mut self, opening: &Opening<'_>, recess: Option<&FittedRecess>) {
        self.jacks_and_kings(opening, recess);
        self.header(
            opening.sides.grown(self.stud.thickness),
            opening.header_bottom,
            opening.header,
        );
    }

    /// Jacks and kings of the unit's opening; kings stop under the sill of a wider recess.
    pub(super) fn jacks_and_kings(&mut self, opening: &Opening<'_>, recess: Option<&FittedRecess>) {
        let thickness = self.stud.thickness;
        let Span { low, high } = opening.sides;
        for u in [low - thickness, high] {
            self.upright(
                Kind::Jack,
                u,
                Reach::Between(thickness, opening.header_bottom),
            );
        }
        for u in [low - 2.0 * thickness, high + thickness] {
            let along = Span::new(u, u + thickness);
            let reach = match recess {
                Some(recess) if recess.between.overlaps(along) => {
                    Reach::Between(thickness, recess.heights.sill - thickness)
                }
                _ => Reach::ToPlates(thickness),
            };
            self.upright(Kind::King, u, reach);
        }
    }

    /// Jacks, kings, sill, header and fillers of a recess.
    pub(super) fn frame_recess(&mut self, opening: &Opening<'_>, recess: &FittedRecess) {
        let thickness = self.stud.thickness;
        let HeadHeights { sill, head } = recess.heights;
        let between = recess.between;
        let places = [
            (between.low - thickness, between.low - 2.0 * thickness),
            (between.high, between.high + thickness),
        ];
        for (side, (jack, king)) in recess.sides.iter().zip(places) {
            let base = self.base(*side, opening);
            self.upright(Kind::Jack, jack, Reach::Between(base, head));
            if side.stand != Stand::UnitKing {
                self.upright(Kind::King, king, Reach::ToPlates(base));
            }
        }
        for (bottom, along, kind) in [
            (sill - thickness, between, Kind::Sill),
            (head, between.grown(thickness), Kind::Header),
        ] {
            let flat = Flat {
                along,
                bottom,
                stock: self.stud,
            };
            self.flat(kind, Material::LUMBER, &flat);
        }
        for side in &recess.sides {
            self.fill(side, recess.heights);
        }
        self.sill_ends(opening, recess);
    }

    /// Height that the sticks of one side of a recess stand on.
    fn base(&self, side: Side, opening: &Opening<'_>) -> Length {
        match side.stand {
            Stand::Sole => self.stud.thickness,
            Stand::Header | Stand::UnitKing => opening.header_top(),
        }
    }

    /// Uprights between sill and header that bring a wider framed recess in to its own side.
    fn fill(&mut self, side: &Side, heights: HeadHeights) {
        let Some(fill) = side.fill else { return };
        let reach = Reach::Between(heights.sill, heights.head);
        self.upright_of(Kind::Cripple, fill.low, (fill.size(), 0.0), reach);
    }

    /// Cripples under the two ends of the sill, where the unit's kings do not carry it already.
    fn sill_ends(&mut self, opening: &Opening<'_>, recess: &FittedRecess) {
        let thickness = self.stud.thickness;
        let under = recess.heights.sill - thickness;
        let ends = [recess.between.low, recess.between.high - thickness];
        for (side, u) in recess.sides.iter().zip(ends) {
            let base = self.base(*side, opening);
            let reach = Reach::Between(base, under);
            let along = Span::new(u, u + thickness);
            let free = !self
                .standing
                .iter()
                .any(|(span, other)| span.overlaps(along) && reach.overlaps(*other));
            if free && (under - base).is_positive() {
                self.upright(Kind::Cripple, u, reach);
            }
        }
    }

    /// What the unit's opening, its jacks and its header take up.
    pub(super) fn opening_hole(&self, opening: &Opening<'_>) -> Hole {
        Hole {
            sides: opening.sides.grown(self.stud.thickness),
            heights: Span::new(Length::ZERO, opening.header_top()),
        }
    }

    /// What a recess, its sill and its header take up.
    pub(super) fn recess_hole(&self, recess: &FittedRecess) -> Hole {
        let thickness = self.stud.thickness;
        Hole {
            sides: recess.between.grown(thickness),
            heights: Span::new(
                recess.heights.sill - thickness,
                recess.heights.head + thickness,
            ),
        }
    }
}
