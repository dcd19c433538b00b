//! The gap between the top plates of the chase and the ceiling over them.
//!
//! In: the plates as they were made, and the ceiling. Out: for each wall its plates under the ceiling, and how high the
//! gap over them comes, plumb.

use glam::DVec3;

use super::{Design, Kind, Part};
use crate::geom::{Convex, EndPlane, Face, TOLERANCE, contact};
use crate::params::ChaseWall;
use crate::units::Length;

/// The gap over one piece of a top plate.
#[derive(Debug, Clone, Copy)]
pub struct PlateGap<'a> {
    /// The plate; where two lie on each other, the upper one.
    pub plate: &'a Part,
    /// Its length from tip to tip.
    pub length: Length,
    /// Its width in plan.
    pub width: Length,
    /// The most that is open over it, plumb.
    pub height: Length,
    /// Where that is, on the plate.
    pub place: DVec3,
}

/// The gap over every top plate of the chase that no other plate lies on, closed ones too.
pub fn plate_gaps(design: &Design) -> Vec<PlateGap<'_>> {
    let plates = design.parts.iter().filter(|it| it.kind == Kind::TopPlate);
    let plates: Vec<&Part> = plates
        .filter(|it| {
            it.branch
                .wall()
                .is_some_and(|it| ChaseWall::FRAMED.contains(&it))
        })
        .collect();
    let upper = plates
        .iter()
        .filter(|it| !plates.iter().any(|other| lies_on(other, it)));
    upper.filter_map(|it| gap(design, it)).collect()
}

/// Whether a plate lies on another.
fn lies_on(upper: &Part, lower: &Part) -> bool {
    upper.branch == lower.branch
        && contact(&lower.body, &upper.body).is_some_and(|it| it.normal.z > 0.3)
}

fn gap<'a>(design: &Design, plate: &'a Part) -> Option<PlateGap<'a>> {
    let along = plate.body.frame.z;
    let across = DVec3::Z.cross(along).normalize_or_zero();
    let ceiling = design.layout.ceiling_of(plate);
    let over = ceiling
        .planes()
        .get(ceiling.plane_at(plate.body.bounds.center().truncate()))?;
    let open = |place: &DVec3| ceiling.z(place.truncate()) - place.z;
    let place = top(plate, over).max_by(|a, b| open(a).total_cmp(&open(b)))?;
    Some(PlateGap {
        plate,
        length: plate.reach(along).size(),
        width: plate.reach(across).size(),
        height: Length::mm(open(&place)),
        place,
    })
}

/// The corners of a plate's top: of its long faces those that look most toward the ceiling, and of these the highest.
fn top<'a>(plate: &'a Part, ceiling: &EndPlane) -> impl Iterator<Item = DVec3> + 'a {
    let (along, up) = (plate.body.frame.z, ceiling.up());
    let pieces = plate.body.pieces.iter();
    let faces = pieces.flat_map(|piece| piece.faces.iter().map(move |face| (piece, face)));
    let long = |face: &Face| face.plane.normal.dot(along).abs() <= TOLERANCE;
    let faces: Vec<(&Convex, &Face)> = faces.filter(|it| long(it.1)).collect();
    let looks = |face: &Face| face.plane.normal.dot(up);
    let most = faces
        .iter()
        .map(|it| looks(it.1))
        .fold(f64::NEG_INFINITY, f64::max);
    let faces: Vec<_> = faces
        .into_iter()
        .filter(|it| most - looks(it.1) <= TOLERANCE)
        .collect();
    let highest = faces
        .iter()
        .map(|it| it.1.plane.offset)
        .fold(f64::NEG_INFINITY, f64::max);
    let faces = faces
        .into_iter()
        .filter(move |it| highest - it.1.plane.offset <= TOLERANCE);
    faces.flat_map(|(piece, face)| piece.corners(face))
}
