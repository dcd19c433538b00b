//! Designs as people bring them: faulty ones, which an inspector red-tags or a framer sends back, and sound ones, which
//! both let pass. They were written from the trade's side, without a look at the rules, and stand as data in
//! `tests/params/corpus`: a demo, the lines that are changed in its text as a user would change them, why that is wrong
//! or right, and what has to come.
//!
//! In `faulty` a row names the least verdict (`FAIL`, or `ASK`, which a `FAIL` is worse than), the rule, and where that
//! is not enough a text (`says`) of the finding; the demo unchanged must not have it. `REFUSED` stands where the file is
//! not read at all, and `rule` is then the key of the fault. In `sound` nothing may FAIL; where a row names a rule, it has
//! to judge, and neither to fail nor to ask.

use std::collections::BTreeMap;

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::params::{self, Fault};

/// A row of the data.
struct Row {
    name: String,
    demo: String,
    /// Table, key and value as it stands in the file.
    set: Vec<(String, String, String)>,
    /// Keys, dotted, and whole tables.
    without: Vec<String>,
    verdict: Option<Wanted>,
    rule: Option<String>,
    says: String,
}

/// The least that has to come of a faulty design.
#[derive(Clone, Copy, PartialEq)]
enum Wanted {
    Refused,
    Fail,
    Ask,
}

impl Row {
    fn new(table: &toml::Table) -> Self {
        let text = |key: &str| table.get(key).map(|it| it.as_str().unwrap().to_owned());
        let needed = |key: &str| text(key).unwrap_or_else(|| panic!("{table}: {key} is missing"));
        let whole = needed("why").ends_with('.');
        assert!(whole, "{table}: `why` is a sentence");
        let without = table
            .get("without")
            .map_or(&[][..], |it| it.as_array().unwrap());
        Self {
            name: needed("name"),
            demo: needed("demo"),
            set: text("set")
                .iter()
                .flat_map(|it| it.lines())
                .map(line)
                .collect(),
            without: without
                .iter()
                .map(|it| it.as_str().unwrap().to_owned())
                .collect(),
            verdict: text("verdict").map(|it| wanted(&it)),
            rule: text("rule"),
            says: text("says").unwrap_or_default(),
        }
    }

    /// The demo's text with the changes of this row.
    fn text(&self) -> String {
        let mut lines: Vec<String> = demo_text(&self.demo).lines().map(str::to_owned).collect();
        for name in &self.without {
            let place = match name.split_once('.') {
                Some((table, key)) => key_at(&lines, table, key),
                None => table_at(&lines, name),
            };
            drop(lines.drain(place.unwrap_or_else(|| panic!("{}: no {name} there", self.name))));
        }
        for (table, key, value) in &self.set {
            write(&mut lines, (table, key), value);
        }
        lines.join("\n") + "\n"
    }

    /// What the program says of it.
    fn findings(&self) -> Result<Vec<Finding>, Vec<Fault>> {
        params::read(&self.text()).map(|params| check(&design(&params)))
    }

    /// The findings that the row is about.
    fn own<'a>(&'a self, findings: &'a [Finding]) -> impl Iterator<Item = &'a Finding> {
        let says = |it: &Finding| {
            let about = it.subject.to_string();
            let texts = [Some(&about), it.question.as_ref(), it.detail.as_ref()];
            texts
                .into_iter()
                .flatten()
                .any(|it| it.contains(&self.says))
        };
        let own = findings
            .iter()
            .filter(|it| Some(it.rule) == self.rule.as_deref());
        own.filter(move |it| says(it))
    }

    /// Whether the rule says the wanted of these findings, or worse.
    fn is_found(&self, findings: &[Finding]) -> bool {
        self.own(findings).any(|it| match self.verdict {
            Some(Wanted::Fail) => it.verdict == Verdict::Fail,
            Some(Wanted::Ask) => matches!(it.verdict, Verdict::Fail | Verdict::Ask),
            Some(Wanted::Refused) | None => false,
        })
    }
}

fn wanted(word: &str) -> Wanted {
    match word {
        "REFUSED" => Wanted::Refused,
        "FAIL" => Wanted::Fail,
        "ASK" => Wanted::Ask,
        _ => panic!("`{word}` is no verdict of the corpus"),
    }
}

/// `table.key = value`, as a line of `set` has it.
fn line(text: &str) -> (String, String, String) {
    let (path, value) = text.split_once('=').expect("a line with `=`");
    let (table, key) = path.trim().split_once('.').expect("a dotted key");
    (table.to_owned(), key.to_owned(), value.trim().to_owned())
}

/// Where a table of a file stands, its header with it.
fn table_at(lines: &[String], table: &str) -> Option<std::ops::Range<usize>> {
    let header = format!("[{table}]");
    let start = lines.iter().position(|it| it.starts_with(&header))?;
    let is_header = |it: &String| it.starts_with('[') && !it.starts_with("[[");
    let next = lines[start + 1..].iter().position(is_header);
    Some(start..next.map_or(lines.len(), |it| start + 1 + it))
}

/// Where a key stands with its value, which may go on over several lines.
fn key_at(lines: &[String], table: &str, key: &str) -> Option<std::ops::Range<usize>> {
    let own = table_at(lines, table)?;
    let is_key = |it: &String| {
        it.split_once('=')
            .is_some_and(|(name, _)| name.trim() == key)
    };
    let start = own.start + lines[own.clone()].iter().position(is_key)?;
    let is_whole = |end: &usize| lines[start..*end].join("\n").parse::<toml::Table>().is_ok();
    Some(start..(start + 1..=own.end).find(is_whole)?)
}

