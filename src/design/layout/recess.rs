//! The numbers of the recess, and what the ceiling leaves over it.

use glam::DVec2;

use super::super::span::Span;
use super::super::wall::framed_sides;
use super::{Layout, RecessLayout, UnderCeiling};
use crate::geom::TOLERANCE;
use crate::params::Params;
use crate::units::Length;

impl Layout {
    /// How high the ceiling has to be over a recess whose finished head lies at this height: board,
    /// header, plates on a ceiling of this steepness, and the gap, or what plates along readings need.
    ///
    /// A plate of thickness t on a plane with slopes a and b takes t·√(1 + a² + b²) of height.
    pub fn stack_over_head(params: &Params, head: Length, steepness: f64) -> Length {
        let stud = params.front_stud();
        head + params.skins.board
            + stud.plate() * (1.0 + f64::from(params.plates_on(stud)) * steepness)
            + params.ceiling.gap
            + params.plates_drop()
    }

    /// The place over the header of the recess where the ceiling leaves least room for plates.
    /// `None` without a recess.
    pub fn ceiling_over_recess(&self, params: &Params) -> Option<UnderCeiling> {
        let corners = self.over_recess(params)?.into_iter();
        let all = corners.flat_map(|place| {
            let lowest = self.ceiling.z(place) + TOLERANCE;
            let planes = self.ceiling.planes().iter();
            let here = planes.filter(move |plane| plane.z(place) <= lowest);
            here.map(move |plane| UnderCeiling {
                right: Length::mm(place.x),
                out: Length::mm(-place.y),
                height: Length::mm(plane.z(place)),
                steepness: plane.steepness(),
            })
        });
        let left = |it: &UnderCeiling| {
            (it.height - Self::stack_over_head(params, Length::ZERO, it.steepness)).to_mm()
        };
        all.min_by(|a, b| left(a).total_cmp(&left(b)))
    }

    /// The highest that the ceiling comes over the header of the recess. `None` without a recess.
    pub fn highest_over_recess(&self, params: &Params) -> Option<Length> {
        let area = self.over_recess(params)?;
        Some(Length::mm(self.ceiling.highest(&area)))
    }

    /// The plan of the header over the recess, counter-clockwise.
    fn over_recess(&self, params: &Params) -> Option<[DVec2; 4]> {
        let header = self.recess?.rough.grown(params.front_stud().thickness);
        let (front, back) = (self.upper_stud_face, self.front_back);
        let corners = [
            (header.low, front),
            (header.high, front),
            (header.high, back),
            (header.low, back),
        ];
        Some(corners.map(|(right, out)| DVec2::new(right.to_mm(), -out.to_mm())))
    }

    pub(super) fn recess_layout(&self, params: &Params) -> Option<RecessLayout> {
        let recess = params.recess.as_ref()?;
        let board = params.skins.board;
        let finished = Span::about(recess.center.unwrap_or(self.chase.center()), recess.width);
        let finished_height = Span::new(recess.sill, recess.sill + recess.height);
        let back = self.upper_finished - recess.depth;
        Some(RecessLayout {
            finished,
            finished_height,
            rough: finished.grown(board),
            framed: framed_sides(
                finished.grown(board),
                self.rough_opening,
                params.front_stud().thickness,
            ),
            rough_height: finished_height.grown(board),
            back,
            framing_front: back - board,
            framing_back: back - board - params.front_stud().thickness,
        })
    }
}
