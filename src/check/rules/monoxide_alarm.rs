//! The carbon monoxide alarm.
//!
//! # What it finds
//! Whether an alarm works on this floor and near every bedroom. It asks where that is not given.
//!
//! # Why
//! Nothing else warns of a vent that comes apart behind the board.
//!
//! # Source
//! IRC 2018 R315, from memory: outside each sleeping area where there is a fuel-burning appliance. The local code
//! decides.

use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, point};

pub(super) const RULE: Rule = Rule {
    name: "carbon monoxide alarm",
    concern: Concern::FireAndGas,
    text: include_str!("monoxide_alarm.rs"),
    keys: &["room.monoxide_alarm"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let row = |measure: Measure| Row {
        subject: measure.into(),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.opening_top,
        )),
        source: "IRC 2018 R315, from memory; the local code decides".to_owned(),
        ..Row::default()
    };
    match design.params.room.monoxide_alarm {
        Some(true) => {}
        Some(false) => report.fail(
            row(Measure(
                "no working carbon monoxide alarm near the bedrooms",
            )),
            None,
        ),
        None => {
            let question = "Is there a working carbon monoxide alarm on this floor and near every bedroom (room.monoxide_alarm)?";
            let row = row(Measure("carbon monoxide alarm"));
            report.ask_for(row, None, question, vec!["room.monoxide_alarm"]);
        }
    }
}
