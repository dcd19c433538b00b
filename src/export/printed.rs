//! A scale model in, files for a printer out: STL for each plate, 3MF with names, units and colors, and a
//! sheet that says what is what, as text and with a picture.
//!
//! *Units and frame*: millimetres of the printed model, z up from the bed. STL in 32 bits; every body is
//! closed there too.
//!
//! *Source*: the STL of the printers' trade, binary form.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::format::{Named, Write};
use super::three_mf::{Object, three_mf};
use super::{ExportError, Format, Set, assembly, drawings_pdf};
use crate::design::Design;
use crate::geom::Mesh;
use crate::scale::{Printed, ScaleModel};

/// The files of a scale model that was made.
pub(super) const FORMAT: Format = Format {
    file: "*-1-*-mm.*",
    set: Set::Scale,
    write: Write::Many(|products| {
        let model = products.scale.as_ref();
        let model = model.ok_or_else(|| unfit("scale model", &"it is not made"))?;
        scale_files(products.design, model)
    }),
};

/// The files of a scale model; their names carry ratio and unit.
///
/// # Errors
/// When a body is not closed in 32 bits, or a file cannot be made.
pub fn scale_files(design: &Design, model: &ScaleModel) -> Result<Vec<Named>, ExportError> {
    let name = &design.params.project.name;
    let tail = format!("1-{}-mm", model.settings.ratio);
    let mut files = Vec::new();
    if model.too_large.is_none() {
        let groups = [(&model.look, 0), (&model.clearances, 1)];
        files.extend([
            (format!("look-{tail}.stl"), stl(model.look.iter())?),
            (
                format!("look-clearances-{tail}.stl"),
                stl(model.clearances.iter())?,
            ),
            (format!("look-{tail}.3mf"), colored(name, &groups)?),
        ]);
    }
    for (number, plate) in (1..).zip(&model.kit.plates) {
        let pieces: Vec<Printed> = plate.seats.iter().map(|it| it.piece.clone()).collect();
        let file = format!("kit-plate-{number}-{tail}");
        files.push((format!("{file}.stl"), stl(pieces.iter())?));
        files.push((format!("{file}.3mf"), colored(name, &[(&pieces, 0)])?));
    }
    files.push((format!("kit-{tail}.txt"), sheet(name, model).into_bytes()));
    let assembly = assembly::sheet(design, model);
    let title = format!("{name}: {}", assembly.title);
    files.push((
        format!("kit-{tail}.pdf"),
        drawings_pdf(&[assembly], &title)?,
    ));
    Ok(files)
}

fn unfit(file: &'static str, reason: &impl ToString) -> ExportError {
    ExportError::Unfit {
        file,
        reason: reason.to_string(),
    }
}

/// A body as a printer's file holds it: corners in 32 bits, equal ones merged.
struct Single {
    corners: Vec<[f32; 3]>,
    triangles: Vec<[usize; 3]>,
}

fn single(body: &Printed) -> Result<Single, ExportError> {
    let Mesh {
        vertices,
        triangles,
        ..
    } = &body.mesh;
    let mut places = BTreeMap::new();
    let mut corners = Vec::new();
    let merged: Vec<usize> = vertices
        .iter()
        .map(|corner| {
            // Adding zero turns −0 into 0.
            let point = (corner.as_vec3() + glam::Vec3::ZERO).to_array();
            *places.entry(point.map(f32::to_bits)).or_insert_with(|| {
                corners.push(point);
                corners.len() - 1
            })
        })
        .collect();
    let triangles = triangles
        .iter()
        .map(|it| it.corners.map(|corner| merged[corner]))
        .filter(|[a, b, c]| a != b && b != c && c != a);
    let single = Single {
        triangles: triangles.collect(),
        corners,
    };
    if is_closed(&single.triangles) {
        Ok(single)
    } else {
        Err(unfit(
            "STL",
            &format!("{} is not closed in 32 bits", body.name),
        ))
    }
}

/// Whether every side is run as often one way as the other, and once each.
fn is_closed(triangles: &[[usize; 3]]) -> bool {
    let mut sides: BTreeMap<(usize, usize), u32> = BTreeMap::new();
    for [a, b, c] in triangles {
        for side in [(*a, *b), (*b, *c), (*c, *a)] {
            *sides.entry(side).or_default() += 1;
        }
    }
    sides
        .iter()
        .all(|((a, b), count)| *count == 1 && sides.contains_key(&(*b, *a)))
}

fn stl<'a>(bodies: impl Iterator<Item = &'a Printed>) -> Result<Vec<u8>, ExportError> {
    let mut facets = Vec::new();
    for body in bodies {
        let single = single(body)?;
        for triangle in &single.triangles {
            let [a, b, c] = triangle.map(|corner| glam::Vec3::from(single.corners[corner]));
            let normal = (b - a).cross(c - a).normalize_or_zero() + glam::Vec3::ZERO;
            facets.push(stl_io::Triangle {
                normal: stl_io::Normal::new(normal.to_array()),
                vertices: [a, b, c].map(|it| stl_io::Vertex::new(it.to_array())),
            });
        }
    }
    let mut bytes = Vec::new();
    stl_io::write_stl(&mut bytes, facets.iter()).map_err(|error| unfit("STL", &error))?;
    Ok(bytes)
}

/// Groups of bodies as a 3MF, each group in one of its colors.
fn colored(title: &str, groups: &[(&Vec<Printed>, usize)]) -> Result<Vec<u8>, ExportError> {
    let mut objects = Vec::new();
    for (bodies, color) in groups {
        for body in *bodies {
            let Single { corners, triangles } = single(body)?;
            objects.push(Object {
                name: &body.name,
                color: *color,
                corners,
                triangles,
            });
        }
    }
    three_mf(title, &objects).map_err(|error| unfit("3MF", &error))
}

/// What lies on each plate, and what is not to scale.
fn sheet(name: &str, model: &ScaleModel) -> String {
    let mut text = format!(
        "{name}, scale model 1:{}, sizes in millimetres as printed\n",
        model.settings.ratio
    );
    for (number, plate) in (1..).zip(&model.kit.plates) {
        let _ = writeln!(text, "\nplate {number}");
        for seat in &plate.seats {
            let [x, y, z] = seat.size.map(crate::units::Length::to_mm);
            let _ = writeln!(
                text,
                "  {:<28} {x:6.1} x {y:6.1} x {z:5.1}",
                seat.piece.name
            );
        }
    }
    text.push('\n');
    for line in assembly::joints(&model.kit) {
        let _ = writeln!(text, "{line}");
    }
    text.push_str("\nnot to scale\n");
    for line in &model.not_to_scale {
        let _ = writeln!(text, "  {line}");
    }
    text
}
