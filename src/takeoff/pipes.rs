//! The pipe as it is bought: sections less their overlap, the adjustable one, elbows, pass and cap, and their joints.

use super::fasteners::begun;
use crate::design::{Design, Kind, Part, Sections};
use crate::geom::{CenterLine, Shape};
use crate::params::{Permission, PipeKit};
use crate::units::Length;

/// One straight run of pipe.
#[derive(Debug, Clone)]
pub struct Run {
    /// The part's id.
    pub part: String,
    /// From joint to joint along its middle.
    pub length: Length,
    /// What it is made of; without `[pipe]` nothing, and all of it is left.
    pub made: Sections,
}

/// Everything of the vent that is bought.
#[derive(Debug, Clone)]
pub struct PipeList {
    /// The straight runs; without sections where the parameters have no `[pipe]`.
    pub runs: Vec<Run>,
    /// Elbows.
    pub elbows: usize,
    /// Joints between all pieces, collar and cap included.
    pub joints: usize,
    /// Screws in all joints, if the manual's number is known.
    pub screws: Option<usize>,
    /// Joints to seal.
    pub sealed: Option<usize>,
    /// Clamps.
    pub clamps: Option<usize>,
    /// Straps along straight pipe, if the manual's spacing is known.
    pub straps: Option<usize>,
}

/// Takes off the vent.
pub(super) fn list(design: &Design) -> PipeList {
    let kit = design.params.pipe.as_ref();
    let straight: Vec<&Part> = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Pipe)
        .collect();
    let last = straight.last().map(|it| it.id.clone());
    let longer = |part: &Part| {
        let is_last = last.as_ref() == Some(&part.id);
        if is_last {
            design.layout.vent_goes_on()
        } else {
            Length::ZERO
        }
    };
    let runs: Vec<Run> = straight
        .into_iter()
        .filter_map(|part| match &part.body.shape {
            Shape::Tube(tube) => match tube.center_line {
                CenterLine::Segment { length } => {
                    Some(run(&part.id, Length::mm(length) + longer(part), kit))
                }
                CenterLine::Arc { .. } => None,
            },
            Shape::Swept(_) => None,
        })
        .collect();
    let elbows = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Elbow)
        .count();
    let pieces: usize = runs.iter().map(|it| it.made.pieces()).sum();
    // one joint before each piece, and the last at the cap
    let joints = pieces + elbows + 1;
    let when = |answer: Permission| if answer == Permission::Yes { joints } else { 0 };
    let strapped = kit.and_then(|it| it.strap_spacing.as_ref());
    // one for each spacing begun
    let straps = strapped.map(|it| runs.iter().map(|run| begun(run.length, it.value)).sum());
    PipeList {
        straps,
        runs,
        elbows,
        joints,
        screws: kit.map(|it| joints * it.joint_screws.value as usize),
        sealed: kit.map(|it| when(it.joint_sealant.value)),
        clamps: kit.map(|it| when(it.joint_clamp.value)),
    }
}

fn run(part: &str, length: Length, kit: Option<&PipeKit>) -> Run {
    let none = || Sections {
        rest: length,
        ..Sections::default()
    };
    Run {
        part: part.to_owned(),
        length,
        made: kit.map_or_else(none, |kit| Sections::of(kit, length)),
    }
}
