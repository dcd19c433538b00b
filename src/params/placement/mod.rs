//! Every placement of a chase, one file each: where it stands, and what its parameters have to say.

mod alcove;
mod corner;
mod divider;
mod flush;
mod placed;
mod projecting;

use placed::Placed;

use super::choice::Placement;
use super::fault::Fault;
use super::list::Params;
use super::site::Site;

impl Placement {
    const fn placed(self) -> &'static Placed {
        match self {
            Self::Projecting => &projecting::PLACED,
            Self::Divider => &divider::PLACED,
            Self::Flush => &flush::PLACED,
            Self::Alcove => &alcove::PLACED,
            Self::LeftCorner => &corner::LEFT,
            Self::RightCorner => &corner::RIGHT,
        }
    }
}

impl Params {
    /// Where the chase stands.
    pub fn site(&self) -> Site {
        (self.chase.placement.placed().site)(self)
    }
}

/// Every fault of the placement that is chosen, and of what belongs to another one.
pub(super) fn faults(params: &Params) -> Vec<Fault> {
    let chosen = params.chase.placement;
    let others = Placement::ALL.iter().filter(|it| **it != chosen);
    let others = others.flat_map(|it| it.placed().elsewhere);
    let rules = chosen.placed().rules.iter().chain(others);
    rules.flat_map(|rule| rule(params)).collect()
}
