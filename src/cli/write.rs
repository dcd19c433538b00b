//! Files onto the disk: a set of them whole, or what stood there before.
//!
//! What a command writes into a folder is a set. All of its files are written aside first, into `.chasewright` in
//! that folder; only then do they take their names, in a [`Turn`] that is undone when it fails, or by the next run
//! when the program was killed halfway. A [`Record`] tells which files of the folder are the tool's own:
//! those of another design, and those that the same command does not make any more, go in the same turn, unless
//! somebody has changed them. Whatever else lies in the folder is never touched.

pub mod record;
pub mod turn;

use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::time::Duration;

use super::stop::Stop;
use record::{Entry, Record};
use turn::Turn;

/// How often a run looks whether another has done with the folder.
const PAUSE: Duration = Duration::from_millis(10);

/// A file to write.
#[derive(Debug, Clone)]
pub struct OutputFile {
    /// Its name in the target folder.
    pub name: String,
    /// What stands in it.
    pub bytes: Vec<u8>,
}

/// What one command writes for one design.
pub(super) struct Set<'a> {
    /// Name of the command.
    pub(super) command: &'static str,
    /// The design and the version of the tool, in any words that are the same for the same.
    pub(super) design: String,
    /// Its files.
    pub(super) files: &'a [OutputFile],
}

/// An own file of an earlier run that is no longer of use.
pub(super) struct Stale {
    pub(super) name: String,
    /// Whether it is from another design.
    pub(super) is_of_another: bool,
    /// Whether somebody has changed it, so that it was left.
    pub(super) is_left: bool,
}

/// Why the files could not be written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// The file system refuses.
    #[error("cannot write {path}: {error}")]
    Disk {
        /// What could not be written.
        path: String,
        /// Why.
        error: io::Error,
    },
    /// Somebody has ended the program; what stood there stands.
    #[error("interrupted")]
    Interrupted,
}

/// Writes a set into a folder, which is made where it is missing; tells which files of earlier runs have gone.
pub(super) fn write(folder: &Path, set: &Set<'_>, stop: &Stop) -> Result<Vec<Stale>, WriteError> {
    // Ctrl-C waits for this to be over.
    let whole = stop.writing();
    let made = missing(folder);
    let own = folder.join(turn::OWN);
    let written = fs::create_dir_all(&own)
        .map_err(|error| failed(&own, error))
        .and_then(|()| alone(&own, stop))
        .and_then(|lock| {
            let stale = exchange(folder, set, stop);
            if stale.is_err() && !own.join(record::NAME).exists() {
                ignore(fs::remove_file(own.join(LOCK)));
            }
            drop(lock);
            stale
        });
    if written.is_err() {
        // Only folders that are still empty go, and only those made here.
        ignore(fs::remove_dir(&own));
        for folder in made {
            ignore(fs::remove_dir(folder));
        }
    }
    drop(whole);
    written
}

/// Writes one file, at a place of the user's own.
pub(super) fn write_one(place: &Path, bytes: &[u8], stop: &Stop) -> Result<(), WriteError> {
    let whole = stop.writing();
    let mut name = std::ffi::OsString::from(".");
    name.push(place.file_name().unwrap_or(place.as_os_str()));
    name.push(format!(".{}.part", std::process::id()));
    let temporary = place.with_file_name(name);
    let folder = place.parent().filter(|it| !it.as_os_str().is_empty());
    let written = folder
        .map_or(Ok(()), fs::create_dir_all)
        .and_then(|()| turn::regular_or_new(place))
        .and_then(|_| fs::write(&temporary, bytes))
        .and_then(|()| fs::rename(&temporary, place));
    if written.is_err() {
        ignore(fs::remove_file(&temporary));
    }
    drop(whole);
    written.map_err(|error| failed(place, error))
}

/// The file that a run locks, so that two of them never mix.
const LOCK: &str = "lock";

/// Waits until no other run writes into the folder. The system lets go of a lock when its program ends, however it does.
fn alone(own: &Path, stop: &Stop) -> Result<File, WriteError> {
    let path = own.join(LOCK);
    let lock = File::create(&path).map_err(|error| failed(&path, error))?;
    loop {
        match lock.try_lock() {
            // a file system without locks does not keep anybody from writing
            Ok(()) | Err(TryLockError::Error(_)) => return Ok(lock),
            Err(TryLockError::WouldBlock) if stop.is_ending() => {
                return Err(WriteError::Interrupted);
            }
            Err(TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
        }
    }
}

fn exchange(folder: &Path, set: &Set<'_>, stop: &Stop) -> Result<Vec<Stale>, WriteError> {
    turn::recover(folder)?;
    let before = Record::read(folder);
    let stale = stale(folder, &before, set);
    let record = before.followed_by(set, &stale);
    let mut turn = Turn::begin(folder)?;
    let staged = set.files.iter().try_for_each(|file| {
        if stop.is_ending() {
            return Err(WriteError::Interrupted);
        }
        turn.add(&file.name, &file.bytes)
    });
    let staged = staged.and_then(|()| turn.add(record::NAME, record.text().as_bytes()));
    if let Err(error) = staged {
        turn.sweep()?;
        return Err(error);
    }
    for file in stale.iter().filter(|it| !it.is_left) {
        turn.remove(&file.name);
    }
    turn.take()?;
    Ok(stale)
}

/// Own files that the new set does not have: of another design, or of the same command.
fn stale(folder: &Path, before: &Record, set: &Set<'_>) -> Vec<Stale> {
    let design = record::fingerprint(set.design.as_bytes());
    let is_stale = |it: &&Entry| {
        let is_made = set.files.iter().any(|file| file.name == it.name);
        !is_made && (it.design != design || it.command == set.command)
    };
    let found = before.entries.iter().filter(is_stale);
    found
        .filter(|it| folder.join(&it.name).is_file())
        .map(|it| Stale {
            name: it.name.clone(),
            is_of_another: it.design != design,
            is_left: fs::read(folder.join(&it.name)).map_or(true, |bytes| !it.is_of(&bytes)),
        })
        .collect()
}

/// The folders that have to be made for this one, itself included, the innermost first.
fn missing(folder: &Path) -> Vec<PathBuf> {
    folder
        .ancestors()
        .take_while(|folder| !folder.as_os_str().is_empty() && !folder.exists())
        .map(Path::to_path_buf)
        .collect()
}

fn failed(path: &Path, error: io::Error) -> WriteError {
    WriteError::Disk {
        path: path.display().to_string(),
        error,
    }
}

/// What cannot be tidied up is left to the next run.
fn ignore(result: io::Result<()>) {
    drop(result);
}

/// What was not there need not be done.
fn if_there(result: io::Result<()>) -> io::Result<()> {
    match result {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(()),
        other => other,
    }
}
