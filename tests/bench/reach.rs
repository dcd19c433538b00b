//! How far writers and interference reach: 200 unique parts, and 10,000 as copies of the demo side by side, as one
//! line of JSON.
//! `cargo bench --bench reach`; the 200 are also written into `target/tmp/reach/parts.json`, for
//! `tests/bench/reference.py`, which times the same job in the reference kernel.
//!
//! *Units*: milliseconds, medians; megabytes at the highest.
#![expect(clippy::expect_used, reason = "a benchmark fails by panicking")]
#![expect(clippy::print_stdout, reason = "its result is what it prints")]

use std::collections::BTreeSet;
use std::hint::black_box;
use std::time::Instant;

use chasewright::check::{clearances, interference, outside};
use chasewright::design::{Design, Part, design};
use chasewright::export::{FORMATS, Products};
use chasewright::geom::{Body, EndPlane, Frame, Mesh, Profile, Shape, Swept, Tube};
use chasewright::params::{self, Params, read};
use chasewright::solids::Solids;
use chasewright::units::{Angle, Length};
use glam::{DVec2, DVec3};
use mimalloc::MiMalloc;
use serde_json::{Value, json};

#[global_allocator]
static HEAP: MiMalloc = MiMalloc; // as in the program

const DEMO: &str = include_str!("../../params/reading-room.toml");
const CORNER: &str = include_str!("../../params/across-the-corner.toml");
/// Runs of which the median counts.
const RUNS: usize = 15;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// Part number `n` of the 200, no two alike: mitered sticks, every fifth a pipe, every tenth a bend.
fn shape(n: u32) -> (Shape, Value) {
    let step = f64::from(n);
    if n.is_multiple_of(10) {
        let (bend, radius, turn) = (150.0 + step, 60.0 + step / 8.0, 90.0_f64);
        let tube = Tube::bend(mm(radius), mm(0.0), mm(bend), Angle::degrees(turn));
        let said = json!({ "bend": bend, "radius": radius, "turn": turn.to_radians() });
        return (Shape::Tube(tube), said);
    }
    if n.is_multiple_of(5) {
        let (radius, length) = (50.0 + step / 8.0, 300.0 + step);
        let tube = Tube::straight(mm(radius), mm(0.0), mm(length));
        return (
            Shape::Tube(tube),
            json!({ "pipe": radius, "length": length }),
        );
    }
    let (sides, height, slope) = ([38.1, 88.9], 500.0 + 7.0 * step, 0.1 + step / 1000.0);
    let swept = Swept {
        profile: Profile::rectangle(mm(sides[0]), mm(sides[1])),
        bottom: vec![EndPlane::sloped(mm(0.0), DVec2::ZERO)],
        top: vec![EndPlane::sloped(mm(height), DVec2::new(0.0, slope))],
        bores: Vec::new(),
    };
    let said = json!({ "stick": sides, "height": height, "slopes": [[0.0, 0.0], [0.0, slope]] });
    (Shape::Swept(swept), said)
}

/// 200 unique parts in rows side by side, with what the reference kernel makes again.
fn unique(demo: &Design) -> (Design, Vec<Value>) {
    let model = demo.parts.iter().find(|it| it.id.contains("stud"));
    let model = model.expect("the demo has a stud");
    let mut said = Vec::new();
    let parts = (0..200).map(|n| {
        let (shape, kernel) = shape(n);
        let place = DVec3::new(f64::from(n % 100) * 500.0, f64::from(n / 100) * 500.0, 0.0);
        said.push(json!({
            "shape": kernel,
            "origin": place.to_array(),
            "x": [1, 0, 0],
            "z": [0, 0, 1],
        }));
        Part {
            id: format!("rack/part/{}", n + 1),
            body: Body::new(shape, Frame::at(place)),
            ..model.clone()
        }
    });
    let parts = parts.collect();
    let design = Design {
        parts,
        clearances: Vec::new(),
        ..demo.clone()
    };
    (design, said)
}

