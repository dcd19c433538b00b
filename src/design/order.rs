//! The order of the job: stages of building, and the points where it waits for somebody.
//!
//! # Source
//! Common practice, no source: what is covered later is looked at before it is covered.

use super::{Design, Stage, raising};

/// One step of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Something is built.
    Stage(Stage),
    /// Nothing is built until somebody has looked.
    Hold(Hold),
}

/// What the job waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hold {
    /// The inspection of the framing.
    FramingInspection,
    /// The fitter's test of the gas line.
    GasTest,
}

/// The steps of a design's job: in the usual order, unless a wall lies where the platform will be before it goes up.
pub fn order(design: &Design) -> [Step; 16] {
    let mut order = ORDER;
    if raising(design).iter().any(|it| it.before_platform) {
        let at = |stage: Stage| ORDER.iter().position(|it| *it == Step::Stage(stage));
        if let (Some(platform), Some(walls)) = (at(Stage::Platform), at(Stage::Walls)) {
            order.swap(platform, walls);
        }
    }
    order
}

/// Every step after what is already there, in the usual order.
pub const ORDER: [Step; 16] = [
    Step::Stage(Stage::SealedWall),
    Step::Stage(Stage::WallPass),
    Step::Stage(Stage::RoughIn),
    Step::Stage(Stage::Plates),
    Step::Stage(Stage::Platform),
    Step::Stage(Stage::Walls),
    Step::Stage(Stage::Unit),
    Step::Hold(Hold::FramingInspection),
    Step::Stage(Stage::Vent),
    Step::Stage(Stage::PassSealed),
    Step::Stage(Stage::CableShelf),
    Step::Hold(Hold::GasTest),
    Step::Stage(Stage::Board),
    Step::Stage(Stage::Finish),
    Step::Stage(Stage::Mantel),
    Step::Stage(Stage::Screen),
];

impl Step {
    /// What happens.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stage(stage) => stage.name(),
            Self::Hold(Hold::FramingInspection) => "hold for the framing inspection",
            Self::Hold(Hold::GasTest) => "hold for the gas test",
        }
    }
}
