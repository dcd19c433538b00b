//! What a rule or a parameter means, out of the rule's own file and the one list of parameters.

use std::fmt::Write as _;

use crate::check::Rule;
use crate::check::rules::RULES;
use crate::params::{PARAMETERS, Parameter, Presence, parameter};
use crate::units::TapeUnit;

/// The explanation of a name, or of what there is to explain when it is empty.
///
/// # Errors
/// A text for the person at the keyboard where nothing has that name.
pub(super) fn of(name: &str) -> Result<String, String> {
    if name.is_empty() {
        return Ok(everything());
    }
    // a rule may be written with hyphens, so that a shell takes it for one word
    let wanted = name.to_lowercase().replace('-', " ");
    let rule = RULES.iter().find(|it| it.name.replace('-', " ") == wanted);
    if let Some(rule) = rule {
        return Ok(of_rule(rule));
    }
    parameter(name).map(of_parameter).ok_or_else(|| {
        format!("no rule or parameter is called \"{name}\"; `chasewright explain` lists them all")
    })
}

fn everything() -> String {
    let mut text = String::from("Rules:\n");
    for rule in RULES {
        let _ = writeln!(text, "  {:26}{}", rule.name, headline(rule));
    }
    text.push_str("\nParameters (those with a page come from the unit's own manual):\n");
    for parameter in PARAMETERS {
        let page = if parameter.needs_page { " (page)" } else { "" };
        let _ = writeln!(text, "  {:34}{}{page}", parameter.key, parameter.meaning);
    }
    text
}

fn headline(rule: &Rule) -> String {
    let text = rule.documentation();
    text.lines().next().unwrap_or_default().to_owned()
}

fn of_rule(rule: &Rule) -> String {
    format!("{}\n\n{}\n", rule.name, rule.documentation().trim())
}

fn of_parameter(parameter: &Parameter) -> String {
    let mut text = format!("{}\n\n{}\n", parameter.key, parameter.meaning);
    let _ = writeln!(text, "Written as {}.", parameter.kind.written_as());
    if parameter.needs_page {
        let _ = writeln!(
            text,
            "It comes from the unit's own manual and is written with its page: {} = {{ value = ..., page = \"12\" }}. It has no default.",
            parameter.name
        );
    }
    for unit in [TapeUnit::Inch, TapeUnit::Millimeter] {
        let range = parameter.range_text(unit);
        if !range.is_empty() {
            let _ = writeln!(text, "May be {range}.");
        }
        if parameter.range_text(TapeUnit::Inch) == parameter.range_text(TapeUnit::Millimeter) {
            break;
        }
    }
    match parameter.presence {
        Presence::Required => text.push_str("Has to be written.\n"),
        Presence::Default => {
            if let Some(value) = (parameter.default)(TapeUnit::Inch) {
                let _ = writeln!(text, "If left out: {}.", value.text(TapeUnit::Inch));
            }
        }
        Presence::Absent => text.push_str("May be left out.\n"),
    }
    let moved: Vec<&str> = RULES
        .iter()
        .filter(|rule| rule.text.contains(&format!("\"{}\"", parameter.key)))
        .map(|rule| rule.name)
        .collect();
    if !moved.is_empty() {
        let _ = writeln!(text, "Rules that it moves: {}.", moved.join(", "));
    }
    text
}
