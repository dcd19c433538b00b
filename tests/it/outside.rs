//! Writes the sample designs, with what is known of them, for the readers in `tests/outside`.
//!
//! Each design gets a folder of its own in `target/tmp/outside`: every exported file, and a
//! `manifest.json` with each part's id, group and exact volume, the mesh of its shape and the frame that it
//! stands in, and the overlaps. Units: millimetres.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use chasewright::cli;
use chasewright::design::Design;
use chasewright::export::{FORMATS, Products, Set, StepForm, StepSchema, StepUnit};
use chasewright::geom::{Frame, Mesh};
use chasewright::params::{self, Params};
use chasewright::solids::{Solid, Solids, Surface};
use chasewright::takeoff::{cut_lengths, marks};
use chasewright::units::Length;
use glam::DVec3;
use serde_json::{Value, json};

use crate::generate::random_params;
use crate::samples::{self, Sample};
use crate::support::{file, is_quick};

/// The exported files of a sample, in the order of the formats.
pub(crate) fn files(sample: &Sample) -> Vec<(&'static str, Vec<u8>)> {
    let products = products(sample, StepForm::default());
    let formats = FORMATS.iter().filter(|it| it.set == Set::Model);
    formats
        .map(|it| (it.file, file(it.file, &products)))
        .collect()
}

/// The same model as STEP in the other forms, each under a name that says which.
fn other_steps(sample: &Sample) -> Vec<(&'static str, Vec<u8>)> {
    let forms = [
        ("model-ap214.step", StepSchema::Ap214, StepUnit::Millimeter),
        ("model-in.step", StepSchema::Ap242, StepUnit::Inch),
        ("model-ap214-in.step", StepSchema::Ap214, StepUnit::Inch),
    ];
    let files = forms.map(|(name, schema, unit)| {
        let form = StepForm { schema, unit };
        (name, file("model.step", &products(sample, form)))
    });
    files.into()
}

fn products(sample: &Sample, step: StepForm) -> Products<'_> {
    let overlaps = sample.overlaps.iter().map(|(_, b, _)| b.clone());
    Products {
        failing: overlaps.collect::<BTreeSet<_>>().into(),
        findings: Vec::new().into(),
        step,
        ..Products::of(&sample.design)
    }
}

/// A shape's mesh, in its own frame.
fn shape(solid: &Solid) -> Value {
    let vertices = solid.mesh.vertices.iter().map(DVec3::to_array);
    let triangles = solid.mesh.triangles.iter().map(|it| it.corners);
    let faces = &solid.brep.faces;
    json!({
        "vertices": vertices.collect::<Vec<_>>(),
        "triangles": triangles.collect::<Vec<_>>(),
        "round": faces.iter().any(|face| !matches!(face.surface, Surface::Plane { .. })),
    })
}

/// What every part's file says of it beside its shape, by its id; lengths in millimetres.
fn attributes(design: &Design) -> BTreeMap<&String, Value> {
    let (marks, lengths) = (marks(design), cut_lengths(design));
    let parts = design.parts.iter().map(|part| {
        let mut said = json!({
            "material": part.material.name,
            "stock": part.stock.to_string(),
            "stage": part.stage.name(),
        });
        if let Some(mark) = marks.get(&part.id) {
            said["mark"] = json!(mark);
        }
        if let Some(length) = lengths.get(&part.id) {
            said["cut length"] = json!(length.exact.to_mm());
        }
        (&part.id, said)
    });
    parts.collect()
}

