//! How long the demo takes: design with its checks, solids, and each export. `cargo bench --bench speed`.
//!
//! Medians on two shared cores of a virtual machine; the demo is `params/reading-room.toml` with 128 parts. Machines differ: for this one the last table is the yardstick, in which the reference kernel takes 2.2 s.
//!
//! | step | median |
//! |---|---|
//! | read the parameter file | 0.18 ms |
//! | design | 0.20 ms |
//! | design and check, one thread | 1.06 ms, of which all rules but the three that compare solids 0.38 ms |
//! | a remedy search, for a recess in the pipe's clearance | 189 ms |
//! | takeoff | 2.8 ms |
//! | solids: B-rep, meshes, the kernel's proof | 6.6 ms |
//! | `model.step` | 1.9 ms |
//! | `model.glb`, `section.glb` | 7.2 ms, 12 ms |
//! | `model.stl` | 1.2 ms |
//! | `findings.json` | 0.16 ms |
//! | the four pictures | 70 ms together |
//! | `packet.html`, its files made already | 18 ms |
//! | a cutting plan of 200 pieces | 207 ms |
//! | all sheets laid out, `drawings.pdf` | 51 ms, 96 ms |
//!
//! Measured with nothing else on the machine. What is left of `design and check` is mostly the rules `clearance` and `held`. Boxes come first everywhere: what shares no more than the tolerance along some axis overlaps nothing, what shares no more along two touches over no area, and an edge is searched only where it runs by a tube's box. The program and its benchmarks have an allocator of their own (`mimalloc`), since a design is thousands of small lists: a sixth less time. A linker that optimizes the whole program gains 5 % for four times the build, and is not used.
//!
//! `cargo bench --bench reach`, and `tests/outside/.venv/bin/python tests/bench/reference.py`, which times the same job in the reference kernel in the same run:
//!
//! | step | here | in the kernel |
//! |---|---|---|
//! | 200 unique parts, built, to STEP | 37 ms, of which the writer 4.2 ms | 2.2 s, 58 times as long |
//! | their meshes, to the same chord error | 2.8 ms | 1.2 s, 424 times as long |
//! | their STEP, GLB and STL | 47 ms | |
//! | 1,000 parts, copies of the demo, built, to all three | 40 ms | |
//! | 10,000 | 327 ms, 163 to 210 MB at the highest | |
//! | design and interference (overlaps, clearances, the room) of the demo, 128 parts | 0.55 ms | |
//! | the same of a crowded one, 200 parts | 0.89 ms | |
//! | the same at 45°, of `across-the-corner`, 112 parts | 0.95 ms | |
//! | the same of a crowded one, 184 parts | 1.44 ms | |
//! | overlaps of 1,000 parts, of 10,000 | 0.26 ms, 3.2 ms | |
#![expect(clippy::expect_used, reason = "a benchmark fails by panicking")]

use std::collections::BTreeSet;
use std::hint::black_box;

use chasewright::check::rules::RULES;
use chasewright::check::{Verdict, check, try_remedies};
use chasewright::design::design;
use chasewright::drawing::{Paper, sheets};
use chasewright::export::{FORMATS, Products, Set, drawings_pdf, sheet_svg};
use chasewright::geom::Mesh;
use chasewright::params::{Value, read};
use chasewright::solids::Solids;
use chasewright::takeoff::plan::{Problem, solve};
use chasewright::takeoff::takeoff;
use chasewright::units::Length;
use criterion::{Criterion, criterion_group, criterion_main};
use mimalloc::MiMalloc;

#[global_allocator]
static HEAP: MiMalloc = MiMalloc; // as in the program

const DEMO: &str = include_str!("../../params/reading-room.toml");
/// The rules that compare solids; every other comes on top of them.
const INTERFERENCE: [&str; 3] = ["part in part", "clearance", "inside the room"];

