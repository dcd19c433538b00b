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
        ("rust_xlsxwriter", "export"),
        ("base64::", "export"),
        ("hmac_sha256", "units"),
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

/// Which placement it is, its own file knows; the choice is defined with the others and has its default in the list.
#[test]
fn only_a_placement_knows_that_it_is_chosen() {
    let own = [
        "src/params/placement/",
        "src/params/choice.rs",
        "src/params/list.rs",
    ];
    for (path, text) in sources() {
        let asks = text.contains("Placement::") || text.contains("chase.placement ==");
        assert!(
            !asks || own.iter().any(|it| path.starts_with(it)),
            "{path}: asks for the placement, and not its `Site`"
        );
    }
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

/// Rooms that match on names such as walls and kinds of part: a new one has to be answered for at every match.
const MATCHING: &[&str] = &[
    "params", "layout", "design", "check", "takeoff", "drawing", "export",
];

/// Types that name something, each with the file that may ask which one it is.
const NAMES: &[(&str, &str)] = &[
    ("ChaseWall", "src/params/chase_wall.rs"),
    ("Branch", "src/design/branch.rs"),
    ("ChaseFace", "src/design/branch.rs"),
    ("Flank", "src/design/branch.rs"),
    ("Packed", "src/design/packing.rs"),
    ("Whence", "src/design/packing.rs"),
    ("ReadAt", "src/design/packing.rs"),
    ("PoleWhat", "src/takeoff/marks.rs"),
    ("LineWhat", "src/takeoff/marks.rs"),
    ("Purpose", "src/takeoff/fasteners/purpose.rs"),
    ("Thing", "src/check/subject.rs"),
    ("StickFace", "src/takeoff/stick_face.rs"),
    ("Section", "src/takeoff/buy.rs"),
    ("Weighed", "src/takeoff/weights.rs"),
];

/// Rooms below the writers: there a text is never asked what it says.
const BELOW_WRITERS: &[&str] = &["layout", "design", "check", "takeoff", "scale", "solids"];

#[test]
fn no_match_leaves_the_rest_unnamed() {
    for room in MATCHING {
        let path = format!("src/{room}/mod.rs");
        let text = fs::read_to_string(&path).expect("the room has a file");
        assert!(
            text.contains("#![deny(clippy::wildcard_enum_match_arm)]"),
            "{path}"
        );
    }
    for (path, text) in sources() {
        let allowed = text
            .matches("allow(clippy::wildcard_enum_match_arm")
            .count();
        assert_eq!(allowed, 0, "{path}");
    }
}

#[test]
fn names_are_told_apart_by_their_own_methods() {
    for (path, text) in sources() {
        for (name, own) in NAMES.iter().filter(|it| it.1 != path) {
            assert!(Path::new(own).exists(), "{own}");
            for place in uses(&text, name) {
                let line = text[..place].lines().count();
                assert!(
                    !is_compared(&text, place),
                    "{path}:{line}: {name} is compared"
                );
            }
        }
    }
}

/// Where a value of a type is named.
fn uses<'a>(text: &'a str, name: &str) -> impl Iterator<Item = usize> + use<'a> {
    let value = format!("{name}::");
    let found: Vec<usize> = text.match_indices(&value).map(|it| it.0).collect();
    let whole = |at: &usize| !text[..*at].ends_with(|it: char| it.is_alphanumeric() || it == '_');
    found
        .into_iter()
        .filter(whole)
        .collect::<Vec<_>>()
        .into_iter()
}

/// Whether what stands there is compared, or taken apart outside of a `match`.
fn is_compared(text: &str, place: usize) -> bool {
    let statement = text[..place].rfind([';', '{', '}']).map_or(0, |it| it + 1);
    let before = text[statement..place].trim_start();
    let inside = |opening: &str| {
        before.rfind(opening).is_some_and(|at| {
            let mut open = 1_i32;
            before[at + opening.len()..].chars().all(|it| {
                open += i32::from(it == '(') - i32::from(it == ')');
                open > 0
            })
        })
    };
    let compared = ["==", "!="]
        .iter()
        .any(|it| before.trim_end().ends_with(it));
    let bound = before
        .rfind("let ")
        .is_some_and(|at| !before[at..].contains('='));
    compared || inside("matches!(") || bound
}

#[test]
fn a_comparison_of_names_is_seen() {
    for text in [
        "if part.branch == Branch::Recess {",
        "let is = matches!(\n    part.branch,\n    Branch::Recess | Branch::Unit\n);",
        "if let Branch::Face(face) = part.branch {",
        "let Branch::Face(face) = part.branch else {",
    ] {
        assert!(
            uses(text, "Branch").any(|it| is_compared(text, it)),
            "{text}"
        );
    }
    for text in [
        "match part.branch {\n    Branch::Recess => 1,",
        "let branch = Branch::Recess;",
        "parts.filter(|it| it.is_of(Branch::Recess))",
        "if matches!(part.kind, Kind::Leg) && part.is_of(Branch::Mantel) {",
    ] {
        assert!(
            !uses(text, "Branch").any(|it| is_compared(text, it)),
            "{text}"
        );
    }
}

#[test]
fn below_the_writers_no_text_is_asked_what_it_says() {
    for (path, text) in sources() {
        if !room_of(&path).is_some_and(|it| BELOW_WRITERS.contains(&it)) {
            continue;
        }
        // there the text is a rule's own documentation
        if path == "src/check/rule.rs" {
            continue;
        }
        for (number, line) in text.lines().enumerate() {
            assert!(!asks_a_text(line), "{path}:{}: {}", number + 1, line.trim());
        }
    }
}

/// Whether a line of source chooses by the words of a text.
fn asks_a_text(line: &str) -> bool {
    const CALLS: &[&str] = &[
        "starts_with(",
        "ends_with(",
        "contains(",
        "strip_prefix(",
        "strip_suffix(",
        "split_once(",
        "rsplit_once(",
        "split(",
        "find(",
        "trim_start_matches(",
        "trim_end_matches(",
    ];
    let line = line.trim();
    if line.starts_with("//") {
        return false;
    }
    let literal = |rest: &str| rest.starts_with(['"', '\'']) || rest.starts_with("&\"");
    let called = |call: &str| {
        let mut found = line.match_indices(call);
        found.any(|it| literal(&line[it.0 + call.len()..]))
    };
    let pattern = line.strip_prefix("| ").unwrap_or(line).starts_with('"')
        && line
            .split(" => ")
            .next()
            .is_some_and(|it| it.len() < line.len() && it.matches('"').count() % 2 == 0);
    CALLS.iter().any(|it| called(it)) || line.contains("== \"") || line.contains("!= \"") || pattern
}

#[test]
fn a_text_that_is_asked_is_seen() {
    for line in [
        "self.of.ends_with(\"top plate\")",
        "let (place, _) = id.split_once('/')?;",
        "if name == \"left side\" {",
        "    \"front\" | \"set-back\" => 1,",
    ] {
        assert!(asks_a_text(line), "{line}");
    }
    for line in [
        "Self::Front => \"front\",",
        "// such as name == \"front\"",
        "boards.contains(&board)",
    ] {
        assert!(!asks_a_text(line), "{line}");
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