/// As many copies of the demo's parts side by side as it takes for so many parts.
fn copies(demo: &Design, count: usize) -> Design {
    let copies = (0..count).map(|n| {
        let (copy, part) = (n / demo.parts.len(), &demo.parts[n % demo.parts.len()]);
        let frame = Frame {
            origin: part.body.frame.origin + DVec3::X * 6000.0 * copy as f64,
            ..part.body.frame
        };
        Part {
            id: format!("copy {copy}/{}", part.id),
            body: Body::new(part.body.shape.clone(), frame),
            ..part.clone()
        }
    });
    Design {
        parts: copies.collect(),
        clearances: Vec::new(),
        ..demo.clone()
    }
}

/// The same chase with its sticks as close as the parameters allow, for some 200 parts.
fn crowded(params: &Params) -> Params {
    let spacings = [
        ("wall.stud_spacing", 150.0),
        ("chase.stud_spacing", 150.0),
        ("platform.sleeper_spacing", 100.0),
    ];
    spacings.iter().fold(params.clone(), |params, (key, step)| {
        let step = params::Value::Length(mm(*step));
        params.with(key, &step).expect("the spacing is allowed")
    })
}

fn median(runs: usize, mut job: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            job();
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[runs / 2]
}

/// A design with its solids, and nothing found.
fn solids(design: &Design) -> Products<'_> {
    let made = Solids::new(design, Mesh::CHORD_ERROR);
    Products {
        solids: made.expect("every part is a proper solid").into(),
        failing: BTreeSet::new().into(),
        overlaps: Vec::new().into(),
        ..Products::of(design)
    }
}

fn write(products: &Products<'_>, files: &[&str]) -> usize {
    let formats = FORMATS.iter().filter(|it| files.contains(&it.file));
    let written = formats.flat_map(|it| it.files(products).expect("the file is made"));
    written.map(|(_, bytes)| bytes.len()).sum()
}

/// The most memory that this process has had, in megabytes; `None` where the system does not say.
fn most_memory() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|it| it.starts_with("VmHWM"))?;
    let kilobytes: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1024.0)
}

fn main() {
    let demo = design(&read(DEMO).expect("the demo is valid"));
    let (unique, said) = unique(&demo);
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/target/tmp/reach");
    std::fs::create_dir_all(folder).expect("the folder can be made");
    std::fs::write(format!("{folder}/parts.json"), json!(said).to_string())
        .expect("the parts can be written");
    let step = ["model.step"];
    let all = ["model.step", "model.glb", "model.stl"];
    let made = solids(&unique);
    let demo_solids = solids(&demo);
    let mut found = json!({
        "step of the demo": median(RUNS, || { black_box(write(&demo_solids, &step)); }),
        "step of 200": median(RUNS, || { black_box(write(&made, &step)); }),
        "build and step of 200": median(RUNS, || { black_box(write(&solids(&unique), &step)); }),
        "mesh of 200": median(RUNS, || {
            for part in &unique.parts {
                black_box(Mesh::new(&part.body.shape, Mesh::CHORD_ERROR));
            }
        }),
        "step, glb, stl of 200": median(RUNS, || { black_box(write(&made, &all)); }),
    });
    for (name, text) in [("square", DEMO), ("at 45 degrees", CORNER)] {
        let params = read(text).expect("the demo is valid");
        for params in [crowded(&params), params] {
            let time = median(20 * RUNS, || {
                let made = design(&params);
                black_box((interference(&made), clearances(&made), outside(&made)));
            });
            let parts = design(&params).parts.len();
            found[format!("design and interference, {name}, of {parts}")] = json!(time);
        }
    }
    for count in [1_000, 10_000] {
        let rack = copies(&demo, count);
        let time = median(3, || {
            black_box(write(&solids(&rack), &all));
        });
        found[format!("build, step, glb, stl of {count}")] = json!(time);
        let time = median(RUNS, || {
            black_box(interference(&rack));
        });
        found[format!("interference of {count}")] = json!(time);
    }
    found["megabytes"] = json!(most_memory());
    println!("{found}");
}
