//! Ctrl-C while a long cutting plan is searched: the best plan so far is written, and the lists say that it is one.

use std::fs;
use std::path::Path;
use std::process::{Child, Command};
use std::time::{Duration, Instant};

/// Board lengths in inches with prices per board among which the least cost of the demo's pieces is hard to prove: the
/// search goes on for many seconds.
const HARD: [(u32, f64); 9] = [
    (131, 5.57),
    (152, 6.81),
    (172, 7.76),
    (193, 8.70),
    (208, 8.53),
    (210, 8.60),
    (219, 9.26),
    (220, 9.60),
    (238, 9.97),
];
/// How long the program may take to end after Ctrl-C.
const PATIENCE: Duration = Duration::from_mins(1);

/// The demo, wider, with those boards and a search that is not cut short.
fn hard_file(folder: &Path) -> String {
    let demo = fs::read_to_string(format!(
        "{}/params/reading-room.toml",
        env!("CARGO_MANIFEST_DIR")
    ));
    let demo = demo.unwrap().replace("\r\n", "\n");
    let (before, stock) = demo.split_once("[stock]\n").unwrap();
    let (_, after) = stock.split_once("]\nsheets").unwrap();
    let wider = before.replace("width = \"84 in\"", "width = \"120 in\"");
    assert_ne!(wider, before);
    let boards = HARD.map(|(length, price)| {
        format!("  {{ size = \"2x4\", length = \"{length} in\", price = {price:.2} }},\n")
    });
    let boards = boards.concat();
    let text =
        format!("{wider}[stock]\nsearch_nodes = 1000000\nboards = [\n{boards}]\nsheets{after}");
    let path = folder.join("hard.toml");
    fs::write(&path, text).unwrap();
    path.to_string_lossy().into_owned()
}

/// Seconds of the processor that a process has had (proc(5): fields 14 and 15 of stat, in hundredths).
fn worked(child: &Child) -> Option<f64> {
    let stat = fs::read_to_string(format!("/proc/{}/stat", child.id())).ok()?;
    let (_, after) = stat.rsplit_once(')')?;
    let mut fields = after.split_whitespace().skip(11);
    let mut next = || fields.next()?.parse::<f64>().ok();
    Some((next()? + next()?) / 100.0)
}

/// How a program ended, and what it said.
struct Ended {
    code: Option<i32>,
    out: String,
    err: String,
}

/// Starts the program, waits until it must be in the midst of its search, presses Ctrl-C and waits for its end.
fn interrupted(folder: &Path, arguments: &[&str]) -> Ended {
    // files, since a full pipe would stop the program
    let said = ["out.txt", "err.txt"].map(|name| folder.join(name));
    let [out, err] = [0, 1].map(|at: usize| fs::File::create(&said[at]).unwrap());
    let mut child = Command::new(env!("CARGO_BIN_EXE_chasewright"))
        .args(arguments)
        .stdout(out)
        .stderr(err)
        .spawn()
        .unwrap();
    let begun = Instant::now();
    while worked(&child).unwrap_or(0.0) < 1.0 && begun.elapsed() < PATIENCE {
        std::thread::sleep(Duration::from_millis(50));
        let ended = child.try_wait().unwrap();
        assert!(ended.is_none(), "the search ended by itself: {ended:?}");
    }
    let pressed = Command::new("kill")
        .args(["-INT", &child.id().to_string()])
        .status();
    assert!(pressed.unwrap().success());
    let asked = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if asked.elapsed() > PATIENCE {
            child.kill().unwrap();
            panic!("Ctrl-C is not heard");
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    let [out, err] = said.map(|path| fs::read_to_string(path).unwrap());
    Ended {
        code: child.wait().unwrap().code(),
        out,
        err,
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_interrupted_takeoff_has_the_best_plan_so_far_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let file = hard_file(folder.path());
    let out = folder.path().join("out");
    let ended = interrupted(
        folder.path(),
        &["takeoff", &file, "--out", out.to_str().unwrap()],
    );
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    assert!(ended.out.contains("the search was stopped"));
    let plan = fs::read_to_string(out.join("cutting-plan.csv")).unwrap();
    assert!(plan.contains("no, stopped"), "{plan}");
    // every piece of the cut list is in the plan all the same
    let list = fs::read_to_string(out.join("cut-list.csv")).unwrap();
    let marks: Vec<&str> = list
        .lines()
        .skip(1)
        .filter_map(|it| it.split(',').next())
        .collect();
    assert!(marks.len() > 15, "{list}");
    for mark in marks {
        let word = |it: &str| it.split([' ', ',', ';', '"']).any(|word| word == mark);
        assert!(plan.lines().any(word), "{mark} is not cut");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_interrupted_build_writes_all_of_its_files() {
    let folder = tempfile::tempdir().unwrap();
    let file = hard_file(folder.path());
    let out = folder.path().join("out");
    let ended = interrupted(&[
        "build",
        &file,
        "--no-drawings",
        "--out",
        out.to_str().unwrap(),
    ]);
    // the wider chase may fail a check, which is not what is asked here
    assert!(matches!(ended.code, Some(0 | 1)), "{}", ended.err);
    for name in ["model.glb", "model.step", "takeoff.json", "buy-list.csv"] {
        assert!(out.join(name).is_file(), "no {name}");
    }
    let plan = fs::read_to_string(out.join("cutting-plan.csv")).unwrap();
    assert!(plan.contains("no, stopped"), "{plan}");
}
