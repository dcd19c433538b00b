//! Where the program writes: results to one stream, faults to the other.

use std::fmt::Display;
use std::io::{self, ErrorKind, IsTerminal, Write};
use std::time::Duration;

use super::look::{Look, USUAL_WIDTH};
use super::stop::Stop;

/// What takes less than this shows no progress.
const PATIENCE: Duration = Duration::from_millis(500);

/// The two output streams and how to write to them.
pub struct Terminal<'a> {
    /// For results.
    pub out: &'a mut dyn Write,
    /// For faults.
    pub err: &'a mut dyn Write,
    /// Whether faults are shown in colour.
    pub color: bool,
    /// How results are shown.
    pub look: Look,
    /// After how long a search shows how far it has come; never if none.
    pub progress: Option<Duration>,
    /// The request to stop a search.
    pub stop: &'a Stop,
}

impl std::fmt::Debug for Terminal<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Terminal")
            .field("color", &self.color)
            .finish_non_exhaustive()
    }
}

impl Terminal<'_> {
    /// Writes a result. A reader that has gone away is no fault: the rest is dropped quietly.
    pub(super) fn result(&mut self, text: impl Display) -> io::Result<()> {
        match write!(self.out, "{text}").and_then(|()| self.out.flush()) {
            Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
            other => other,
        }
    }

    /// Writes a fault; where even that cannot be written, the exit code has to do.
    pub(super) fn fault(&mut self, text: impl Display) {
        let written = writeln!(self.err, "{text}").and_then(|()| self.err.flush());
        drop(written);
    }
}

/// When a search shows how far it has come: only on a terminal, and not for what is over at once.
pub(super) fn wants_progress() -> Option<Duration> {
    io::stderr().is_terminal().then_some(PATIENCE)
}

/// Whether a stream is shown in color: only a terminal, and not where `NO_COLOR` is set.
pub(super) fn wants_color(stream: &impl IsTerminal) -> bool {
    let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    stream.is_terminal() && !refused
}

/// How results are shown on this output: as wide as the terminal is.
pub(super) fn look(out: &io::Stdout) -> Look {
    let size = terminal_size::terminal_size_of(out);
    Look {
        width: size.map_or(USUAL_WIDTH, |(terminal_size::Width(width), _)| width),
        color: wants_color(out),
        all: false,
    }
}
