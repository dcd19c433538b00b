//! What a rule, a table or a parameter means, out of the rule's own file and the one list of parameters.

use std::fmt::Write as _;

use super::look::{Look, wrapped};
use crate::check::Rule;
use crate::check::rules::RULES;
use crate::params::{
    Axis, Datum, GROUPS, Group, Kind, Nature, PARAMETERS, Parameter, Presence, guide, parameter,
};
use crate::units::TapeUnit;

/// What `(page)` means beside a parameter.
const PAGES: &str = "(those with a page come from the unit's own manual)";

/// The explanation of a name, or of what there is to explain when it is empty. A name that a rule and a table share
/// explains both.
///
/// # Errors
/// A text for the person at the keyboard where nothing has that name.
pub(super) fn of(name: &str, look: Look) -> Result<String, String> {
    if name.is_empty() {
        return Ok(everything(look));
    }
    // a rule may be written with hyphens, so that a shell takes it for one word
    let wanted = name.to_lowercase().replace('-', " ");
    let rule = RULES.iter().find(|it| it.name.replace('-', " ") == wanted);
    let table = name.trim_start_matches('[').trim_end_matches(']');
    let group = GROUPS.iter().find(|it| it.name == table);
    let found = [
        rule.map(|it| of_rule(it, look)),
        group.map(|it| of_group(it, look)),
        parameter(name).map(of_parameter),
    ];
    let found: Vec<String> = found.into_iter().flatten().collect();
    if found.is_empty() {
        return Err(format!(
            "no rule, table or parameter is called \"{name}\"; `chasewright explain` lists them all"
        ));
    }
    Ok(found.join("\n"))
}

fn everything(look: Look) -> String {
    let mut text = String::from("Rules:\n");
    for rule in RULES {
        text.push_str(&listed(rule.name, &headline(rule), 26, look));
    }
    text.push_str("\nTables of the parameter file:\n");
    for group in GROUPS {
        text.push_str(&listed(group.name, group.meaning, 26, look));
    }
    let _ = writeln!(text, "\nParameters {PAGES}:");
    add_parameters(&mut text, PARAMETERS, look);
    text
}

/// A name, and beside it what it means.
fn listed(name: &str, meaning: &str, column: usize, look: Look) -> String {
    // a name that is longer than its column keeps one space
    let head = format!("  {name:column$}");
    let head = if name.chars().count() < column {
        head
    } else {
        head + " "
    };
    let hanging = " ".repeat(head.chars().count());
    wrapped(meaning, look.columns(), [&head, &hanging])
}

/// A line for each parameter: its key and what it means.
fn add_parameters<'a>(
    text: &mut String,
    parameters: impl IntoIterator<Item = &'a Parameter>,
    look: Look,
) {
    for parameter in parameters {
        let page = if parameter.needs_page { " (page)" } else { "" };
        let meaning = format!("{}{page}", parameter.meaning);
        text.push_str(&listed(parameter.key, &meaning, 34, look));
    }
}

fn headline(rule: &Rule) -> String {
    let text = rule.documentation();
    text.lines().next().unwrap_or_default().to_owned()
}

fn of_rule(rule: &Rule, look: Look) -> String {
    let mut text = format!("{}\n\n{}\n", rule.name, rule.documentation().trim());
    if !rule.keys.is_empty() {
        let _ = writeln!(text, "\nParameters that it judges by {PAGES}:");
        let keys = rule.keys.iter().filter_map(|key| parameter(key));
        add_parameters(&mut text, keys, look);
    }
    text
}

