//! Cables inside the chase.
//!
//! # What it finds
//! The least distance from the cables to the unit and its vent, against `cables.keep_out`; left out it is asked for,
//! and cables nearer than the largest clearance of the pipe FAIL at once. Cables over the unit's hot top that lie
//! below the shelf. It asks about cables over the hot top without a shelf, about a screen without [cables], and about cables that leave
//! the chase into the open room. The clearance volumes keep cables out as they keep everything else out.
//!
//! # Why
//! A jacket that lies on the vent melts, and behind the board nobody sees it.
//!
//! # Datum
//! The cables' skin; the skin of pipe, elbow, collar and body; the top of the shelf.
//!
//! # Source
//! The unit's manual, with its page; the shelf is common practice, no source.

use super::{COMMON_PRACTICE, first_of, page, parts_of};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Part, inside_by, point};
use crate::geom::{TOLERANCE, gap};
use crate::params::{Cables, Manual};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "cables",
    concern: Concern::Heat,
    text: include_str!("cables.rs"),
    keys: &[
        "vent.rise",
        "vent.vertical_clearance",
        "vent.bend_clearance",
        "vent.top_clearance",
        "vent.side_clearance",
        "vent.bottom_clearance",
        "cables.route",
        "cables.diameter",
        "cables.keep_out",
        "cables.shelf",
        "cables.shelf_thickness",
    ],
    check,
};

const LEVERS: &[&str] = &["cables.shelf"];

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(cables) = &design.params.cables else {
        if let (Some(_), Some(recess)) = (&design.params.screen, &design.layout.recess) {
            let row = Row {
                subject: Measure("the screen's cables").into(),
                parts: first_of(design, Kind::Screen),
                location: Some(point(
                    recess.finished.center(),
                    recess.back,
                    recess.finished_height.low,
                )),
                source: COMMON_PRACTICE.to_owned(),
                ..Row::default()
            };
            let question = "Where do the screen's cables run ([cables]), and what keeps them off the hot top and the vent?";
            report.ask_for(row, None, question, vec!["cables"]);
        }
        return;
    };
    let runs = || design.parts.iter().filter(|it| it.kind == Kind::Cable);
    keep_out(design, cables, runs(), report);
    let over: Vec<&Part> = runs().filter(|it| over_hot_top(design, it)).collect();
    above_shelf(cables, &over, report);
    in_the_room(design, cables, report);
}

/// Cables that leave the chase through its finished faces.
fn in_the_room(design: &Design, cables: &Cables, report: &mut Report<'_>) {
    let inside = |[right, out, _]: &[Length; 3]| inside_by(design, *right, *out);
    let corners = cables.route.0.iter().map(|it| (inside(it), it));
    let Some((by, [right, out, up])) = corners.min_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm()))
    else {
        return;
    };
    if !(-by).is_positive() {
        return;
    }
    let row = Row {
        subject: Measure("cables outside the chase").into(),
        parts: parts_of(design, Kind::Cable),
        location: Some(point(*right, *out, *up)),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["cables.route"],
        ..Row::default()
    };
    let question = "What covers the cables where they leave the chase into the room? They are drawn bare there, neither fastened nor hidden.";
    report.ask(row, Some(Numbers::at_least(by, Length::ZERO)), question);
}

fn is_hot(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::Pipe | Kind::Elbow | Kind::Collar | Kind::UnitBody
    )
}

fn keep_out<'a>(
    design: &Design,
    cables: &Cables,
    runs: impl Iterator<Item = &'a Part>,
    report: &mut Report<'_>,
) {
    let hot = || design.parts.iter().filter(|it| is_hot(it));
    let pairs =
        runs.flat_map(|cable| hot().map(move |hot| (gap(&cable.body, &hot.body), cable, hot)));
    let Some((distance, cable, hot)) = pairs.min_by(|a, b| a.0.total_cmp(&b.0)) else {
        return;
    };
    let distance = Length::mm(distance);
    let row = |asked: &Manual<Length>| Row {
        subject: Measure("cables to the unit and its vent").into(),
        parts: vec![cable.id.clone(), hot.id.clone()],
        location: Some(cable.body.bounds.center()),
        source: page(asked),
        levers: &["vent.rise"],
        detail: None,
    };
    if let Some(asked) = &cables.keep_out {
        report.judge(row(asked), Numbers::at_least(distance, asked.value));
        return;
    }
    // what is nearer than anything may be to the pipe fails whatever the manual says of cables
    let asked = largest_clearance(design);
    let numbers = Numbers::at_least(distance, asked.value);
    if numbers.margin < -TOLERANCE {
        report.judge(row(asked), numbers);
    } else {
        let question =
            "How far does the manual keep cables from the unit and its vent (cables.keep_out)?";
        report.ask_for(row(asked), Some(numbers), question, vec!["cables.keep_out"]);
    }
}

fn largest_clearance(design: &Design) -> &Manual<Length> {
    let vent = &design.params.vent;
    let others = [
        &vent.bend_clearance,
        &vent.top_clearance,
        &vent.side_clearance,
        &vent.bottom_clearance,
    ];
    others
        .into_iter()
        .fold(&vent.vertical_clearance, |largest, it| {
            if it.value > largest.value {
                it
            } else {
                largest
            }
        })
}

/// Whether a part lies over the unit's body or over its vent inside the room, as seen from above.
fn over_hot_top(design: &Design, part: &Part) -> bool {
    let hot = design.parts.iter().filter(|it| is_hot(it));
    hot.map(|it| &it.body.bounds).any(|hot| {
        let cable = &part.body.bounds;
        let beside = cable.high.x <= hot.low.x || cable.low.x >= hot.high.x;
        let before = cable.high.y <= hot.low.y || cable.low.y >= hot.high.y;
        !beside && !before && cable.high.z > hot.low.z
    })
}

fn above_shelf(cables: &Cables, over: &[&Part], report: &mut Report<'_>) {
    let lowest = over
        .iter()
        .min_by(|a, b| a.body.bounds.low.z.total_cmp(&b.body.bounds.low.z));
    let Some(lowest) = lowest else { return };
    let row = |levers| Row {
        subject: Measure("cables over the unit's hot top").into(),
        parts: vec![lowest.id.clone()],
        location: Some(lowest.body.bounds.center()),
        source: COMMON_PRACTICE.to_owned(),
        levers,
        detail: None,
    };
    let Some(shelf) = cables.shelf else {
        let question = "What keeps the cables over the hot top from falling on it: a shelf (cables.shelf), or which guard?";
        report.ask_for(row(LEVERS), None, question, vec!["cables.shelf"]);
        return;
    };
    let top = shelf + cables.shelf_thickness;
    let numbers = Numbers::at_least(Length::mm(lowest.body.bounds.low.z), top);
    report.judge(row(LEVERS), numbers);
}
