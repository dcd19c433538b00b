//! Files onto the disk, all of them or none.
//!
//! Every file is written under a temporary name beside its place first, and only when all are whole do they take
//! their names. When something fails, the temporary files go and the old files stay as they were.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// A file to write.
#[derive(Debug, Clone)]
pub struct OutputFile {
    /// Its name in the target folder.
    pub name: String,
    /// What stands in it.
    pub bytes: Vec<u8>,
}

/// Why the files could not be written.
#[derive(Debug, thiserror::Error)]
#[error("cannot write {path}: {error}")]
pub(super) struct WriteError {
    path: String,
    error: io::Error,
}

/// Writes all files into a folder, which is made where it is missing.
pub(super) fn write(folder: &Path, files: &[OutputFile]) -> Result<(), WriteError> {
    let made = missing(folder);
    let written = fs::create_dir_all(folder)
        .map_err(|error| failed(folder, error))
        .and_then(|()| Temporaries::write(folder, files))
        .and_then(Temporaries::take_names);
    if written.is_err() {
        // Only folders that are still empty go, and only those made here.
        for folder in made {
            let removed = fs::remove_dir(folder);
            drop(removed);
        }
    }
    written
}

/// The folders that have to be made for this one, itself included, the innermost first.
fn missing(folder: &Path) -> Vec<PathBuf> {
    folder
        .ancestors()
        .take_while(|folder| !folder.as_os_str().is_empty() && !folder.exists())
        .map(Path::to_path_buf)
        .collect()
}

/// Files under their temporary names; whatever has not taken its name is removed in the end.
struct Temporaries {
    pending: Vec<(PathBuf, PathBuf)>,
}

impl Temporaries {
    fn write(folder: &Path, files: &[OutputFile]) -> Result<Self, WriteError> {
        let mut temporaries = Self {
            pending: Vec::new(),
        };
        for file in files {
            let place = folder.join(&file.name);
            if place.is_dir() {
                return Err(failed(&place, io::Error::from(io::ErrorKind::IsADirectory)));
            }
            let temporary = folder.join(format!(".{}.{}.part", file.name, std::process::id()));
            temporaries.pending.push((temporary.clone(), place));
            fs::write(&temporary, &file.bytes).map_err(|error| failed(&temporary, error))?;
        }
        Ok(temporaries)
    }

    fn take_names(mut self) -> Result<(), WriteError> {
        self.pending.reverse();
        while let Some((temporary, place)) = self.pending.last() {
            fs::rename(temporary, place).map_err(|error| failed(place, error))?;
            self.pending.pop();
        }
        Ok(())
    }
}

impl Drop for Temporaries {
    fn drop(&mut self) {
        for (temporary, _) in &self.pending {
            let removed = fs::remove_file(temporary);
            drop(removed);
        }
    }
}

fn failed(path: &Path, error: io::Error) -> WriteError {
    WriteError {
        path: path.display().to_string(),
        error,
    }
}
