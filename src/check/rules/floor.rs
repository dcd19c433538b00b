//! What the floor is.
//!
//! # What it finds
//! Whether the kind of floor under the chase is given; on a post-tensioned slab, whether the tendons have been
//! located before anchors are drilled; on wood framing, whether somebody licensed for it has confirmed that it
//! supports chase, finish and unit.
//!
//! # Why
//! A tendon that is cut by a drill can burst out of the slab. A joist floor was not made for stone from floor to
//! ceiling; and what is said here of anchors and treated plates applies to a slab.
//!
//! # Source
//! Common practice, no source; the local code decides.

use super::{COMMON_PRACTICE, parts_of};
use crate::check::{Concern, Measure, Report, Row, Rule};
use crate::design::{Design, Kind, point};
use crate::params::{FloorKind, Room};

pub(super) const RULE: Rule = Rule {
    name: "floor",
    concern: Concern::Structure,
    text: include_str!("floor.rs"),
    keys: &[
        "room.floor_kind",
        "room.tendons_marked",
        "room.floor_checked",
    ],
    check,
};

const UNKNOWN: &str =
    "What is the floor (room.floor_kind): a slab, a post-tensioned slab, or wood framing?";
const TENDONS: &str = "Have the slab's tendons been located and marked where anchors go (room.tendons_marked)? No drilling until they have.";
const JOISTS: &str = "Which licensed person has confirmed that the floor supports chase, finish and unit (room.floor_checked)? Sole plates are then screwed into joists or blocks instead of anchored.";

/// What is still open about the floor.
enum Open {
    Asks(&'static str),
    Fails(Measure),
}

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: parts_of(design, Kind::Floor),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_stud,
            layout.slab,
        )),
        source: COMMON_PRACTICE.to_owned(),
        ..Row::default()
    };
    match open(&design.params.room) {
        Some(Open::Asks(question)) => {
            let keys = vec![
                "room.floor_kind",
                "room.tendons_marked",
                "room.floor_checked",
            ];
            report.ask_for(
                row(Measure("the floor under the chase")),
                None,
                question,
                keys,
            );
        }
        Some(Open::Fails(about)) => report.fail(row(about), None),
        None => {}
    }
}

const fn open(room: &Room) -> Option<Open> {
    match (room.floor_kind, room.tendons_marked, room.floor_checked) {
        (None, ..) => Some(Open::Asks(UNKNOWN)),
        (Some(FloorKind::TensionedSlab), None, _) => Some(Open::Asks(TENDONS)),
        (Some(FloorKind::TensionedSlab), Some(false), _) => Some(Open::Fails(Measure(
            "anchors into a post-tensioned slab whose tendons have not been located",
        ))),
        (Some(FloorKind::Wood), _, None) => Some(Open::Asks(JOISTS)),
        (Some(FloorKind::Wood), _, Some(false)) => Some(Open::Fails(Measure(
            "a wood floor not confirmed to support chase, finish and unit",
        ))),
        (Some(FloorKind::Slab), ..)
        | (Some(FloorKind::TensionedSlab), Some(true), _)
        | (Some(FloorKind::Wood), _, Some(true)) => None,
    }
}
