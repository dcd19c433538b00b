//! Files of a folder that change together, and which of them are the tool's own.

use std::fs;
use std::path::Path;

use chasewright::cli::write::record::{Entry, fingerprint, is_plain};
use chasewright::cli::write::turn::{NOTICE, OWN, Turn, recover, rename};

/// Names and contents in a folder, the tool's own aside.
fn files(folder: &Path) -> Vec<(String, String)> {
    let mut files: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|it| it.unwrap().path())
        .filter(|it| it.is_file())
        .map(|it| {
            let name = it.file_name().unwrap().to_string_lossy().into_owned();
            (name, fs::read_to_string(it).unwrap())
        })
        .collect();
    files.sort();
    files
}

/// A folder with old files, and a turn that replaces two of them, brings a third and has one go.
fn turn(folder: &Path) -> Turn {
    for name in ["a", "b", "gone", "of the user"] {
        fs::write(folder.join(name), "old").unwrap();
    }
    let mut turn = Turn::begin(folder).unwrap();
    for name in ["a", "new", "b"] {
        turn.add(name, b"new").unwrap();
    }
    turn.remove("gone");
    turn
}

fn texts(pairs: &[(&str, &str)]) -> Vec<(String, String)> {
    let pairs = pairs.iter();
    pairs.map(|(a, b)| ((*a).into(), (*b).into())).collect()
}

fn old() -> Vec<(String, String)> {
    texts(&[
        ("a", "old"),
        ("b", "old"),
        ("gone", "old"),
        ("of the user", "old"),
    ])
}

fn is_swept(folder: &Path) -> bool {
    fs::read_dir(folder.join(OWN)).unwrap().next().is_none()
}

#[test]
fn a_turn_changes_all_files() {
    let folder = tempfile::tempdir().unwrap();
    turn(folder.path()).take().unwrap();
    let new = texts(&[
        ("a", "new"),
        ("b", "new"),
        ("new", "new"),
        ("of the user", "old"),
    ]);
    assert_eq!(files(folder.path()), new);
    assert!(is_swept(folder.path()));
}

/// Cut off after every step, and while it is put back after every step of that.
#[test]
fn a_turn_that_is_cut_off_anywhere_is_put_back() {
    let count = {
        let folder = tempfile::tempdir().unwrap();
        turn(folder.path()).steps().unwrap().len()
    };
    assert_eq!(count, 6);
    for steps in 0..=count {
        for back in 0..=count {
            let folder = tempfile::tempdir().unwrap();
            let turn = turn(folder.path());
            let all = turn.steps().unwrap();
            turn.announce().unwrap();
            all.iter().take(steps).try_for_each(rename).unwrap();
            let told = folder.path().join(NOTICE).is_file();
            assert!(told, "whoever looks is told");
            let all = turn.steps_back();
            all.iter().take(back).try_for_each(rename).unwrap();
            recover(folder.path()).unwrap();
            assert_eq!(files(folder.path()), old(), "{steps}, {back}");
            assert!(is_swept(folder.path()), "{steps}, {back}");
        }
    }
}

#[test]
fn a_turn_that_fails_is_put_back() {
    for missing in ["a", "new", "b"] {
        let folder = tempfile::tempdir().unwrap();
        let turn = turn(folder.path());
        fs::remove_file(turn.aside("new", missing)).unwrap();
        turn.take().unwrap_err();
        assert_eq!(files(folder.path()), old(), "{missing}");
        assert!(is_swept(folder.path()), "{missing}");
    }
}

#[test]
fn what_was_only_written_aside_is_swept() {
    let folder = tempfile::tempdir().unwrap();
    drop(turn(folder.path()));
    recover(folder.path()).unwrap();
    assert_eq!(files(folder.path()), old());
    assert!(is_swept(folder.path()));
}

/// Test vectors of the algorithm's authors, from memory.
#[test]
fn the_fingerprint_is_the_published_one() {
    for (text, print) in [
        ("", 0xcbf2_9ce4_8422_2325),
        ("a", 0xaf63_dc4c_8601_ec8c),
        ("foobar", 0x8594_4171_f739_67e8),
    ] {
        assert_eq!(fingerprint(text.as_bytes()), print, "{text}");
    }
}

#[test]
fn only_files_of_the_folder_itself_are_ours() {
    assert!(is_plain("model.step"));
    for name in ["", ".", "..", "../x", "a/b", "/x", "a/"] {
        let line = format!("build\t0\t1\t2\t{name}");
        let is_ours = Entry::parsed(&line).is_some_and(|it| it.name != "a/");
        assert!(!is_ours, "{name}");
    }
    assert_eq!(Entry::parsed("build\tnumber\t1\t2\tmodel.step"), None);
}
