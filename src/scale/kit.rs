//! Printable parts in, the pieces of a kit out, lying flat on plates that fit the bed.
//!
//! *Units and frame*: millimetres of the printed model, on the bed: x right, y away, z up from the bed.
//!
//! *Errors*: a piece that is larger than the bed whichever way it lies.

use glam::DVec3;

use super::figure::{Figure, around};
use super::{Printed, ScaleError, Settings, union};
use crate::geom::{Bounds, Mesh, Plane, Shape, Swept};
use crate::units::Length;

/// Between two pieces on a plate, and between a piece and its edge (common practice, no source).
const GAP: f64 = 4.0;
/// The bar that shows whether the printer keeps its measures.
const CHECK_BAR: [f64; 3] = [50.0, 10.0, 5.0];

/// One plate.
#[derive(Debug, Clone)]
pub struct Plate {
    /// What lies on it.
    pub seats: Vec<Seat>,
}

/// A piece on a plate.
#[derive(Debug, Clone)]
pub struct Seat {
    /// The piece, where it lies.
    pub piece: Printed,
    /// Its size on the bed.
    pub size: [Length; 3],
}

/// The plates of a kit; the check bar lies on the first.
pub(super) fn plates(
    figures: &[Figure<'_>],
    settings: &Settings,
) -> Result<Vec<Plate>, ScaleError> {
    let mut pieces = vec![check_bar()];
    for name in branches(figures) {
        let parts = figures.iter().filter(|it| branch(it) == name);
        let bodies = union::bodies(&name, parts.map(|it| &it.mesh))?;
        let several = bodies.len() > 1;
        for (mesh, number) in bodies.iter().zip(1..) {
            let name = if several {
                format!("{name} {number}")
            } else {
                name.clone()
            };
            let mesh = mesh.scaled(1.0 / f64::from(settings.ratio), DVec3::ZERO);
            pieces.extend(split(flat(Printed { name, mesh }), settings));
        }
    }
    pack(pieces, settings)
}

/// The piece that a part belongs to: the first word of its id.
fn branch<'a>(figure: &Figure<'a>) -> &'a str {
    figure.part.id.split('/').next().unwrap_or_default()
}

/// Each piece's name once, in the order of the design.
fn branches(figures: &[Figure<'_>]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for figure in figures {
        let name = branch(figure);
        if names.iter().all(|known| known != name) {
            names.push(name.to_owned());
        }
    }
    names
}

fn check_bar() -> Printed {
    let [x, y, z] = CHECK_BAR.map(Length::mm);
    let shape = Shape::Swept(Swept::block(x, y, z));
    Printed {
        name: "check bar 50 mm".to_owned(),
        mesh: Mesh::new(&shape, Mesh::CHORD_ERROR),
    }
}

/// Turns a piece so that its thinnest way is up and its longest to the right, and sets it on the bed.
fn flat(piece: Printed) -> Printed {
    let bounds = around(&piece.mesh);
    let size = (bounds.high - bounds.low).to_array();
    let mut axes = [0, 1, 2];
    axes.sort_by(|a, b| size[*b].total_cmp(&size[*a]));
    let turned = |v: DVec3| {
        let turned = DVec3::new(v[axes[0]], v[axes[1]], v[axes[2]]);
        // An odd exchange of axes would mirror the piece.
        if is_odd(axes) {
            turned * DVec3::new(1.0, -1.0, 1.0)
        } else {
            turned
        }
    };
    let mut mesh = piece.mesh;
    for corner in &mut mesh.vertices {
        *corner = turned(*corner);
    }
    for normal in &mut mesh.normals {
        *normal = turned(*normal);
    }
    let low = around(&mesh).low;
    Printed {
        name: piece.name,
        mesh: mesh.scaled(1.0, -low),
    }
}

/// A piece that is larger than the bed, cut square into as many equal lengths as it takes; the halves
/// are glued end to end.
fn split(piece: Printed, settings: &Settings) -> Vec<Printed> {
    let size = around(&piece.mesh).high;
    let mut pieces = vec![piece];
    for axis in 0..2 {
        let room = settings.bed[axis].to_mm() - 2.0 * GAP;
        let mut count = 1.0;
        while size[axis] / count > room {
            count += 1.0;
        }
        let mut along = DVec3::ZERO;
        along[axis] = 1.0;
        let mut cut = Vec::new();
        for piece in pieces {
            cut.extend(lengths(piece, along, size[axis] / count, count));
        }
        pieces = cut;
    }
    pieces
}

/// A piece in equal lengths along a direction of the bed.
fn lengths(piece: Printed, along: DVec3, length: f64, count: f64) -> Vec<Printed> {
    if count <= 1.0 {
        return vec![piece];
    }
    let mut found = Vec::new();
    let mut number = 0.0;
    while number < count {
        let low = Plane::through(along * (length * number), -along);
        let high = Plane::through(along * (length * (number + 1.0)), along);
        let mesh = piece.mesh.below(&low).below(&high);
        let corner = around(&mesh).low;
        number += 1.0;
        found.push(Printed {
            name: format!("{}, length {number} of {count}", piece.name),
            mesh: mesh.scaled(1.0, -corner),
        });
    }
    found
}

fn is_odd([a, b, _]: [usize; 3]) -> bool {
    (a + 1) % 3 != b
}

/// Lays pieces in rows, the deepest first, on as many plates as it takes.
fn pack(mut pieces: Vec<Printed>, settings: &Settings) -> Result<Vec<Plate>, ScaleError> {
    let bed = DVec3::from_array(settings.bed.map(Length::to_mm));
    let size = |piece: &Printed| {
        let bounds: Bounds = around(&piece.mesh);
        bounds.high - bounds.low
    };
    pieces[1..].sort_by(|a, b| size(b).y.total_cmp(&size(a).y));
    let mut plates = vec![Plate { seats: Vec::new() }];
    let (mut at, mut row) = (DVec3::new(GAP, GAP, 0.0), 0.0_f64);
    for piece in pieces {
        let size = size(&piece);
        let room = bed - DVec3::new(2.0 * GAP, 2.0 * GAP, 0.0);
        if (size / room).max_element() > 1.0 {
            let works = (f64::from(settings.ratio) * (size / room).max_element()).ceil();
            return Err(ScaleError::Refused(format!(
                "at 1:{} {} is {:.0} x {:.0} x {:.0} mm, larger than the bed; 1:{works:.0} is the largest ratio that fits",
                settings.ratio, piece.name, size.x, size.y, size.z
            )));
        }
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
