//! The whole parameter text in, [`Params`] out, or every fault of it at once.
//!
//! Every value is read and judged by itself first; how they go together is asked once all of them are sound.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::de::{DeTable, DeValue};

use super::consistent;
use super::fault::Fault;
use super::list::{GROUPS, PARAMETERS, Params};
use super::nearest;
use super::range::range_text;
use super::resolve;
use super::sound;
use super::table::{Group, Parameter, Presence, Values};
use super::written::{self, Context, Written, kind_of};
use crate::units::TapeUnit;

/// A key as it stands in the text.
type Name<'a> = toml::Spanned<std::borrow::Cow<'a, str>>;

/// Reads a parameter file's text.
///
/// # Errors
/// Every fault that was found, in the order of the text; never an empty list.
///
/// # Examples
/// ```
/// use chasewright::params;
///
/// let faults = params::read("[chase]\nwidht = \"90 in\"").expect_err("a key that is not known");
/// assert!(faults.iter().any(|it| it.to_string().contains("widht")));
/// ```
pub fn read(text: &str) -> Result<Params, Vec<Fault>> {
    if let Some(fault) = lone_return(text) {
        return Err(vec![fault]);
    }
    let (document, errors) = DeTable::parse_recoverable(text);
    let mut reader = Reader {
        text,
        unit: declared_unit(document.get_ref()),
        whole: errors.is_empty(),
        values: Values::default(),
        places: BTreeMap::new(),
        misspelt: Vec::new(),
        unknown: 0,
        faults: syntax_faults(text, &errors),
    };
    for (name, table) in document.get_ref() {
        reader.group(name, table);
    }
    reader.missing_groups(document.get_ref());
    reader.finish()
}

struct Reader<'a> {
    text: &'a str,
    unit: TapeUnit,
    /// Whether the text is sound TOML, so that what is not there is really missing.
    whole: bool,
    values: Values,
    /// Where each written key and table stands.
    places: BTreeMap<String, Range<usize>>,
    /// What unknown keys and tables were most likely meant to be; these are not called missing too.
    misspelt: Vec<&'static str>,
    /// How many keys and tables are not known.
    unknown: usize,
    faults: Vec<Fault>,
}

/// Unknown keys and tables that are reported one by one; the rest are counted.
const TOLD: usize = 100;

/// The fault of a text whose lines all end with a carriage return alone, which TOML does not take for an end.
fn lone_return(text: &str) -> Option<Fault> {
    let lone = text.find('\r').filter(|_| !text.contains('\n'))?;
    let fault = Fault::new("", "the lines end with a carriage return alone");
    let fault = fault.found("a carriage return without a line feed");
    let fault = fault.expected("line feeds, or a carriage return and a line feed, between lines");
    let fault = fault.way_out("save the file with the line ends of Unix or Windows");
    Some(fault.at(lone..lone + 1))
}

