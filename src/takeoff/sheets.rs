//! Board and panels: where each sheet goes, its joints, and which pieces come out of which sheet.
//!
//! In: the design's sheet parts. Out: pieces with their outlines, as they are seen from outside, and sheets with the
//! pieces' places. Joints lie on the middle of sticks or anywhere on a deep one such as a header, and not within 2 in
//! of an opening's corner; where the sticks do not allow it, the joint is said to need a backer, and where nothing
//! else fits, to lie at a corner.

mod face;
mod joints;
mod outline;

use glam::{DVec2, DVec3};

use super::nest;
use crate::catalog::Material;
use crate::design::{Design, Kind, Part, Stock};
use crate::geom::{Frame, Profile, Shape, Swept, TOLERANCE, signed_area, within};
use crate::params::{Params, SheetKind};
use crate::units::{Length, Money, Rounding, TapeUnit};
use face::{Face, limits};
use joints::{Joint, backing, inner_corners, joints};
pub use outline::cut_roundings;
use outline::joined;

/// A sheet as it is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What it is.
    pub material: SheetKind,
    /// Its thickness.
    pub thickness: Length,
    /// The shorter side.
    pub width: Length,
    /// The longer side.
    pub length: Length,
    /// What one costs, if the user says so.
    pub price: Option<Money>,
}

impl Sheet {
    /// Its name in the buy list and wherever its pieces are listed.
    pub fn name(&self, unit: TapeUnit) -> String {
        let [thick, wide, long] =
            [self.thickness, self.width, self.length].map(|it| it.tape(unit, Rounding::Nearest));
        format!("{thick} {} {wide} x {long}", self.material.name())
    }

    /// Whether it is the same sheet at the yard: thicknesses that are computed differ by a last bit.
    fn is_like(&self, other: &Self) -> bool {
        let apart = (self.thickness - other.thickness).abs().to_mm();
        let as_thick = Self {
            thickness: self.thickness,
            ..other.clone()
        };
        apart <= TOLERANCE && *self == as_thick
    }
}

/// A piece of a sheet.
#[derive(Debug, Clone)]
pub struct SheetPiece {
    /// What is written on it.
    pub mark: String,
    /// The part that it is a piece of.
    pub part: String,
    /// Its smallest rectangle, seen from outside: low corner and high corner, to the right and up.
    pub low: DVec2,
    /// See `low`.
    pub high: DVec2,
    /// Corners of its outline and of what is cut out of it, in the same way.
    pub loops: Vec<Vec<DVec2>>,
    /// Where these corners lie in the world: x runs as their x does, y as their y, z out of the face.
    pub frame: Frame,
    /// Its area in square millimetres.
    pub area: f64,
    /// Joints of it that lie on no stick and need a backer.
    pub backers: Vec<Length>,
    /// Joints of it that lie at an opening's corner, since nothing else fits; such a joint cracks.
    pub at_corners: Vec<Length>,
}

/// A sheet with the pieces that are cut from it.
#[derive(Debug, Clone)]
pub struct CutSheet {
    /// The pieces.
    pub pieces: Vec<PlacedPiece>,
}

/// A piece in its sheet, the good face up. The sheet's width runs to the right and its length down; a piece that is
/// not turned stands upright in it.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedPiece {
    /// The piece's mark.
    pub mark: String,
    /// From the sheet's left side to the piece's rectangle.
    pub from_side: Length,
    /// From the sheet's upper end to the piece's rectangle.
    pub from_end: Length,
    /// Whether it lies a quarter turn clockwise.
    pub is_turned: bool,
}

/// All sheets of one kind.
#[derive(Debug, Clone)]
pub struct SheetPlan {
    /// The kind.
    pub sheet: Sheet,
    /// The pieces.
    pub pieces: Vec<SheetPiece>,
    /// The sheets.
    pub sheets: Vec<CutSheet>,
    /// No plan that cuts rectangles needs fewer.
    pub least: usize,
    /// What a cut takes; nothing where sheets are scored and snapped.
    pub kerf: Length,
}

impl SheetPlan {
    /// A piece by its mark.
    pub fn piece(&self, mark: &str) -> Option<&SheetPiece> {
        self.pieces.iter().find(|it| it.mark == mark)
    }

    /// Edges of a placed piece, as it hangs, that are edges of the sheet: they need no cut.
    pub fn factory_edges(&self, placed: &PlacedPiece) -> Vec<&'static str> {
        let Some(piece) = self.piece(&placed.mark) else {
            return Vec::new();
        };
        let size = piece.high - piece.low;
        let (size, names) = if placed.is_turned {
            (
                DVec2::new(size.y, size.x),
                ["bottom", "top", "left", "right"],
            )
        } else {
            (size, ["left", "right", "top", "bottom"])
        };
        let (side, end) = (placed.from_side.to_mm(), placed.from_end.to_mm());
        let gaps = [
            side,
            self.sheet.width.to_mm() - side - size.x,
            end,
            self.sheet.length.to_mm() - end - size.y,
        ];
        let on_edge = gaps.into_iter().zip(names);
        let on_edge = on_edge.filter(|(gap, _)| gap.abs() <= TOLERANCE);
        on_edge.map(|it| it.1).collect()
    }
}

