//! The command line: exit codes, what goes where, and files that are whole or not there.

use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::Path;
use std::process::{Command, Stdio};

use chasewright::cli::{self, Built, Exit, Form, Look, OutputFile, Stop, Terminal, Work};
use proptest::prelude::*;

use crate::support::{demos, run, run_with, work};

const GOOD: &str = "tests/params/good/stepped.toml";
const BAD: &str = "tests/params/bad/many.toml";

/// Files of a folder with what stands in them, in order of their names.
fn files(folder: &Path) -> Vec<(String, String)> {
    let mut files: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.is_file())
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, fs::read_to_string(path).unwrap())
        })
        .collect();
    files.sort();
    files
}

fn file(name: &str, text: &str) -> OutputFile {
    OutputFile {
        name: name.to_owned(),
        bytes: text.as_bytes().to_vec(),
    }
}

fn pair(name: &str, text: &str) -> (String, String) {
    (name.to_owned(), text.to_owned())
}

#[test]
fn exit_codes_are_the_documented_ones() {
    let ends = [
        Exit::Clean,
        Exit::Failed,
        Exit::Unusable,
        Exit::Broken,
        Exit::Interrupted,
    ];
    assert_eq!(ends.map(Exit::code), [0, 1, 2, 3, 130]);
}

#[test]
fn a_check_ends_as_its_verdicts_say() {
    let clean = run(&["check", GOOD]);
    assert_eq!(
        (clean.exit, clean.out.as_str(), clean.err.as_str()),
        (Exit::Clean, "Garden room as Table\n", "")
    );
    let json = run(&["check", GOOD, "--json"]);
    assert_eq!(
        (json.exit, json.out.as_str()),
        (Exit::Clean, "Garden room as Json\n")
    );
    let failed = run_with(&["check", GOOD], &work(true), false);
    assert_eq!(
        (failed.exit, failed.out.as_str()),
        (Exit::Failed, "Garden room as Table\n")
    );
}

#[test]
fn a_build_writes_its_files_whatever_the_verdicts() {
    for (failed, exit) in [(false, Exit::Clean), (true, Exit::Failed)] {
        let folder = tempfile::tempdir().unwrap();
        let target = folder.path().join("deep/er");
        let ended = run_with(
            &["build", GOOD, "--out", target.to_str().unwrap()],
            &work(failed),
            false,
        );
        assert_eq!(ended.exit, exit, "{}", ended.err);
        let expected = vec![
            pair("findings.json", "new findings"),
            pair("model.step", "new model"),
        ];
        assert_eq!(files(&target), expected);
        let names: Vec<&str> = ended.out.lines().collect();
        assert_eq!(
            names.len(),
            2,
            "verdicts and where the files are: {names:?}"
        );
        assert!(names[1].starts_with("wrote 2 files into "), "{names:?}");
    }
}

#[test]
fn a_failed_build_leaves_the_old_files_whole() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap();
    fs::write(folder.path().join("model.step"), "old model").unwrap();
    // The place of the second file is taken by a folder, so it cannot be written.
    fs::create_dir(folder.path().join("findings.json")).unwrap();
    let ended = run(&["build", GOOD, "--out", out]);
    assert_eq!(ended.exit, Exit::Broken);
    assert!(ended.err.contains("findings.json"), "{}", ended.err);
    assert_eq!(files(folder.path()), vec![pair("model.step", "old model")]);

    fs::remove_dir(folder.path().join("findings.json")).unwrap();
    let broken = Work {
        build: |_, _, _| Err("the kernel gave up".to_owned()),
        ..work(false)
    };
    let ended = run_with(&["build", GOOD, "--out", out], &broken, false);
    assert_eq!(
        (ended.exit, ended.err.as_str()),
        (Exit::Broken, "error: the kernel gave up\n")
    );
    assert_eq!(files(folder.path()), vec![pair("model.step", "old model")]);
}

