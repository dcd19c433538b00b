//! The scale model: closed in 32 bits, on the bed, in the ratio that its name says, or refused with one that works.

use std::collections::BTreeMap;
use std::io::Cursor;

use chasewright::design::{Branch, Group, Kind, design};
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

/// The namespace of the model's XML (3MF Core Specification 1.3, chapter 3.4).
const CORE: &str = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";

/// The text of a part of a container.
fn part(bytes: &[u8], name: &str) -> String {
    let mut container = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    std::io::read_to_string(container.by_name(name).unwrap()).unwrap()
}

#[test]
fn every_file_of_the_demo_is_closed() {
    let files = scale_files(&design(&demo("reading-room")), &made(12)).unwrap();
    let mut read = 0;
    for (name, bytes) in &files {
        assert!(name.contains("-1-12-mm."), "{name}");
        if name.ends_with("stl") {
            let mesh = stl_io::read_stl(&mut Cursor::new(bytes)).unwrap();
            assert!(!mesh.faces.is_empty(), "{name}");
            assert_eq!(open_sides(&mesh), 0, "{name}");
            read += 1;
        } else if name.ends_with("3mf") {
            let text = part(bytes, "3D/3dmodel.model");
            let model = roxmltree::Document::parse(&text).unwrap();
            let objects = || {
                model
                    .descendants()
                    .filter(|it| it.has_tag_name((CORE, "object")))
            };
            assert!(objects().count() > 0, "{name}");
            for object in objects() {
                assert!(object.attribute("name").is_some(), "{name}");
                assert_eq!(object.attribute("pid"), Some("1"), "{name}");
            }
            read += 1;
        }
    }
    assert!(read >= 6, "{read} files");
}

/// What a container could take from the clock or the platform is the same everywhere; and what is referred to stands
/// before what refers to it (3MF Core Specification 1.3, chapter 4).
#[test]
fn a_3mf_is_the_same_at_any_time_and_place() {
    let design = design(&demo("reading-room"));
    let files = scale_files(&design, &made(12)).unwrap();
    let (_, bytes) = files.iter().find(|it| it.0.ends_with("3mf")).unwrap();
    let mut container = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let names: Vec<String> = container.file_names().map(str::to_owned).collect();
    assert_eq!(
        names,
        ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"]
    );
    for place in 0..names.len() {
        let entry = container.by_index(place).unwrap();
        // The first day that the container's dates can say (APPNOTE.TXT 4.4.6: years count from 1980).
        assert_eq!(
            entry.last_modified().unwrap().to_string(),
            "1980-01-01 00:00:00"
        );
        assert_eq!(entry.unix_mode(), Some(0o100_644));
        assert_eq!(entry.compression(), zip::CompressionMethod::Deflated);
    }
    let text = part(bytes, "3D/3dmodel.model");
    let model = roxmltree::Document::parse(&text).unwrap();
    let mut resources = model
        .descendants()
        .skip_while(|it| !it.has_tag_name((CORE, "resources")));
    let first = resources.find(|it| it.attribute("id").is_some()).unwrap();
    assert!(first.has_tag_name((CORE, "basematerials")));
    let text = part(bytes, "_rels/.rels");
    let relations = roxmltree::Document::parse(&text).unwrap();
    let targets = relations
        .descendants()
        .filter_map(|it| it.attribute("Target"));
    assert_eq!(targets.collect::<Vec<_>>(), ["/3D/3dmodel.model"]);
}

/// The mesh library divides flat faces one way or another from run to run; they are divided anew, so
/// the files of the demo are the same byte by byte.
#[test]
fn the_same_model_has_the_same_bytes() {
    let files = || {
        let model = made(12);
        scale_files(&design(&demo("reading-room")), &model).unwrap()
    };
    let (first, second) = (files(), files());
    assert!(!first.is_empty());
    assert!(first == second, "the files differ from run to run");
}

