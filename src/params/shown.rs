//! Texts of the parameter file that are shown again, in a terminal, a page or a table of numbers.

use super::fault::Fault;

/// Characters of a text at most.
const LONGEST_TEXT: usize = 200;
/// What a table of numbers would take for the beginning of a formula.
const FORMULA: [char; 4] = ['=', '+', '-', '@'];

/// The fault of a text that is shown again: it has to be short, on one line, and no formula where a table shows it.
pub(super) fn text_fault(key: &str, what: &str, text: &str) -> Option<Fault> {
    let found = if text.trim().is_empty() {
        "nothing"
    } else if text.chars().count() > LONGEST_TEXT {
        "a longer text"
    } else if text.chars().any(char::is_control) {
        "control characters"
    } else if text.trim_start().starts_with(FORMULA) {
        "the beginning of a formula"
    } else {
        return None;
    };
    let fault = Fault::new(key, format!("`{key}` has no usable {what}"));
    let fault = fault.found(found).expected(format!(
        "1 to {LONGEST_TEXT} characters on one line, the first of them none of = + - @"
    ));
    Some(fault.way_out("write a short text on one line"))
}
