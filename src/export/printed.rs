//! A scale model in, files for a printer out: STL for each plate, 3MF with names, units and colors, and a
//! sheet that says what is what, as text and with a picture.
//!
//! *Units and frame*: millimetres of the printed model, z up from the bed. STL in 32 bits; every body is
//! closed there too.
//!
//! *Source*: 3MF Core Specification 1.3 (base materials); the STL of the printers' trade, binary form.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::{self, Cursor, Read as _, Write as _};

use threemf::model::{
    Base, BaseMaterials, Build, Item, Mesh as Mesh3, Metadata, Model, Object, Resources,
    Triangle as Triangle3, Triangles, Unit, Vertex, Vertices,
};

use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

use super::format::{Named, Write};
use super::{ExportError, Format, Set, assembly, drawings_pdf};
use crate::design::Design;
use crate::geom::Mesh;
use crate::scale::{Printed, ScaleModel};

/// The core namespace, by the specification; base materials belong to it.
const CORE: &str = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
/// Name of the part of the container that holds the model.
const USUAL: &str = "3dmodel.model";
/// Colors: what is built, and what must stay clear.
const COLORS: [(&str, &str); 2] = [("chase", "#DEBA84FF"), ("clearance", "#FF6A30FF")];

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
        let colored = [(&model.look, 0), (&model.clearances, 1)];
        files.extend([
            (format!("look-{tail}.stl"), stl(model.look.iter())?),
            (
                format!("look-clearances-{tail}.stl"),
                stl(model.clearances.iter())?,
            ),
            (format!("look-{tail}.3mf"), three_mf(name, &colored)?),
        ]);
    }
    for (number, plate) in (1..).zip(&model.kit.plates) {
        let pieces: Vec<Printed> = plate.seats.iter().map(|it| it.piece.clone()).collect();
        let file = format!("kit-plate-{number}-{tail}");
        files.push((format!("{file}.stl"), stl(pieces.iter())?));
        files.push((format!("{file}.3mf"), three_mf(name, &[(&pieces, 0)])?));
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

fn three_mf(name: &str, groups: &[(&Vec<Printed>, usize)]) -> Result<Vec<u8>, ExportError> {
    let mut objects = Vec::new();
    for (bodies, color) in groups {
        for body in *bodies {
            objects.push(Object {
                // The colors have the first number.
                id: objects.len() + 2,
                name: Some(body.name.clone()),
                pid: Some(1),
                pindex: Some(*color),
                mesh: Some(mesh(&single(body)?)),
                ..Object::default()
            });
        }
    }
    let items = objects.iter().map(|object| Item {
        objectid: object.id,
        transform: None,
        partnumber: object.name.clone(),
    });
    let base = COLORS.map(|(name, color)| Base {
        name: name.to_owned(),
        displaycolor: color.to_owned(),
    });
    let model = Model {
        xmlns: CORE.to_owned(),
        xmlns_m: Some(CORE.to_owned()),
        metadata: vec![Metadata {
            name: "Title".to_owned(),
            value: Some(name.to_owned()),
        }],
        build: Build {
            item: items.collect(),
        },
        resources: Resources {
            object: objects,
            basematerials: Some(vec![BaseMaterials {
                id: 1,
                base: base.to_vec(),
            }]),
        },
        unit: Unit::Millimeter,
    };
    let mut file = Cursor::new(Vec::new());
    threemf::write(&mut file, model).map_err(|error| unfit("3MF", &error))?;
    colors_first(file.into_inner()).map_err(|error| unfit("3MF", &error))
}

/// The same container with the colors before the objects, and under their plain name: the specification
/// (4.1) has resources stand before what refers to them, and the crate writes them after. The model gets the
/// name that some readers look for, where the specification lets any name stand.
fn colors_first(bytes: Vec<u8>) -> io::Result<Vec<u8>> {
    let mut old = ZipArchive::new(Cursor::new(bytes))?;
    let mut new = ZipWriter::new(Cursor::new(Vec::new()));
    for place in 0..old.len() {
        let mut entry = old.by_index(place)?;
        let mut text = String::new();
        entry.read_to_string(&mut text)?;
        let name = entry.name().replace("model.model", USUAL);
        new.start_file(name, SimpleFileOptions::default())?;
        let text = text.replace("/model.model\"", &format!("/{USUAL}\""));
        new.write_all(reordered(&text).as_bytes())?;
    }
    Ok(new.finish()?.into_inner())
}

fn reordered(text: &str) -> String {
    const END: &str = "</m:basematerials>";
    let places = [
        text.find("<m:basematerials"),
        text.find(END),
        text.find("<object"),
    ];
    let [Some(start), Some(end), Some(object)] = places else {
        return text.to_owned();
    };
    let end = end + END.len();
    let colors = text[start..end].replace("m:base", "base");
    let head = text[..object].replace(&format!(" xmlns:m=\"{CORE}\""), "");
    format!(
        "{head}{colors}\n    {}{}",
        &text[object..start],
        &text[end..]
    )
}

fn mesh(single: &Single) -> Mesh3 {
    let vertex = single.corners.iter().map(|[x, y, z]| Vertex {
        x: shortest(*x),
        y: shortest(*y),
        z: shortest(*z),
    });
    let triangle = single.triangles.iter().map(|[v1, v2, v3]| Triangle3 {
        v1: *v1,
        v2: *v2,
        v3: *v3,
    });
    Mesh3 {
        vertices: Vertices {
            vertex: vertex.collect(),
        },
        triangles: Triangles {
            triangle: triangle.collect(),
        },
    }
}

/// A number of 32 bits with no more digits than tell it from its neighbors, so that corners that differ in
/// the STL differ here.
fn shortest(value: f32) -> f64 {
    value
        .to_string()
        .parse()
        .unwrap_or_else(|_| f64::from(value))
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