/// Files that somebody finds in a folder beside those that a command has just written.
#[test]
fn own_files_that_are_not_made_again_go() {
    let more = Work {
        build: |_, _, _| {
            let names = ["model.step", "packet.html", "changed.csv", "gone.csv"];
            Ok(Built {
                verdicts: (work(false).check)(
                    &demos()[0].1,
                    Form::Table(Look::default()),
                    &mut |_| true,
                )?,
                files: names.map(|it| file(it, "more")).to_vec(),
                faults: Vec::new(),
            })
        },
        ..work(false)
    };
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap();
    let wrote = run_with(&["build", GOOD, "--out", out], &more, false);
    assert_eq!(wrote.exit, Exit::Clean, "{}", wrote.err);
    let lists = run(&["takeoff", GOOD, "--out", out]);
    assert_eq!(lists.exit, Exit::Clean, "{}", lists.err);
    fs::write(folder.path().join("changed.csv"), "with my own prices").unwrap();
    fs::write(folder.path().join("mine.txt"), "mine").unwrap();
    fs::remove_file(folder.path().join("gone.csv")).unwrap();

    // the same design: only what the same command had made
    let again = run(&["build", GOOD, "--out", out]);
    assert_eq!((again.exit, again.err.as_str()), (Exit::Clean, ""));
    let told: Vec<&str> = again
        .out
        .lines()
        .filter(|it| !it.starts_with("wrote"))
        .collect();
    let place = |name: &str| folder.path().join(name).display().to_string();
    let expected = [
        "Garden room as Table".to_owned(),
        format!("removed {}: it was not made again", place("packet.html")),
        format!(
            "left {}: it was not made again, but it has been changed since it was written",
            place("changed.csv")
        ),
    ];
    assert_eq!(told, expected);
    let mut left = vec![
        pair("changed.csv", "with my own prices"),
        pair("cut-list.csv", "new list"),
        pair("findings.json", "new findings"),
        pair("mine.txt", "mine"),
        pair("model.step", "new model"),
    ];
    assert_eq!(files(folder.path()), left);

    // another design: what any command had made; nothing is said twice
    let other = run(&["build", "params/reading-room.toml", "--out", out]);
    assert_eq!(other.exit, Exit::Clean, "{}", other.err);
    let told = other.out.lines().filter(|it| !it.starts_with("wrote"));
    let expected = format!(
        "removed {}: it is from another design",
        place("cut-list.csv")
    );
    assert_eq!(told.skip(1).collect::<Vec<&str>>(), [expected]);
    left.remove(1);
    assert_eq!(files(folder.path()), left);
}

/// A program that reads JSON reads nothing else.
#[test]
fn what_has_gone_is_told_beside_json() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap();
    run(&["build", GOOD, "--out", out]);
    let file = "params/reading-room.toml";
    let ended = run(&["takeoff", file, "--json", "--out", out]);
    assert_eq!(ended.exit, Exit::Clean, "{}", ended.err);
    assert!(ended.out.ends_with("taken off as Json\n"), "{}", ended.out);
    assert_eq!(ended.err.matches("removed").count(), 2, "{}", ended.err);
}

/// What a damaged or forged record names elsewhere is not touched.
#[test]
fn a_record_reaches_no_farther_than_its_folder() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    run(&["build", GOOD, "--out", out.to_str().unwrap()]);
    let record = out.join(".chasewright/record");
    let text = fs::read_to_string(&record).unwrap();
    fs::copy(out.join("model.step"), folder.path().join("model.step")).unwrap();
    fs::write(&record, text.replace("\tmodel.step", "\t../model.step")).unwrap();
    let file = "params/reading-room.toml";
    let ended = run(&["takeoff", file, "--out", out.to_str().unwrap()]);
    assert_eq!(ended.exit, Exit::Clean, "{}", ended.err);
    assert!(folder.path().join("model.step").is_file());
    let left: Vec<String> = files(&out).into_iter().map(|it| it.0).collect();
    assert_eq!(left, ["cut-list.csv", "model.step"]);
}