/// What the outside readers compare the files with.
pub(crate) fn manifest(sample: &Sample, chord_error: Length) -> Value {
    let design = &sample.design;
    let solids = Solids::new(design, chord_error).unwrap();
    let parts = design.parts.iter().zip(&solids.parts);
    let parts = parts.map(|(part, placed)| (&part.id, part.group.name(), "part", placed));
    let volumes = design.clearances.iter().zip(&solids.clearances);
    let volumes = volumes.map(|(volume, placed)| (&volume.id, "clearances", "clearance", placed));
    let attributes = attributes(design);
    let none = json!({});
    let items = parts.chain(volumes).map(|(id, group, role, placed)| {
        let Frame { origin, x, y, z } = placed.frame;
        let frame = [origin, x, y, z].map(|vector| vector.to_array());
        json!({
            "id": id,
            "group": group,
            "role": role,
            "volume": sample.volumes[id],
            "shape": placed.shape,
            "frame": frame,
            "attributes": attributes.get(id).unwrap_or(&none),
        })
    });
    let overlaps = sample.overlaps.iter();
    let overlaps = overlaps.map(|(a, b, volume)| json!({ "a": a, "b": b, "volume": volume }));
    json!({
        "name": design.params.project.name,
        "chord_error": chord_error.to_mm(),
        "section": design.layout.unit_center.to_mm(),
        "rises_to_the_right": sample.rises_to_the_right,
        "shapes": solids.shapes.iter().map(shape).collect::<Vec<_>>(),
        "items": items.collect::<Vec<_>>(),
        "overlaps": overlaps.collect::<Vec<_>>(),
    })
}

/// A folder for what the outside readers read.
pub(crate) fn folder(collection: &str, name: &str) -> PathBuf {
    let root = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
    let folder = root.join(collection).join(name);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn emit(name: &str, sample: &Sample, files: impl IntoIterator<Item = (impl AsRef<Path>, Vec<u8>)>) {
    let folder = folder("outside", name);
    for (file, bytes) in files {
        std::fs::write(folder.join(file), bytes).unwrap();
    }
    let manifest = manifest(sample, Mesh::CHORD_ERROR).to_string();
    std::fs::write(folder.join("manifest.json"), manifest).unwrap();
}

#[test]
fn samples_are_written_for_the_outside_readers() {
    for (folder, sample) in [
        ("shapes", samples::shapes()),
        ("overlapping", samples::overlapping()),
    ] {
        let files = files(&sample).into_iter().chain(other_steps(&sample));
        emit(folder, &sample, files);
    }
}

/// Every parameter file in a folder, with its name.
pub(crate) fn parameter_files(folder: &str) -> Vec<(String, Params)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "toml")
        })
        .collect();
    files.sort();
    let read = |path: PathBuf| {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let text = std::fs::read_to_string(path).unwrap();
        (name, params::read(&text).unwrap())
    };
    files.into_iter().map(read).collect()
}

/// How many random designs go through every outside reader.
const RANDOM_DESIGNS: u64 = 50;

/// The first of them; `tests/random` walks through them all.
fn first_design() -> u64 {
    let first = std::env::var("FIRST_DESIGN");
    first.map_or(0, |it| it.parse().expect("FIRST_DESIGN is a number"))
}

#[test]
fn designs_of_parameters_are_written_for_the_outside_readers() {
    let mut designs = parameter_files("params");
    if is_quick() {
        designs.retain(|(name, _)| name == "reading-room");
    }
    assert!(!designs.is_empty());
    for (name, params) in &designs {
        let sample = samples::of_params(params);
        emit(name, &sample, other_steps(&sample));
    }
    if !is_quick() {
        designs.extend(parameter_files("tests/params/good"));
        let first = first_design();
        let seeds = first..first + RANDOM_DESIGNS;
        designs.extend(seeds.map(|seed| (format!("random-{seed}"), random_params(seed))));
    }
    for (name, params) in designs {
        let form = cli::BuildForm {
            drawings: !name.starts_with("random-"),
            ..cli::BuildForm::default()
        };
        let built = (cli::WORK.build)(&params, form, &mut |_| true).unwrap();
        let files = built.files.into_iter().map(|file| (file.name, file.bytes));
        emit(&name, &samples::of_params(&params), files);
    }
}