/// Plans every sheet part, by kind of sheet in the order of the design.
pub(super) fn plans(design: &Design) -> Vec<SheetPlan> {
    let mut plans: Vec<SheetPlan> = Vec::new();
    let mut number = 0;
    for part in &design.parts {
        let (Stock::Sheet(thickness), Shape::Swept(swept)) = (&part.stock, &part.body.shape) else {
            continue;
        };
        if part.kind == Kind::Finish {
            continue;
        }
        let sheet = sheet_for(part, *thickness, &design.params);
        let face = Face::new(swept, *thickness).seen_from_outside(part, design);
        let mut pieces = pieces(part, &face, &sheet, design);
        for piece in &mut pieces {
            number += 1;
            piece.mark = format!("P{number}");
        }
        match plans.iter_mut().find(|it| it.sheet.is_like(&sheet)) {
            Some(plan) => plan.pieces.extend(pieces),
            None => plans.push(SheetPlan {
                sheet,
                pieces,
                sheets: Vec::new(),
                least: 0,
                kerf: Length::ZERO,
            }),
        }
    }
    for plan in &mut plans {
        if are_spacers(plan, design) {
            take_smaller(plan, &design.params);
        }
        fill(plan, &design.params);
    }
    plans
}

/// Panels cut down from a whole sheet that yards sell, width and length in inches (common practice, no source).
const SMALLER: [(f64, f64); 4] = [(24.0, 24.0), (24.0, 48.0), (24.0, 96.0), (48.0, 48.0)];

/// Whether nothing but packing of headers is cut from a panel that the user does not list.
fn are_spacers(plan: &SheetPlan, design: &Design) -> bool {
    let sheet = &plan.sheet;
    let listed = design.params.listed_sheet(sheet.material, sheet.thickness);
    let is_listed = listed.is_some();
    let spacer = |id: &str| {
        let mut parts = design.parts.iter();
        parts.any(|it| it.id == id && it.kind == Kind::HeaderSpacer)
    };
    let of_panel = sheet.material == SheetKind::StructuralPanel;
    of_panel && !is_listed && plan.pieces.iter().all(|it| spacer(&it.part))
}

/// Takes the smallest panel of which one is enough; a whole sheet where none is.
fn take_smaller(plan: &mut SheetPlan, params: &Params) {
    let sizes: Vec<(f64, f64)> = plan
        .pieces
        .iter()
        .map(|it| it.high - it.low)
        .map(|it| (it.x, it.y))
        .collect();
    for (width, length) in SMALLER {
        let [width, length] = [width, length].map(Length::inches);
        let sheet = (width.to_mm(), length.to_mm());
        let fits = |(a, b): &(f64, f64)| {
            (*a <= sheet.0 && *b <= sheet.1) || (*b <= sheet.0 && *a <= sheet.1)
        };
        if sizes.iter().all(fits) && nest::nest(&sizes, sheet, params.stock.kerf.to_mm()).len() == 1
        {
            plan.sheet.width = width;
            plan.sheet.length = length;
            return;
        }
    }
}

/// Nests the pieces into sheets.
fn fill(plan: &mut SheetPlan, params: &Params) {
    plan.kerf = match plan.sheet.material {
        SheetKind::StructuralPanel => params.stock.kerf,
        // scored and snapped
        SheetKind::GypsumBoard | SheetKind::CementBoard => Length::ZERO,
    };
    let sizes = plan.pieces.iter().map(|it| it.high - it.low);
    let sizes: Vec<(f64, f64)> = sizes.map(|it| (it.x, it.y)).collect();
    let sheet = (plan.sheet.width.to_mm(), plan.sheet.length.to_mm());
    let kerf = plan.kerf.to_mm();
    let area = plan.pieces.iter().map(|it| it.area).sum();
    plan.least = nest::least(&sizes, area, sheet, kerf);
    let sheets = nest::nest(&sizes, sheet, kerf).into_iter();
    plan.sheets = sheets
        .map(|places| {
            let placed = places.into_iter().map(|it| PlacedPiece {
                mark: plan.pieces[it.piece].mark.clone(),
                from_side: it.at.0,
                from_end: it.at.1,
                is_turned: it.is_turned,
            });
            CutSheet {
                pieces: placed.collect(),
            }
        })
        .collect();
}

/// The sheet that the user lists for it, or the usual one: 4 by 8 ft, cement board 3 by 5 ft.
fn sheet_for(part: &Part, thickness: Length, params: &Params) -> Sheet {
    let material = if part.material == Material::CEMENT_BOARD {
        SheetKind::CementBoard
    } else if part.material == Material::PANEL {
        SheetKind::StructuralPanel
    } else {
        SheetKind::GypsumBoard
    };
    let (width, length) = params.sheet_size(material, thickness);
    let listed = params.listed_sheet(material, thickness);
    Sheet {
        material,
        thickness,
        width,
        length,
        price: listed.and_then(|it| it.price),
    }
}