/// Only regular files give way to new ones.
#[cfg(unix)]
#[test]
fn a_link_is_not_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let target = folder.path().join("target");
    fs::write(&target, "old").unwrap();
    for (arguments, name) in [("build", "findings.json"), ("heights", "plot.svg")] {
        let out = folder.path().join(arguments);
        fs::create_dir(&out).unwrap();
        std::os::unix::fs::symlink(&target, out.join(name)).unwrap();
        let plot = out.join(name);
        let ended = if arguments == "build" {
            run(&["build", GOOD, "--out", out.to_str().unwrap()])
        } else {
            run(&["heights", GOOD, "--plot", plot.to_str().unwrap()])
        };
        assert_eq!(ended.exit, Exit::Broken, "{}", ended.err);
        assert!(ended.err.contains("not a regular file"), "{}", ended.err);
        let left: Vec<_> = fs::read_dir(&out)
            .unwrap()
            .map(|it| it.unwrap().file_name())
            .collect();
        assert_eq!(left, [name], "nothing else is left there");
        assert!(plot.is_symlink());
    }
    assert_eq!(fs::read_to_string(target).unwrap(), "old");
}

#[test]
fn a_folder_that_cannot_be_made_is_the_disks_fault() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("file"), "no folder").unwrap();
    let target = folder.path().join("file/deeper");
    let ended = run(&["build", GOOD, "--out", target.to_str().unwrap()]);
    assert_eq!(ended.exit, Exit::Broken, "{}", ended.err);
    assert_eq!(files(folder.path()), vec![pair("file", "no folder")]);
}

/// A disk that is full in the middle of a file: the limit on the size of files stands in for it, and the
/// program is told by the same failing write.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_leaves_the_old_files_whole() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["model.step", "model.glb"] {
        fs::write(folder.path().join(name), "old").unwrap();
    }
    let before = files(folder.path());
    // 8 blocks of 1024 bytes, less than any model; the signal that comes with it is ignored.
    let script = "trap '' XFSZ; ulimit -f 8; exec \"$0\" build \"$1\" --out \"$2\"";
    let ended = Command::new("bash")
        .args(["-c", script, env!("CARGO_BIN_EXE_chasewright")])
        .arg("params/reading-room.toml")
        .arg(folder.path())
        .output()
        .unwrap();
    let err = String::from_utf8(ended.stderr).unwrap();
    assert_eq!(ended.status.code(), Some(3), "{err}");
    assert!(err.starts_with("error: cannot write "), "{err}");
    assert_eq!(files(folder.path()), before, "nothing new, nothing lost");
}

/// A folder that nobody may write into, root included.
#[cfg(target_os = "linux")]
#[test]
fn an_unwritable_folder_is_the_disks_fault() {
    for command in ["build", "scale"] {
        let ended = program()
            .args([command, "params/reading-room.toml", "--out", "/proc/chase"])
            .output()
            .unwrap();
        let err = String::from_utf8(ended.stderr).unwrap();
        assert_eq!(ended.status.code(), Some(3), "{command}: {err}");
        assert!(err.contains("/proc/chase"), "{command}: {err}");
    }
}

/// Folders are named as people like, and as the file system lets them.
#[cfg(unix)]
#[test]
fn a_folder_may_have_an_odd_name() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;

    let folder = tempfile::tempdir().unwrap();
    let names: [&[u8]; 4] = [
        b"it's 3/4\" \\ *?",
        "gr\u{fc}n \u{1f525}".as_bytes(),
        b"no \xff text",
        b"-rf\n",
    ];
    for name in names {
        let name: Vec<u8> = name.iter().copied().filter(|it| *it != b'/').collect();
        let target = folder.path().join(OsStr::from_bytes(&name));
        let arguments = ["chasewright", "build", GOOD, "--out"].map(OsStr::new);
        let arguments = arguments.iter().copied().chain([target.as_os_str()]);
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut terminal = Terminal {
            out: &mut out,
            err: &mut err,
            color: false,
            look: Look::default(),
            progress: None,
            stop: &Stop::new(),
        };
        let exit = cli::run(arguments.map(OsStr::to_owned), &mut terminal, &work(false));
        assert_eq!(exit, Exit::Clean, "{}", String::from_utf8_lossy(&err));
        assert_eq!(files(&target).len(), 2, "{}", target.display());
    }
}

