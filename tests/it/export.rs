//! What every exported file must hold: the same bytes twice, every part's id, and the world's right hand.

use std::collections::BTreeMap;
use std::io::Cursor;

use chasewright::check::shared;
use chasewright::design::{Stage, Step, design, order};
use chasewright::export::{FORMATS, Products, Set};
use chasewright::geom::Mesh;
use chasewright::solids::{Placed, Solids};
use glam::{DVec3, Vec3};
use serde_json::Value;

use crate::outside::files;
use crate::samples;
use crate::scenarios::demo;
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
    json_of(&file("model.glb"))
}

fn json_of(bytes: &[u8]) -> Value {
    let length = u32::from_le_bytes(bytes[12..16].try_into().unwrap()) as usize;
    serde_json::from_slice(&bytes[20..20 + length]).unwrap()
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    assert_eq!(files(&samples::shapes()), files(&samples::shapes()));
}

#[test]
fn every_part_is_named_where_the_format_has_names() {
    let sample = samples::shapes();
    let (step, glb) = (text("model.step"), glb_json());
    let nodes = glb["nodes"].as_array().unwrap();
    for part in &sample.design.parts {
        let in_step = part
            .id
            .replace('\'', "\\X\\27")
            .replace('½', "\\X2\\00BD\\X0\\");
        assert_eq!(
            step.matches(&format!(",'{in_step}','")).count(),
            1,
            "{}",
            part.id
        );
        let named = nodes
            .iter()
            .filter(|node| node["extras"]["id"] == part.id.as_str());
        assert_eq!(named.count(), 1);
    }
    for clearance in &sample.design.clearances {
        assert!(step.contains(&format!(",'{}','',#", clearance.id)));
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
        // Pipe inside and outside, stub, pipe clearance, two bores: two halves each.
        ("CYLINDRICAL_SURFACE(", 12),
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
    let glb = json_of(&glb_of(&sample, "model.glb"));
    let named = |node: &&Value| node["name"].as_str().unwrap().starts_with("overlap/");
    let found = glb["nodes"].as_array().unwrap().iter().filter(named);
    let pairs: Vec<[&str; 2]> = found
        .map(|node| [0, 1].map(|end| node["extras"]["parts"][end].as_str().unwrap()))
        .collect();
    let expected: Vec<[&str; 2]> = sample
        .overlaps
        .iter()
        .map(|(a, b, _)| [a.as_str(), b.as_str()])
        .collect();
    assert!(!expected.is_empty());
    assert_eq!(sorted(pairs), sorted(expected));
}

/// Each pair with its own order and the list's forgotten.
fn sorted(mut pairs: Vec<[&str; 2]>) -> Vec<[&str; 2]> {
    for pair in &mut pairs {
        pair.sort_unstable();
    }
    pairs.sort_unstable();
    pairs
}

#[test]
fn the_bodies_of_overlaps_have_the_overlaps_volumes() {
    let sample = samples::overlapping();
    let bodies = shared(&sample.design);
    assert_eq!(bodies.len(), sample.overlaps.len());
    for body in bodies {
        let pair = |a: &str, b: &str| body.first == a && body.second == b;
        let known = sample.overlaps.iter();
        let known = known.filter(|(a, b, _)| pair(a, b) || pair(b, a));
        let volume = known
            .map(|it| it.2)
            .next()
            .expect("an overlap of the sample");
        // A tube's facets are inscribed: 64 of them have 0.16 % less area than the circle.
        assert_near(body.mesh.volume() / volume, 1.0, 0.004);
    }
}

fn glb_of(sample: &samples::Sample, name: &str) -> Vec<u8> {
    let files = files(sample);
    files.into_iter().find(|(file, _)| *file == name).unwrap().1
}

fn demo_glb(name: &str) -> Value {
    json_of(&glb_of(&samples::of_params(&demo("reading-room")), name))
}

#[test]
fn the_animation_builds_every_part_once_in_the_order_of_the_trade() {
    let glb = demo_glb("model.glb");
    let animation = &glb["animations"][0];
    let design = design(&demo("reading-room"));
    let nodes = glb["nodes"].as_array().unwrap();
    let mut starts: BTreeMap<(&str, &str), f64> = BTreeMap::new();
    for channel in animation["channels"].as_array().unwrap() {
        let target = &channel["target"];
        let name = nodes[place(&target["node"])]["name"].as_str().unwrap();
        let sampler = &animation["samplers"][place(&channel["sampler"])];
        let times = &glb["accessors"][place(&sampler["input"])];
        let path = target["path"].as_str().unwrap();
        let start = if path == "scale" { "max" } else { "min" };
        let before = starts.insert((name, path), times[start][0].as_f64().unwrap());
        assert!(before.is_none(), "{name}: two channels for its {path}");
    }
    for part in &design.parts {
        let channels = ["scale", "translation"].map(|path| starts.get(&(part.id.as_str(), path)));
        if part.stage == Stage::Existing {
            assert_eq!(channels, [None, None], "{}", part.id);
        } else {
            assert!(
                channels[0].is_some() && channels[0] == channels[1],
                "{}",
                part.id
            );
        }
    }
    let first = |stage: Stage| {
        let parts = design.parts.iter().filter(|part| part.stage == stage);
        let times = parts.map(|part| starts[&(part.id.as_str(), "scale")]);
        times.fold(f64::INFINITY, f64::min)
    };
    let order = order(&design).into_iter().filter_map(|step| match step {
        Step::Stage(stage) => Some(first(stage)),
        Step::Search | Step::Hold(_) | Step::FirstFire => None,
    });
    let order: Vec<f64> = order.filter(|it| it.is_finite()).collect();
    assert!(order.len() > 8, "{order:?}");
    for pair in order.windows(2) {
        assert!(pair[0] < pair[1], "{order:?}");
    }
    let steps = animation["extras"]["steps"].as_array().unwrap();
    let holds = steps
        .iter()
        .filter(|it| it["name"].as_str().unwrap().starts_with("hold"));
    // gas test, vent and framing
    assert_eq!(holds.count(), 3);
}

fn place(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

#[test]
fn the_demo_stays_small_and_has_its_views() {
    let bytes = glb_of(&samples::of_params(&demo("reading-room")), "model.glb");
    assert!(bytes.len() < 1_000_000, "{} bytes", bytes.len());
    let glb = json_of(&bytes);
    let cameras = glb["cameras"].as_array().unwrap().iter();
    let names: Vec<&str> = cameras.map(|it| it["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["front", "side", "plan", "section", "vent"]);
}

#[test]
fn failing_parts_look_it_in_step() {
    let sample = samples::overlapping();
    let step = String::from_utf8(glb_of(&sample, "model.step")).unwrap();
    let red = "COLOUR_RGB('',0.839216,0.156863,0.12549)";
    assert_eq!(step.matches(red).count(), 1);
    assert!(!text("model.step").contains(red));
}

#[test]
fn a_stick_says_its_cut_length() {
    let glb = json_of(&glb_of(&samples::shapes(), "model.glb"));
    let nodes = glb["nodes"].as_array().unwrap();
    let stud = nodes
        .iter()
        .find(|it| it["name"] == "front/stud/3")
        .unwrap();
    assert!(stud["extras"]["cut length"].is_string(), "{stud}");
}

#[test]
fn the_mesh_library_reads_back_what_the_stl_says() {
    let sample = samples::shapes();
    let read = stl_io::read_stl(&mut Cursor::new(file("model.stl"))).unwrap();
    let made = Solids::new(&sample.design, Mesh::CHORD_ERROR).unwrap();
    let mut rest = read.faces.as_slice();
    for (part, placed) in sample.design.parts.iter().zip(&made.parts) {
        let shell = &made.shapes[placed.shape].mesh;
        let (own, after) = rest.split_at(shell.triangles.len());
        for (face, triangle) in own.iter().zip(&shell.triangles) {
            for (found, corner) in face.vertices.iter().zip(triangle.corners) {
                let expected = placed.frame.point(shell.vertices[corner]);
                let found = DVec3::from(Vec3::from(<[f32; 3]>::from(read.vertices[*found])));
                // half a step of 32 bits under 4096 mm
                assert!(found.distance(expected) < 4e-4, "{}", part.id);
            }
        }
        rest = after;
    }
    assert!(rest.is_empty(), "nothing but the parts");
}

#[test]
fn a_design_without_parts_still_makes_files() {
    let design = samples::empty("nothing");
    let products = Products {
        findings: Vec::new().into(),
        ..Products::of(&design)
    };
    for format in FORMATS.iter().filter(|it| it.set == Set::Model) {
        assert!(format.files(&products).is_ok(), "{}", format.file);
    }
}

#[test]
fn stl_rises_to_the_right_where_the_ceiling_does() {
    let sample = samples::shapes();
    let made = Solids::new(&sample.design, Mesh::CHORD_ERROR).unwrap();
    let mut parts = sample.design.parts.iter().zip(&made.parts);
    let before = parts.by_ref().take_while(|it| it.0.id != "room/ceiling");
    let triangles = |placed: &Placed| made.shapes[placed.shape].mesh.triangles.len();
    let before: usize = before.map(|it| triangles(it.1)).sum();
    let ceiling = sample
        .design
        .parts
        .iter()
        .position(|it| it.id == "room/ceiling")
        .unwrap();
    let read = stl_io::read_stl(&mut Cursor::new(file("model.stl"))).unwrap();
    let faces = read
        .faces
        .iter()
        .skip(before)
        .take(triangles(&made.parts[ceiling]));
    let points: Vec<[f64; 3]> = faces
        .flat_map(|it| it.vertices)
        .map(|it| <[f32; 3]>::from(read.vertices[it]).map(f64::from))
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
