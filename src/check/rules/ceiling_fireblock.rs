//! The chase closed against fire at the ceiling.
//!
//! # What it finds
//! The length of top plates with an open gap over them; there should be none. Where the ceiling's own board,
//! gypsum of 1/2 in or more, runs on over the chase in one piece (`ceiling.over_chase`), it is the fireblock, and a
//! gap under it may be of any height. Where it does not, the gap is filled with lumber, board or packed mineral
//! wool (`ceiling.gap_fill`), and it asks what closes the hollow between the walls there. Under a truss, which
//! moves, nothing rigid fills it, and mineral wool fills up to the 5/8 in that are left for the movement; beyond
//! that it asks. And a hole of the vent through the ceiling without its firestop.
//!
//! # Why
//! Fire runs up hollows. A plate that does not reach the ceiling lets it pass into the room or the roof; the
//! ceiling's own board, or what is packed into the gap, stops it, and the firestop closes the hole that the vent
//! goes through.
//!
//! # Datum
//! Plumb from the plate's top to the ceiling's surface.
//!
//! # Source
//! IRC 2018 and 2021, R302.11 (read in the form of IBC 718.2), and R302.11.1 for what may fill the gap, in part from
//! memory; the local code decides. Shims over 1/4 in and the movement of a truss: common practice, no source.

use super::clearances_of;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, Kind, PlateGap, plate_gaps, point};
use crate::params::{GapFill, OverChase, RafterKind, USUAL_GAP};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "fireblocking at the ceiling",
    concern: Concern::FireAndGas,
    text: include_str!("ceiling_fireblock.rs"),
    keys: &[
        "ceiling.gap",
        "ceiling.over_chase",
        "ceiling.gap_fill",
        "rafters.kind",
    ],
    check,
};

const SOURCE: &str = "IRC 2021 R302.11; the local code decides";
/// What is left under a truss for its movement (common practice, no source).
const MOVEMENT: Length = Length::inches(0.625);

const UNKNOWN: &str = "Does the ceiling's own board, gypsum of 1/2 in or more, run on over the chase in one piece (`ceiling.over_chase`)? If not, what fills the gap over the plates (`ceiling.gap_fill`)?";
const RIGID: &str = "A truss rises and falls: does its designer allow anything rigid between it and the plates? If not, pack the gap with mineral wool.";
const TALL: &str = "The gap is more than the 5/8 in that are usually left for a truss's movement: what holds the mineral wool in it?";
const HOLLOW: &str = "The ceiling's board does not close the chase: what does, over its whole top and around the vent's firestop?";

/// What closes the gap over the plates.
enum Gap {
    Closed,
    Open,
    Asked(&'static str),
}

fn check(design: &Design, report: &mut Report<'_>) {
    let gaps = plate_gaps(design);
    let highest = gaps
        .iter()
        .max_by(|a, b| a.height.to_mm().total_cmp(&b.height.to_mm()));
    if let Some(highest) = highest {
        let gap = closed(design, highest.height);
        // whoever fills the gap is asked of the hollow next
        if design.params.ceiling.over_chase == Some(OverChase::Open) && !matches!(gap, Gap::Open) {
            hollow(design, highest, report);
        }
        over_plates(design, &gaps, (highest, gap), report);
    }
    vent_hole(design, report);
}

fn over_plates(
    design: &Design,
    gaps: &[PlateGap<'_>],
    (highest, gap): (&PlateGap<'_>, Gap),
    report: &mut Report<'_>,
) {
    let apart = gaps.iter().filter(|it| it.height.is_positive());
    let open: Length = match gap {
        Gap::Closed => Length::ZERO,
        Gap::Open | Gap::Asked(_) => apart.map(|it| it.length).sum(),
    };
    let numbers = Numbers::at_most(open, Length::ZERO);
    let row = Row {
        subject: Measure("length of top plates with an open gap over them").into(),
        parts: vec![highest.plate.id.clone()],
        location: Some(highest.place),
        source: SOURCE.to_owned(),
        detail: detail(design, highest.height),
        ..Row::default()
    };
    let ceiling = &design.params.ceiling;
    match gap {
        Gap::Closed => report.judge_flush(row, numbers),
        Gap::Open => report.fail(row, Some(numbers)),
        Gap::Asked(question) => {
            let keys = [ceiling.over_chase.is_none().then_some("ceiling.over_chase")];
            let keys = keys.into_iter().flatten().collect();
            report.ask_for(row, Some(numbers), question, keys);
        }
    }
}

fn is_under_truss(design: &Design) -> bool {
    let rafters = design.params.rafters.as_ref();
    rafters.is_some_and(|it| it.kind == RafterKind::Truss)
}

/// Whether a gap of this height is closed.
fn closed(design: &Design, height: Length) -> Gap {
    let ceiling = &design.params.ceiling;
    let is_under_truss = is_under_truss(design);
    match (ceiling.over_chase, ceiling.gap_fill) {
        (None, _) => Gap::Asked(UNKNOWN),
        (Some(OverChase::Open), None) if height.is_positive() => Gap::Open,
        (Some(OverChase::Open), Some(fill)) if height.is_positive() && is_under_truss => {
            if fill != GapFill::MineralWool {
                Gap::Asked(RIGID)
            } else if (height - MOVEMENT).is_positive() {
                Gap::Asked(TALL)
            } else {
                Gap::Closed
            }
        }
        _ => Gap::Closed,
    }
}

/// How high the gap is, what closes it, and how the plates are held over it.
fn detail(design: &Design, height: Length) -> Option<String> {
    if !height.is_positive() {
        return None;
    }
    let ceiling = &design.params.ceiling;
    let unit = design.params.project.unit;
    let height_text = height.tape(unit, Rounding::Up);
    let closed = match (ceiling.over_chase, ceiling.gap_fill) {
        (Some(OverChase::Board), _) => "the ceiling's own board is the fireblock",
        (_, Some(fill)) => fill.material(),
        (_, None) => "fill it: `ceiling.gap_fill`",
    };
    let is_wide = (height - USUAL_GAP).is_positive();
    let held = if is_wide && !is_under_truss(design) {
        "; over 1/4 in, shim or clip the plates"
    } else {
        ""
    };
    Some(format!("gap up to {height_text}: {closed}{held}"))
}

/// The hollow between the walls, where the ceiling's board does not close it.
fn hollow(design: &Design, highest: &PlateGap<'_>, report: &mut Report<'_>) {
    let row = Row {
        subject: Measure("hollow of the chase at the ceiling").into(),
        parts: vec![design.ceiling_over(highest.place)],
        location: Some(highest.place),
        source: SOURCE.to_owned(),
        ..Row::default()
    };
    report.ask(row, None, HOLLOW);
}

/// The hole that the vent goes through, if it goes through the ceiling.
fn vent_hole(design: &Design, report: &mut Report<'_>) {
    let Some(pass) = &design.layout.roof_pass else {
        return;
    };
    if design.parts.iter().any(|it| it.kind == Kind::Firestop) {
        return;
    }
    let row = Row {
        subject: Measure("the vent's hole in the ceiling, without a firestop").into(),
        parts: clearances_of(design, &[ClearanceKind::RoofPass]),
        location: Some(point(pass.middle.0, -pass.middle.1, pass.low)),
        source: SOURCE.to_owned(),
        ..Row::default()
    };
    report.fail(row, None);
}
