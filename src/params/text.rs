//! Lengths and angles as a fault or an example says them.

use super::fault::Fault;
use crate::units::{Angle, Length, Marks, Rounding, TapeUnit};

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

/// An angle in degrees, to a thousandth at most.
pub(super) fn angle_text(angle: Angle) -> String {
    let thousandths = (angle.to_degrees() * 1000.0).round() / 1000.0;
    format!("{thousandths} deg")
}

/// A length on the finest marks of the unit's tape.
pub(super) fn length_text(length: Length, unit: TapeUnit) -> String {
    let marks = match unit {
        TapeUnit::Inch => Marks::SixtyFourths,
        TapeUnit::Millimeter => Marks::TenthMillimeters,
    };
    length
        .tape_on(marks, Rounding::Nearest)
        .replace(".0 mm", " mm")
}
