//! A part in, what a file can say about it beside its shape out: names and values for people.

use std::collections::BTreeMap;

use crate::design::Part;
use crate::units::Length;

/// What is known of a part.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Text(String),
    Length(Length),
}

/// The attributes of a part, in the order in which they are shown; the cut lengths by the parts' ids.
pub(super) fn attributes(
    part: &Part,
    cut_lengths: &BTreeMap<String, Length>,
) -> Vec<(&'static str, Value)> {
    let mut attributes = vec![
        ("material", Value::Text(part.material.name.to_owned())),
        ("stock", Value::Text(part.stock.to_string())),
        ("stage", Value::Text(part.stage.name().to_owned())),
    ];
    if let Some(length) = cut_lengths.get(&part.id) {
        attributes.push(("cut length", Value::Length(*length)));
    }
    attributes
}