impl Reader<'_> {
    /// One table of the file.
    fn group(&mut self, name: &Name<'_>, written: &Written<'_>) {
        let Some(group) = GROUPS
            .iter()
            .find(|group| group.name == name.get_ref().as_ref())
        else {
            if self.is_told(name) {
                return;
            }
            self.unknown += 1;
            if self.unknown > TOLD {
                return;
            }
            self.misspelt.extend(nearest::group(name.get_ref()));
            self.faults.push(unknown_group(name, written));
            return;
        };
        let DeValue::Table(table) = written.get_ref() else {
            let fault = Fault::new(group.name, format!("`{}` is not a table", group.name))
                .found(kind_of(written.get_ref()))
                .expected(format!("a table [{}]", group.name))
                .way_out(format!(
                    "write [{}] on a line of its own, and its keys below",
                    group.name
                ));
            self.faults.push(fault.at(written.span()));
            return;
        };
        self.places.insert(group.name.to_owned(), written.span());
        if group.is_optional() {
            self.values.groups.push(group.name);
        }
        for (name, value) in table {
            self.entry(group, name, value);
        }
        self.missing_keys(group, table, written.span());
    }

    /// Whether a name is empty, which has already been reported as invalid text.
    fn is_told(&self, name: &Name<'_>) -> bool {
        !self.whole && name.get_ref().is_empty()
    }

    /// One key of a table.
    fn entry(&mut self, group: &Group, name: &Name<'_>, written: &Written<'_>) {
        let Some(parameter) = parameters_of(group.name).find(|p| p.name == name.get_ref().as_ref())
        else {
            if self.is_told(name) {
                return;
            }
            self.unknown += 1;
            if self.unknown > TOLD {
                return;
            }
            let near = nearest::parameter(group.name, name.get_ref());
            self.misspelt.extend(near.map(|near| near.key));
            self.faults.push(unknown_key(group.name, name, near));
            return;
        };
        self.places.insert(parameter.key.to_owned(), written.span());
        if self.told(&written.span()) {
            return;
        }
        let context = Context {
            text: self.text,
            unit: self.unit,
            parameter,
        };
        let value = written::read(context, written).and_then(|value| {
            let fault = sound::fault(parameter, &value, self.unit);
            fault.map_or(Ok(value), |fault| Err(fault.at(written.span())))
        });
        match value {
            Ok(value) => {
                self.values.held.insert(parameter.key, value);
            }
            Err(fault) => self.faults.push(fault),
        }
    }

    /// Whether the parser of TOML has spoken of this very place already.
    fn told(&self, place: &Range<usize>) -> bool {
        // A value that is no more than a stand-in for what cannot be parsed has no extent.
        if place.is_empty() {
            return true;
        }
        let overlaps = |told: &Range<usize>| told.start <= place.end && place.start <= told.end;
        let mut syntax = self.faults.iter().filter(|fault| fault.key.is_empty());
        syntax.any(|fault| fault.place.as_ref().is_some_and(overlaps))
    }

    fn missing_keys(&mut self, group: &Group, table: &DeTable<'_>, place: Range<usize>) {
        let missing = required_of(group.name)
            .filter(|parameter| self.whole && !table.contains_key(parameter.name))
            .filter(|parameter| !self.misspelt.contains(&parameter.key))
            .collect::<Vec<_>>();
        for parameter in missing {
            let fault = Fault::new(parameter.key, format!("`{}` is missing", parameter.key))
                .found(format!("[{}] without `{}`", group.name, parameter.name))
                .expected(expected_of(parameter, self.unit))
                .way_out(format!("add `{}`: {}", parameter.name, parameter.meaning));
            self.faults.push(fault.at(place.clone()));
        }
    }

    fn missing_groups(&mut self, document: &DeTable<'_>) {
        let end = self.text.len()..self.text.len();
        let needed = GROUPS
            .iter()
            .filter(|group| !group.is_optional() && !document.contains_key(group.name));
        let needed: Vec<&Group> = needed
            .filter(|group| self.whole && !self.misspelt.contains(&group.name))
            .collect();
        for group in needed {
            let keys: Vec<&str> = required_of(group.name)
                .map(|parameter| parameter.name)
                .collect();
            if keys.is_empty() {
                continue;
            }
            let fault = Fault::new(group.name, format!("the table [{}] is missing", group.name))
                .found("the end of the file")
                .expected(format!("[{}] with {}", group.name, keys.join(", ")))
                .way_out(format!("add the table: {}", group.meaning));
            self.faults.push(fault.at(end.clone()));
        }
    }

    /// The parameters, once every value by itself is sound and all of them go together.
    fn finish(mut self) -> Result<Params, Vec<Fault>> {
        self.values.add_eases(self.unit);
        if self.faults.is_empty()
            && let Some(params) = Params::build(&self.values, self.unit)
        {
            let mut params = params;
            let faults = match resolve::resolve(&mut params) {
                Ok(()) => consistent::faults(&params),
                Err(faults) => faults,
            };
            if faults.is_empty() {
                return Ok(params);
            }
            let placed = faults.into_iter().map(|fault| self.placed(fault));
            self.faults = placed.collect();
        }
        let last = self.text.len();
        if let Some(more) = self.unknown.checked_sub(TOLD).filter(|it| *it > 0) {
            let fault = Fault::new("", format!("{more} more keys and tables are unknown"));
            let fault = fault.found("names that no parameter has");
            let fault = fault.expected("the keys that `explain` lists");
            self.faults
                .push(fault.way_out("is this a parameter file of a chase at all?"));
        }
        self.faults
            .sort_by_key(|fault| fault.place.as_ref().map_or(last, |place| place.start));
        Err(self.faults)
    }

    /// The fault at its key, or at the key's table where the key is left out, or at the end.
    fn placed(&self, fault: Fault) -> Fault {
        let group = fault.key.split('.').next().unwrap_or_default();
        let place = self
            .places
            .get(fault.key.as_ref())
            .or_else(|| self.places.get(group));
        let end = self.text.len()..self.text.len();
        let place = place.cloned().unwrap_or(end);
        fault.at(place)
    }
}

