//! The parameter file from the disk, as text.

use std::fs::File;
use std::io::{self, Read};
use std::ops::Range;
use std::path::Path;

/// No parameter file is longer, in bytes; a longer one is some other file.
const LONGEST: u64 = 1 << 20;

/// Why a parameter file's text cannot be had.
#[derive(Debug, thiserror::Error)]
pub(super) enum SourceError {
    /// The file is missing, a folder, or may not be read.
    #[error("cannot read {path}: {error}")]
    Unreadable {
        /// The file.
        path: String,
        /// What the system says.
        error: io::Error,
    },
    /// The file is no text.
    #[error("{path} is not UTF-8 text: byte {byte} (line {line}) is not part of a character")]
    NotText {
        /// The file.
        path: String,
        /// The first byte that fits no character, from 1.
        byte: usize,
        /// Its line, from 1.
        line: usize,
    },
    /// The file is far longer than a parameter file.
    #[error("{path} is longer than {LONGEST} bytes, too long for a parameter file")]
    TooLong {
        /// The file.
        path: String,
    },
}

/// Reads a parameter file.
pub(super) fn read(path: &Path) -> Result<String, SourceError> {
    let name = || path.display().to_string();
    let mut bytes = Vec::new();
    File::open(path)
        .and_then(|file| file.take(LONGEST + 1).read_to_end(&mut bytes))
        .map_err(|error| SourceError::Unreadable {
            path: name(),
            error,
        })?;
    if bytes.len() as u64 > LONGEST {
        return Err(SourceError::TooLong { path: name() });
    }
    String::from_utf8(bytes).map_err(|error| {
        let sound = error.utf8_error().valid_up_to();
        let before = error.as_bytes().get(..sound).unwrap_or_default();
        SourceError::NotText {
            path: name(),
            byte: sound + 1,
            line: before.split(|byte| *byte == b'\n').count(),
        }
    })
}

/// Where a dotted key stands in a parameter file's text: at the key, else at its table, else nowhere.
pub(super) fn place_of(text: &str, key: &str) -> Option<Range<usize>> {
    let (table, name) = key.split_once('.')?;
    let mut at = 0;
    let mut header = None;
    for line in text.split_inclusive('\n') {
        let plain = line.trim();
        let place = at..at + line.trim_end().len();
        if plain.starts_with('[') {
            if header.is_some() {
                break;
            }
            header = (plain == format!("[{table}]")).then_some(place);
        } else if header.is_some() && plain.split('=').next().is_some_and(|it| it.trim() == name) {
            return Some(place);
        }
        at += line.len();
    }
    header
}
