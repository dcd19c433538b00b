//! Parts in, meshes that a printer can do out: full size in the world's frame, thin sheets thickened.
//!
//! *Units*: millimetres at full size.

use glam::DVec3;

use super::{ScaleError, Settings};
use crate::design::{Design, Kind, Part, Stock};
use crate::geom::{Body, Bounds, Mesh, Profile, Shape, Swept};
use crate::units::Length;

/// One part as it is printed.
#[derive(Debug, Clone)]
pub(super) struct Figure<'a> {
    pub(super) part: &'a Part,
    pub(super) mesh: Mesh,
}

/// A body's mesh in the world's frame.
pub(super) fn in_world(body: &Body) -> Mesh {
    placed(Mesh::new(&body.shape.unbored(), Mesh::CHORD_ERROR), body)
}

fn placed(mut mesh: Mesh, body: &Body) -> Mesh {
    for corner in &mut mesh.vertices {
        *corner = body.frame.point(*corner);
    }
    for normal in &mut mesh.normals {
        *normal = body.frame.vector(*normal);
    }
    mesh
}

/// Refuses a scale at which a stick of lumber would be too thin.
pub(super) fn refuse_thin_sticks(design: &Design, settings: &Settings) -> Result<(), ScaleError> {
    let sticks = design.parts.iter().filter(|part| {
        !part.group.stands_already() && matches!(part.stock, Stock::Stick(_) | Stock::Rip(_))
    });
    let thinnest = sticks
        .map(|part| (thickness(&local(part)), part))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((thin, part)) = thinnest else {
        return Ok(());
    };
    let least = settings.least().to_mm();
    if thin / f64::from(settings.ratio) >= least {
        return Ok(());
    }
    let works = (thin / least).floor();
    if works < 1.0 {
        return Err(ScaleError::Refused(format!(
            "{} is {thin:.1} mm thick, thinner than the nozzle can print at any scale",
            part.id
        )));
    }
    Err(ScaleError::Refused(format!(
        "at 1:{} {} would be {:.2} mm thick, and the nozzle prints {least:.2} mm; 1:{works:.0} is the smallest model that works",
        settings.ratio,
        part.id,
        thin / f64::from(settings.ratio)
    )))
}

/// Everything that is built, as it is printed; what had to be changed is listed.
pub(super) fn figures<'a>(
    design: &'a Design,
    settings: &Settings,
    changed: &mut Vec<String>,
) -> Vec<Figure<'a>> {
    let built = design
        .parts
        .iter()
        .filter(|part| !part.group.stands_already());
    let figures = built.map(|part| {
        let least = settings.least() * f64::from(settings.ratio);
        let shape = match (&part.stock, &part.body.shape) {
            (Stock::Steel(_), Shape::Swept(swept)) => {
                changed.push(format!("{}: printed solid, its steel is too thin", part.id));
                solid(swept)
            }
            (_, shape) => filled(shape, least, &part.id, changed),
        };
        let mesh = Mesh::new(&shape, Mesh::CHORD_ERROR);
        let mesh = thickened(mesh, part, least, changed);
        Figure {
            part,
            mesh: placed(mesh, &part.body),
        }
    });
    figures.collect()
}

/// A bent sheet as the bar that fills it.
fn solid(swept: &Swept) -> Shape {
    let mut solid = swept.clone();
    solid.profile = Profile::around(&swept.profile.outline);
    solid.into()
}

/// A pipe with a wall that does not print is a bar.
fn filled(shape: &Shape, least: Length, id: &str, changed: &mut Vec<String>) -> Shape {
    let mut shape = shape.clone();
    if !shape.bores().is_empty() {
        shape = shape.unbored();
        changed.push(format!("{id}: printed without its bore"));
    }
    match &mut shape {
        Shape::Tube(tube) if tube.inner > 0.0 && tube.outer - tube.inner < least.to_mm() => {
            tube.inner = 0.0;
            changed.push(format!("{id}: printed solid, its wall is too thin"));
        }
        Shape::Swept(swept) if is_thin_frame(&swept.profile, least) => {
            swept.profile.openings.clear();
            changed.push(format!("{id}: its opening is closed, the rim is too thin"));
        }
        _ => {}
    }
    shape
}

/// Whether some rim between an outline and an opening is too thin; the rims of openings are judged by
/// their boxes.
fn is_thin_frame(profile: &Profile, least: Length) -> bool {
    let around =
        |corners: &[glam::DVec2]| Bounds::around(corners.iter().map(|corner| corner.extend(0.0)));
    let outline = around(&profile.outline);
    profile.openings.iter().any(|opening| {
        let hole = around(opening);
        let rims = [hole.low - outline.low, outline.high - hole.high];
        rims.iter().any(|rim| rim.x.min(rim.y) < least.to_mm())
    })
}

/// Stretches what is too thin along its thinnest axis: skins toward the room, all else about its middle.
fn thickened(mut mesh: Mesh, part: &Part, least: Length, changed: &mut Vec<String>) -> Mesh {
    let least = least.to_mm();
    let bounds = around(&mesh);
    let size = (bounds.high - bounds.low).to_array();
    let middle = (bounds.low + bounds.high) / 2.0;
    for axis in 0..3 {
        if size[axis] >= least || size[axis] <= 0.0 {
            continue;
        }
        let mut along = DVec3::ZERO;
        along[axis] = 1.0;
        // Whichever end lies deeper in the wall stays where it is.
        let into_wall = part.body.frame.vector(along).y;
        let fixed = match part.kind {
            Kind::Board | Kind::Finish if into_wall > 0.5 => bounds.high[axis],
            Kind::Board | Kind::Finish if into_wall < -0.5 => bounds.low[axis],
            _ => middle[axis],
        };
        for corner in &mut mesh.vertices {
            corner[axis] = fixed + (corner[axis] - fixed) * least / size[axis];
        }
        changed.push(format!(
            "{}: {:.1} mm thickened to {least:.1} mm at full size",
            part.id, size[axis]
        ));
    }
    mesh
}

fn local(part: &Part) -> Bounds {
    around(&Mesh::new(&part.body.shape, Mesh::CHORD_ERROR))
}

fn thickness(bounds: &Bounds) -> f64 {
    (bounds.high - bounds.low).min_element()
}

/// The box round a mesh.
pub(super) fn around(mesh: &Mesh) -> Bounds {
    Bounds::around(mesh.vertices.iter().copied())
}

/// The lowest corner of the box round all.
pub(super) fn corner<'a>(meshes: impl Iterator<Item = &'a Mesh>) -> DVec3 {
    let all = meshes.map(around);
    all.fold(Bounds::EMPTY, |all, it| all.union(&it)).low
}
