//! The keys that each rule declares, and what `explain` makes of them.
//!
//! A rule declares what its own file reads or names, what it reports as a lever, and what moves its findings while
//! everything that is built stays as it is. A key that moves what is built moves rules through that, and need not
//! be declared by each of them.

use std::collections::BTreeSet;

use chasewright::check::Rule;
use chasewright::check::rules::RULES;
use chasewright::cli::Exit;
use chasewright::design::{Design, design};
use chasewright::params::{GROUPS, PARAMETERS, Params, parameter};

use crate::generate::{Random, change, random_params};
use crate::support::{changed, demos, read_table, run, written};
use crate::tidy::sources;

/// How every number is written, which no rule judges by.
const WRITING: &str = "project.unit";
/// Makes TIGHT of a PASS in every rule that measures lengths.
const ALLOWANCE: &str = "project.build_allowance";

#[test]
fn declared_keys_are_parameters_and_stand_once() {
    for rule in RULES {
        for key in rule.keys {
            assert!(parameter(key).is_some(), "{}: {key}", rule.name);
        }
        let once: BTreeSet<_> = rule.keys.iter().collect();
        assert_eq!(once.len(), rule.keys.len(), "{}", rule.name);
    }
}

#[test]
fn a_rule_declares_every_key_that_its_file_reads_or_names() {
    let mut found = 0;
    for (path, text) in sources() {
        let Some(rule) = rule_in(&path, &text) else {
            continue;
        };
        let text = in_one_line(&text);
        let read = PARAMETERS.iter().filter(|it| it.key != WRITING);
        for parameter in read.filter(|it| names(&text, it.key)) {
            found += 1;
            let declared = rule.keys.contains(&parameter.key);
            assert!(declared, "{path}: {} is not declared", parameter.key);
        }
    }
    assert!(found > 200, "{found} keys were found");
}

/// The rule of a file of `src/check/rules`.
fn rule_in(path: &str, text: &str) -> Option<&'static Rule> {
    let file = path.strip_prefix("src/check/rules/")?;
    let own = |it: &&Rule| text.contains(&format!("    name: \"{}\",\n", it.name));
    let rule = RULES.iter().find(own);
    assert!(file == "mod.rs" || rule.is_some(), "{path}: no rule");
    rule
}

/// The text with each chain of fields and methods in one line.
fn in_one_line(text: &str) -> String {
    let mut joined = String::new();
    for line in text.lines().map(str::trim) {
        if !line.starts_with('.') {
            joined.push('\n');
        }
        joined.push_str(line);
    }
    joined
}

/// Whether a key stands in the text as a whole; not a method, and not a field of the layout that is called the same.
fn names(text: &str, key: &str) -> bool {
    let is_word = |it: char| it.is_alphanumeric() || it == '_';
    text.match_indices(key).any(|(at, _)| {
        let (before, after) = (&text[..at], &text[at + key.len()..]);
        !before.ends_with(is_word)
            && !before.ends_with("layout.")
            && !after.starts_with(is_word)
            && !after.starts_with('(')
    })
}

#[test]
fn a_key_that_is_named_is_seen() {
    for (text, seen) in [
        (
            "let rise = design\n    .params\n    .vent\n    .rise;",
            true,
        ),
        ("//! The manual, `vent.rise`.", true),
        ("levers: &[\"vent.rise\"],", true),
        ("vent.rise.map(half)", true),
        ("vent.rise(half)", false),
        ("vent.rises", false),
        ("event.rise", false),
        ("layout.vent.rise", false),
    ] {
        assert_eq!(names(&in_one_line(text), "vent.rise"), seen, "{text}");
    }
}

#[test]
fn levers_and_the_numbers_of_clearances_are_declared() {
    let clearance = RULES.iter().find(|it| it.name == "clearance").unwrap();
    for params in designs(1, 10) {
        let design = design(&params);
        let reaches = design.clearances.iter().flat_map(|it| &it.reaches);
        for reach in reaches {
            assert!(clearance.keys.contains(&reach.key), "{}", reach.key);
        }
        for rule in RULES {
            let found = rule.findings(&design);
            for lever in found.into_iter().flat_map(|it| it.levers) {
                assert!(rule.keys.contains(&lever), "{}: {lever}", rule.name);
            }
        }
    }
}

