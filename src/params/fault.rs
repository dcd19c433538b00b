//! What is wrong with a parameter file: each fault with its place, what was found, what was expected and a way out.

use std::fmt;
use std::ops::Range;

/// One thing that keeps the parameters from being used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The dotted key it is about, or the table's name, or empty where the text is no TOML.
    pub key: Box<str>,
    /// Where it stands, in bytes of the text; `None` for a value that came from no text.
    pub place: Option<Range<usize>>,
    /// What is wrong, in one line.
    pub problem: Box<str>,
    /// What was found.
    pub found: Box<str>,
    /// What was expected.
    pub expected: Box<str>,
    /// A way out.
    pub way_out: Box<str>,
}

impl Fault {
    /// A fault of a key, so far without a place, and with nothing said but the problem.
    pub(super) fn new(key: &str, problem: impl Into<Box<str>>) -> Self {
        Self {
            key: key.into(),
            place: None,
            problem: problem.into(),
            found: Box::default(),
            expected: Box::default(),
            way_out: Box::default(),
        }
    }

    /// Says what was found.
    pub(super) fn found(mut self, found: impl Into<Box<str>>) -> Self {
        self.found = found.into();
        self
    }

    /// Says what was expected.
    pub(super) fn expected(mut self, expected: impl Into<Box<str>>) -> Self {
        self.expected = expected.into();
        self
    }

    /// Says how to get out of it.
    pub(super) fn way_out(mut self, way_out: impl Into<Box<str>>) -> Self {
        self.way_out = way_out.into();
        self
    }

    /// Says where it stands.
    pub(super) fn at(mut self, place: Range<usize>) -> Self {
        self.place = Some(place);
        self
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            problem,
            found,
            expected,
            way_out,
            ..
        } = self;
        write!(
            f,
            "{problem}: found {found}, expected {expected}; {way_out}"
        )
    }
}

impl std::error::Error for Fault {}
