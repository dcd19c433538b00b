//! Openings in a wall: the unit's rough opening, and a recess above it.

use super::super::Kind;
use super::super::layout::Span;
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
struct Side {
    /// Whether the jack and king of this side stand on the unit's header.
    on_header: bool,
    /// Filler between the jack and the recess's own side.
    fill: Option<Span>,
}

impl Opening<'_> {
    fn header_top(&self) -> Length {
        self.header_bottom + self.header.width
    }
}

impl Recess {
    /// Fits the recess to the unit's opening: its jacks stand outside the unit's kings and run to
    /// the floor, or inside them and stand on the unit's header; a recess whose side falls
    /// between is framed wider and filled in.
    pub(super) fn fit(&self, opening: &Opening<'_>, thickness: Length) -> FittedRecess {
        let king = opening.sides.grown(2.0 * thickness);
        let header = opening.sides.grown(thickness);
        let fit = |outside: bool, inside: bool, needed: Length, moved: Length| {
            if outside {
                (needed, false, None)
            } else if inside {
                (needed, true, None)
            } else {
                let size = (moved - needed).abs().min(thickness);
                let far = if moved < needed {
                    needed - size
                } else {
                    needed
                };
                (moved, false, Some(Span::new(far, far + size)))
            }
        };
        let (low, left_on, left_fill) = fit(
            !(self.sides.low - king.low).is_positive(),
            !(header.low - (self.sides.low - 2.0 * thickness)).is_positive(),
            self.sides.low,
            king.low,
        );
        let (high, right_on, right_fill) = fit(
            !(king.high - self.sides.high).is_positive(),
            !(self.sides.high + 2.0 * thickness - header.high).is_positive(),
            self.sides.high,
            king.high,
        );
        FittedRecess {
            sides: [
                Side {
                    on_header: left_on,
                    fill: left_fill,
                },
                Side {
                    on_header: right_on,
                    fill: right_fill,
                },
            ],
            between: Span::new(low, high),
            heights: self.heights,
        }
    }
}

impl Wall<'_> {
    /// Jacks, kings and header of the unit's opening; kings stop under the sill of a wider recess.
    pub(super) fn frame_opening(&mut self, opening: &Opening<'_>, recess: Option<&FittedRecess>) {
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
        self.header(
            opening.sides.grown(thickness),
            opening.header_bottom,
            opening.header,
        );
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
            let base = if side.on_header {
                opening.header_top()
            } else {
                thickness
            };
            self.upright(Kind::Jack, jack, Reach::Between(base, head));
            self.upright(Kind::King, king, Reach::ToPlates(base));
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

    /// Uprights between sill and header that bring a wider framed recess in to its own side.
    fn fill(&mut self, side: &Side, heights: HeadHeights) {
        let Some(fill) = side.fill else { return };
        let reach = Reach::Between(heights.sill, heights.head);
        self.upright_of(Kind::Cripple, fill.low, fill.size(), reach);
    }

    /// Cripples under the two ends of the sill, where the unit's kings do not carry it already.
    fn sill_ends(&mut self, opening: &Opening<'_>, recess: &FittedRecess) {
        let thickness = self.stud.thickness;
        let under = recess.heights.sill - thickness;
        let ends = [recess.between.low, recess.between.high - thickness];
        for (side, u) in recess.sides.iter().zip(ends) {
            let base = if side.on_header {
                opening.header_top()
            } else {
                thickness
            };
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