#[test]
fn a_rule_declares_what_moves_it_while_what_is_built_stays() {
    let mut random = Random(20_261_130);
    let mut moved = BTreeSet::new();
    for params in designs(3, 3) {
        let before = design(&params);
        let (stays, found) = (built(&before, &params), findings(&before));
        for (key, after) in neighbors(&params, &mut random) {
            let after = design(&after);
            if built(&after, &params) != stays {
                continue;
            }
            let rules = RULES.iter().zip(findings(&after)).zip(&found);
            for ((rule, _), _) in rules.filter(|((_, now), before)| now != *before) {
                // this one walks every fact of the list
                if rule.name == "likely" {
                    continue;
                }
                assert!(rule.keys.contains(&key), "{}: {key}", rule.name);
                moved.insert((rule.name, key));
            }
        }
    }
    assert!(moved.len() > 20, "{moved:?}");
}

/// Every so manieth demo, and so many random designs.
fn designs(step: usize, seeds: u64) -> impl Iterator<Item = Params> {
    let demos = demos().into_iter().step_by(step).map(|it| it.1);
    demos.chain((0..seeds).map(random_params))
}

/// The parameters with each key in turn moved to another value that goes with the others.
fn neighbors(params: &Params, random: &mut Random) -> Vec<(&'static str, Params)> {
    let mut found = Vec::new();
    for parameter in PARAMETERS {
        let key = parameter.key;
        let Some(value) = params
            .get(key)
            .filter(|_| key != WRITING && key != ALLOWANCE)
        else {
            continue;
        };
        let other = change(random, parameter, &value, params.project.unit);
        found.extend(params.with(key, &other).ok().map(|it| (key, it)));
    }
    found
}

/// All that is built and laid out, apart from the parameters themselves.
fn built(design: &Design, params: &Params) -> String {
    let mut layout = design.layout.clone();
    layout.params = params.clone().into();
    let (parts, clearances) = (&design.parts, &design.clearances);
    let (notes, packing) = (&design.notes, &design.packing);
    format!("{layout:?} {parts:?} {clearances:?} {notes:?} {packing:?}")
}

/// What each rule finds, as text.
fn findings(design: &Design) -> Vec<String> {
    let all = RULES.iter().map(|it| format!("{:?}", it.findings(design)));
    all.collect()
}

#[test]
fn keys_and_rules_are_explained_by_what_is_declared() {
    for rule in RULES {
        let of_rule = run(&["explain", rule.name]);
        for key in rule.keys {
            let line = format!("\n  {key} ");
            assert!(of_rule.out.contains(&line), "{}: {key}", rule.name);
        }
    }
    for parameter in PARAMETERS {
        let text = run(&["explain", parameter.key]).out;
        let named = text
            .lines()
            .find_map(|it| it.strip_prefix("Rules that judge by it: "));
        let named: Vec<&str> = named.map_or(Vec::new(), |it| {
            it.trim_end_matches('.').split(", ").collect()
        });
        let declared = RULES.iter().filter(|it| it.keys.contains(&parameter.key));
        let declared: Vec<&str> = declared.map(|it| it.name).collect();
        assert_eq!(named, declared, "{}", parameter.key);
    }
    let text = run(&["explain", "vent.vertical_clearance"]).out;
    assert!(text.contains("recess and pipe"), "{text}");
}

#[test]
fn a_table_is_explained_with_its_parameters() {
    let all = run(&["explain"]).out;
    for group in GROUPS {
        assert!(all.contains(&format!("\n  {} ", group.name)), "{all}");
        for name in [group.name.to_owned(), format!("[{}]", group.name)] {
            let one = run(&["explain", &name]);
            assert_eq!(one.exit, Exit::Clean, "{name}");
            let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(words(&one.out).contains(&words(group.meaning)), "{name}");
            for parameter in PARAMETERS.iter().filter(|it| it.group == group.name) {
                assert!(one.out.contains(parameter.key), "{name}: {}", parameter.key);
            }
        }
    }
    // a rule is called so, too
    let both = run(&["explain", "cables"]).out;
    assert!(both.contains("# Why") && both.contains("cables.route"));
}

