//! Openings in a wall: the unit's rough opening, and a recess above it.

use super::super::Kind;
use super::steel::{Flanges, Web};
use super::{Hole, Reach, Wall};
use crate::catalog::{FramingMember, Material, track_flange};
use crate::layout::{Stand, fit_side, framed_sides};
use crate::params::{Header, HeaderForm};
use crate::units::{Length, Span};

/// The rough opening for the unit, in the wall's own frame.
pub(in super::super) struct Opening<'a> {
    /// Its sides along the wall.
    pub(in super::super) sides: Span,
    /// Underside of its header.
    pub(in super::super) header_bottom: Length,
    /// What spans it.
    pub(in super::super) header: Header<'a>,
}

/// The rough opening of a recess, in the wall's own frame.
pub(in super::super) struct Recess<'a> {
    /// What spans it.
    pub(in super::super) header: Header<'a>,
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
pub(super) struct FittedRecess<'a> {
    header: Header<'a>,
    sides: [OpeningSide; 2],
    /// Between the jacks, which may stand wider apart than the recess needs.
    between: Span,
    heights: HeadHeights,
}

/// One side of a fitted recess.
#[derive(Clone, Copy)]
struct OpeningSide {
    /// What its jack and king stand on.
    stand: Stand,
    /// Filler between the jack and the recess's own side.
    fill: Option<Span>,
}

impl<'a> Recess<'a> {
    /// Fits the recess to the unit's opening. Its jacks stand outside the unit's kings and run to
    /// the floor, or inside them and stand on the unit's header. Between the two a recess is framed
    /// wider and filled in: to the unit's own kings where it is no wider than the opening, else
    /// past them.
    pub(super) fn fit(&self, opening: &Opening<'_>, thickness: Length) -> FittedRecess<'a> {
        // How far the recess's side lies inside the opening's.
        let left = fit_side(self.sides.low - opening.sides.low, thickness);
        let right = fit_side(opening.sides.high - self.sides.high, thickness);
        let side = |(stand, wider): (Stand, Length), needed: Length, outward: f64| {
            let far = needed + wider.min(thickness) * outward;
            OpeningSide {
                stand,
                fill: wider
                    .is_positive()
                    .then(|| Span::new(needed.min(far), needed.max(far))),
            }
        };
        FittedRecess {
            header: self.header,
            sides: [
                side(left, self.sides.low, -1.0),
                side(right, self.sides.high, 1.0),
            ],
            between: framed_sides(self.sides, opening.sides, thickness),
            heights: self.heights,
        }
    }
}

impl Wall<'_> {
    /// Jacks, kings and header of the unit's opening.
    pub(super) fn frame_opening(
        &mut self,
        opening: &Opening<'_>,
        recess: Option<&FittedRecess<'_>>,
    ) {
        self.jacks_and_kings(opening, recess);
        let plate = self.plate();
        let along = opening.sides.grown(self.stud.breadth());
        let over = self.top_of(opening) - self.stud.nested();
        let mut above = self.room_over(along, over);
        if let Some(recess) = recess {
            above = above.min(recess.heights.sill - plate - over);
        }
        self.header((along, opening.header_bottom), opening.header, above);
    }

    /// Top of the header over the unit's opening.
    pub(super) fn top_of(&self, opening: &Opening<'_>) -> Length {
        opening.header_bottom + opening.header.height(self.stud)
    }

    /// What spans an opening over these jacks, its underside here, with so much room for flanges above it.
    pub(super) fn header(&mut self, place: (Span, Length), header: Header<'_>, above: Length) {
        match (header.form, header.stock) {
            (HeaderForm::Flat, _) => self.flat_header(place),
            (HeaderForm::OnEdge, FramingMember::Wood(lumber)) => self.plies(place, header, lumber),
            (HeaderForm::OnEdge, FramingMember::Steel(steel)) => {
                self.steel_header(place, steel, above);
            }
        }
    }

    /// One stick of the wall's studs lying flat; in a wall of steel a track whose flanges take the cripples.
    fn flat_header(&mut self, (along, bottom): (Span, Length)) {
        match self.stud {
            FramingMember::Wood(lumber) => {
                self.flat(Kind::Header, Material::LUMBER, (along, bottom), lumber);
            }
            FramingMember::Steel(steel) => {
                let up = track_flange(steel).min(self.room_over(along, bottom));
                self.level_track(Kind::Header, steel, (along, bottom), (up, Flanges::Up));
            }
        }
    }