impl Face {
    /// The face as it is seen from outside the chase: a side that looks the other way is mirrored.
    fn seen_from_outside(self, part: &Part, design: &Design) -> Self {
        let chase = &design.layout.site.chase;
        let outward = part.body.bounds.center().x - chase.center().to_mm();
        let toward = part.body.frame.vector(self.across.cross(self.up)).x;
        if toward * outward >= -TOLERANCE {
            return self;
        }
        let mirrored = |corners: &Vec<DVec2>| {
            let corners = corners.iter().rev();
            corners.map(|it| DVec2::new(0.0 - it.x, it.y)).collect()
        };
        let openings = self.profile.openings.iter().map(mirrored);
        let mut profile = Profile::polygon(mirrored(&self.profile.outline));
        for opening in openings {
            profile = profile.with_opening(opening);
        }
        Self {
            profile,
            across: -self.across,
            up: self.up,
            origin: self.origin,
        }
    }

    /// The profile, where it is swept by the thickness; else the block's two larger sides.
    fn new(swept: &Swept, thickness: Length) -> Self {
        let (low, high) = limits(&swept.profile.outline);
        let size = high - low;
        let length = swept.top.first().map_or(0.0, |it| it.height)
            - swept.bottom.first().map_or(0.0, |it| it.height);
        let thin = |side: f64| (side - thickness.to_mm()).abs() <= TOLERANCE;
        let bottom = swept.bottom.first().map_or(0.0, |it| it.height);
        let block = |width: f64, across, up| Self {
            profile: Profile::rectangle(Length::mm(width), Length::mm(length)),
            across,
            up,
            origin: low.extend(bottom),
        };
        if thin(length) {
            Self {
                profile: swept.profile.clone(),
                across: DVec3::X,
                up: DVec3::Y,
                origin: DVec3::ZERO,
            }
        } else if thin(size.x) {
            block(size.y, DVec3::Y, DVec3::Z)
        } else {
            block(size.x, DVec3::X, DVec3::Z)
        }
    }
}

fn pieces(part: &Part, face: &Face, sheet: &Sheet, design: &Design) -> Vec<SheetPiece> {
    let (low, high) = limits(&face.profile.outline);
    let backing = backing(part, face, design);
    let corners = inner_corners(&face.profile);
    let fits = |size: DVec2| {
        let (short, long) = (size.min_element(), size.max_element());
        short <= sheet.width.to_mm() + TOLERANCE && long <= sheet.length.to_mm() + TOLERANCE
    };
    if fits(high - low) {
        return piece(part, face, (low, high), Default::default())
            .into_iter()
            .collect();
    }
    // upright sheets, unless the part is low enough to be covered by one sheet lying down
    let lying = high.y - low.y <= sheet.width.to_mm() + TOLERANCE;
    let (across, up) = if lying {
        (sheet.length, sheet.width)
    } else {
        (sheet.width, sheet.length)
    };
    let columns = joints((low.x, high.x), across.to_mm(), &backing.0, &corners.0);
    let rows = joints((low.y, high.y), up.to_mm(), &backing.1, &corners.1);
    let mut found = Vec::new();
    for column in columns.windows(2) {
        for row in rows.windows(2) {
            let cell = (
                DVec2::new(column[0].at, row[0].at),
                DVec2::new(column[1].at, row[1].at),
            );
            let ends = [column[1], row[1]].into_iter();
            let places = |wanted: fn(&Joint) -> bool| {
                let ends = ends.clone().filter(wanted);
                ends.map(|it| Length::mm(it.at)).collect()
            };
            let said = (places(|it| !it.on_stick), places(|it| it.at_corner));
            found.extend(piece(part, face, cell, said));
        }
    }
    found
}

/// The part of a sheet part inside a rectangle.
fn piece(
    part: &Part,
    face: &Face,
    (low, high): (DVec2, DVec2),
    (backers, at_corners): (Vec<Length>, Vec<Length>),
) -> Option<SheetPiece> {
    let frame = &part.body.frame;
    let clipped = face
        .profile
        .loops()
        .map(|corners| within(corners, low, high));
    let loops: Vec<Vec<DVec2>> = clipped
        .filter(|corners| signed_area(corners).abs() > 1.0)
        .collect();
    let all: f64 = loops.iter().map(|it| signed_area(it)).sum();
    let (low, high) = limits(loops.first()?);
    let loops = joined(loops);
    (all > 1.0).then(|| SheetPiece {
        mark: String::new(),
        part: part.id.clone(),
        low,
        high,
        loops,
        frame: Frame::new(
            frame.point(face.origin),
            frame.vector(face.across),
            frame.vector(face.up),
        ),
        area: all,
        backers,
        at_corners,
    })
}
