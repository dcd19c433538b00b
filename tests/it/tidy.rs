//! The shape of the source: which room may import which, and what every file carries.

use std::fs;
use std::path::Path;

/// The rooms of `src/`, lowest first; rooms of one rank do not know of each other.
const RANKS: &[&[&str]] = &[
    &["units"],
    &["geom"],
    &["catalog"],
    &["params"],
    &["layout"],
    &["design"],
    &["solids", "check", "takeoff", "scale"],
    &["drawing"],
    &["export"],
    &["cli"],
];

/// What the top of the project may hold, beside files whose names begin with a dot.
const TOP: &[&str] = &[
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "README.md",
    "exports",
    "params",
    "src",
    "target",
    "tests",
];

#[test]
fn rooms_import_only_what_lies_below_them() {
    for (path, text) in sources() {
        let Some(room) = room_of(&path) else { continue };
        let own = rank(room).unwrap_or_else(|| panic!("{path}: the room has no rank"));
        for (number, line) in text.lines().enumerate() {
            for other in RANKS.iter().flat_map(|rooms| rooms.iter()) {
                let named = line.contains(&format!("crate::{other}"))
                    || line.contains(&format!("[`crate::{other}"));
                let allowed = *other == room || rank(other).is_some_and(|it| it < own);
                assert!(
                    !named || allowed,
                    "{path}:{}: {room} imports {other}",
                    number + 1
                );
            }
        }
    }
}

#[test]
fn outside_crates_stay_behind_their_gates() {
    let gates = [
        ("truck_", "solids"),
        ("clap", "cli"),
        ("annotate_snippets", "cli"),
        ("comfy_table", "cli"),
        ("ctrlc", "cli"),
        ("toml::", "params"),
        ("stl_io", "export"),
        ("zip::", "export"),
        ("smallvec", "geom"),
        ("boolmesh", "scale"),
        ("gltf_json", "export"),
        ("serde_json", "export"),
        ("ttf_parser", "drawing"),
        ("krilla", "export"),
        ("base64::", "export"),
        ("hmac_sha256", "export"),
        ("strsim", "params"),
        ("std::fs", "cli"),
        ("SystemTime", "cli"),
    ];
    for (path, text) in sources() {
        for (name, gate) in gates {
            let inside = room_of(&path) == Some(gate);
            assert!(
                inside || !text.contains(name),
                "{path}: {name} belongs in {gate}"
            );
        }
    }
}

#[test]
fn every_dependency_has_its_reason() {
    let manifest = fs::read_to_string("Cargo.toml").expect("the manifest can be read");
    let mut section = "";
    let mut last = "";
    let mut found = 0;
    for line in manifest.lines() {
        if line.starts_with('[') {
            section = line;
        } else if section.ends_with("dependencies]") && line.contains(" = ") {
            assert!(last.starts_with("# "), "{line}: no reason before it");
            found += 1;
        }
        last = line;
    }
    assert!(found > 20, "{found} dependencies were found");
}

#[test]
fn every_source_file_says_what_it_is() {
    for (path, text) in sources() {
        assert!(text.starts_with("//!"), "{path}: no `//!` header");
    }
}

#[test]
fn every_rule_is_listed_and_documented() {
    let listed = fs::read_to_string("src/check/rules/mod.rs").expect("rules are listed");
    for (path, text) in sources() {
        let Some(name) = path.strip_prefix("src/check/rules/") else {
            continue;
        };
        let name = name.trim_end_matches(".rs");
        if name == "mod" {
            continue;
        }
        assert!(
            listed.contains(&format!("{name}::RULE")),
            "{path}: not listed"
        );
        for section in ["# What it finds", "# Why", "# Source"] {
            assert!(text.contains(section), "{path}: no section {section}");
        }
    }
    let names: Vec<&str> = chasewright::check::rules::RULES
        .iter()
        .map(|it| it.name)
        .collect();
    for (index, name) in names.iter().enumerate() {
        assert!(
            !names[..index].contains(name),
            "{name}: two rules of one name"
        );
    }
}

#[test]
fn the_top_of_the_project_is_as_agreed() {
    for entry in fs::read_dir(".").expect("the project can be listed") {
        let name = entry.expect("an entry").file_name();
        let name = name.to_string_lossy();
        assert!(
            name.starts_with('.') || TOP.contains(&&*name),
            "{name} at the top"
        );
    }
}

fn room_of(path: &str) -> Option<&str> {
    let inner = path.strip_prefix("src/")?;
    inner.split_once('/').map(|(room, _)| room)
}

fn rank(room: &str) -> Option<usize> {
    RANKS.iter().position(|rooms| rooms.contains(&room))
}

pub(crate) fn sources() -> Vec<(String, String)> {
    let mut found = Vec::new();
    walk(Path::new("src"), &mut found);
    found.sort();
    assert!(found.len() > 20, "the sources were found");
    found
}

fn walk(folder: &Path, found: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).expect("src can be read") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            walk(&path, found);
        } else if path.extension().is_some_and(|it| it == "rs") {
            let text = fs::read_to_string(&path).expect("source is UTF-8");
            found.push((path.to_string_lossy().replace('\\', "/"), text));
        }
    }
}
