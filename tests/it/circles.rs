//! No long circles of files that import one another: whoever changes one of them has to know them all.
//!
//! In: the paths of `src/`, in `use` and in the code. A name counts as that of the file that defines it, also where
//! another passes it on.

use std::collections::{BTreeMap, BTreeSet};

use crate::tidy::sources;

/// Files that one circle may hold.
const LARGEST: usize = 4;
/// Files that all circles together may hold.
const ALL: usize = 20;

/// A path of names from the root of the library.
type Names = Vec<String>;

/// Every module and its file.
type Modules = BTreeMap<Names, String>;

#[test]
fn files_import_one_another_in_small_circles_only() {
    let circles = circles(&imports(&sources()));
    let largest = circles.iter().map(BTreeSet::len).max().unwrap_or(0);
    assert!(largest <= LARGEST, "a circle of {largest}: {circles:#?}");
    let all: usize = circles.iter().map(BTreeSet::len).sum();
    assert!(all <= ALL, "{all} files in circles: {circles:#?}");
}

/// A circle is found through names that are passed on, in a list of imports, and along a path in the code.
#[test]
fn circles_are_found_where_they_are() {
    let files = [
        ("src/lib.rs", "pub mod a;\npub mod b;"),
        (
            "src/a/mod.rs",
            "mod one;\nmod two;\npub use one::{One, other::Deep};\npub use two::Two;",
        ),
        (
            "src/a/one.rs",
            "// use super::Two;\nuse super::{\n    Two,\n};\npub struct One(Two);",
        ),
        ("src/a/two.rs", "fn f() { let _ = \"crate::a::One\"; }"),
        ("src/b.rs", "use crate::a;\nfn g(x: a::One) {}"),
    ];
    let with = |two: &str| {
        let mut files = files.map(|(path, text)| (path.to_owned(), text.to_owned()));
        files[3].1.push_str(two);
        circles(&imports(&files))
    };
    assert!(with("").is_empty());
    let both = BTreeSet::from(["src/a/one.rs", "src/a/two.rs"].map(str::to_owned));
    for two in [
        "\nfn g(x: crate::a::One) {}",
        "\nuse crate::{a::{One as Own}};",
    ] {
        assert_eq!(with(two).as_slice(), std::slice::from_ref(&both), "{two}");
    }
    assert_eq!(with("\nuse crate::b::g;")[0].len(), 3);
}

/// For each file the others that it imports from.
fn imports(sources: &[(String, String)]) -> BTreeMap<String, BTreeSet<String>> {
    let modules: Modules = sources
        .iter()
        .map(|(path, _)| (module(path), path.clone()))
        .collect();
    let mut passed_on = BTreeMap::new();
    let mut named = BTreeMap::new();
    for (path, text) in sources {
        let module = module(path);
        let (uses, mentions) = paths(&words(text));
        let mut known = BTreeMap::new();
        for (name, used) in uses {
            if let Some(whole) = from_the_root(&module, &used, &modules, &BTreeMap::new()) {
                known.insert(name, whole);
            }
        }
        let mentioned = mentions.iter();
        let mentioned = mentioned.filter_map(|it| from_the_root(&module, it, &modules, &known));
        let all: Vec<Names> = known.values().cloned().chain(mentioned).collect();
        named.insert(path.clone(), all);
        passed_on.extend(
            known
                .into_iter()
                .map(|(name, it)| ((module.clone(), name), it)),
        );
    }
    let file = |name: &Names| defined_in(name, &modules, &passed_on);
    let of = |(path, names): (String, Vec<Names>)| {
        let files = names.iter().filter_map(file).filter(|it| *it != path);
        (path.clone(), files.collect())
    };
    named.into_iter().map(of).collect()
}

/// The files of each circle.
fn circles(imports: &BTreeMap<String, BTreeSet<String>>) -> Vec<BTreeSet<String>> {
    let reached = |from: &str| {
        let mut found = BTreeSet::new();
        let mut open = vec![from];
        while let Some(at) = open.pop() {
            let next = imports.get(at).into_iter().flatten();
            open.extend(
                next.filter(|it| found.insert((*it).clone()))
                    .map(String::as_str),
            );
        }
        found
    };
    let reach: BTreeMap<&String, BTreeSet<String>> =
        imports.keys().map(|it| (it, reached(it))).collect();
    let round = |(from, far): (&&String, &BTreeSet<String>)| -> BTreeSet<String> {
        far.iter()
            .filter(|it| reach[it].contains(*from))
            .cloned()
            .collect()
    };
    let circles: BTreeSet<_> = reach
        .iter()
        .map(round)
        .filter(|it| !it.is_empty())
        .collect();
    circles.into_iter().collect()
}

