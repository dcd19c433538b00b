//! The pipe as it is bought: sections less their overlap, the adjustable one, elbows, pass and cap, and their joints.

use crate::design::{Design, Kind};
use crate::geom::{CenterLine, Shape};
use crate::params::{Permission, PipeKit};
use crate::units::Length;

/// No run is made of more sections than this.
const MOST: usize = 12;

/// One straight run of pipe.
#[derive(Debug, Clone)]
pub struct Run {
    /// The part's id.
    pub part: String,
    /// From joint to joint along its middle.
    pub length: Length,
    /// The sections, the longest first.
    pub sections: Vec<Length>,
    /// What the adjustable section has to reach; none where the sections are enough or there is none.
    pub adjustable: Option<Length>,
    /// What is left over where nothing adjusts: the run must change by this, since sections are not cut.
    pub left: Length,
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
}

/// Takes off the vent.
pub(super) fn list(design: &Design) -> PipeList {
    let kit = design.params.pipe.as_ref();
    let straight = design.parts.iter().filter(|it| it.kind == Kind::Pipe);
    let runs: Vec<Run> = straight
        .filter_map(|part| match &part.body.shape {
            Shape::Tube(tube) => match tube.center_line {
                CenterLine::Segment { length } => Some(run(&part.id, Length::mm(length), kit)),
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
    let pieces: usize = runs
        .iter()
        .map(|it| {
            it.sections.len().max(1)
                + usize::from(it.adjustable.is_some() && !it.sections.is_empty())
        })
        .sum();
    // one joint before each piece, and the last at the cap
    let joints = pieces + elbows + 1;
    let when = |answer: Permission| if answer == Permission::Yes { joints } else { 0 };
    PipeList {
        runs,
        elbows,
        joints,
        screws: kit.map(|it| joints * it.joint_screws.value as usize),
        sealed: kit.map(|it| when(it.joint_sealant.value)),
        clamps: kit.map(|it| when(it.joint_clamp.value)),
    }
}

fn run(part: &str, length: Length, kit: Option<&PipeKit>) -> Run {
    let mut run = Run {
        part: part.to_owned(),
        length,
        sections: Vec::new(),
        adjustable: None,
        left: length,
    };
    let Some(kit) = kit else { return run };
    let mut sizes = kit.sections.clone();
    sizes.sort_by(|a, b| b.to_mm().total_cmp(&a.to_mm()));
    let best = fewest(&sizes, kit, length);
    run.left = best.left;
    run.sections = best.sections;
    if kit.adjustable.is_positive()
        && run.left.is_positive()
        && !(run.left - kit.adjustable).is_positive()
    {
        run.adjustable = Some(run.left);
        run.left = Length::ZERO;
    }
    run
}

#[derive(Clone)]
struct Made {
    sections: Vec<Length>,
    left: Length,
}

/// The fewest sections that leave no more than the adjustable one reaches; else those that leave least.
fn fewest(sizes: &[Length], kit: &PipeKit, length: Length) -> Made {
    let mut best = Made {
        sections: Vec::new(),
        left: length,
    };
    let mut row = vec![best.clone()];
    for _ in 0..MOST {
        if !(best.left - kit.adjustable).is_positive() {
            break;
        }
        let mut next: Vec<Made> = Vec::new();
        for made in &row {
            for size in sizes {
                let net = *size - kit.overlap.value;
                let left = made.left - net;
                // longest first, so that each set of sections comes once
                let ordered = made.sections.last().is_none_or(|last| size <= last);
                if net.is_positive() && ordered && left >= Length::ZERO {
                    let mut sections = made.sections.clone();
                    sections.push(*size);
                    next.push(Made { sections, left });
                }
            }
        }
        for made in &next {
            if made.left < best.left {
                best = made.clone();
            }
        }
        next.sort_by(|a, b| a.left.to_mm().total_cmp(&b.left.to_mm()));
        next.truncate(200);
        row = next;
    }
    best
}
