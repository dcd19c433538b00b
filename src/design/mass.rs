//! What a part weighs: by the user's own number where there is one, else by its volume and its material.

use super::{Branch, ChaseFace, Design, Kind, Part};
use crate::geom::Shape;
use crate::params::Params;
use crate::units::AreaWeight;

/// The mantel's name in the buy list, by which `stock.prices` has its price and weight.
pub const MANTEL: &str = "mantel";
/// The name there of a leg under the mantel.
pub const LEG: &str = "leg under the mantel";

/// 1 lb/ft² in kilograms per square millimetre: 4.882428 kg/m² (NIST SP 811 (2008), appendix B.8).
const PER_AREA: f64 = 4.882_428e-6;

impl Design {
    /// What a part weighs, in kilograms.
    pub fn mass(&self, part: &Part) -> f64 {
        told(&self.params, part)
            .unwrap_or_else(|| part.body.volume() * 1e-9 * part.material.density)
    }
}

/// What the user says that the finish of a face weighs with its mortar.
pub fn finish_weight(params: &Params, branch: Branch) -> Option<AreaWeight> {
    let skins = &params.skins;
    match branch.face()? {
        ChaseFace::Front | ChaseFace::Lower => skins.lower_weight,
        ChaseFace::Upper => skins.upper_weight,
        ChaseFace::Left | ChaseFace::Right | ChaseFace::Back => skins.side_weight,
    }
}

/// What a part weighs by the user's own number, in kilograms; of a finish over the face's own area.
fn told(params: &Params, part: &Part) -> Option<f64> {
    let bought = |item: &str| {
        let mut rows = params.stock.prices.iter();
        rows.find(|it| it.item == item)?.weight
    };
    match &part.body.shape {
        Shape::Swept(swept) if part.kind == Kind::Finish => {
            let weight = finish_weight(params, part.branch)?;
            Some(swept.profile.area() * weight.value() * PER_AREA)
        }
        Shape::Swept(_) | Shape::Tube(_) if part.kind == Kind::Mantel => bought(MANTEL),
        // its weight is that of the whole
        Shape::Swept(_) | Shape::Tube(_) if part.kind == Kind::MantelEnd => {
            bought(MANTEL).map(|_| 0.0)
        }
        Shape::Swept(_) | Shape::Tube(_) if part.kind == Kind::Leg => bought(LEG),
        Shape::Swept(_) | Shape::Tube(_) => None,
    }
}
