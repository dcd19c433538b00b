//! What hangs on a wall of the front: its finish and its mantel.

use crate::design::{Design, Kind, Part, front_wall_at, point};
use crate::params::ChaseWall;
use crate::units::{AreaWeight, Length, Span};

/// The finish that hangs on a wall of the front.
#[derive(Debug, Clone, Copy)]
pub(super) struct WallFinish {
    pub(super) thickness: Length,
    pub(super) weight: Option<AreaWeight>,
    /// The key of its weight.
    pub(super) key: &'static str,
}

/// The finish on a wall of the front; `None` for a side wall or the back.
pub(super) fn finish_on(design: &Design, wall: ChaseWall) -> Option<WallFinish> {
    let skins = &design.params.skins;
    match wall {
        ChaseWall::Front | ChaseWall::BumpOut | ChaseWall::Opened => Some(WallFinish {
            thickness: skins.lower_finish,
            weight: skins.lower_weight,
            key: "skins.lower_weight",
        }),
        ChaseWall::SetBack => Some(WallFinish {
            thickness: skins.upper_finish,
            weight: skins.upper_weight,
            key: "skins.upper_weight",
        }),
        ChaseWall::LeftSide | ChaseWall::RightSide | ChaseWall::Back => None,
    }
}

/// How high a wall of the front reaches over a stretch along it.
pub(super) fn top_of(design: &Design, wall: ChaseWall, along: Span) -> Length {
    let layout = &design.layout;
    match wall {
        ChaseWall::BumpOut => return layout.heights.framing_top,
        ChaseWall::Front
        | ChaseWall::SetBack
        | ChaseWall::Opened
        | ChaseWall::LeftSide
        | ChaseWall::RightSide
        | ChaseWall::Back => {}
    }
    let over = |right: Length| {
        let place = point(right, layout.faces.upper_stud, Length::ZERO);
        Length::mm(layout.ceiling.z(place.truncate()))
    };
    // under a ridge it is higher between the ends than over them
    let places = [along.low, along.center(), along.high];
    places.map(over).into_iter().fold(Length::ZERO, Length::max)
}

/// The mantel, if it hangs or lies on a wall.
pub(super) fn mantel_on(design: &Design, wall: ChaseWall) -> Option<&Part> {
    let mantel = design.parts.iter().find(|it| it.kind == Kind::Mantel)?;
    let (own, _) = front_wall_at(&design.layout, mantel.heights().low);
    (own == wall).then_some(mantel)
}

/// What a part weighs by its size and material, in kilograms.
pub(super) fn mass(part: &Part) -> f64 {
    part.body.volume() * 1e-9 * part.material.density
}
