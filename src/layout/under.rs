//! What the ceiling leaves over the recess.

use glam::DVec2;

use super::Layout;
use super::place::UnderCeiling;
use crate::geom::TOLERANCE;
use crate::units::Length;

impl Layout {
    /// How high the ceiling has to be over a recess whose finished head lies at this height: board,
    /// header, plates on a ceiling of this steepness, and the gap, or what plates along readings need.
    ///
    /// A plate of thickness t on a plane with slopes a and b takes t·√(1 + a² + b²) of height.
    pub fn stack_over_head(&self, head: Length, steepness: f64) -> Length {
        let params = &self.params;
        let stud = params.front_stud();
        head + params.skins.board
            + params
                .recess_header()
                .map_or(Length::ZERO, |it| it.height(stud))
            + stud.plate() * (f64::from(params.plates_on(stud)) * steepness)
            + params.ceiling.gap
            + params.plates_drop()
    }

    /// The place over the header of the recess where the ceiling leaves least room for plates.
    /// `None` without a recess.
    pub fn ceiling_over_recess(&self) -> Option<UnderCeiling> {
        let corners = self.over_recess()?.into_iter();
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
        let room = |it: &UnderCeiling| {
            (it.height - self.stack_over_head(Length::ZERO, it.steepness)).to_mm()
        };
        all.min_by(|a, b| room(a).total_cmp(&room(b)))
    }

    /// The highest that the ceiling comes over the header of the recess. `None` without a recess.
    pub fn highest_over_recess(&self) -> Option<Length> {
        let area = self.over_recess()?;
        Some(Length::mm(self.ceiling.highest(&area)))
    }

    /// The plan of the header over the recess, counter-clockwise.
    fn over_recess(&self) -> Option<[DVec2; 4]> {
        let header = self.recess?.rough.grown(self.params.front_stud().breadth());
        let (front, back) = (self.faces.upper_stud, self.faces.front_back);
        let corners = [
            (header.low, front),
            (header.high, front),
            (header.high, back),
            (header.low, back),
        ];
        Some(corners.map(|(right, out)| DVec2::new(right.to_mm(), -out.to_mm())))
    }
}
