//! How far a search has come: one line on the terminal, written over again.

use std::io::Write;
use std::time::{Duration, Instant};

use super::stop::Stop;
use super::watch::Step;
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
        Self {
            err,
            stop,
            next: after.map(|it| Instant::now() + it),
            is_shown: false,
            currency,
            unit,
        }
    }

    /// Shows how far a job has come, if it is time to; whether to go on. Only a cutting plan reacts to Ctrl-C, and
    /// ends with the best so far; at all else it ends the program.
    pub(super) fn watch(&mut self, step: Step<'_>) -> bool {
        let line = match step {
            Step::Planning(planning) => Some(self.planning(planning)),
            Step::Curing(it) => Some(format!("trying fixes: {}, {} designs", it.rule, it.made)),
            Step::Making => None,
        };
        let is_plan = matches!(step, Step::Planning(_));
        self.stop.hear(is_plan);
        let now = Instant::now();
        if let Some(line) = line.filter(|_| self.next.is_some_and(|next| now >= next)) {
            self.next = Some(now + PAUSE);
            self.is_shown = true;
            self.write(&line);
        }
        !(is_plan && self.stop.is_wanted())
    }

    fn planning(&self, planning: &Planning) -> String {
        let money = |cost| amount(cost, self.currency, self.unit);
        format!(
            "planning {}: {} so far, at least {}, {} nodes; Ctrl-C keeps the best so far",
            planning.board,
            money(planning.cost),
            money(planning.bound),
            planning.nodes
        )
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
