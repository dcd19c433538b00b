//! How the program ends.

use std::process::ExitCode;

/// What the exit code says; scripts may rely on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// 0: done, and no check fails.
    Clean,
    /// 1: done, and a check fails; what was asked for is still written.
    Failed,
    /// 2: the parameters or the command line cannot be used; nothing is written.
    Unusable,
    /// 3: the tool itself or the disk is at fault; no half-written file remains.
    Broken,
    /// 130: ended by Ctrl-C, as shells report it: 128 and the number of the signal.
    Interrupted,
}

impl Exit {
    /// The code that the shell sees.
    pub const fn code(self) -> u8 {
        match self {
            Self::Clean => 0,
            Self::Failed => 1,
            Self::Unusable => 2,
            Self::Broken => 3,
            Self::Interrupted => 130,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.code())
    }
}
