//! What finishes gypsum board: tape, compound and corner bead.
//!
//! # Source
//! Joint compound: 1 gal for 100 ft² of board, or 0.4 l for 1 m², for three coats (common practice, no source).

use glam::DVec2;

use super::nest::count_up;
use super::sheets::SheetPlan;
use crate::catalog::Material;
use crate::design::{Design, Kind, Part, Stock, is_veneer};
use crate::geom::{Shape, TOLERANCE, edges};
use crate::units::{Length, Rounding, TapeUnit};

/// Square feet of board that a gallon of compound covers.
const FEET_A_GALLON: f64 = 100.0;
/// Square meters of board that a liter of compound covers.
const METERS_A_LITER: f64 = 2.5;
/// Square feet in a square millimetre.
const SQUARE_FEET: f64 = 1.0 / (304.8 * 304.8);
/// Square metres in a square millimetre.
const SQUARE_METERS: f64 = 1e-6;

/// What finishes the board: what it is, how many, and what for.
pub(super) struct Supply {
    pub(super) item: String,
    pub(super) count: usize,
    pub(super) detail: String,
}

/// Tape, compound and corner bead; nothing where there is no gypsum board.
pub(super) fn supplies(design: &Design, sheets: &[SheetPlan]) -> Vec<Supply> {
    let boards: Vec<&Part> = design.parts.iter().filter(|it| is_gypsum(it)).collect();
    let unit = design.params.project.unit;
    let tape: Length = boards
        .iter()
        .map(|it| joints(it, sheets) + under_ceiling(it))
        .sum();
    let bead = corners(design, &boards);
    let area: f64 = boards.iter().filter_map(|it| face(it)).map(area_of).sum();
    let mut lines = Vec::new();
    for (what, length, purpose) in [
        (
            "paper tape for gypsum board",
            tape,
            "over its joints and along the ceiling",
        ),
        (
            "corner bead for gypsum board",
            bead,
            "at its outside corners and around the recess",
        ),
    ] {
        if length.is_positive() {
            let (item, step, text) = match unit {
                TapeUnit::Inch => (
                    format!("{what}, feet"),
                    Length::inches(12.0),
                    length.feet_inches(unit.marks(), Rounding::Up),
                ),
                TapeUnit::Millimeter => (
                    format!("{what}, meters"),
                    Length::mm(1000.0),
                    length.tape(unit, Rounding::Up),
                ),
            };
            lines.push(Supply {
                item,
                count: count_up(length / step),
                detail: format!("{text} {purpose}"),
            });
        }
    }
    if area > 0.0 {
        let (item, count) = match unit {
            TapeUnit::Inch => (
                "joint compound, gallons",
                area * SQUARE_FEET / FEET_A_GALLON,
            ),
            TapeUnit::Millimeter => (
                "joint compound, liters",
                area * SQUARE_METERS / METERS_A_LITER,
            ),
        };
        lines.push(Supply {
            item: item.to_owned(),
            count: count_up(count),
            detail: "three coats on tape, bead and screws".to_owned(),
        });
    }
    lines
}

fn is_gypsum(part: &Part) -> bool {
    part.kind == Kind::Board && part.material == Material::DRYWALL
}

/// The loops of a board's face, where it is swept through its thickness.
fn face(part: &Part) -> Option<Vec<&[DVec2]>> {
    let (Shape::Swept(swept), Stock::Sheet(thickness)) = (&part.body.shape, &part.stock) else {
        return None;
    };
    let deep = swept.top.first()?.height - swept.bottom.first()?.height;
    let is_face = (deep - thickness.to_mm()).abs() <= TOLERANCE;
    is_face.then(|| swept.profile.loops().collect())
}

fn area_of(loops: Vec<&[DVec2]>) -> f64 {
    loops.into_iter().map(crate::geom::signed_area).sum()
}

fn perimeter(corners: &[DVec2]) -> f64 {
    edges(corners).map(|(a, b)| a.distance(b)).sum()
}

/// The joints between the pieces of a board: what their outlines are longer than its own, halved.
fn joints(part: &Part, sheets: &[SheetPlan]) -> Length {
    let Some(own) = face(part) else {
        return Length::ZERO;
    };
    let pieces = sheets.iter().flat_map(|it| &it.pieces);
    let pieces = pieces.filter(|it| it.part == part.id);
    let cut: f64 = pieces
        .flat_map(|it| &it.loops)
        .map(|it| perimeter(it))
        .sum();
    let whole: f64 = own.into_iter().map(perimeter).sum();
    Length::mm(((cut - whole) / 2.0).max(0.0))
}

/// The upper edge of a board that stands, which is taped to the ceiling.
fn under_ceiling(part: &Part) -> Length {
    let (Some(loops), true) = (face(part), part.body.frame.y.z > 0.9) else {
        return Length::ZERO;
    };
    let outline = loops.first().copied().unwrap_or_default();
    // counter-clockwise, what runs to the left lies over the board
    let over = edges(outline).filter(|(a, b)| b.x < a.x - TOLERANCE);
    Length::mm(over.map(|(a, b)| a.distance(b)).sum())
}

/// Outside corners of gypsum board that no stone covers: the fronts of the sides, and the edges of the recess.
fn corners(design: &Design, boards: &[&Part]) -> Length {
    let skins = &design.params.skins;
    let layout = &design.layout;
    let covered = |out: f64| {
        let is_lower = (out - layout.faces.upper_stud.to_mm()).abs() > TOLERANCE;
        if is_lower || !layout.is_stepped() {
            is_veneer(skins.lower_material)
        } else {
            is_veneer(skins.upper_material)
        }
    };
    let sides = boards.iter().filter(|it| it.branch.is_side_face());
    let mut length = 0.0;
    for side in sides {
        let outline = face(side).and_then(|it| it.first().copied());
        let begins = layout.site.side_begins(skins.board).to_mm();
        let upright = edges(outline.unwrap_or_default())
            .filter(|(a, b)| (a.x - b.x).abs() <= TOLERANCE && a.x - begins > skins.board.to_mm());
        let bare = upright.filter(|(a, _)| !covered(a.x));
        length += bare.map(|(a, b)| (b.y - a.y).abs()).sum::<f64>();
    }
    let upper = if layout.is_stepped() {
        skins.upper_material
    } else {
        skins.lower_material
    };
    if let Some(recess) = layout.recess.as_ref().filter(|_| !is_veneer(upper)) {
        let round = recess.finished.size() + recess.finished_height.size();
        length += 2.0 * round.to_mm();
    }
    Length::mm(length)
}
