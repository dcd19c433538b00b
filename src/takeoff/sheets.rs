//! Board and panels: where each sheet goes, its joints, and which pieces come out of which sheet.
//!
//! In: the design's sheet parts. Out: pieces with their outlines, in the part's own frame seen from outside, and
//! sheets with the pieces' places. Joints lie on the middle of sticks, and not within 2 in of an opening's corner;
//! where the sticks do not allow it, the joint is said to need a backer.

use glam::{DVec2, DVec3};

use super::layout::is_framing;
use crate::catalog::Material;
use crate::design::{Design, Kind, Part, Stock};
use crate::geom::{Profile, Shape, Swept, TOLERANCE};
use crate::params::{Params, SheetKind};
use crate::units::{Length, Money};

/// How far a joint stays from an opening's corner (common practice, no source).
const FROM_CORNER: Length = Length::inches(2.0);

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

/// A piece of a sheet.
#[derive(Debug, Clone)]
pub struct SheetPiece {
    /// What is written on it.
    pub mark: String,
    /// The part that it is a piece of.
    pub part: String,
    /// Its smallest rectangle: low corner and high corner in the part's own frame.
    pub low: DVec2,
    /// See `low`.
    pub high: DVec2,
    /// Corners of its outline and of what is cut out of it, in the part's own frame.
    pub loops: Vec<Vec<DVec2>>,
    /// Its area in square millimetres.
    pub area: f64,
    /// Joints of it that lie on no stick and need a backer.
    pub backers: Vec<Length>,
}

/// A sheet with the pieces that are cut from it.
#[derive(Debug, Clone)]
pub struct CutSheet {
    /// Marks, each with the place of its rectangle's low corner from the sheet's corner, along the sheet's width
    /// and length, and whether it is turned a quarter.
    pub pieces: Vec<(String, Length, Length, bool)>,
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
    /// No plan needs fewer: the pieces' area over a sheet's.
    pub least: usize,
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
        let face = Face::new(swept, *thickness);
        let mut pieces = pieces(part, &face, &sheet, design);
        for piece in &mut pieces {
            number += 1;
            piece.mark = format!("P{number}");
        }
        match plans.iter_mut().find(|it| it.sheet == sheet) {
            Some(plan) => plan.pieces.extend(pieces),
            None => plans.push(SheetPlan {
                sheet,
                pieces,
                sheets: Vec::new(),
                least: 0,
            }),
        }
    }
    for plan in &mut plans {
        let kerf = match plan.sheet.material {
            SheetKind::Panel => design.params.stock.kerf,
            // scored and snapped
            SheetKind::Drywall | SheetKind::CementBoard => Length::ZERO,
        };
        plan.sheets = nest(&plan.pieces, &plan.sheet, kerf);
        let area: f64 = plan.pieces.iter().map(|it| it.area).sum();
        let whole = plan.sheet.width.to_mm() * plan.sheet.length.to_mm();
        plan.least = count_up(area / whole);
    }
    plans
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a small positive count"
)]
fn count_up(share: f64) -> usize {
    (share - 1e-9).ceil().max(0.0) as usize
}

/// The sheet that the user lists for it, or the usual one: 4 by 8 ft, cement board 3 by 5 ft.
fn sheet_for(part: &Part, thickness: Length, params: &Params) -> Sheet {
    let material = if part.material == Material::CEMENT_BOARD {
        SheetKind::CementBoard
    } else if part.material == Material::PANEL {
        SheetKind::Panel
    } else {
        SheetKind::Drywall
    };
    let listed = params.stock.sheets.iter().find(|it| {
        it.material == material && (it.thickness - thickness).abs().to_mm() <= TOLERANCE
    });
    let usual = match material {
        SheetKind::CementBoard => (Length::inches(36.0), Length::inches(60.0)),
        SheetKind::Drywall | SheetKind::Panel => (Length::inches(48.0), Length::inches(96.0)),
    };
    Sheet {
        material,
        thickness,
        width: listed.map_or(usual.0, |it| it.width),
        length: listed.map_or(usual.1, |it| it.length),
        price: listed.and_then(|it| it.price),
    }
}

/// A joint between two pieces: where, and whether a stick carries it.
#[derive(Clone, Copy)]
struct Joint {
    at: f64,
    on_stick: bool,
}

/// The face of a sheet part: its outline, and the directions of that in the part's own frame.
struct Face {
    profile: Profile,
    across: DVec3,
    up: DVec3,
}

