//! The floor in front of the opening.
//!
//! # What it finds
//! How far out from the opening, and how far to either side of it, the floor is noncombustible, against what the
//! unit's manual requires. It asks once for whatever of that is not given. Where the manual requires none, entered as
//! 0, nothing is judged.
//!
//! # Why
//! Heat through the glass falls on the floor in front of it; wood and carpet there dry out, discolor and may catch
//! fire. What a masonry fireplace needs is another matter, and does not apply to a listed unit.
//!
//! # Datum
//! The manual's counts from the opening; the floor from the finished face around the unit or the unit's lip, whichever
//! lies farther out.
//!
//! # Source
//! The unit's manual, `appliance.hearth_out` and `appliance.hearth_beside`.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, point};
use crate::params::Manual;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "hearth",
    concern: Concern::FireAndGas,
    text: include_str!("hearth.rs"),
    keys: &[
        "room.hearth_out",
        "room.hearth_beside",
        "appliance.lip",
        "appliance.hearth_out",
        "appliance.hearth_beside",
    ],
    check,
};

/// One way that the floor is measured.
struct Way<'a> {
    measure: Measure,
    asked: Option<&'a Manual<Length>>,
    there: Option<Length>,
    keys: [&'static str; 2],
    levers: &'static [&'static str],
}

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let (unit, room) = (&params.appliance, &params.room);
    let is_none = |it: &Manual<Length>| !it.value.is_positive();
    if unit.hearth_out.as_ref().is_some_and(is_none) {
        return;
    }
    let row = |measure: Measure, source: String, levers| Row {
        subject: measure.into(),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.slab,
        )),
        source,
        levers,
        ..Row::default()
    };
    let lip = (layout.faces.unit + unit.lip - layout.faces.lower_finished).max(Length::ZERO);
    let ways = [
        Way {
            measure: Measure("noncombustible floor, out from the opening"),
            asked: unit.hearth_out.as_ref(),
            there: room.hearth_out.map(|it| it - lip),
            keys: ["appliance.hearth_out", "room.hearth_out"],
            levers: &["room.hearth_out"],
        },
        Way {
            measure: Measure("noncombustible floor, beside the opening"),
            asked: unit.hearth_beside.as_ref(),
            there: room.hearth_beside,
            keys: ["appliance.hearth_beside", "room.hearth_beside"],
            levers: &["room.hearth_beside"],
        },
    ];
    let mut missing = Vec::new();
    for way in &ways {
        if let (Some(least), Some(there)) = (way.asked, way.there) {
            report.judge(
                row(way.measure, page(least), way.levers),
                Numbers::at_least(there, least.value),
            );
        }
        missing.extend(way.asked.is_none().then_some(way.keys[0]));
        let lacks = unit.hearth_out.is_some() && way.there.is_none();
        missing.extend(lacks.then_some(way.keys[1]));
    }
    if !missing.is_empty() {
        let question = format!(
            "How far does the manual require a noncombustible floor in front of the opening, and how far is the floor noncombustible ({})? 0 means that the manual requires none.",
            missing.join(", ")
        );
        let source = "the unit's manual".to_owned();
        let row = row(Measure("the floor in front of the opening"), source, &[]);
        report.ask_for(row, None, question, missing);
    }
}
