//! Where top plates with square edges cannot lie: their farther edge stands past the studs, and what is there decides.
//!
//! In: a design. Out: the walls whose plates lie in another part or in a clearance that keeps wood out; theirs are ripped.

use super::{Bars, Design, Kind, Part, Stock};
use crate::geom::{Body, Shape, TOLERANCE, overlaps};
use crate::params::ChaseWall;

/// The walls whose square-edged plates are in the way of something.
pub(super) fn in_the_way(design: &Design) -> Vec<ChaseWall> {
    let plates = design.parts.iter().filter(|it| is_leaning(it));
    let in_the_way = plates.filter(|it| is_in_the_way(it, design));
    in_the_way.filter_map(|it| it.branch.wall()).collect()
}

/// Whether a part is a plate as sold that leans across its wall.
fn is_leaning(part: &Part) -> bool {
    let Shape::Swept(swept) = &part.body.shape else {
        return false;
    };
    let outline = &swept.profile.outline;
    let level = outline
        .windows(2)
        .any(|pair| (pair[1].y - pair[0].y).abs() <= TOLERANCE);
    let is_cut = matches!(part.stock, Stock::Stick(_)) && !part.group.stands_already();
    part.kind == Kind::TopPlate && is_cut && !level
}

fn is_in_the_way(plate: &Part, design: &Design) -> bool {
    let meets =
        |body: &Body| plate.body.bounds.overlaps(&body.bounds) && overlaps(&plate.body, body);
    let mut parts = design.parts.iter().filter(|it| it.id != plate.id);
    let mut volumes = design
        .clearances
        .iter()
        .filter(|it| it.bars != Bars::CombustibleSkins);
    parts.any(|it| meets(&it.body)) || volumes.any(|it| meets(&it.body))
}