fn core(bench: &mut Criterion) {
    let params = read(DEMO).expect("the demo is valid");
    bench.bench_function("read", |it| it.iter(|| read(black_box(DEMO))));
    bench.bench_function("design", |it| it.iter(|| design(black_box(&params))));
    bench.bench_function("design and check", |it| {
        it.iter(|| check(&design(black_box(&params))));
    });
    let model = design(&params);
    let on_top = RULES.iter().filter(|it| !INTERFERENCE.contains(&it.name));
    let on_top: Vec<_> = on_top.collect();
    bench.bench_function("rules on top of the interference", |it| {
        it.iter(|| {
            let found = on_top.iter().map(|it| it.findings(black_box(&model)).len());
            found.sum::<usize>()
        });
    });
    // a recess that reaches into the clearance of the pipe behind it
    let deep = params
        .with("recess.depth", &Value::Length(Length::inches(4.5)))
        .expect("a recess may be deeper");
    let failing = check(&design(&deep));
    assert!(failing.iter().any(|it| it.verdict == Verdict::Fail));
    bench.bench_function("remedy search", |it| {
        it.iter(|| try_remedies(black_box(&deep), &mut failing.clone()));
    });
}

fn exports(bench: &mut Criterion) {
    let design = design(&read(DEMO).expect("the demo is valid"));
    let findings = check(&design);
    bench.bench_function("solids", |it| {
        it.iter(|| Solids::new(black_box(&design), Mesh::CHORD_ERROR));
    });
    let solids = Solids::new(&design, Mesh::CHORD_ERROR).expect("the demo has solids");
    let products = Products {
        solids: solids.into(),
        failing: BTreeSet::new().into(),
        overlaps: Vec::new().into(),
        findings: findings.into(),
        takeoff: takeoff(&design).into(),
        drawings: Vec::new().into(),
        ..Products::of(&design)
    };
    let sets = [Set::Model, Set::Packet];
    for format in FORMATS.iter().filter(|it| sets.contains(&it.set)) {
        // what others hold is made once, as the program does
        let made = products.files(format);
        made.expect("the demo can be written");
        bench.bench_function(format.file, |it| {
            it.iter(|| format.files(black_box(&products)));
        });
    }
}

fn takeoffs(bench: &mut Criterion) {
    let design = design(&read(DEMO).expect("the demo is valid"));
    bench.bench_function("takeoff", |it| it.iter(|| takeoff(black_box(&design))));
    let problems: Vec<_> = takeoff(&design)
        .boards
        .into_iter()
        .map(|it| it.problem)
        .collect();
    bench.bench_function("cutting plans of the demo", |it| {
        it.iter(|| {
            problems
                .iter()
                .map(|it| solve(it, 1_000_000))
                .collect::<Vec<_>>()
        });
    });
    let many = Problem {
        pieces: (0..200)
            .map(|at| (304_800 + at * at * 60 + at * 997, 1))
            .collect(),
        boards: [8, 10, 12, 14, 16]
            .map(|feet| (feet * 304_800 - 9525, feet))
            .to_vec(),
    };
    bench.bench_function("cutting plan of 200 pieces", |it| {
        it.iter(|| solve(black_box(&many), 1_000_000));
    });
}

fn drawings(bench: &mut Criterion) {
    let design = design(&read(DEMO).expect("the demo is valid"));
    let taken = takeoff(&design);
    bench.bench_function("sheets", |it| {
        it.iter(|| sheets(black_box(&design), &taken, Paper::Tabloid));
    });
    let made = sheets(&design, &taken, Paper::Tabloid);
    bench.bench_function("sheets as SVG", |it| {
        it.iter(|| made.iter().map(sheet_svg).collect::<Vec<_>>());
    });
    bench.bench_function("drawings.pdf", |it| {
        it.iter(|| drawings_pdf(black_box(&made), "demo"));
    });
}

criterion_group!(speed, core, exports, takeoffs, drawings);
criterion_main!(speed);
