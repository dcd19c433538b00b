//! What is at stake where a rule fails.

/// What is at stake where a rule fails, gravest first: findings of one verdict are listed in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Concern {
    /// Fire, fumes or gas, and every answer that such a rule waits for.
    FireAndGas,
    /// What bears load or holds weight.
    Structure,
    /// Heat on what stands above the fire or near the pipe.
    Heat,
    /// What fits, and what a framer can build.
    Framing,
    /// Comfort and looks.
    Looks,
}

impl Concern {
    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FireAndGas => "fire and gas",
            Self::Structure => "structure",
            Self::Heat => "heat",
            Self::Framing => "framing",
            Self::Looks => "looks",
        }
    }
}
