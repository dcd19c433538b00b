//! Which files of a folder are the tool's own: by which command, of which design, and how they were written.
//!
//! Kept as text in the folder's `.chasewright/record`, a line for each file. A line that cannot be read is no file of
//! ours, so a damaged record makes the tool touch less, never more.

use std::fs;
use std::path::{Component, Path};

use super::turn::OWN;
use super::{Set, Stale};

/// Its name.
pub(super) const NAME: &str = "record";

/// An own file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    pub(super) command: String,
    /// The design that it is of.
    pub(super) design: u64,
    length: u64,
    print: u64,
    /// The name of the file.
    pub name: String,
}

/// All own files of a folder.
#[derive(Debug, Default)]
pub(super) struct Record {
    pub(super) entries: Vec<Entry>,
}

impl Record {
    /// What is recorded in a folder; nothing where no record is.
    pub(super) fn read(folder: &Path) -> Self {
        let text = fs::read_to_string(folder.join(OWN).join(NAME)).unwrap_or_default();
        Self {
            entries: text.lines().filter_map(Entry::parsed).collect(),
        }
    }

    /// What is recorded once a set has been written and some files have gone.
    pub(super) fn followed_by(&self, set: &Set<'_>, stale: &[Stale]) -> Self {
        let design = fingerprint(set.design.as_bytes());
        let new = set.files.iter().map(|file| Entry {
            command: set.command.to_owned(),
            design,
            length: file.bytes.len() as u64,
            print: fingerprint(&file.bytes),
            name: file.name.clone(),
        });
        let stays = |it: &&Entry| {
            let is_new = set.files.iter().any(|file| file.name == it.name);
            !is_new && stale.iter().all(|file| file.name != it.name)
        };
        let old = self.entries.iter().filter(stays).cloned();
        Self {
            entries: new.chain(old).collect(),
        }
    }

    pub(super) fn text(&self) -> String {
        let head = "# Files that chasewright has written here: command, design, length, fingerprint, name\n";
        let lines = self.entries.iter().map(Entry::line);
        [head.to_owned()].into_iter().chain(lines).collect()
    }
}

impl Entry {
    /// A line of the record; none where it is no line of ours.
    pub fn parsed(line: &str) -> Option<Self> {
        let mut fields = line.split('\t');
        let mut next = || fields.next();
        let entry = Self {
            command: next()?.to_owned(),
            design: u64::from_str_radix(next()?, 16).ok()?,
            length: next()?.parse().ok()?,
            print: u64::from_str_radix(next()?, 16).ok()?,
            name: next()?.to_owned(),
        };
        is_plain(&entry.name).then_some(entry)
    }

    fn line(&self) -> String {
        let (command, name) = (&self.command, &self.name);
        let (design, length, print) = (self.design, self.length, self.print);
        format!("{command}\t{design:016x}\t{length}\t{print:016x}\t{name}\n")
    }

    /// Whether it still is as it was written.
    pub(super) fn is_of(&self, bytes: &[u8]) -> bool {
        self.length == bytes.len() as u64 && self.print == fingerprint(bytes)
    }
}

/// Whether a name is that of a file in the folder itself.
pub fn is_plain(name: &str) -> bool {
    let mut parts = Path::new(name).components();
    matches!(parts.next(), Some(Component::Normal(_))) && parts.next().is_none()
}

/// FNV-1a in 64 bits: enough to see that a file has been changed.
///
/// *Source*: RFC 9923, The FNV Non-Cryptographic Hash Algorithm (from memory).
pub fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |print, byte| {
        (print ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    })
}