impl Face {
    /// The profile, where it is swept by the thickness; else the block's two larger sides.
    fn new(swept: &Swept, thickness: Length) -> Self {
        let (low, high) = limits(&swept.profile.outline);
        let size = high - low;
        let length = swept.top.first().map_or(0.0, |it| it.height)
            - swept.bottom.first().map_or(0.0, |it| it.height);
        let thin = |side: f64| (side - thickness.to_mm()).abs() <= TOLERANCE;
        let block = |width: f64, across, up| Self {
            profile: Profile::rectangle(Length::mm(width), Length::mm(length)),
            across,
            up,
        };
        if thin(length) {
            Self {
                profile: swept.profile.clone(),
                across: DVec3::X,
                up: DVec3::Y,
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
        return piece(part, &face.profile, (low, high), Vec::new())
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
            let bare = [column[1], row[1]].into_iter().filter(|it| !it.on_stick);
            let bare = bare.map(|it| Length::mm(it.at)).collect();
            found.extend(piece(part, &face.profile, cell, bare));
        }
    }
    found
}

fn limits(corners: &[DVec2]) -> (DVec2, DVec2) {
    corners
        .iter()
        .fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), it| {
            (low.min(*it), high.max(*it))
        })
}

/// Where sticks behind the part allow a joint: across and up the part's own frame.
fn backing(part: &Part, face: &Face, design: &Design) -> (Vec<f64>, Vec<f64>) {
    let frame = &part.body.frame;
    let mut found = (Vec::new(), Vec::new());
    let sticks = design
        .parts
        .iter()
        .filter(|it| is_framing(it) && it.id != part.id);
    for stick in sticks.filter(|it| it.body.bounds.touches(&part.body.bounds)) {
        let middle = frame.local_point(stick.body.bounds.center());
        let size = frame.local_vector(stick.body.bounds.size()).abs();
        if size.dot(face.up) > size.dot(face.across) {
            found.0.push(middle.dot(face.across));
        } else {
            found.1.push(middle.dot(face.up));
        }
    }
    for places in [&mut found.0, &mut found.1] {
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() <= TOLERANCE);
    }
    found
}

/// Where corners of openings and notches lie: across and up.
fn inner_corners(profile: &Profile) -> (Vec<f64>, Vec<f64>) {
    let (low, high) = limits(&profile.outline);
    let inner = profile.loops().flatten();
    let mut found = (Vec::new(), Vec::new());
    for corner in inner {
        if corner.x > low.x + TOLERANCE && corner.x < high.x - TOLERANCE {
            found.0.push(corner.x);
        }
        if corner.y > low.y + TOLERANCE && corner.y < high.y - TOLERANCE {
            found.1.push(corner.y);
        }
    }
    found
}

/// Joints from one end to the other, each as far on as sheet, sticks and corners allow; a stick that would leave
/// less than half of the sheet is no place for one.
fn joints((from, to): (f64, f64), most: f64, sticks: &[f64], corners: &[f64]) -> Vec<Joint> {
    let mut joints = vec![Joint {
        at: from,
        on_stick: true,
    }];
    let mut at = from;
    while to - at > most + TOLERANCE {
        let free = |place: f64| {
            corners
                .iter()
                .all(|it| (it - place).abs() >= FROM_CORNER.to_mm())
        };
        let reach = |place: &&f64| **place > at + most / 2.0 && **place <= at + most + TOLERANCE;
        let on_stick = sticks.iter().filter(reach).rfind(|it| free(**it));
        let joint = on_stick.map_or_else(
            || Joint {
                at: clear_of(at, most, corners),
                on_stick: false,
            },
            |it| Joint {
                at: *it,
                on_stick: true,
            },
        );
        at = joint.at;
        joints.push(joint);
    }
    joints.push(Joint {
        at: to,
        on_stick: true,
    });
    joints
}

/// A whole sheet on, or short of the corner that lies there.
fn clear_of(at: f64, most: f64, corners: &[f64]) -> f64 {
    let near = |place: f64| {
        corners
            .iter()
            // exactly so far is far enough, whatever the rounding
            .find(|it| (**it - place).abs() < FROM_CORNER.to_mm() - TOLERANCE)
    };
    let mut place = at + most;
    while let Some(corner) = near(place) {
        let shorter = corner - FROM_CORNER.to_mm();
        // a corner right at the last joint leaves nothing to choose
        if shorter <= at + FROM_CORNER.to_mm() || shorter >= place {
            return at + most;
        }
        place = shorter;
    }
    place
}

