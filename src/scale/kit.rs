//! Printable parts in, the pieces of a kit out, lying flat on plates that fit the bed.
//!
//! *Units and frame*: millimetres of the printed model, on the bed: x right, y away, z up from the bed.
//!
//! *Errors*: a piece that is larger than the bed whichever way it lies.

use glam::DVec3;

use super::figure::{Figure, around, in_world};
use super::joint::{FIT, Joints, joints, peg_side};
use super::piece::{GAP, Member, Piece, fitted, laid, pieces};
use super::wedge::wedge;
use super::{Printed, ScaleError, Settings, union};
use crate::design::{Branch, Design};
use crate::geom::{Body, Bounds, Mesh, Shape, Swept};
use crate::units::Length;

/// The bar that shows whether the printer keeps its measures.
const CHECK_BAR: [f64; 3] = [50.0, 10.0, 5.0];

/// What lies within this height of the bed stands on it (a layer of common thickness).
const LAYER: f64 = 0.2;
/// What the wedge of the ceiling over the chase is called.
const WEDGE: &str = "roof wedge";

/// One plate.
#[derive(Debug, Clone)]
pub struct Plate {
    /// What lies on it.
    pub seats: Vec<Seat>,
}

/// A piece of the kit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Numbered {
    /// What it is a piece of: the first word of its parts' ids.
    pub branch: Option<Branch>,
    /// What it is, and which length where it is printed in several.
    pub name: String,
    /// Whether its number is sunk into a hidden face; the others have none that is broad enough.
    pub is_marked: bool,
}

/// A piece on a plate.
#[derive(Debug, Clone)]
pub struct Seat {
    /// The piece, where it lies.
    pub piece: Printed,
    /// Its size on the bed.
    pub size: [Length; 3],
}

/// A kit: its plates, its pieces where they belong, and how they are joined.
#[derive(Debug, Clone)]
pub struct Kit {
    /// What is printed; the check bar lies on the first plate.
    pub plates: Vec<Plate>,
    /// The pieces in the order of their numbers, from 1.
    pub pieces: Vec<Numbered>,
    /// The wedge of the ceiling over the chase at full size, in the world's frame; empty under a flat ceiling.
    pub wedge: Vec<Body>,
    /// Side of a peg, and how much wider its socket is.
    pub peg: [Length; 2],
    /// The numbers of two pieces that pegs join, and how long each peg is.
    pub pegs: Vec<([usize; 2], Length)>,
}

