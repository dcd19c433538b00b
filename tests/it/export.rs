//! What every exported file must hold: the same bytes twice, every part's id, and the world's right hand.

use std::collections::BTreeSet;

use chasewright::export::{FORMATS, Products};
use chasewright::geom::Mesh;
use chasewright::solids::Solids;
use serde_json::Value;

use crate::outside::files;
use crate::samples;
use crate::support::assert_near;

fn file(name: &str) -> Vec<u8> {
    let files = files(&samples::shapes());
    files.into_iter().find(|(file, _)| *file == name).unwrap().1
}

fn text(name: &str) -> String {
    String::from_utf8(file(name)).unwrap()
}

/// The JSON chunk of a GLB file: after a header of 12 bytes and a chunk header of 8.
fn glb_json() -> Value {
    let bytes = file("model.glb");
    let length = u32::from_le_bytes(bytes[12..16].try_into().unwrap()) as usize;
    serde_json::from_slice(&bytes[20..20 + length]).unwrap()
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    assert_eq!(files(&samples::shapes()), files(&samples::shapes()));
}

#[test]
fn every_part_is_named_in_every_file() {
    let sample = samples::shapes();
    let (step, stl, glb) = (text("model.step"), text("model.stl"), glb_json());
    let nodes = glb["nodes"].as_array().unwrap();
    for part in &sample.design.parts {
        let in_step = part.id.replace('\'', "''").replace('½', "\\X2\\00BD\\X0\\");
        assert_eq!(
            step.matches(&format!(",'{in_step}','")).count(),
            1,
            "{}",
            part.id
        );
        assert_eq!(stl.matches(&format!("\nendsolid {}\n", part.id)).count(), 1);
        let named = nodes
            .iter()
            .filter(|node| node["extras"]["id"] == part.id.as_str());
        assert_eq!(named.count(), 1);
    }
    for clearance in &sample.design.clearances {
        assert!(step.contains(&format!(",'{}','',#", clearance.id)));
        assert!(!stl.contains(&clearance.id));
        assert!(
            nodes
                .iter()
                .any(|node| node["name"] == clearance.id.as_str())
        );
    }
}

#[test]
fn identical_parts_share_one_body() {
    let sample = samples::shapes();
    let step = text("model.step");
    let bodies = step.matches("MANIFOLD_SOLID_BREP(").count();
    let things = sample.design.parts.len() + sample.design.clearances.len();
    // Four of the five studs, and one of the two raked ones, are copies.
    assert_eq!(bodies, things - 5);
    let glb = glb_json();
    assert_eq!(glb["meshes"].as_array().unwrap().len(), things - 5);
}

#[test]
fn round_surfaces_are_true_ones() {
    let step = text("model.step");
    for (entity, count) in [
        // Pipe inside and outside, stub, pipe clearance: two halves each.
        ("CYLINDRICAL_SURFACE(", 8),
        // Elbow inside and outside, bend clearance.
        ("TOROIDAL_SURFACE(", 6),
        ("B_SPLINE", 0),
    ] {
        assert_eq!(step.matches(entity).count(), count, "{entity}");
    }
}

#[test]
fn the_glb_tree_is_the_model_tree() {
    let glb = glb_json();
    let nodes = glb["nodes"].as_array().unwrap();
    let child = |node: &Value, name: &str| {
        let children = node["children"].as_array().unwrap();
        let mut found = children
            .iter()
            .map(|child| nodes[usize::try_from(child.as_u64().unwrap()).unwrap()].clone());
        found.find(|node| node["name"] == name).unwrap()
    };
    let framing = child(&nodes[0], "framing");
    let studs = child(&child(&framing, "front"), "stud");
    assert_eq!(studs["children"].as_array().unwrap().len(), 5);
    let stud = child(&studs, "front/stud/3");
    assert_eq!(stud["extras"]["kind"], "stud");
    // (1219.2, −600, 38.1) mm in metres with y up.
    for (axis, expected) in [1.2192, 0.0381, 0.6].into_iter().enumerate() {
        assert_near(stud["translation"][axis].as_f64().unwrap(), expected, 1e-9);
    }
    // A branch that only repeats the group's name is left out.
    child(&child(&child(&nodes[0], "vent"), "pipe"), "vent/pipe/1");
}

#[test]
fn failing_parts_look_it() {
    let sample = samples::overlapping();
    let bytes = files(&sample)
        .into_iter()
        .find(|(file, _)| *file == "model.glb")
        .unwrap()
        .1;
    let text = String::from_utf8_lossy(&bytes).into_owned();
    assert!(text.contains("fails a check"));
    let shapes = String::from_utf8_lossy(&file("model.glb")).into_owned();
    assert!(!shapes.contains("fails a check"));
}

#[test]
fn overlaps_are_bodies_of_their_own() {
    let sample = samples::overlapping();
    let solids = Solids::new(&sample.design, Mesh::CHORD_ERROR).unwrap();
    let body = solids.shapes[0].mesh.clone();
    let products = Products {
        design: &sample.design,
        solids: &solids,
        failing: &BTreeSet::new(),
        overlaps: &[body],
        findings: &[],
    };
    let glb = FORMATS
        .iter()
        .find(|format| format.file == "model.glb")
        .unwrap();
    let bytes = (glb.write)(&products).unwrap();
    assert!(String::from_utf8_lossy(&bytes).contains("overlap/1"));
}

#[test]
fn a_design_without_parts_still_makes_files() {
    let design = samples::empty("nothing");
    let solids = Solids::new(&design, Mesh::CHORD_ERROR).unwrap();
    let products = Products {
        design: &design,
        solids: &solids,
        failing: &BTreeSet::new(),
        overlaps: &[],
        findings: &[],
    };
    for format in FORMATS {
        assert!((format.write)(&products).is_ok(), "{}", format.file);
    }
}

#[test]
fn stl_rises_to_the_right_where_the_ceiling_does() {
    let stl = text("model.stl");
    let ceiling = stl.split("solid room/ceiling\n").nth(1).unwrap();
    let points = ceiling
        .lines()
        .filter_map(|line| line.strip_prefix("vertex "));
    let points: Vec<Vec<f64>> = points
        .map(|line| {
            line.split(' ')
                .map(|number| number.parse().unwrap())
                .collect()
        })
        .collect();
    let height = |x: f64| {
        let there = points.iter().filter(|point| (point[0] - x).abs() < 1e-6);
        there
            .map(|point| point[2])
            .fold(f64::NEG_INFINITY, f64::max)
    };
    // 3000 mm at 1 in 4.
    assert_near(height(3000.0) - height(0.0), 750.0, 1e-3);
}
