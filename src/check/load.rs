//! What hangs on a wall of the front: its finish and board per area, its mantel.
//!
//! A finish weighs what the parameters say; where they do not, as much as solid granite of its thickness
//! (2,700 kg/m³, common practice, no source).

use crate::design::{Design, Kind, Part, front_wall_at, point};
use crate::params::{ChaseWall, FinishMaterial};
use crate::units::{AreaWeight, Length, Span};

/// 1 lb/ft² in kg/m² NIST SP 811 (2008), appendix B.8.
const AREA_WEIGHT: f64 = 4.882_428;
/// Of solid granite, in kg/m³.
const GRANITE: f64 = 2700.0;

/// The finish that hangs on a wall of the front.
#[derive(Debug, Clone, Copy)]
pub(super) struct WallFinish {
    pub(super) thickness: Length,
    pub(super) material: Option<FinishMaterial>,
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
            material: skins.lower_material,
            weight: skins.lower_weight,
            key: "skins.lower_weight",
        }),
        ChaseWall::SetBack => Some(WallFinish {
            thickness: skins.upper_finish,
            material: skins.upper_material,
            weight: skins.upper_weight,
            key: "skins.upper_weight",
        }),
        ChaseWall::LeftSide | ChaseWall::RightSide | ChaseWall::Back => None,
    }
}

/// What the finish on a wall weighs, in kg/m².
pub(super) fn finish_weight(finish: &WallFinish) -> f64 {
    let solid = finish.thickness.to_mm() * 1e-3 * GRANITE;
    finish.weight.map_or(solid, |it| it.value() * AREA_WEIGHT)
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
