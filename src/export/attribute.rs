//! A part in, what a file can say about it beside its shape out: names and values for people.

use std::collections::BTreeMap;

use crate::design::{Design, Part};
use crate::takeoff::{CutLength, cut_lengths, marks};

/// What is known of a part.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Text(String),
    Length(CutLength),
}

/// What the cut list says of sticks, by their parts' ids.
#[derive(Debug)]
pub(super) struct Sticks {
    marks: BTreeMap<String, String>,
    cut_lengths: BTreeMap<String, CutLength>,
}

impl Sticks {
    /// The sticks of a design.
    pub(super) fn new(design: &Design) -> Self {
        Self {
            marks: marks(design),
            cut_lengths: cut_lengths(design),
        }
    }

    /// What is written on a stick.
    pub(super) fn mark(&self, id: &str) -> Option<&str> {
        self.marks.get(id).map(String::as_str)
    }
}

/// The attributes of a part, in the order in which they are shown.
pub(super) fn attributes(part: &Part, sticks: &Sticks) -> Vec<(&'static str, Value)> {
    let mut attributes = vec![
        ("material", Value::Text(part.material.name.to_owned())),
        ("stock", Value::Text(part.stock.to_string())),
        ("stage", Value::Text(part.stage.name().to_owned())),
    ];
    if let Some(mark) = sticks.mark(&part.id) {
        attributes.push(("mark", Value::Text(mark.to_owned())));
    }
    if let Some(length) = sticks.cut_lengths.get(&part.id) {
        attributes.push(("cut length", Value::Length(*length)));
    }
    attributes
}