/// The module that a file is.
fn module(path: &str) -> Names {
    let inner = path.trim_start_matches("src/").trim_end_matches(".rs");
    let mut names: Names = inner.split('/').map(str::to_owned).collect();
    if matches!(
        names.last().map(String::as_str),
        Some("mod" | "lib" | "main")
    ) {
        names.pop();
    }
    names
}

/// A path as the root of the library sees it; `None` where it leads out of the library.
fn from_the_root(
    module: &Names,
    path: &[String],
    modules: &Modules,
    known: &BTreeMap<String, Names>,
) -> Option<Names> {
    let (first, rest) = path.split_first()?;
    let start = match first.as_str() {
        "crate" => Names::new(),
        "self" => module.clone(),
        "super" => {
            let above = module[..module.len().checked_sub(1)?].to_vec();
            return if rest.first().is_some_and(|it| it == "super") {
                from_the_root(&above, rest, modules, known)
            } else {
                Some([above.as_slice(), rest].concat())
            };
        }
        name => {
            let child = [module.as_slice(), &[name.to_owned()]].concat();
            match known.get(name) {
                Some(whole) => whole.clone(),
                None if modules.contains_key(&child) => child,
                None => return None,
            }
        }
    };
    Some([start.as_slice(), rest].concat())
}

/// The file that defines what a path names; `None` where that is a module.
fn defined_in(
    path: &Names,
    modules: &Modules,
    passed_on: &BTreeMap<(Names, String), Names>,
) -> Option<String> {
    let mut path = path.clone();
    // names may be passed on in a ring that defines nothing
    let mut seen = BTreeSet::new();
    loop {
        let inside = (0..=path.len())
            .rev()
            .find(|it| modules.contains_key(&path[..*it]))?;
        let (module, rest) = (&path[..inside], &path[inside..]);
        let (name, further) = rest.split_first()?;
        match passed_on.get(&(module.to_vec(), name.clone())) {
            Some(own) if seen.insert(path.clone()) => {
                path = [own.as_slice(), further].concat();
            }
            _ => return modules.get(module).cloned(),
        }
    }
}

/// Names, `::` and single marks of a text, without its comments and strings.
fn words(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut rest = text;
    while let Some(next) = rest.chars().next() {
        let taken = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if next == '"' {
            let mut escaped = false;
            let end = rest[1..].find(|it| {
                let ends = it == '"' && !escaped;
                escaped = it == '\\' && !escaped;
                ends
            });
            end.map_or(rest.len(), |it| it + 2)
        } else if next.is_alphanumeric() || next == '_' {
            let end = rest.find(|it: char| !it.is_alphanumeric() && it != '_');
            let end = end.unwrap_or(rest.len());
            words.push(rest[..end].to_owned());
            end
        } else if rest.starts_with("'\"'") {
            3
        } else if rest.starts_with("::") {
            words.push("::".to_owned());
            2
        } else {
            if !next.is_whitespace() {
                words.push(next.to_string());
            }
            next.len_utf8()
        };
        rest = &rest[taken..];
    }
    words
}

/// What a file imports, by the name it goes by there; and the other paths that it names.
fn paths(words: &[String]) -> (Vec<(String, Names)>, Vec<Names>) {
    let (mut uses, mut mentions) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < words.len() {
        if words[at] == "use" {
            at = imported(words, at + 1, &Names::new(), &mut uses);
            continue;
        }
        let mut path = vec![words[at].clone()];
        while at + 2 < words.len() && words[at + 1] == "::" && is_name(&words[at + 2]) {
            path.push(words[at + 2].clone());
            at += 2;
        }
        if path.len() > 1 {
            mentions.push(path);
        }
        at += 1;
    }
    (uses, mentions)
}

fn is_name(word: &str) -> bool {
    word.starts_with(|it: char| it.is_alphabetic() || it == '_')
}

/// One branch of an import, from this word on: adds its names, and returns where it ends.
fn imported(
    words: &[String],
    mut at: usize,
    before: &Names,
    uses: &mut Vec<(String, Names)>,
) -> usize {
    let mut path = before.clone();
    let mut is_named = false;
    while at < words.len() {
        match words[at].as_str() {
            "{" => {
                while at < words.len() && words[at] != "}" {
                    at = imported(words, at + 1, &path, uses);
                }
                return at + 1;
            }
            "}" | "," | ";" => break,
            "as" => {
                uses.push((words[at + 1].clone(), path));
                return at + 2;
            }
            "::" => {}
            // `a::{self, b}` names the module a
            "self" if !path.is_empty() => is_named = true,
            name => {
                path.push(name.to_owned());
                is_named = true;
            }
        }
        at += 1;
    }
    if let Some(name) = path.last().filter(|_| is_named) {
        uses.push((name.clone(), path.clone()));
    }
    at
}
