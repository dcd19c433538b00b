//! What is known of a part in, its user-defined attributes out.
//!
//! *Source*: ISO 10303-41 (general property, property definition) and ISO 10303-45 (descriptive and measure
//! representation items), as the recommended practice for user-defined attributes joins them: from memory.

use std::collections::BTreeMap;

use super::Context;
use super::text::{Id, Text, quoted};
use crate::design::{Design, Part};
use crate::export::attribute::{Sticks, Value, attributes};

/// Attributes by their name, each a property of its own.
#[derive(Debug)]
pub(super) struct Properties {
    sticks: Sticks,
    written: BTreeMap<&'static str, Id>,
}

impl Properties {
    /// No attributes yet, of the parts of a design.
    pub(super) fn new(design: &Design) -> Self {
        Self {
            sticks: Sticks::new(design),
            written: BTreeMap::new(),
        }
    }

    /// What is written on a stick.
    pub(super) fn mark(&self, id: &str) -> Option<&str> {
        self.sticks.mark(id)
    }

    /// Adds the attributes of a part to its product.
    pub(super) fn add(&mut self, text: &mut Text, context: &Context, part: &Part, product: Id) {
        for (name, value) in attributes(part, &self.sticks) {
            let property = *self
                .written
                .entry(name)
                .or_insert_with(|| text.add(&format!("GENERAL_PROPERTY('{name}','{name}','')")));
            let definition = text.add(&format!("PROPERTY_DEFINITION('{name}','',{product})"));
            text.add(&format!(
                "GENERAL_PROPERTY_ASSOCIATION('','',{property},{definition})"
            ));
            let item = add_value(text, context, name, &value);
            let representation = text.add(&format!(
                "REPRESENTATION('{name}',({item}),{})",
                context.geometry
            ));
            text.add(&format!(
                "PROPERTY_DEFINITION_REPRESENTATION({definition},{representation})"
            ));
        }
    }
}

fn add_value(text: &mut Text, context: &Context, name: &str, value: &Value) -> Id {
    match value {
        Value::Text(value) => text.add(&format!(
            "DESCRIPTIVE_REPRESENTATION_ITEM('{name}',{})",
            quoted(value)
        )),
        Value::Length(length) => {
            let id = text.begin("MEASURE_REPRESENTATION_ITEM('");
            text.put(name).put("',POSITIVE_LENGTH_MEASURE(");
            text.length(length.exact.to_mm())
                .put("),")
                .id(context.length);
            text.put(")").end();
            id
        }
    }
}