#[test]
fn what_stands_in_is_never_blank() {
    for parameter in PARAMETERS {
        let text = run(&["explain", parameter.key]).out;
        assert!(!text.contains("left out: ."), "{text}");
    }
    let text = run(&["explain", "room.fixed"]).out;
    assert!(
        text.contains("If left out, drawn as none, assumed"),
        "{text}"
    );
}

#[test]
fn a_mantel_rule_is_read_in_the_forms_that_are_explained() {
    let text = run(&["explain", "mantel.rule"]).out;
    assert!(!text.contains("value ="), "{text}");
    let forms = text
        .lines()
        .find_map(|it| it.strip_prefix("Written as "))
        .unwrap();
    let forms: Vec<&str> = forms.trim_end_matches('.').split(" or ").collect();
    assert_eq!(forms.len(), 2, "{text}");
    for form in forms {
        let form = form.replace(", ...", "");
        let read = changed("reading-room", &[("mantel.rule", &form)]);
        assert_eq!(read.mantel.unwrap().rule.page, "12", "{form}");
    }
}

#[test]
fn a_mantel_rule_of_neither_form_is_told_both() {
    for other in ["{ value = \"7 in\", page = \"12\" }", "{ page = \"12\" }"] {
        let file = written("reading-room", &[("mantel.rule", other)]);
        let faults = read_table(&file).expect_err(other);
        let [fault] = faults.as_slice() else {
            panic!("{other}: {faults:#?}");
        };
        for name in ["steps", "base", "factor", "page"] {
            assert!(fault.expected.contains(name), "{fault:#?}");
        }
    }
}

/// Keys that no rule judges by, and why.
const UNJUDGED: &[(&str, &[&str])] = &[
    (
        "how the job is named and written",
        &["project.name", "project.unit", "project.floor_datum"],
    ),
    (
        "what is drawn follows from it, and is judged where it stands",
        &[
            "ridge.at",
            "ridge.fall",
            "ridge.far_height",
            "roof.thickness",
            "roof.board",
            "roof.cap_above",
            "wall.board",
            "wall.sheathing",
            "left_wall.board",
            "left_wall.sheathing",
            "right_wall.board",
            "right_wall.sheathing",
            "behind.lining",
            "behind.wall_plates",
            "far_wall.board",
            "far_wall.sheathing",
            "chase.way_behind",
            "front.form",
            "cables.cleats",
            "appliance.body_depth",
            "vent.flue_diameter",
            "vent.pipe_wall",
            "vent.collar_offset",
            "vent.collar",
            "vent.bend_radius",
            "vent.pass_frame",
            "vent.cap_depth",
            "legs.width",
            "legs.top",
            "cabinets.sides",
            "cabinets.height",
        ],
    ),
    (
        "what is drawn follows from it",
        &["chase.placement", "chase.hammer_room", "saw.tolerance"],
    ),
    ("the weights say what two can lift", &["chase.two_lift"]),
    ("the sheets are planned by it", &["stock.sheets"]),
    ("the boards are planned with it", &["stock.kerf"]),
    ("the buy list adds it", &["stock.reject"]),
    ("how long a plan is searched", &["stock.search_nodes"]),
    ("how prices are written", &["stock.currency"]),
    (
        "the saw settings say what it cannot do",
        &[
            "saw.stops",
            "saw.largest_miter",
            "saw.largest_bevel",
            "saw.shortest_piece",
        ],
    ),
    (
        "the fasteners are counted by it",
        &[
            "fasteners.board_screw_spacing",
            "fasteners.panel_screw_spacing",
            "fasteners.screw_bite",
            "fasteners.anchor_spacing",
            "fasteners.ceiling_screw_spacing",
            "fasteners.wall_screw_spacing",
            "fasteners.adhesive_reach",
            "fasteners.sealant_reach",
        ],
    ),
];

/// Every key is one that a rule judges by, or stands here with its reason.
#[test]
fn a_key_that_no_rule_judges_by_has_its_reason() {
    let judged: BTreeSet<&str> = RULES.iter().flat_map(|it| it.keys).copied().collect();
    let all = PARAMETERS.iter().map(|it| it.key);
    let found: BTreeSet<&str> = all.filter(|it| !judged.contains(it)).collect();
    let listed: BTreeSet<&str> = UNJUDGED.iter().flat_map(|it| it.1).copied().collect();
    assert_eq!(found, listed);
}
