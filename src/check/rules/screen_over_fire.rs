//! A screen over the fire.
//!
//! # What it finds
//! Where the screen hangs over the opening: its height above the opening against what the unit's manual requires; and
//! whether the screen's own maker allows it over a fireplace. It asks once for whichever of the two is not given.
//!
//! # Why
//! Heat that rises along the face reaches the screen. A mantel deflects some of it; without one the screen takes it
//! all.
//!
//! # Datum
//! From the opening's top to the screen's lower edge.
//!
//! # Source
//! The unit's manual, `appliance.screen_above`; the screen's own, `screen.over_fire`.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Span, point};
use crate::params::Permission;

pub(super) const RULE: Rule = Rule {
    name: "screen over the fire",
    concern: Concern::Heat,
    text: include_str!("screen_over_fire.rs"),
    keys: &[
        "appliance.opening_width",
        "appliance.screen_above",
        "recess.sill",
        "screen.width",
        "screen.height",
        "screen.mount",
        "screen.over_fire",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let (Some(screen), Some(recess)) = (&params.screen, &layout.recess) else {
        return;
    };
    let sides = Span::about(recess.finished.center(), screen.width);
    let opening = Span::about(layout.unit_center, params.appliance.opening_width);
    if !sides.overlaps(opening) {
        return;
    }
    let bottom = recess.finished_height.center() - screen.height / 2.0;
    let height = bottom - layout.heights.opening_top;
    let row = |measure: Measure, source: String, levers| Row {
        subject: measure.into(),
        parts: vec!["recess/screen/1".to_owned()],
        location: Some(point(sides.center(), recess.back + screen.mount, bottom)),
        source,
        levers,
        ..Row::default()
    };
    let mut missing = Vec::new();
    match &params.appliance.screen_above {
        Some(least) => report.judge(
            row(
                Measure("screen over the opening's top"),
                page(least),
                &["recess.sill"],
            ),
            Numbers::at_least(height, least.value),
        ),
        None => missing
            .push("how high above the opening the unit's manual wants it (appliance.screen_above)"),
    }
    match &screen.over_fire {
        Some(answer) if answer.value == Permission::No => {
            let source = format!("the screen's manual p. {}", answer.page);
            let about = Measure("the screen's maker does not allow it over a fireplace");
            report.fail(row(about, source, &[]), None);
        }
        Some(_) => {}
        None => missing.push("whether the screen's maker allows it there (screen.over_fire)"),
    }
    if missing.is_empty() {
        return;
    }
    let mantel = if params.mantel.is_some() {
        ""
    } else {
        " No mantel deflects the heat."
    };
    let question = format!(
        "Who says {}?{mantel} Measure the temperature at its place after an hour of full fire before it is hung.",
        missing.join(", and ")
    );
    let source = "the manuals of unit and screen".to_owned();
    let row = row(Measure("the screen over the fire"), source, &[]);
    let keys = vec!["appliance.screen_above", "screen.over_fire"];
    report.ask_for(row, None, question, keys);
}
