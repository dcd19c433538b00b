//! Ctrl-C: during a search it asks for the best so far; at any other time, or pressed again, it ends the program, but
//! not before files that are being written are whole or gone.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::exit::Exit;

/// The request to stop a search.
#[derive(Debug, Default)]
pub struct Stop {
    is_wanted: AtomicBool,
    is_heard: AtomicBool,
    is_ending: AtomicBool,
    writing: Mutex<()>,
}

impl Stop {
    /// Nobody wants to stop.
    pub const fn new() -> Self {
        Self {
            is_wanted: AtomicBool::new(false),
            is_heard: AtomicBool::new(false),
            is_ending: AtomicBool::new(false),
            writing: Mutex::new(()),
        }
    }

    /// Asks to stop; whether a search is running that receives the first such request.
    pub fn ask(&self) -> bool {
        let is_again = self.is_wanted.swap(true, Ordering::SeqCst);
        self.is_heard.load(Ordering::SeqCst) && !is_again
    }

    /// Whether somebody asked.
    pub fn is_wanted(&self) -> bool {
        self.is_wanted.load(Ordering::SeqCst)
    }

    /// Keeps Ctrl-C from ending the program for as long as the guard lives.
    pub(super) fn writing(&self) -> MutexGuard<'_, ()> {
        self.writing.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Whether the program is to end as soon as nothing is being written.
    pub(super) fn is_ending(&self) -> bool {
        self.is_ending.load(Ordering::SeqCst)
    }

    /// Ends the program, once nothing is being written.
    fn end(&self) -> ! {
        self.is_ending.store(true, Ordering::SeqCst);
        // held to the end, so that no writing begins
        let _nothing_is_written = self.writing();
        std::process::exit(Exit::Interrupted.code().into())
    }

    /// Begins or ends a search that can be stopped.
    pub(super) fn hear(&self, is_heard: bool) {
        self.is_heard.store(is_heard, Ordering::SeqCst);
    }
}

/// Lets Ctrl-C ask; where the system does not allow that, it ends the program as ever.
pub(super) fn listen(stop: &'static Stop) {
    let set = ctrlc::set_handler(move || {
        if !stop.ask() {
            stop.end();
        }
    });
    drop(set);
}
