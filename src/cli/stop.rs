//! Ctrl-C: during a search it asks for the best so far; at any other time, or pressed again, it ends the program.

use std::sync::atomic::{AtomicBool, Ordering};

/// What a shell reports for a program that Ctrl-C has ended: 128 and the number of the signal.
const INTERRUPTED: i32 = 130;

/// The wish to stop a search.
#[derive(Debug, Default)]
pub struct Stop {
    is_wanted: AtomicBool,
    is_heard: AtomicBool,
}

impl Stop {
    /// Nobody wants to stop.
    pub const fn new() -> Self {
        Self {
            is_wanted: AtomicBool::new(false),
            is_heard: AtomicBool::new(false),
        }
    }

    /// Asks to stop; whether there is a search that hears it for the first time.
    pub fn ask(&self) -> bool {
        let is_again = self.is_wanted.swap(true, Ordering::SeqCst);
        self.is_heard.load(Ordering::SeqCst) && !is_again
    }

    /// Whether somebody asked.
    pub fn is_wanted(&self) -> bool {
        self.is_wanted.load(Ordering::SeqCst)
    }

    /// Begins or ends a search that hears the wish.
    pub(super) fn hear(&self, is_heard: bool) {
        self.is_heard.store(is_heard, Ordering::SeqCst);
    }
}

/// Lets Ctrl-C ask; where the system does not allow that, it ends the program as ever.
pub(super) fn listen(stop: &'static Stop) {
    let set = ctrlc::set_handler(move || {
        if !stop.ask() {
            std::process::exit(INTERRUPTED);
        }
    });
    drop(set);
}
