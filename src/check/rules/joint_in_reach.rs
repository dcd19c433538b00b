//! The vent's joints within reach.
//!
//! # What it finds
//! The joint that is farthest to reach: horizontally, from the front's stud face or from the stud face of a
//! free-standing side; for a joint in the wall, from outside; above the ceiling, from the roof.
//!
//! # Why
//! Every joint is screwed, sealed and inspected before it is covered, with the unit in place and the studs standing.
//!
//! # Datum
//! The joint on the pipe's middle line; the front's stud face at the joint's height.
//!
//! # Source
//! Common practice, no source; the reach is the builder's own, `vent.hand_reach`.

use super::{COMMON_PRACTICE, first_of};
use glam::DVec3;

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind};
use crate::params::End;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "joint in reach",
    concern: Concern::FireAndGas,
    text: include_str!("joint_in_reach.rs"),
    keys: &[
        "appliance.face_offset",
        "vent.rise",
        "vent.hand_reach",
        "pipe.sections",
        "pipe.overlap",
        "pipe.adjustable",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let joints = design.vent_joints().into_iter();
    let far = joints
        .map(|joint| (way(design, joint), joint))
        .max_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm()));
    let Some((way, joint)) = far else { return };
    let row = Row {
        subject: Measure("reach to the farthest vent joint").into(),
        parts: first_of(design, Kind::Pipe),
        location: Some(joint),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["appliance.face_offset", "vent.rise"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_most(way, design.params.vent.hand_reach));
}

/// The shortest reach to a joint.
fn way(design: &Design, joint: DVec3) -> Length {
    let layout = &design.layout;
    let [right, out, height] = [joint.x, -joint.y, joint.z].map(Length::mm);
    if let Some(pass) = &layout.roof_pass {
        let seen = pass.room.local_point(joint);
        if seen.z > pass.ceiling.z(seen.truncate()) {
            return Length::mm((pass.roof.z(seen.truncate()) - seen.z).max(0.0));
        }
    }
    let through = layout.standing.iter();
    let through = through
        .into_iter()
        .find(|wall| layout.pass.wall == Some(wall.place));
    if let Some(wall) = through {
        let depth = Length::mm(wall.frame.local_point(joint).y);
        if depth.is_positive() {
            return (wall.depths.outside - depth).max(Length::ZERO);
        }
    }
    let front = if height < layout.heights.framing_top {
        layout.faces.lower_stud
    } else {
        layout.faces.upper_stud
    };
    let mut ways = vec![front - out];
    if layout.site.ends[0] == End::Free {
        ways.push(right - layout.site.chase.low);
    }
    if layout.site.ends[1] == End::Free {
        ways.push(layout.site.chase.high - right);
    }
    // beyond the framing the joint is open to the room
    ways.into_iter()
        .fold(front - out, Length::min)
        .max(Length::ZERO)
}
