//! Heights and places that are written from another thing: what was written, and what it comes to.

use crate::params::{Follower, Params};

/// A key that follows a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Followed {
    /// The key.
    pub key: &'static str,
    /// As it is written.
    pub written: String,
    /// What it comes to, on the tape's marks.
    pub comes_to: String,
}

/// Every such key, in the order of the list.
pub fn followed(params: &Params) -> Vec<Followed> {
    let unit = params.project.unit;
    let text = |key: &str| params.get(key).map_or_else(String::new, |it| it.text(unit));
    let one = |(key, following): &Follower| Followed {
        key,
        written: following.text(unit),
        comes_to: text(key),
    };
    params.following.iter().map(one).collect()
}
