//! What several tests share.

use std::ffi::OsString;
use std::ops::Range;
use std::time::Duration;

use chasewright::cli::{
    self, Built, Exit, Form, Look, OutputFile, Stop, TakenOff, Terminal, Verdicts, Work,
};
use chasewright::export::{FORMATS, Products};
use chasewright::params::{self, PARAMETERS, Params, Presence, Value};
use chasewright::units::TapeUnit;

/// Panics unless two numbers agree within a tolerance.
#[track_caller]
pub(crate) fn assert_near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "found {found}, expected {expected} within {tolerance}"
    );
}

/// Whether what is random is tried on a few cases only: `tests/run quick` sets it.
pub(crate) fn is_quick() -> bool {
    std::env::var_os("QUICK").is_some()
}

/// How many random cases of so many are tried: all, or 100 at most.
pub(crate) fn cases(all: u32) -> u32 {
    if is_quick() { all.min(100) } else { all }
}

/// The seeds of a test over random designs: all, or the first 100.
pub(crate) fn seeds(all: Range<u64>) -> Range<u64> {
    if is_quick() {
        all.start..all.end.min(all.start + 100)
    } else {
        all
    }
}

/// Every demo in `params/`, by name.
pub(crate) fn demos() -> Vec<(String, Params)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/params");
    let files = std::fs::read_dir(folder)
        .unwrap()
        .map(|it| it.unwrap().path());
    let demos = files.filter(|it| it.extension().is_some_and(|it| it == "toml"));
    let mut demos: Vec<(String, Params)> = demos
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (
                name,
                params::read(&std::fs::read_to_string(path).unwrap()).unwrap(),
            )
        })
        .collect();
    demos.sort_by(|a, b| a.0.cmp(&b.0));
    demos
}

/// A demo's file with keys written over it, as they stand in a parameter file; a key of a table that the demo has
/// not adds the table, with whatever else is asked of it told.
pub(crate) fn written(demo: &str, changes: &[(&str, &str)]) -> toml::Table {
    let path = format!("{}/params/{demo}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo is there");
    let mut file: toml::Table = text.parse().expect("the demo is TOML");
    for (key, value) in changes {
        let (group, name) = key.split_once('.').expect("a dotted key");
        let line: toml::Table = format!("{name} = {value}")
            .parse()
            .expect("a value of TOML");
        let table = file
            .entry(group)
            .or_insert_with(|| toml::Value::Table(told(group)));
        table.as_table_mut().expect("a table").extend(line);
    }
    file
}

/// The facts of a table, each told as what it would be drawn as.
fn told(group: &str) -> toml::Table {
    let own = PARAMETERS
        .iter()
        .filter(|it| it.group == group && it.presence == Presence::Assumed);
    let told = own.filter_map(|it| {
        let value = match (it.default)(TapeUnit::Inch)? {
            Value::Flag(flag) => flag.into(),
            Value::Count(count) => i64::from(count).into(),
            Value::Lengths(_) | Value::Grid(_) | Value::FixedThings(_) => {
                toml::Value::Array(Vec::new())
            }
            other => other.text(TapeUnit::Inch).into(),
        };
        Some((it.name.to_owned(), value))
    });
    told.collect()
}

/// A file without a key; nothing if it does not have it.
pub(crate) fn without(file: &toml::Table, key: &str) -> Option<toml::Table> {
    let (group, name) = key.split_once('.').expect("a dotted key");
    let mut file = file.clone();
    let table = file.get_mut(group)?.as_table_mut()?;
    table.remove(name).map(|_| file)
}

/// What a file's text, put together so, is read as.
pub(crate) fn read_table(file: &toml::Table) -> Result<Params, Vec<params::Fault>> {
    params::read(&toml::to_string(file).expect("TOML can be written"))
}

/// A demo with keys written over it.
pub(crate) fn changed(demo: &str, changes: &[(&str, &str)]) -> Params {
    read_table(&written(demo, changes))
        .unwrap_or_else(|faults| panic!("{demo} with {changes:?}: {faults:#?}"))
}

/// How a run of the command line ended, and what it wrote.
#[derive(Debug)]
pub(crate) struct Ended {
    pub(crate) exit: Exit,
    pub(crate) out: String,
    pub(crate) err: String,
}

/// Runs the command line in this process, with work that only says what it was given.
pub(crate) fn run(arguments: &[&str]) -> Ended {
    run_with(arguments, &work(false), false)
}

/// The same with other work, and in colour if wanted.
pub(crate) fn run_with(arguments: &[&str], work: &Work, color: bool) -> Ended {
    let stop = Stop::new();
    run_watched(arguments, work, color, (None, &stop))
}

/// The same with progress shown and a search stopped as wanted.
pub(crate) fn run_watched(
    arguments: &[&str],
    work: &Work,
    color: bool,
    (progress, stop): (Option<Duration>, &Stop),
) -> Ended {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let all = ["chasewright"].iter().chain(arguments).map(OsString::from);
    let mut terminal = Terminal {
        out: &mut out,
        err: &mut err,
        color,
        look: Look::default(),
        progress,
        stop,
    };
    let exit = cli::run(all, &mut terminal, work);
    Ended {
        exit,
        out: String::from_utf8(out).unwrap(),
        err: String::from_utf8(err).unwrap(),
    }
}

/// Work that finds no fail, or one.
pub(crate) fn work(failed: bool) -> Work {
    if failed {
        Work {
            check: |params, form, _| Ok(verdicts(params, form, true)),
            build: |params, _, _| Ok(built(params, true)),
            draw: |_, _| Err("no drawings here".to_owned()),
            packet: |params, _, _| Ok(built(params, true)),
            scale: |_, _| Err("no scale model here".to_owned()),
            takeoff: |params, form, _| Ok(taken_off(params, form)),
        }
    } else {
        Work {
            check: |params, form, _| Ok(verdicts(params, form, false)),
            build: |params, _, _| Ok(built(params, false)),
            draw: |_, _| Err("no drawings here".to_owned()),
            packet: |params, _, _| Ok(built(params, false)),
            scale: |_, _| Err("no scale model here".to_owned()),
            takeoff: |params, form, _| Ok(taken_off(params, form)),
        }
    }
}

fn verdicts(params: &Params, form: Form, failed: bool) -> Verdicts {
    Verdicts {
        failed,
        text: format!("{} as {}\n", params.project.name, word(form)),
        counts: String::new(),
    }
}

const fn word(form: Form) -> &'static str {
    match form {
        Form::Table(_) => "Table",
        Form::Json => "Json",
    }
}

fn built(params: &Params, failed: bool) -> Built {
    let file = |name: &str, text: &str| OutputFile {
        name: name.to_owned(),
        bytes: text.as_bytes().to_vec(),
    };
    Built {
        verdicts: verdicts(params, Form::Table(Look::default()), failed),
        files: vec![
            file("model.step", "new model"),
            file("findings.json", "new findings"),
        ],
        faults: Vec::new(),
    }
}

fn taken_off(params: &Params, form: Form) -> TakenOff {
    TakenOff {
        text: format!("{} taken off as {}\n", params.project.name, word(form)),
        files: vec![OutputFile {
            name: "cut-list.csv".to_owned(),
            bytes: b"new list".to_vec(),
        }],
        faults: Vec::new(),
    }
}

/// The one file of this name.
pub(crate) fn file(name: &str, products: &Products<'_>) -> Vec<u8> {
    let format = FORMATS.iter().find(|it| it.file == name);
    let files = format.expect("a file of this name").files(products);
    let (made, bytes) = files.expect("it can be made").remove(0);
    assert_eq!(made, name);
    bytes
}