    /// Jacks and kings of the unit's opening; kings stop under the sill of a wider recess.
    pub(super) fn jacks_and_kings(
        &mut self,
        opening: &Opening<'_>,
        recess: Option<&FittedRecess<'_>>,
    ) {
        let (breadth, plate) = (self.stud.breadth(), self.plate());
        let Span { low, high } = opening.sides;
        for place in [(low - breadth, Web::Right), (high, Web::Left)] {
            let reach = Reach::Between(plate, opening.header_bottom);
            self.upright_facing(Kind::Jack, place, reach);
        }
        for place in [
            (low - 2.0 * breadth, Web::Right),
            (high + breadth, Web::Left),
        ] {
            let along = Span::new(place.0, place.0 + breadth);
            let reach = match recess {
                Some(recess) if recess.between.overlaps(along) => {
                    Reach::Between(plate, recess.heights.sill - plate)
                }
                _ => Reach::ToPlates(plate),
            };
            self.upright_facing(Kind::King, place, reach);
        }
    }

    /// Jacks, kings, sill, header and fillers of a recess.
    pub(super) fn frame_recess(&mut self, opening: &Opening<'_>, recess: &FittedRecess<'_>) {
        let breadth = self.stud.breadth();
        let between = recess.between;
        let places = [
            (between.low - breadth, between.low - 2.0 * breadth),
            (between.high, between.high + breadth),
        ];
        for (side, (jack, king)) in recess.sides.iter().zip(places) {
            let base = self.base(*side, opening);
            let web = if jack < between.center() {
                Web::Right
            } else {
                Web::Left
            };
            let reach = Reach::Between(base, recess.heights.head);
            self.upright_facing(Kind::Jack, (jack, web), reach);
            if side.stand != Stand::UnitKing {
                self.upright_facing(Kind::King, (king, web), Reach::ToPlates(base));
            }
        }
        self.recess_sill((opening, between), recess.heights);
        let along = between.grown(breadth);
        let top = recess.heights.head + recess.header.height(self.stud);
        let above = self.room_over(along, top - self.stud.nested());
        self.header((along, recess.heights.head), recess.header, above);
        for (side, web) in recess.sides.iter().zip([Web::Right, Web::Left]) {
            self.fill(side, web, recess.heights);
        }
        self.sill_ends(opening, recess);
    }

    /// Sill of a recess: a stick lying flat, or a track round the cripples under it, its flanges cut down
    /// where the unit's header leaves no more.
    fn recess_sill(&mut self, (opening, between): (&Opening<'_>, Span), heights: HeadHeights) {
        let bottom = heights.sill - self.plate();
        let steel = match self.stud {
            FramingMember::Wood(lumber) => {
                self.flat(Kind::Sill, Material::LUMBER, (between, bottom), lumber);
                return;
            }
            FramingMember::Steel(steel) => steel,
        };
        let whole = track_flange(steel);
        let over_unit = self.top_of(opening) - self.stud.nested();
        let mut down = whole;
        if between.overlaps(opening.sides) {
            let taken = whole.min(bottom - over_unit);
            down = whole.min(heights.sill - over_unit - taken);
        }
        self.level_track(Kind::Sill, steel, (between, bottom), (down, Flanges::Down));
    }

    /// Height that the sticks of one side of a recess stand on.
    fn base(&self, side: OpeningSide, opening: &Opening<'_>) -> Length {
        match side.stand {
            Stand::Sole => self.plate(),
            Stand::Header | Stand::UnitKing => self.top_of(opening),
        }
    }

    /// Uprights between sill and header that bring a wider framed recess in to its own side.
    fn fill(&mut self, side: &OpeningSide, web: Web, heights: HeadHeights) {
        let Some(fill) = side.fill else { return };
        let reach = Reach::Between(heights.sill, heights.head);
        match self.stud {
            FramingMember::Wood(_) => {
                self.upright_of(Kind::Cripple, fill.low, (fill.size(), 0.0), reach);
            }
            FramingMember::Steel(steel) => self.steel_filler(steel, fill, web, reach),
        }
    }

    /// Cripples under the two ends of the sill, where the unit's kings do not carry it already.
    fn sill_ends(&mut self, opening: &Opening<'_>, recess: &FittedRecess<'_>) {
        let breadth = self.stud.breadth();
        let under = recess.heights.sill - self.plate();
        let ends = [recess.between.low, recess.between.high - breadth];
        for (side, u) in recess.sides.iter().zip(ends) {
            let base = self.base(*side, opening);
            let reach = Reach::Between(base, under);
            let along = Span::new(u, u + breadth);
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
            sides: opening.sides.grown(self.stud.breadth()),
            heights: Span::new(Length::ZERO, self.top_of(opening)),
        }
    }

    /// What a recess, its sill and its header take up.
    pub(super) fn recess_hole(&self, recess: &FittedRecess<'_>) -> Hole {
        let plate = self.plate();
        Hole {
            sides: recess.between.grown(self.stud.breadth()),
            heights: Span::new(
                recess.heights.sill - plate,
                recess.heights.head + recess.header.height(self.stud),
            ),
        }
    }
}
