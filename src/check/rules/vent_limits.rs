//! How far the vent may run.
//!
//! # What it finds
//! The run from the riser to the outside face against the manual's longest, and against the manual's row for this
//! rise: the last row whose rise is reached; a rise below the first row fails. The number of elbows against the
//! manual's most. It asks once, for whichever of the three is not given.
//!
//! # Why
//! In a run that is too long for its rise the exhaust cools until it stops.
//!
//! # Datum
//! The riser's center line and the outside face of the wall, level; the top of the body.
//!
//! # Source
//! The unit's manual: `vent.longest_run`, `vent.run_for_rise`, `vent.most_elbows`.

use super::{page, parts_of};
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense};
use crate::design::{Design, Kind};
use crate::params::{Manual, RunRows, Vent};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "vent limits",
    concern: Concern::FireAndGas,
    text: include_str!("vent_limits.rs"),
    keys: &[
        "chase.depth",
        "vent.rise",
        "vent.longest_run",
        "vent.most_elbows",
        "vent.run_for_rise",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (vent, layout) = (&design.params.vent, &design.layout);
    let (run, rise) = (layout.vent_run(), layout.vent_rise());
    let turn = design
        .first(Kind::Elbow)
        .or_else(|| design.first(Kind::Pipe));
    let row = |measure: Measure, source: String, levers| Row {
        subject: measure.into(),
        parts: [Kind::Pipe, Kind::Elbow]
            .map(|it| parts_of(design, it))
            .concat(),
        location: turn.map(|it| it.body.bounds.center()),
        source,
        levers,
        ..Row::default()
    };
    let missing = missing(vent);
    if !missing.is_empty() {
        let row = row(
            Measure("the vent's run, rise and elbows"),
            "the unit's manual".to_owned(),
            &[],
        );
        let tape = design.params.project.unit;
        let question = format!(
            "The run is {}: what does the manual say about {}?",
            run.tape(tape, Rounding::Up),
            missing
                .iter()
                .map(|(key, what)| format!("{what} ({key})"))
                .collect::<Vec<_>>()
                .join(", ")
        );
        let keys = missing.iter().map(|(key, _)| *key).collect();
        report.ask_for(row, None, question, keys);
    }
    if let Some(longest) = &vent.longest_run {
        let row = row(
            Measure("run from the riser to the outside face"),
            page(longest),
            &["chase.depth"],
        );
        report.judge(row, Numbers::at_most(run, longest.value));
    }
    if let Some(rows) = &vent.run_for_rise {
        let measure = Measure("run for this rise from the collar, riser to outside face");
        let row = row(measure, page(rows), &["vent.rise", "chase.depth"]);
        for_rise(row, rows, rise, run, report);
    }
    if let Some(most) = &vent.most_elbows {
        let elbows = design.parts.iter().filter(|it| it.kind == Kind::Elbow);
        let measured = elbows.count() as f64;
        let limit = f64::from(most.value);
        let numbers = Numbers::new(Quantity::Count, Sense::AtMost, measured, limit);
        report.limit(row(Measure("elbows of the vent"), page(most), &[]), numbers);
    }
}

/// What the manual says of a vent and the parameters do not: the key, and what it is.
fn missing(vent: &Vent) -> Vec<(&'static str, &'static str)> {
    let limits = [
        (
            vent.longest_run.is_some(),
            ("vent.longest_run", "the longest run"),
        ),
        (
            vent.most_elbows.is_some(),
            ("vent.most_elbows", "the most elbows"),
        ),
        (
            vent.run_for_rise.is_some(),
            (
                "vent.run_for_rise",
                "the longest run for each rise, one row where it is the same for all",
            ),
        ),
    ];
    let missing = limits.into_iter().filter(|(said, _)| !said);
    missing.map(|(_, what)| what).collect()
}

fn for_rise(row: Row, rows: &Manual<RunRows>, rise: Length, run: Length, report: &mut Report<'_>) {
    let reached = rows.value.0.iter().rev();
    let reached = reached.map(|[least, longest]| (*least, *longest));
    let mut reached = reached.filter(|(least, _)| !(*least - rise).is_positive());
    match (reached.next(), rows.value.0.first()) {
        (Some((_, longest)), _) => report.judge(row, Numbers::at_most(run, longest)),
        (None, Some([least, _])) => {
            let measure =
                Measure("rise from the collar against the first row of the manual's table");
            report.fail(
                Row {
                    subject: measure.into(),
                    ..row
                },
                Some(Numbers::at_least(rise, *least)),
            );
        }
        (None, None) => {}
    }
}