#[test]
fn bad_parameters_write_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let target = folder.path().join("out");
    let ended = run(&["build", BAD, "--out", target.to_str().unwrap()]);
    assert_eq!((ended.exit, ended.out.as_str()), (Exit::Unusable, ""));
    assert!(!target.exists(), "a folder was made");
}

#[test]
fn unreadable_files_and_bad_usage_are_code_2() {
    let folder = tempfile::tempdir().unwrap();
    let bytes = folder.path().join("bytes.toml");
    fs::write(&bytes, b"[room]\nwidth = \xff\n").unwrap();
    let long = folder.path().join("long.toml");
    fs::write(&long, vec![b'#'; (1 << 20) + 1]).unwrap();
    let missing = folder.path().join("missing.toml");
    let cases: &[(&[&str], &str)] = &[
        (&["check", bytes.to_str().unwrap()], "byte 16 (line 2)"),
        (&["check", long.to_str().unwrap()], "longer than"),
        (&["check", missing.to_str().unwrap()], "cannot read"),
        (&["check", folder.path().to_str().unwrap()], "cannot read"),
        (&["build", missing.to_str().unwrap()], "cannot read"),
        (&[], "Usage"),
        (&["check"], "FILE"),
        (&["chekc", GOOD], "check"),
        (&["check", GOOD, "--jsno"], "--json"),
        (&["build", GOOD, "--out"], "DIR"),
    ];
    for (arguments, told) in cases {
        let ended = run(arguments);
        assert_eq!(
            (ended.exit, ended.out.as_str()),
            (Exit::Unusable, ""),
            "{arguments:?}"
        );
        assert!(ended.err.contains(told), "{arguments:?}: {}", ended.err);
    }
}

#[test]
fn help_and_version_are_results() {
    for arguments in [["--help"], ["--version"]] {
        let ended = run(&arguments);
        assert_eq!((ended.exit, ended.err.as_str()), (Exit::Clean, ""));
        assert!(!ended.out.is_empty());
    }
}

#[test]
fn faults_are_in_color_only_where_wanted() {
    let escape = '\u{1b}';
    assert!(
        run_with(&["check", BAD], &work(false), true)
            .err
            .contains(escape)
    );
    assert!(
        !run_with(&["check", BAD], &work(false), false)
            .err
            .contains(escape)
    );
}

/// A stream that fails in one way only.
struct Failing(ErrorKind);

