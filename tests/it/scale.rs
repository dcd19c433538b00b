//! The scale model: closed in 32 bits, on the bed, in the ratio that its name says, or refused with one that works.

use std::collections::BTreeMap;
use std::io::Cursor;

use chasewright::design::{Group, design};
use chasewright::export::scale_files;
use chasewright::geom::{Bounds, Mesh};
use chasewright::scale::{Printed, ScaleError, ScaleModel, Settings, model};
use chasewright::units::Length;

use crate::generate::random_params;
use crate::scenarios::demo;
use crate::support::assert_near;

fn settings(ratio: u32) -> Settings {
    Settings {
        ratio,
        bed: [220.0, 220.0, 250.0].map(Length::mm),
        nozzle: Length::mm(0.4),
    }
}

fn made(ratio: u32) -> ScaleModel {
    model(&design(&demo("reading-room")), &settings(ratio)).unwrap()
}

fn bounds<'a>(meshes: impl IntoIterator<Item = &'a Mesh>) -> Bounds {
    let corners = meshes.into_iter().flat_map(|it| &it.vertices);
    Bounds::around(corners.copied())
}

/// Sides of triangles that are not run once each way.
fn open_sides(mesh: &stl_io::IndexedMesh) -> usize {
    let mut sides: BTreeMap<(usize, usize), i32> = BTreeMap::new();
    for face in &mesh.faces {
        let [a, b, c] = face.vertices;
        for (from, to) in [(a, b), (b, c), (c, a)] {
            *sides.entry((from.min(to), from.max(to))).or_default() +=
                if from < to { 1 } else { -1 };
        }
    }
    sides.values().filter(|it| **it != 0).count()
}

#[test]
fn every_file_of_the_demo_is_closed() {
    let files = scale_files("reading room", &made(12)).unwrap();
    let mut read = 0;
    for (name, bytes) in &files {
        assert!(name.contains("-1-12-mm."), "{name}");
        if name.ends_with("stl") {
            let mesh = stl_io::read_stl(&mut Cursor::new(bytes)).unwrap();
            assert!(!mesh.faces.is_empty(), "{name}");
            assert_eq!(open_sides(&mesh), 0, "{name}");
            read += 1;
        } else if name.ends_with("3mf") {
            let models = threemf::read(Cursor::new(bytes)).unwrap();
            let objects = &models[0].resources.object;
            assert!(
                objects
                    .iter()
                    .all(|it| it.name.is_some() && it.pid == Some(1)),
                "{name}"
            );
            read += 1;
        }
    }
    assert!(read >= 6, "{read} files");
}

/// The mesh library divides flat faces one way or another from run to run; they are divided anew, so
/// the files of the demo are the same byte by byte.
#[test]
fn the_same_model_has_the_same_bytes() {
    let files = || {
        let model = made(12);
        scale_files("Reading room", &model).unwrap()
    };
    let (first, second) = (files(), files());
    assert!(!first.is_empty());
    assert!(first == second, "the files differ from run to run");
}

#[test]
fn the_same_model_has_the_same_corners() {
    let (first, second) = (made(12), made(12));
    let bodies = |model: &ScaleModel| {
        let pieces = model.plates.iter().flat_map(|it| &it.seats);
        let pieces = pieces.map(|it| it.piece.clone());
        let all: Vec<Printed> = pieces.chain(model.look.clone()).collect();
        all
    };
    for (a, b) in bodies(&first).iter().zip(&bodies(&second)) {
        assert_eq!(a.name, b.name);
        let corners = |it: &Printed| {
            let corners = it
                .mesh
                .vertices
                .iter()
                .map(|v| (v * 1e6).round().to_array());
            let mut corners: Vec<[f64; 3]> = corners.collect();
            corners.sort_by(|a, b| a.partial_cmp(b).unwrap());
            corners
        };
        assert_eq!(corners(a), corners(b), "{}", a.name);
        assert_near(a.mesh.volume() / b.mesh.volume(), 1.0, 1e-9);
    }
}

#[test]
fn the_look_has_the_size_of_the_chase_in_its_ratio() {
    let design = design(&demo("reading-room"));
    let built = design.parts.iter().filter(|it| it.group != Group::Room);
    let full = built.fold(Bounds::EMPTY, |all, it| all.union(&it.body.bounds));
    for ratio in [12, 16] {
        let printed = made(ratio);
        let look = bounds(printed.look.iter().map(|it| &it.mesh));
        let (size, expected) = (
            look.high - look.low,
            (full.high - full.low) / f64::from(ratio),
        );
        // Sheets are thickened to twice the nozzle, and bodies grow by up to 1 mm before they are joined.
        for axis in 0..3 {
            assert_near(size[axis], expected[axis], 0.9);
        }
    }
}

#[test]
fn pieces_lie_on_the_bed_and_apart() {
    let printed = made(12);
    let bed = printed.settings.bed.map(Length::to_mm);
    for plate in &printed.plates {
        let boxes: Vec<Bounds> = plate
            .seats
            .iter()
            .map(|it| bounds([&it.piece.mesh]))
            .collect();
        for (place, it) in boxes.iter().enumerate() {
            assert_near(it.low.z, 0.0, 1e-9);
            assert!(it.low.min_element() >= 0.0);
            assert!(it.high.x <= bed[0] && it.high.y <= bed[1] && it.high.z <= bed[2]);
            for other in &boxes[..place] {
                let apart = it.low.x > other.high.x
                    || it.high.x < other.low.x
                    || it.low.y > other.high.y
                    || it.high.y < other.low.y;
                assert!(apart, "{it:?} {other:?}");
            }
        }
        for seat in &plate.seats {
            assert!(seat.piece.mesh.volume() > 0.0, "{}", seat.piece.name);
        }
    }
    let bar = &printed.plates[0].seats[0];
    assert_near(bar.size[0].to_mm(), 50.0, 1e-9);
}

/// The largest ratio that a refusal names works, and the next larger does not.
#[test]
fn a_refusal_names_the_ratio_that_works() {
    let design = design(&demo("reading-room"));
    let refused = |ratio| match model(&design, &settings(ratio)) {
        Err(ScaleError::Refused(why)) => why,
        other => panic!("1:{ratio}: {other:?}"),
    };
    let named = |why: &str| -> u32 {
        let rest = &why[why.rfind("; 1:").unwrap() + 4..];
        rest.split(' ').next().unwrap().parse().unwrap()
    };
    let smallest = named(&refused(100));
    assert!(model(&design, &settings(smallest)).is_ok());
    refused(smallest + 1);
    let largest = named(&refused(6));
    refused(largest - 1);
    assert!(model(&design, &settings(largest)).is_ok());
}

#[test]
fn random_designs_print_or_are_refused() {
    let mut printed = 0;
    for seed in 0..25 {
        match model(&design(&random_params(seed)), &settings(14)) {
            Ok(made) => {
                let files = |made: &ScaleModel| {
                    scale_files("random", made)
                        .unwrap_or_else(|error| panic!("seed {seed}: {error}"))
                };
                let first = files(&made);
                if seed % 3 == 1 {
                    let again = model(&design(&random_params(seed)), &settings(14)).unwrap();
                    assert!(files(&again) == first, "seed {seed}: other bytes");
                }
                printed += 1;
            }
            Err(ScaleError::Refused(_)) => {}
            Err(error) => panic!("seed {seed}: {error}"),
        }
    }
    assert!(printed > 5, "{printed} of 25");
}
