//! Receptacles for the unit, for the screen, and along the chase.
//!
//! # What it finds
//! Whether there is an electric supply planned for the unit, a receptacle behind the screen, and one along the chase
//! where its side, together with the front beside the opening, is 24 in or longer. It asks once for whatever is not
//! given.
//!
//! # Why
//! Nobody can pull a cable behind finished stone; a cord through a wall is not allowed; and a new stretch of wall
//! needs a receptacle like any other.
//!
//! # Datum
//! Along the finished faces at the floor, round the corner, up to the opening.
//!
//! # Source
//! NEC 210.52(A), from memory: any wall space 24 in or more wide. The unit's manual; the electrician and the local
//! code decide.

use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Span, point};
use crate::params::End;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "receptacles",
    concern: Concern::FireAndGas,
    text: include_str!("receptacles.rs"),
    keys: &[
        "chase.depth",
        "chase.width",
        "chase.receptacles",
        "skins.board",
        "skins.side_finish",
        "appliance.receptacle",
        "appliance.opening_width",
        "screen.receptacle",
    ],
    check,
};

const WALL_SPACE: Length = Length::inches(24.0);

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let screen = params.screen.as_ref();
    let screen = screen.is_some_and(|it| it.receptacle.is_none());
    let along = params.chase.receptacles.is_none() && !(WALL_SPACE - longest(design)).is_positive();
    let asked = [
        (
            params.appliance.receptacle.is_none(),
            "appliance.receptacle",
            "for the unit, by its manual (appliance.receptacle)",
        ),
        (
            screen,
            "screen.receptacle",
            "behind the screen (screen.receptacle)",
        ),
        (
            along,
            "chase.receptacles",
            "along the chase, as along any wall space of 24 in or more (chase.receptacles)",
        ),
    ];
    let asked = asked.iter().filter(|it| it.0);
    let (keys, missing): (Vec<&'static str>, Vec<&str>) = asked.map(|it| (it.1, it.2)).unzip();
    if missing.is_empty() {
        return;
    }
    let row = Row {
        subject: Measure("receptacles").into(),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.slab,
        )),
        source: "the unit's manual; NEC 210.52(A), from memory; the local code decides".to_owned(),
        ..Row::default()
    };
    let question = format!("Who sets receptacles {}?", missing.join(", "));
    report.ask_for(row, None, question, keys);
}

/// The longest stretch along the floor beside the opening, round the corner of the chase where that side stands free.
fn longest(design: &Design) -> Length {
    let (params, layout) = (&design.params, &design.layout);
    let opening = Span::about(layout.unit_center, params.appliance.opening_width);
    let skins = params.skins.board + params.skins.side_finish;
    let front = layout.site.with_skins(skins, layout.faces.lower_finished);
    let side = layout.faces.lower_finished - layout.site.side_begins(skins);
    let beside = [opening.low - front.low, front.high - opening.high];
    let whole = beside
        .into_iter()
        .zip(layout.site.ends)
        .map(|(it, end)| if end == End::Free { it + side } else { it });
    whole.fold(Length::ZERO, Length::max)
}
