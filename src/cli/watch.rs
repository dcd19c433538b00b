//! Progress of a job, and whether it is to go on.

use crate::check::Searching;
use crate::takeoff::Planning;

/// How far a job has come.
#[derive(Debug, Clone, Copy)]
pub enum Step<'a> {
    /// A cutting plan is searched; to stop takes the best so far.
    Planning(&'a Planning),
    /// Cures are searched, which is soon over.
    Curing(&'a Searching),
    /// Anything else: cannot be stopped.
    Making,
}

/// Whether to go on with a job, asked now and then.
pub type Watch<'a> = &'a mut dyn FnMut(Step<'_>) -> bool;