impl Write for Failing {
    fn write(&mut self, _: &[u8]) -> io::Result<usize> {
        Err(self.0.into())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_closed_output_is_quiet_and_a_full_disk_is_not() {
    let end = |kind, failed| {
        let mut err = Vec::new();
        let arguments = ["chasewright", "check", GOOD].map(Into::into);
        let mut terminal = Terminal {
            out: &mut Failing(kind),
            err: &mut err,
            color: false,
            look: Look::default(),
            progress: None,
            stop: &Stop::new(),
        };
        let exit = cli::run(arguments, &mut terminal, &work(failed));
        (exit, err.is_empty())
    };
    assert_eq!(end(ErrorKind::BrokenPipe, false), (Exit::Clean, true));
    assert_eq!(end(ErrorKind::StorageFull, false), (Exit::Broken, false));
}

fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_chasewright"));
    program.stdin(Stdio::null());
    program
}

#[test]
fn the_program_itself_ends_with_the_codes() {
    let told = program().args(["check", BAD]).output().unwrap();
    assert_eq!((told.status.code(), told.stdout.len()), (Some(2), 0));
    let err = String::from_utf8(told.stderr).unwrap();
    assert_eq!(err, run(&["check", BAD]).err, "no colour in a pipe");
    let usage = program().arg("--no-such-thing").output().unwrap();
    assert_eq!(usage.status.code(), Some(2));
    let help = program().arg("--help").output().unwrap();
    assert_eq!((help.status.code(), help.stderr.len()), (Some(0), 0));
}

#[test]
fn the_program_is_quiet_when_nobody_listens() {
    let (reader, writer) = io::pipe().unwrap();
    drop(reader);
    let ended = program()
        .arg("--help")
        .stdout(writer)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    assert_eq!((ended.status.code(), ended.stderr), (Some(0), Vec::new()));
}

proptest! {
    #[test]
    fn any_bytes_as_a_file_are_code_2(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let file = tempfile::NamedTempFile::new().unwrap();
        fs::write(file.path(), &bytes).unwrap();
        let ended = run(&["check", file.path().to_str().unwrap()]);
        prop_assert_eq!(ended.exit, Exit::Unusable);
        prop_assert!(!ended.err.is_empty());
    }

    /// Odd text gets through the printing of its faults too.
    #[test]
    fn any_text_as_a_file_is_code_2(text in "(\\PC|[\\[\\]{}=\"'\\n\\r\\t\u{0}\u{1b}]){0,120}") {
        let file = tempfile::NamedTempFile::new().unwrap();
        fs::write(file.path(), &text).unwrap();
        let ended = run(&["check", file.path().to_str().unwrap()]);
        prop_assert_eq!(ended.exit, Exit::Unusable);
    }

    /// A good file with a piece torn out or typed over is used or refused, never a fault of the tool.
    #[test]
    fn a_damaged_file_is_code_0_or_2(
        part in 0.0..1.0_f64,
        length in 0_usize..30,
        patch in "[\\[\\]{}=.,\"'#a-z0-9\\r\\n -]{0,8}|\\PC{0,4}",
    ) {
        let mut characters: Vec<char> = fs::read_to_string(GOOD).unwrap().replace('\n', "\r\n").chars().collect();
        let at = characters.iter().enumerate().position(|(i, _)| i as f64 >= part * characters.len() as f64);
        let start = at.unwrap_or(0);
        let end = (start + length).min(characters.len());
        characters.splice(start..end, patch.chars());
        let file = tempfile::NamedTempFile::new().unwrap();
        fs::write(file.path(), characters.into_iter().collect::<String>()).unwrap();
        let ended = run(&["check", file.path().to_str().unwrap()]);
        prop_assert!([Exit::Clean, Exit::Unusable].contains(&ended.exit), "{}", ended.err);
        prop_assert_eq!(ended.exit == Exit::Clean, ended.err.is_empty());
    }
}

#[test]
fn every_rule_and_every_parameter_is_explained() {
    let all = run(&["explain"]);
    assert_eq!(all.exit, Exit::Clean);
    for rule in chasewright::check::rules::RULES {
        assert!(all.out.contains(rule.name), "{} is not listed", rule.name);
        for name in [rule.name.to_owned(), rule.name.replace(' ', "-")] {
            let one = run(&["explain", &name]);
            assert_eq!(one.exit, Exit::Clean, "{name}");
            for section in ["# What it finds", "# Why", "# Source"] {
                assert!(one.out.contains(section), "{name}: {section}");
            }
        }
    }
    for parameter in chasewright::params::PARAMETERS {
        assert!(all.out.contains(parameter.key), "{}", parameter.key);
        let one = run(&["explain", parameter.key]);
        assert_eq!(one.exit, Exit::Clean, "{}", parameter.key);
        assert!(one.out.contains(parameter.meaning), "{}", parameter.key);
        assert_eq!(
            one.out.contains("page = "),
            parameter.needs_page,
            "{}",
            parameter.key
        );
    }
    assert_eq!(run(&["explain", "recess.dept"]).exit, Exit::Unusable);
}
