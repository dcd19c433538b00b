//! What kind of thing a key or a table says: something that others know, something that the builder chooses, or that a
//! thing is there at all.

/// What kind of thing a key or a table of the parameter file says, and so what it means to leave it out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Nature {
    /// What the manual, a bought thing, the house or another trade has. It has no default: left out it is asked for,
    /// and no verdict gets better by it.
    Fact,
    /// What the builder is free to choose. Left out it is its default.
    Choice,
    /// That a thing is there. Left out there is none, and nothing that is judged of it.
    Subject,
}

impl Nature {
    /// The kind in plain words, as what follows "It is".
    pub const fn text(self) -> &'static str {
        match self {
            Self::Fact => {
                "a fact, from the manual, something bought, the house or another trade: left out, it is asked for"
            }
            Self::Choice => "the builder's own choice",
            Self::Subject => "says that a thing is there: left out, there is none",
        }
    }
}
