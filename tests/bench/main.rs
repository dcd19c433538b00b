//! How long the demo takes: design with its checks, solids, and each export. `cargo bench --bench speed`.
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
