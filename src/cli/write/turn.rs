//! Files that lie aside take their names, all or none of them, however the program ends.
//!
//! In the folder's `.chasewright/turn`, `new` has the files that come, `old` those that have given way, and `moves` says
//! which these are to be: once it is there, names may change. Whoever finds it puts back what has moved, so a turn that
//! fails or is cut off leaves what stood there; it is over when the whole of it is renamed to `done`. Every step is a
//! rename within one folder's file system, and putting back may itself be cut off anywhere.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use super::record::{self, is_plain};
use super::{WriteError, failed, if_there, ignore};

/// The folder of the tool's own, in every folder that it writes into.
pub const OWN: &str = ".chasewright";

/// Lies beside the files while they take their names, for whoever finds them so.
pub const NOTICE: &str = "chasewright-unfinished.txt";
const NOTICE_TEXT: &str = "The files here are from two runs: chasewright was killed while it was renaming its files.\n\
    Run it again for this folder: it first restores the files of the earlier run, and then writes its own.\n";

/// A change of a folder's files.
#[derive(Debug)]
pub struct Turn {
    folder: PathBuf,
    /// Names that come and names that only go.
    moves: Vec<Move>,
}

#[derive(Debug, Clone)]
struct Move {
    name: String,
    comes: bool,
}

/// A rename.
pub type Step = (PathBuf, PathBuf);

impl Turn {
    /// A turn without any files yet.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn begin(folder: &Path) -> Result<Self, WriteError> {
        let turn = Self {
            folder: folder.to_path_buf(),
            moves: Vec::new(),
        };
        for side in ["new", "old"] {
            let side = turn.own("turn").join(side);
            fs::create_dir_all(&side).map_err(|error| failed(&side, error))?;
        }
        Ok(turn)
    }

    /// Writes a file aside.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn add(&mut self, name: &str, bytes: &[u8]) -> Result<(), WriteError> {
        let written = fs::write(self.aside("new", name), bytes);
        written.map_err(|error| failed(&self.place(name), error))?;
        self.moves.push(Move {
            name: name.to_owned(),
            comes: true,
        });
        Ok(())
    }

    /// Has a file go.
    pub fn remove(&mut self, name: &str) {
        self.moves.push(Move {
            name: name.to_owned(),
            comes: false,
        });
    }

    /// All files take their names; where one cannot, all is put back.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn take(self) -> Result<(), WriteError> {
        let taken = self.steps().and_then(|steps| {
            self.announce()?;
            steps.iter().try_for_each(rename)
        });
        if taken.is_err() {
            self.put_back()?;
        }
        self.sweep()?;
        taken
    }

    /// What is to be renamed, in this order.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn steps(&self) -> Result<Vec<Step>, WriteError> {
        let mut steps = Vec::new();
        for it in &self.moves {
            let (name, place) = (&it.name, self.place(&it.name));
            if regular_or_new(&place).map_err(|error| failed(&place, error))? {
                steps.push((place.clone(), self.aside("old", name)));
            }
            if it.comes {
                steps.push((self.aside("new", name), place));
            }
        }
        Ok(steps)
    }

    /// Says what is about to be moved, so that it can be put back.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn announce(&self) -> Result<(), WriteError> {
        let notice = self.folder.join(NOTICE);
        let line = |it: &Move| format!("{}{}\n", if it.comes { '+' } else { '-' }, it.name);
        let text: String = self.moves.iter().map(line).collect();
        let (draft, moves) = (
            self.own("turn").join("draft"),
            self.own("turn").join("moves"),
        );
        fs::write(&draft, text)
            .and_then(|()| fs::write(&notice, NOTICE_TEXT))
            .and_then(|()| fs::rename(&draft, &moves))
            .map_err(|error| failed(&notice, error))
    }

    /// What is to be renamed so that everything stands as before: first what has come goes aside again.
    pub fn steps_back(&self) -> Vec<Step> {
        let is_there = |path: &Path| fs::symlink_metadata(path).is_ok();
        let mut steps = Vec::new();
        for it in &self.moves {
            let (new, old) = (self.aside("new", &it.name), self.aside("old", &it.name));
            let place = self.place(&it.name);
            if it.comes && !is_there(&new) && is_there(&place) {
                steps.push((place.clone(), new));
            }
            if is_there(&old) {
                steps.push((old, place));
            }
        }
        steps
    }

    fn put_back(&self) -> Result<(), WriteError> {
        self.steps_back().iter().try_for_each(rename)
    }

    /// Ends the turn, and removes what lies aside.
    ///
    /// # Errors
    /// Where the file system refuses.
    pub fn sweep(&self) -> Result<(), WriteError> {
        let (turn, done) = (self.own("turn"), self.own("done"));
        let notice = self.folder.join(NOTICE);
        if_there(fs::remove_file(&notice)).map_err(|error| failed(&notice, error))?;
        if_there(fs::rename(&turn, &done)).map_err(|error| failed(&turn, error))?;
        // the turn is over; the next one tries again
        ignore(fs::remove_dir_all(&done));
        Ok(())
    }

    fn own(&self, name: &str) -> PathBuf {
        self.folder.join(OWN).join(name)
    }

    /// Where a file lies aside.
    pub fn aside(&self, side: &str, name: &str) -> PathBuf {
        self.own("turn").join(side).join(name)
    }

    /// Where a file belongs.
    fn place(&self, name: &str) -> PathBuf {
        if name == record::NAME {
            self.own(name)
        } else {
            self.folder.join(name)
        }
    }
}

/// Puts back what a turn has moved that was cut off, and sweeps what lies aside.
///
/// # Errors
/// Where the file system refuses.
pub fn recover(folder: &Path) -> Result<(), WriteError> {
    let mut turn = Turn {
        folder: folder.to_path_buf(),
        moves: Vec::new(),
    };
    let done = turn.own("done");
    if_there(fs::remove_dir_all(&done)).map_err(|error| failed(&done, error))?;
    let moves = turn.own("turn").join("moves");
    match fs::read_to_string(&moves) {
        Ok(text) => turn.moves = text.lines().filter_map(Move::parsed).collect(),
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        Err(error) => return Err(failed(&moves, error)),
    }
    turn.put_back()?;
    turn.sweep()
}

impl Move {
    fn parsed(line: &str) -> Option<Self> {
        let comes = line.starts_with('+');
        let name = line.strip_prefix(['+', '-'])?.to_owned();
        is_plain(&name).then_some(Self { name, comes })
    }
}

/// Whether a regular file is at a place, and not nothing; whatever else is there is left alone.
pub(super) fn regular_or_new(place: &Path) -> io::Result<bool> {
    match fs::symlink_metadata(place) {
        Ok(it) if it.is_file() => Ok(true),
        Ok(it) if it.is_dir() => Err(ErrorKind::IsADirectory.into()),
        Ok(_) => Err(io::Error::other("what is there is not a regular file")),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

/// Does one step.
///
/// # Errors
/// Where the file system refuses.
pub fn rename((from, to): &Step) -> Result<(), WriteError> {
    fs::rename(from, to).map_err(|error| failed(to, error))
}