/// The part of a sheet part inside a rectangle.
fn piece(
    part: &Part,
    profile: &Profile,
    (low, high): (DVec2, DVec2),
    backers: Vec<Length>,
) -> Option<SheetPiece> {
    let clipped = profile.loops().map(|corners| clip(corners, low, high));
    let loops: Vec<Vec<DVec2>> = clipped
        .filter(|corners| area(corners).abs() > 1.0)
        .collect();
    let all: f64 = loops.iter().map(|it| area(it)).sum();
    let (low, high) = limits(loops.first()?);
    (all > 1.0).then(|| SheetPiece {
        mark: String::new(),
        part: part.id.clone(),
        low,
        high,
        loops,
        area: all,
        backers,
    })
}

fn area(corners: &[DVec2]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(a, b)| a.perp_dot(*b))
        .sum::<f64>()
        / 2.0
}

/// A closed run of corners within a rectangle (Sutherland and Hodgman, Communications of the ACM 17, 1974).
fn clip(corners: &[DVec2], low: DVec2, high: DVec2) -> Vec<DVec2> {
    let sides = [
        (DVec2::NEG_X, -low.x),
        (DVec2::X, high.x),
        (DVec2::NEG_Y, -low.y),
        (DVec2::Y, high.y),
    ];
    sides
        .into_iter()
        .fold(corners.to_vec(), |corners, (out, limit)| {
            let mut kept = Vec::new();
            let next = corners.iter().cycle().skip(1);
            for (a, b) in corners.iter().zip(next) {
                let (from, to) = (out.dot(*a) - limit, out.dot(*b) - limit);
                if from <= 0.0 {
                    kept.push(*a);
                }
                if (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0) {
                    kept.push(a.lerp(*b, from / (from - to)));
                }
            }
            kept
        })
}

/// A sheet that is being filled with rows across it: how far the rows reach, and the room in each.
struct Filling {
    rows: Vec<(Length, Length, Length)>,
    used: Length,
    cut: CutSheet,
}

/// Pieces into sheets, the largest first, in rows from one factory end.
fn nest(pieces: &[SheetPiece], sheet: &Sheet, kerf: Length) -> Vec<CutSheet> {
    let mut order: Vec<(&SheetPiece, Length, Length, bool)> = pieces
        .iter()
        .map(|piece| {
            let size = piece.high - piece.low;
            let (x, y) = (Length::mm(size.x), Length::mm(size.y));
            // the longer side along the sheet, unless that is too wide across
            let turned = x > y;
            if turned {
                (piece, y, x, true)
            } else {
                (piece, x, y, false)
            }
        })
        .collect();
    order.sort_by(|a, b| {
        let by_length = b.2.to_mm().total_cmp(&a.2.to_mm());
        by_length.then(b.1.to_mm().total_cmp(&a.1.to_mm()))
    });
    let mut sheets: Vec<Filling> = Vec::new();
    for (piece, across, along, turned) in order {
        let placed = sheets
            .iter_mut()
            .any(|it| it.place(piece, (across, along, turned), sheet, kerf));
        if !placed {
            let mut filling = Filling {
                rows: Vec::new(),
                used: Length::ZERO,
                cut: CutSheet { pieces: Vec::new() },
            };
            filling.place(piece, (across, along, turned), sheet, kerf);
            sheets.push(filling);
        }
    }
    sheets.into_iter().map(|it| it.cut).collect()
}

impl Filling {
    fn place(
        &mut self,
        piece: &SheetPiece,
        (across, along, turned): (Length, Length, bool),
        sheet: &Sheet,
        kerf: Length,
    ) -> bool {
        let fits = |need: Length, room: Length| !(need - room).is_positive();
        for (start, height, used) in &mut self.rows {
            if fits(along, *height) && fits(*used + across, sheet.width) {
                self.cut
                    .pieces
                    .push((piece.mark.clone(), *used, *start, turned));
                *used += across + kerf;
                return true;
            }
        }
        if fits(self.used + along, sheet.length) && fits(across, sheet.width) {
            self.cut
                .pieces
                .push((piece.mark.clone(), Length::ZERO, self.used, turned));
            self.rows.push((self.used, along, across + kerf));
            self.used += along + kerf;
            return true;
        }
        false
    }
}