#[test]
fn the_same_model_has_the_same_corners() {
    let (first, second) = (made(12), made(12));
    let bodies = |model: &ScaleModel| {
        let pieces = model.kit.plates.iter().flat_map(|it| &it.seats);
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
    for plate in &printed.kit.plates {
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
    let bar = &printed.kit.plates[0].seats[0];
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
    // What is too large for the bed in one piece comes as a kit alone, and is named a ratio that fits.
    let printed = model(&design, &settings(6)).unwrap();
    assert!(printed.look.is_empty() && !printed.kit.plates.is_empty());
    let largest = named(&printed.too_large.unwrap());
    for (ratio, fits) in [(largest - 1, false), (largest, true)] {
        assert_eq!(
            model(&design, &settings(ratio)).unwrap().look.is_empty(),
            !fits
        );
    }
    // A piece that is higher than the printer has room for refuses the kit.
    let low = Settings {
        bed: [220.0, 220.0, 30.0].map(Length::mm),
        ..settings(12)
    };
    let why = match model(&design, &low) {
        Err(ScaleError::Refused(why)) => why,
        other => panic!("{other:?}"),
    };
    let works = |ratio| model(&design, &Settings { ratio, ..low }).is_ok();
    assert!(works(named(&why)) && !works(named(&why) - 1), "{why}");
}

/// A wall that is too wide for the bed comes apart along the middle of a stud.
#[test]
fn a_wide_wall_comes_apart_at_a_stud() {
    let design = design(&demo("stepped-face"));
    let small = Settings {
        bed: [150.0, 150.0, 300.0].map(Length::mm),
        ..settings(12)
    };
    let kit = model(&design, &small).unwrap().kit;
    let seats = kit.plates.iter().flat_map(|it| &it.seats);
    let mut parts = seats.filter(|it| it.piece.name.contains("bump-out, length 1 of 2"));
    // The longer of height and width lies to the right.
    let sides = parts.next().unwrap().size.map(Length::to_mm);
    let wide = sides[0].min(sides[1]);
    let studs = design.parts.iter().filter(|it| {
        let stands = [Kind::Stud, Kind::King, Kind::Jack, Kind::Cripple].contains(&it.kind);
        it.id.starts_with("bump-out/") && stands
    });
    let low = design.layout.site.chase.low.to_mm();
    let middles: Vec<f64> = studs
        .map(|it| (it.body.bounds.center().x - low) / 12.0)
        .collect();
    // Bodies grow by up to 0.05 mm at each end before they are joined.
    let is_cut = middles.iter().any(|it| (it - wide).abs() < 0.15);
    assert!(is_cut, "cut at {wide} mm, studs at {middles:?}");
}

#[test]
fn random_designs_print_or_are_refused() {
    let mut printed = 0;
    for seed in 0..25 {
        match model(&design(&random_params(seed)), &settings(14)) {
            Ok(made) => {
                let files = |made: &ScaleModel| {
                    scale_files(&design(&random_params(seed)), made)
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

/// Every piece has a number, lengths of one wall are pegged together, and there is a bar for every peg.
#[test]
fn a_kit_is_numbered_and_pegged() {
    let kit = made(12).kit;
    let names: Vec<&str> = kit
        .plates
        .iter()
        .flat_map(|it| &it.seats)
        .map(|it| it.piece.name.as_str())
        .collect();
    for (number, piece) in (1..).zip(&kit.pieces) {
        let own = format!("{number} {}", piece.name);
        assert!(names.iter().any(|it| it.starts_with(&own)), "{own}");
        let standing_alone = [Some(Branch::WallPass), None].contains(&piece.branch);
        assert!(piece.is_marked || standing_alone, "{own} has no number");
    }
    let wall = |name: &str| 1 + kit.pieces.iter().position(|it| it.name == name).unwrap();
    let lengths = [1, 2].map(|length| wall(&format!("set-back, length {length} of 2")));
    assert!(kit.pegs.iter().any(|it| it.0 == lengths), "{:?}", kit.pegs);
    let sides = kit.plates.iter().flat_map(|it| &it.seats);
    let bars: Vec<[f64; 3]> = sides
        .filter(|it| it.piece.name.starts_with("peg"))
        .map(|it| it.size.map(Length::to_mm))
        .collect();
    assert_eq!(bars.len(), kit.pegs.len());
    for (bar, (_, length)) in bars.iter().zip(&kit.pegs) {
        assert_near(bar[0], length.to_mm(), 1e-9);
        assert_near(bar[1], kit.peg[0].to_mm(), 1e-9);
    }
}

/// Sockets and numbers are all that is taken out of a wall: its volume in the kit, against that of a kit
/// whose nozzle is so wide that no socket fits.
#[test]
fn sockets_are_as_large_as_their_pegs_and_the_fit() {
    let volume = |nozzle: f64| {
        let settings = Settings {
            nozzle: Length::mm(nozzle),
            bed: [500.0; 3].map(Length::mm),
            ratio: 8,
        };
        let kit = model(&design(&demo("reading-room")), &settings)
            .unwrap()
            .kit;
        let number = 1 + kit
            .pieces
            .iter()
            .position(|it| it.name == "right side")
            .unwrap();
        let seats = kit.plates.iter().flat_map(|it| &it.seats);
        let side = seats
            .map(|it| &it.piece)
            .find(|it| it.name == format!("{number} right side"))
            .unwrap();
        let pegs = kit.pegs.iter().filter(|it| it.0.contains(&number)).count();
        let [peg, fit] = kit.peg.map(Length::to_mm);
        (side.mesh.volume(), pegs, (peg + fit).powi(2))
    };
    let (bored, pegs, section) = volume(0.4);
    let (whole, none, _) = volume(1.1);
    assert_eq!(none, 0);
    assert!(pegs > 1, "{pegs}");
    // Between the least and the greatest depth, and less than a cubic millimetre for the number.
    let deep = (whole - bored) / (section * pegs as f64);
    assert!((0.9..=3.4).contains(&deep), "{deep} mm deep");
}

/// The wedge lies on the walls: its underside is the ceiling less the gap, its top is level. Under a flat
/// ceiling there is none.
#[test]
fn the_roof_wedge_has_the_slope_of_the_ceiling() {
    let design = design(&demo("reading-room"));
    let printed = model(&design, &settings(12)).unwrap();
    let ceiling = &design.layout.ceiling;
    let gap = design.params.ceiling.gap.to_mm();
    let [wedge] = printed.kit.wedge.as_slice() else {
        panic!("one body under one plane");
    };
    let mesh = Mesh::new(&wedge.shape, Mesh::CHORD_ERROR);
    let top = mesh
        .vertices
        .iter()
        .fold(f64::NEG_INFINITY, |top, it| top.max(it.z));
    for corner in &mesh.vertices {
        let under = ceiling.z(corner.truncate()) - gap;
        let off = (corner.z - top).abs().min((corner.z - under).abs());
        assert_near(off, 0.0, 1e-6);
    }
    let flat = chasewright::design::design(&demo("flat-with-cabinets"));
    let wide = Settings {
        bed: [400.0; 3].map(Length::mm),
        ..settings(12)
    };
    assert!(model(&flat, &wide).unwrap().kit.wedge.is_empty());
}
