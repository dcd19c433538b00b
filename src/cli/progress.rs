//! How far a search has come: one line on the terminal, written over again.

use std::io::Write;
use std::time::{Duration, Instant};

use super::stop::Stop;
use crate::export::amount;
use crate::takeoff::Planning;
use crate::units::TapeUnit;

/// How often the line is written.
const PAUSE: Duration = Duration::from_millis(200);
/// Width of the line; what stood there before is written over.
const WIDTH: usize = 99;

/// Watches a search.
pub(super) struct Progress<'a, 'w> {
    err: &'a mut (dyn Write + 'w),
    stop: &'a Stop,
    next: Option<Instant>,
    is_shown: bool,
    currency: &'a str,
    unit: TapeUnit,
}

impl<'a, 'w> Progress<'a, 'w> {
    pub(super) fn new(
        (err, stop): (&'a mut (dyn Write + 'w), &'a Stop),
        after: Option<Duration>,
        (currency, unit): (&'a str, TapeUnit),
    ) -> Self {
        stop.hear(true);
        Self {
            err,
            stop,
            next: after.map(|it| Instant::now() + it),
            is_shown: false,
            currency,
            unit,
        }
    }

    /// Shows how far the search has come, if it is time to; whether to go on.
    pub(super) fn watch(&mut self, planning: &Planning) -> bool {
        let now = Instant::now();
        if self.next.is_some_and(|next| now >= next) {
            self.next = Some(now + PAUSE);
            self.is_shown = true;
            let money = |cost| amount(cost, self.currency, self.unit);
            let line = format!(
                "planning {}: {} so far, at least {}, {} nodes; Ctrl-C takes the best so far",
                planning.board,
                money(planning.cost),
                money(planning.bound),
                planning.nodes
            );
            self.write(&line);
        }
        !self.stop.is_wanted()
    }

    /// A line that cannot be written is not missed.
    fn write(&mut self, line: &str) {
        let written = write!(self.err, "\r{line:<WIDTH$.WIDTH$}\r");
        drop(written.and_then(|()| self.err.flush()));
    }
}

impl Drop for Progress<'_, '_> {
    /// Takes the line away.
    fn drop(&mut self) {
        self.stop.hear(false);
        if self.is_shown {
            self.write("");
        }
    }
}