/// The unit of bare numbers, which has to be known before the first of them; a faulty one is faulted in its turn.
fn declared_unit(document: &DeTable<'_>) -> TapeUnit {
    let project = document
        .get("project")
        .and_then(|project| project.get_ref().as_table());
    let word = project
        .and_then(|table| table.get("unit"))
        .and_then(|unit| unit.get_ref().as_str());
    word.and_then(TapeUnit::from_word).unwrap_or_default()
}

fn parameters_of(group: &str) -> impl Iterator<Item = &'static Parameter> {
    PARAMETERS
        .iter()
        .filter(move |parameter| parameter.group == group)
}

fn required_of(group: &str) -> impl Iterator<Item = &'static Parameter> {
    parameters_of(group).filter(|parameter| parameter.presence == Presence::Required)
}

/// What a parameter looks like and what it may be.
fn expected_of(parameter: &Parameter, unit: TapeUnit) -> String {
    let example = written::example(parameter.kind);
    let range = range_text(parameter.range, unit);
    let comma = if range.is_empty() { "" } else { ", " };
    let page = if parameter.needs_page {
        ", with its page"
    } else {
        ""
    };
    format!("{example}{comma}{range}{page}")
}

fn unknown_key(group: &str, name: &Name<'_>, near: Option<&Parameter>) -> Fault {
    let written = name.get_ref();
    let known: Vec<&str> = parameters_of(group)
        .map(|parameter| parameter.name)
        .collect();
    Fault::new(
        &format!("{group}.{written}"),
        format!("[{group}] has no key `{written}`"),
    )
    .found(format!("`{written}`"))
    .expected(format!("a key of [{group}]: {}", known.join(", ")))
    .way_out(near.map_or_else(
        || "take it out".to_owned(),
        |near| format!("did you mean `{}` in [{}]?", near.name, near.group),
    ))
    .at(name.span())
}

fn unknown_group(name: &Name<'_>, value: &Written<'_>) -> Fault {
    let written = name.get_ref();
    let known: Vec<&str> = GROUPS.iter().map(|group| group.name).collect();
    let is_table = value.get_ref().is_table();
    let near = if is_table {
        nearest::group(written).map(|near| format!("did you mean [{near}]?"))
    } else {
        nearest::parameter("", written)
            .map(|near| format!("did you mean `{}` in [{}]?", near.name, near.group))
    };
    let problem = if is_table {
        format!("there is no table [{written}]")
    } else {
        format!("`{written}` is outside every table")
    };
    Fault::new(written, problem)
        .found(format!("`{written}`"))
        .expected(format!("one of the tables {}", known.join(", ")))
        .way_out(near.unwrap_or_else(|| "take it out".to_owned()))
        .at(name.span())
}

/// What the TOML parser says; of several complaints about one line only the first, since the others follow from it.
fn syntax_faults(text: &str, errors: &[toml::de::Error]) -> Vec<Fault> {
    let mut faults: Vec<Fault> = errors
        .iter()
        .map(|error| syntax_fault(text, error))
        .collect();
    faults.dedup_by(|next, kept| match (&next.place, &kept.place) {
        (Some(next), Some(kept)) => {
            let between = text.get(kept.start..next.start).unwrap_or("\n");
            !between.contains('\n')
        }
        _ => false,
    });
    faults
}

/// What the TOML parser says, as a fault.
fn syntax_fault(text: &str, error: &toml::de::Error) -> Fault {
    let place = error.span().unwrap_or(text.len()..text.len());
    let marked = text.get(place.clone()).filter(|marked| !marked.is_empty());
    let from = text.get(place.start..).unwrap_or_default();
    let snippet = marked
        .or(from.lines().next())
        .and_then(|snippet| snippet.lines().next());
    let found = match snippet.map(str::trim) {
        Some(line) if !line.is_empty() => {
            format!("`{}`", line.chars().take(40).collect::<String>())
        }
        _ => "nothing".to_owned(),
    };
    let (problem, expected) = error
        .message()
        .split_once(", expected ")
        .unwrap_or((error.message(), "sound TOML"));
    let fault = match problem {
        "duplicate key" => Fault::new("", "a key or table is written twice")
            .expected("each key and table once")
            .way_out("keep one of the two"),
        "string values must be quoted" | "missing opening quote" => Fault::new(
            "",
            "a text has no quotes",
        )
        .expected("a bare number, true or false, or a text in quotes")
        .way_out(
            "write \"2x4\" or \"9' 4-1/2\\\"\": quotes around it, and \\\" for an inch mark within",
        ),
        _ => Fault::new("", format!("the text is not valid TOML: {problem}"))
            .expected(expected)
            .way_out("correct this line; a text goes in quotes, a list in [ ]"),
    };
    fault.found(found).at(place)
}
