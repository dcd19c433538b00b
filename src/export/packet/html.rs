//! Elements and text in, HTML out. Text is escaped on its way in, so nothing that a user wrote can become markup.
//!
//! *Source*: WHATWG HTML Living Standard, sections 13.1.2 (writing elements) and 13.3 (escaping a string):
//! from memory.

use std::fmt::Write as _;

/// Names and values of an element's attributes; an empty value writes the name alone.
pub type Attributes<'a> = &'a [(&'static str, &'a str)];

/// A page under construction.
#[derive(Debug, Default)]
pub struct Html {
    text: String,
}

impl Html {
    /// An element with whatever is written into it.
    pub fn element(
        &mut self,
        name: &'static str,
        attributes: Attributes<'_>,
        inside: impl FnOnce(&mut Self),
    ) {
        self.open(name, attributes);
        inside(self);
        let _ = write!(self.text, "</{name}>");
    }

    /// An element that holds nothing but text.
    pub fn leaf(&mut self, name: &'static str, attributes: Attributes<'_>, text: &str) {
        self.element(name, attributes, |html| html.text(text));
    }

    /// The tag of an element; such as have no content end with it.
    pub fn open(&mut self, name: &'static str, attributes: Attributes<'_>) {
        let _ = write!(self.text, "<{name}");
        for (key, value) in attributes {
            let _ = write!(self.text, " {key}");
            if !value.is_empty() {
                self.text.push_str("=\"");
                push_escaped(&mut self.text, value);
                self.text.push('"');
            }
        }
        self.text.push('>');
    }

    /// Text.
    pub fn text(&mut self, text: &str) {
        push_escaped(&mut self.text, text);
    }

    /// Text that a user wrote: whatever its direction, it leaves that of its neighbors alone.
    pub fn words(&mut self, text: &str) {
        self.leaf("bdi", &[], text);
    }

    /// Markup, a script or a style sheet of the program itself.
    pub fn own(&mut self, markup: &'static str) {
        self.text.push_str(markup);
    }

    /// A new line, for whoever reads the source.
    pub fn line(&mut self) {
        self.text.push('\n');
    }

    /// The page as text.
    pub fn finish(self) -> String {
        self.text
    }
}

/// Appends text so that it is nothing but text, in an attribute too; what no page may hold becomes U+FFFD.
fn push_escaped(page: &mut String, text: &str) {
    for character in text.chars() {
        match character {
            '&' => page.push_str("&amp;"),
            '<' => page.push_str("&lt;"),
            '>' => page.push_str("&gt;"),
            '"' => page.push_str("&quot;"),
            '\'' => page.push_str("&#39;"),
            '\n' | '\t' => page.push(character),
            // what turns the direction of the text after it
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {
                page.push(char::REPLACEMENT_CHARACTER);
            }
            _ if character.is_control() => page.push(char::REPLACEMENT_CHARACTER),
            _ => page.push(character),
        }
    }
}