/// Writes a key over the one that is there, into its table, or with the table at the end.
fn write(lines: &mut Vec<String>, (table, key): (&str, &str), value: &str) {
    let line = format!("{key} = {value}");
    if let Some(place) = key_at(lines, table, key) {
        lines.splice(place, [line]);
    } else if let Some(place) = table_at(lines, table) {
        lines.insert(place.start + 1, line);
    } else {
        lines.extend([String::new(), format!("[{table}]"), line]);
    }
}

fn demo_text(name: &str) -> String {
    let path = format!("{}/params/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{path}: {fault}"))
}

/// Every row of a folder of the corpus.
fn rows(folder: &str) -> Vec<Row> {
    let folder = format!(
        "{}/tests/params/corpus/{folder}",
        env!("CARGO_MANIFEST_DIR")
    );
    let files = std::fs::read_dir(folder).unwrap();
    let mut files: Vec<_> = files.map(|it| it.unwrap().path()).collect();
    files.sort();
    let mut rows: Vec<Row> = Vec::new();
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap();
        let file: toml::Table = text
            .parse()
            .unwrap_or_else(|it| panic!("{}: {it}", path.display()));
        let designs = file["design"].as_array().unwrap().iter();
        rows.extend(designs.map(|it| Row::new(it.as_table().unwrap())));
    }
    let mut names: Vec<&str> = rows.iter().map(|it| it.name.as_str()).collect();
    names.sort_unstable();
    assert!(
        names.windows(2).all(|it| it[0] != it[1]),
        "one name twice: {names:?}"
    );
    rows
}

/// What the program says of the demos unchanged, each asked once.
#[derive(Default)]
struct Unchanged(BTreeMap<String, Vec<Finding>>);

impl Unchanged {
    fn findings(&mut self, demo: &str) -> &[Finding] {
        self.0.entry(demo.to_owned()).or_insert_with(|| {
            let params = params::read(&demo_text(demo)).expect("the demo is sound");
            check(&design(&params))
        })
    }
}

/// What is wrong with the answer to a faulty design, if anything.
fn missed(row: &Row, unchanged: &mut Unchanged) -> Option<String> {
    let rule = row.rule.as_deref().expect("a faulty row names its rule");
    match (row.findings(), row.verdict) {
        (Err(faults), Some(Wanted::Refused)) => {
            let keys: Vec<&str> = faults.iter().map(|it| it.key.as_ref()).collect();
            (!keys.contains(&rule)).then(|| format!("refused for {keys:?}"))
        }
        (Err(faults), _) => Some(format!("refused: {faults:#?}")),
        (Ok(_), Some(Wanted::Refused) | None) => Some("read".to_owned()),
        (Ok(findings), _) if !row.is_found(&findings) => {
            let said: Vec<_> = row
                .own(&findings)
                .map(|it| (it.verdict, it.subject.to_string()))
                .collect();
            Some(format!("{rule} says {said:?}"))
        }
        (Ok(_), _) => (row.is_found(unchanged.findings(&row.demo)))
            .then(|| "the demo unchanged has the same".to_owned()),
    }
}

/// What is wrong with the answer to a sound design, if anything.
fn wronged(row: &Row) -> Option<String> {
    let findings = match row.findings() {
        Ok(findings) => findings,
        Err(faults) => return Some(format!("refused: {faults:#?}")),
    };
    let failed: Vec<_> = findings
        .iter()
        .filter(|it| it.verdict == Verdict::Fail)
        .collect();
    if !failed.is_empty() {
        return Some(format!("{failed:#?}"));
    }
    let rule = row.rule.as_deref()?;
    let mut own = row.own(&findings).peekable();
    if own.peek().is_none() {
        return Some(format!("{rule} says nothing"));
    }
    let asked = own.find(|it| it.verdict == Verdict::Ask);
    asked.map(|it| format!("{rule} asks: {:?}", it.question))
}

#[test]
fn every_faulty_design_is_found() {
    let (rows, mut unchanged) = (rows("faulty"), Unchanged::default());
    let missed: Vec<String> = (rows.iter())
        .filter_map(|row| missed(row, &mut unchanged).map(|it| format!("{}: {it}", row.name)))
        .collect();
    assert!(missed.is_empty(), "{}", missed.join("\n"));
    assert!(rows.len() >= 85, "{} faulty designs", rows.len());
}

#[test]
fn no_sound_design_fails() {
    let rows = rows("sound");
    let wronged: Vec<String> = (rows.iter())
        .filter_map(|row| wronged(row).map(|it| format!("{}: {it}", row.name)))
        .collect();
    assert!(wronged.is_empty(), "{}", wronged.join("\n"));
    assert!(rows.len() >= 45, "{} sound designs", rows.len());
}

/// A line is written over its key, over all the lines of its value, into its table, or with a table of its own.
#[test]
fn changes_are_made_in_the_text() {
    let file = "[room]\nwidth = 1 # wide\nfixed = [\n  { name = \"a\" },\n]\n\n[chase]\nleft = 0";
    let mut lines: Vec<String> = file.lines().map(str::to_owned).collect();
    write(&mut lines, ("room", "fixed"), "[]");
    write(&mut lines, ("chase", "width"), "2");
    write(&mut lines, ("gas", "fuel"), "\"natural\"");
    let expected = "[room]\nwidth = 1 # wide\nfixed = []\n\n[chase]\nwidth = 2\nleft = 0\n\n[gas]\nfuel = \"natural\"";
    assert_eq!(lines.join("\n"), expected);
    assert_eq!(table_at(&lines, "room"), Some(0..4));
    assert_eq!(key_at(&lines, "room", "left"), None);
}
