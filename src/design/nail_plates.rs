//! Steel plates on the edges of studs, where a bore comes so near that a screw or nail would reach what passes it.
//!
//! In: a design. Out: each plate with its stud. A cable wants 1-1/4 in of wood before it, gas tubing 1-1/2 in, and
//! over flexible tubing the plate goes 4 in past on either side; steel pipe wants none.
//!
//! # Source
//! NEC 300.4(A), from memory. IRC 2015 G2415.7, read in a checklist; of tubing whose kind nobody has said the
//! stricter numbers.

use glam::DVec3;

use super::{Design, Kind, Part, Stock, crossings};
use crate::params::GasMaterial;
use crate::units::{Length, TOLERANCE};

const BEFORE_CABLE: Length = Length::inches(1.25);
const BEFORE_TUBING: Length = Length::inches(1.5);
const PAST_FLEXIBLE: Length = Length::inches(4.0);

/// A plate over an edge of a stud.
#[derive(Debug, Clone, PartialEq)]
pub struct NailPlate {
    /// Id of the stud.
    pub stud: String,
    /// Id of what passes it.
    pub service: String,
    /// Wood between the bore and that edge; not above zero where it breaks out.
    pub wood: Length,
    /// How much there has to be without a plate.
    pub least: Length,
    /// How long the plate is at least, along the stud.
    pub length: Length,
    /// The middle of the bore.
    pub location: DVec3,
}

/// What protects a service in a stud: the wood before it, and how far a plate goes past it.
fn protection(design: &Design, service: &Part) -> Option<(Length, Length)> {
    if service.kind == Kind::Cable {
        return Some((BEFORE_CABLE, Length::ZERO));
    }
    let material = design.params.gas.as_ref().and_then(|it| it.material);
    match material {
        Some(GasMaterial::Steel) => None,
        Some(GasMaterial::Copper) => Some((BEFORE_TUBING, Length::ZERO)),
        Some(GasMaterial::Flexible) | None => Some((BEFORE_TUBING, PAST_FLEXIBLE)),
    }
}

/// Both edges of every stud of wood that a service crosses, with the wood that is before it.
pub fn bored_edges(design: &Design) -> Vec<NailPlate> {
    let mut found = Vec::new();
    for (service, stud, bore) in crossings(&design.parts, design.params.project.unit) {
        let Some((least, past)) = protection(design, service) else {
            continue;
        };
        if matches!(stud.stock, Stock::Steel(_)) {
            continue;
        }
        let radius = bore.diameter / 2.0;
        let near = bore.from_edge - radius;
        let far = bore.width - bore.from_edge - radius;
        found.extend([near, far].map(|wood| NailPlate {
            stud: stud.id.clone(),
            service: service.id.clone(),
            wood,
            least,
            length: bore.diameter + 2.0 * past,
            location: bore.location,
        }));
    }
    found
}

/// Every plate that is needed.
pub fn nail_plates(design: &Design) -> Vec<NailPlate> {
    let mut needed = bored_edges(design);
    needed.retain(|it| (it.least - it.wood).to_mm() > TOLERANCE);
    needed
}
