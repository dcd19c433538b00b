//! How far out from the wall the faces of front and unit lie.

use crate::catalog::Lumber;
use crate::params::{FrontForm, Params, Site};
use crate::units::Length;

/// Faces that look into the room, out from the wall behind the chase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Faces {
    /// Stud face of the front that carries the unit.
    pub lower_stud: Length,
    /// Stud face of the wall that carries the recess: set back when the front is stepped.
    pub upper_stud: Length,
    /// Back of the wall that carries the recess; the side walls end here.
    pub front_back: Length,
    /// Finished face around the unit.
    pub lower_finished: Length,
    /// Finished face around the recess.
    pub upper_finished: Length,
    /// The unit's face.
    pub unit: Length,
    /// The unit's back.
    pub unit_back: Length,
}

impl Faces {
    pub(super) fn new(params: &Params, site: &Site) -> Self {
        let (chase, skins) = (&params.chase, &params.skins);
        let (ledge, upper_finish) = match (params.front.form, &params.front.ledge) {
            (FrontForm::OneWall, _) => (Length::ZERO, skins.lower_finish),
            (FrontForm::Stepped, ledge) => {
                let width = ledge.as_ref().map_or(Length::ZERO, Lumber::depth);
                (width, skins.upper_finish)
            }
        };
        let upper_stud = chase.depth - ledge;
        let unit = chase.depth + params.appliance.face_offset;
        Self {
            lower_stud: chase.depth,
            upper_stud,
            front_back: if site.opens_wall {
                upper_stud - params.wall.stud.depth() - params.wall.sheathing
            } else {
                upper_stud - params.front_stud().depth()
            },
            lower_finished: chase.depth + skins.board + skins.lower_finish,
            upper_finished: upper_stud + skins.board + upper_finish,
            unit,
            unit_back: unit - params.appliance.body_depth,
        }
    }
}
