//! Whether a hollow mantel and its cleat go together.

use super::{Rule, fits, stepped};
use crate::catalog::Lumber;
use crate::params::choice::MantelHold;
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::text::length_text;
use crate::units::Length;

pub(super) static RULES: &[Rule] = &[cleat_in_hollow];

fn cleat_in_hollow(params: &Params) -> Vec<Fault> {
    let hollow = params.mantel.as_ref();
    let Some(mantel) = hollow.filter(|it| it.held_by == Some(MantelHold::Cleat)) else {
        return Vec::new();
    };
    let text = |length| length_text(length, params.project.unit);
    let high = mantel.thickness - mantel.shell * 2.0;
    let front = params.front.ledge.as_ref().filter(|_| stepped(params));
    let on_ledge = front.map_or(Length::ZERO, Lumber::depth);
    let deep = mantel.projection + on_ledge - mantel.shell;
    let sizes = [
        ("high", mantel.cleat.depth(), high),
        ("deep", mantel.cleat.breadth(), deep),
    ];
    let too_large = sizes.into_iter().filter(|it| !fits(it.1, it.2));
    too_large
        .map(|(way, cleat, hollow)| {
            Fault::new(
                "mantel.cleat",
                "the cleat does not fit in the hollow mantel",
            )
            .found(format!("a cleat {} {way}", text(cleat)))
            .expected(format!("at most {}, the hollow inside", text(hollow)))
            .way_out("take a smaller cleat, thinner boards (mantel.shell), or a thicker mantel")
        })
        .collect()
}