/// The kit of a design.
pub(super) fn kit(
    design: &Design,
    figures: &[Figure<'_>],
    settings: &Settings,
) -> Result<Kit, ScaleError> {
    let mut pieces = pieces(figures, settings);
    let wedge = wedge(design, figures, settings);
    let members = wedge.iter().map(|it| Member::new(None, in_world(it)));
    let members: Vec<Member> = members.collect();
    if !members.is_empty() {
        let piece = Piece {
            branch: None,
            name: WEDGE.to_owned(),
            members,
        };
        pieces.extend(fitted(piece, settings));
    }
    let joints = joints(&pieces, settings);
    let mut printed = vec![check_bar()];
    for ((piece, taken), number) in pieces.iter().zip(&joints.taken).zip(1..) {
        printed.extend(bodies(piece, number, taken, settings)?);
    }
    printed.extend(pegs(&joints, settings));
    let numbered = pieces.into_iter().zip(&joints.marked);
    let numbered = numbered.map(|(piece, is_marked)| Numbered {
        branch: piece.branch,
        name: piece.name,
        is_marked: *is_marked,
    });
    Ok(Kit {
        plates: pack(printed, settings)?,
        pieces: numbered.collect(),
        wedge,
        peg: [peg_side(settings), FIT].map(Length::mm),
        pegs: joints
            .pegs
            .iter()
            .map(|(first, second, length)| ([first + 1, second + 1], Length::mm(*length)))
            .collect(),
    })
}

/// The bodies of a piece, sockets and number taken out, as they lie on the bed.
fn bodies(
    piece: &Piece,
    number: usize,
    taken: &[Bounds],
    settings: &Settings,
) -> Result<Vec<Printed>, ScaleError> {
    let name = format!("{number} {}", piece.name);
    let meshes = piece.members.iter().map(|it| &it.mesh);
    let found = union::bodies_without(&name, meshes, taken)?;
    let several = found.len() > 1;
    let printed = found.iter().zip(1..).map(|(mesh, body)| {
        let name = if several {
            format!("{name}, body {body}")
        } else {
            name.clone()
        };
        flat(Printed {
            name,
            mesh: mesh.scaled(1.0 / f64::from(settings.ratio), DVec3::ZERO),
        })
    });
    Ok(printed.collect())
}

/// The pegs, each a bar of its own.
fn pegs(joints: &Joints, settings: &Settings) -> Vec<Printed> {
    let side = peg_side(settings);
    let pegs = joints.pegs.iter().zip(1..);
    let pegs = pegs.map(|((_, _, length), number)| Printed {
        name: format!("peg {number}, {length:.1} mm"),
        mesh: bar([*length, side, side]),
    });
    pegs.collect()
}

fn bar(size: [f64; 3]) -> Mesh {
    let [x, y, z] = size.map(Length::mm);
    let shape = Shape::Swept(Swept::block(x, y, z));
    Mesh::new(&shape, Mesh::CHORD_ERROR)
}

fn check_bar() -> Printed {
    Printed {
        name: "check bar 50 mm".to_owned(),
        mesh: bar(CHECK_BAR),
    }
}

/// Turns a piece so that its thinnest way is up, its longest to the right and its broader side down, and
/// sets it on the bed.
fn flat(piece: Printed) -> Printed {
    let axes = laid(&around(&piece.mesh));
    let turned = |v: DVec3| {
        let turned = DVec3::new(v[axes[0]], v[axes[1]], v[axes[2]]);
        // An odd exchange of axes would mirror the piece.
        if is_odd(axes) {
            turned * DVec3::new(1.0, -1.0, 1.0)
        } else {
            turned
        }
    };
    let mut mesh = moved(piece.mesh, turned);
    if footing(&mesh, 1.0) > footing(&mesh, -1.0) * 1.001 {
        mesh = moved(mesh, |v| v * DVec3::new(1.0, -1.0, -1.0));
    }
    let low = around(&mesh).low;
    Printed {
        name: piece.name,
        mesh: mesh.scaled(1.0, -low),
    }
}

fn moved(mut mesh: Mesh, turned: impl Fn(DVec3) -> DVec3) -> Mesh {
    for corner in &mut mesh.vertices {
        *corner = turned(*corner);
    }
    for normal in &mut mesh.normals {
        *normal = turned(*normal);
    }
    mesh
}

/// How much of a mesh lies flat within a layer of its highest end (1) or its lowest (−1).
fn footing(mesh: &Mesh, side: f64) -> f64 {
    let bounds = around(mesh);
    let end = if side > 0.0 {
        bounds.high.z
    } else {
        bounds.low.z
    };
    let triangles = mesh
        .triangles
        .iter()
        .map(|it| it.corners.map(|corner| mesh.vertices[corner]));
    let near = triangles.filter(|it| it.iter().all(|v| (v.z - end).abs() < LAYER));
    near.map(|[a, b, c]| ((b - a).cross(c - a).z * side).max(0.0))
        .sum()
}

fn is_odd([a, b, _]: [usize; 3]) -> bool {
    (a + 1) % 3 != b
}

/// Refuses pieces that are larger than the bed; the message names the worst and the ratio that works for all.
fn refuse_large(pieces: &[Printed], settings: &Settings) -> Result<(), ScaleError> {
    let bed = DVec3::from_array(settings.bed.map(Length::to_mm));
    let room = bed - DVec3::new(2.0 * GAP, 2.0 * GAP, 0.0);
    let over = |piece: &Printed| (around(&piece.mesh).size() / room).max_element();
    let worst = pieces.iter().max_by(|a, b| over(a).total_cmp(&over(b)));
    let Some(piece) = worst.filter(|it| over(it) > 1.0) else {
        return Ok(());
    };
    let size = around(&piece.mesh).size();
    let works = (f64::from(settings.ratio) * over(piece)).ceil();
    Err(ScaleError::Refused(format!(
        "at 1:{} {} is {:.0} x {:.0} x {:.0} mm, larger than the bed; 1:{works:.0} is the largest ratio that fits",
        settings.ratio, piece.name, size.x, size.y, size.z
    )))
}

/// Lays pieces in rows, the deepest first, on as many plates as it takes.
fn pack(mut pieces: Vec<Printed>, settings: &Settings) -> Result<Vec<Plate>, ScaleError> {
    let bed = DVec3::from_array(settings.bed.map(Length::to_mm));
    let size = |piece: &Printed| {
        let bounds: Bounds = around(&piece.mesh);
        bounds.high - bounds.low
    };
    refuse_large(&pieces, settings)?;
    pieces[1..].sort_by(|a, b| size(b).y.total_cmp(&size(a).y));
    let mut plates = vec![Plate { seats: Vec::new() }];
    let (mut at, mut row) = (DVec3::new(GAP, GAP, 0.0), 0.0_f64);
    for piece in pieces {
        let size = size(&piece);
        if at.x + size.x > bed.x - GAP {
            at = DVec3::new(GAP, at.y + row + GAP, 0.0);
            row = 0.0;
        }
        if at.y + size.y > bed.y - GAP {
            plates.push(Plate { seats: Vec::new() });
            at = DVec3::new(GAP, GAP, 0.0);
            row = 0.0;
        }
        let seat = Seat {
            size: size.to_array().map(Length::mm),
            piece: Printed {
                mesh: piece.mesh.scaled(1.0, at),
                name: piece.name,
            },
        };
        if let Some(plate) = plates.last_mut() {
            plate.seats.push(seat);
        }
        at.x += size.x + GAP;
        row = row.max(size.y);
    }
    Ok(plates)
}