fn of_group(group: &Group, look: Look) -> String {
    let mut text = format!("[{}]\n\n", group.name);
    text.push_str(&wrapped(group.meaning, look.columns(), ["", ""]));
    match group.nature {
        None => {}
        Some(Nature::Fact) => {
            text.push_str("The table may be left out where the job has none of it; otherwise its facts are asked for.\n");
        }
        Some(Nature::Subject | Nature::Choice) => {
            text.push_str("The table may be left out where there is none of what it describes.\n");
        }
    }
    let paragraphs = guide(group.name).into_iter().flat_map(str::lines);
    for line in paragraphs.filter(|it| !it.is_empty()) {
        // an example to copy stays on its line
        let is_example = line.starts_with('{') || line.starts_with('[') || line.contains(" = [{");
        text.push('\n');
        if is_example {
            let _ = writeln!(text, "{line}");
        } else {
            text.push_str(&wrapped(line, look.columns(), ["", ""]));
        }
    }
    let _ = writeln!(text, "\nIts parameters {PAGES}:");
    let own = PARAMETERS.iter().filter(|it| it.group == group.name);
    add_parameters(&mut text, own, look);
    text
}

fn of_parameter(parameter: &Parameter) -> String {
    let mut text = format!("{}\n\n{}\n", parameter.key, parameter.meaning);
    let _ = writeln!(text, "Written as {}.", parameter.kind.written_as());
    let _ = writeln!(text, "It is {}.", parameter.nature.text());
    add_page(&mut text, parameter);
    add_following(&mut text, parameter);
    for unit in [TapeUnit::Inch, TapeUnit::Millimeter] {
        let range = parameter.range_text(unit);
        if !range.is_empty() {
            let _ = writeln!(text, "May be {range}.");
        }
        if parameter.range_text(TapeUnit::Inch) == parameter.range_text(TapeUnit::Millimeter) {
            break;
        }
    }
    let usual = parameter.likely.text(TapeUnit::Inch);
    if !usual.is_empty() {
        let _ = writeln!(
            text,
            "Usually {usual} (common practice); anything else is asked about."
        );
    }
    add_presence(&mut text, parameter);
    let rules = RULES.iter().filter(|it| it.keys.contains(&parameter.key));
    let rules: Vec<&str> = rules.map(|it| it.name).collect();
    if !rules.is_empty() {
        let _ = writeln!(text, "Rules that judge by it: {}.", rules.join(", "));
    }
    text
}

/// Where a number of the manual is from, and how its page is written; a mantel rule's form has shown that.
fn add_page(text: &mut String, parameter: &Parameter) {
    if !parameter.needs_page {
        return;
    }
    text.push_str("It comes from the unit's own manual and is written with its page");
    if parameter.kind != Kind::MantelRule {
        let _ = write!(
            text,
            ": {} = {{ value = ..., page = \"12\" }}",
            parameter.name
        );
    }
    text.push_str(". It has no default.\n");
}

/// What it may be written from, where it is a height or a place.
fn add_following(text: &mut String, parameter: &Parameter) {
    let Some(axis) = parameter.follows else {
        return;
    };
    let forms = match axis {
        Axis::Height => "`on the ledge`, `3 in above the mantel` or `2 in below the recess's sill`",
        Axis::Face | Axis::Wall => {
            "`at the unit's center` or `12 in right of the chase's left end`"
        }
    };
    let _ = writeln!(
        text,
        "May be written from another thing, as {forms}, and moves with it:"
    );
    for thing in Datum::ALL.iter().filter(|it| it.fits(axis)) {
        let _ = writeln!(text, "  {:26}{}", thing.name(), thing.meaning());
    }
}

fn add_presence(text: &mut String, parameter: &Parameter) {
    match parameter.presence {
        Presence::Required => text.push_str("Required.\n"),
        Presence::Default => {
            if let Some(value) = (parameter.default)(TapeUnit::Inch) {
                let value = value.text(TapeUnit::Inch);
                let value = if value.is_empty() { "none" } else { &value };
                let _ = writeln!(text, "If left out: {value}.");
            }
        }
        Presence::Assumed => {
            if let Some(value) = (parameter.default)(TapeUnit::Inch) {
                let value = value.text(TapeUnit::Inch);
                let value = if value.is_empty() { "none" } else { &value };
                let _ = writeln!(
                    text,
                    "If left out, drawn as {value}, assumed; what depends on it is not judged."
                );
            }
        }
        Presence::Absent => text.push_str("May be left out.\n"),
    }
}
