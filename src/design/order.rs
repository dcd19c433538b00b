//! The order of the job: stages of building, and the points where it waits for somebody.
//!
//! # Source
//! Common practice, no source: what is covered later is looked at before it is covered. Framing is looked at after the
//! rough-ins, with its fireblocks in: IRC 2018 R109.1.4, from memory. Before which step each visit is, the parameters say.

use super::{Design, Stage, raising};
use crate::params::{JobStep, Visits};

/// One step of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// What has to be known before anything is cut.
    Search,
    /// Something is built.
    Stage(Stage),
    /// Nothing is built until somebody has looked.
    Hold(Hold),
    /// The unit is connected and has its first fire.
    FirstFire,
}

/// What the job waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hold {
    /// The fitter's test of the gas line.
    GasTest,
    /// The inspection of the wiring.
    WiringInspection,
    /// The inspection of the vent.
    VentInspection,
    /// The inspection of the framing.
    FramingInspection,
    /// The inspection of the board.
    BoardInspection,
}

/// The steps of a design's job, with its visits: in the usual order, unless a wall lies where the platform will be
/// before it goes up.
pub fn order(design: &Design) -> Vec<Step> {
    let mut built = BUILT;
    if raising(design).iter().any(|it| it.before_platform) {
        let at = |stage: Stage| BUILT.iter().position(|it| *it == Step::Stage(stage));
        if let (Some(platform), Some(walls)) = (at(Stage::Platform), at(Stage::Walls)) {
            built.swap(platform, walls);
        }
    }
    let visits = Hold::all(&design.params.visits);
    let mut order = Vec::with_capacity(built.len() + visits.len());
    for step in built {
        let before = visits.iter().filter(|it| it.1.step() == step);
        order.extend(before.map(|it| Step::Hold(it.0)));
        order.push(step);
    }
    order
}

/// Every step after what is already there but the visits, in the usual order.
pub const BUILT: [Step; 21] = [
    Step::Search,
    Step::Stage(Stage::WallPass),
    Step::Stage(Stage::Thimble),
    Step::Stage(Stage::SealedWall),
    Step::Stage(Stage::RoomBlocks),
    Step::Stage(Stage::Plates),
    Step::Stage(Stage::Platform),
    Step::Stage(Stage::Walls),
    Step::Stage(Stage::Fireblocks),
    Step::Stage(Stage::Gas),
    Step::Stage(Stage::Wiring),
    Step::Stage(Stage::Unit),
    Step::Stage(Stage::Vent),
    Step::Stage(Stage::PassSealed),
    Step::Stage(Stage::CableShelf),
    Step::Stage(Stage::MantelBrackets),
    Step::Stage(Stage::Board),
    Step::Stage(Stage::Finish),
    Step::Stage(Stage::Mantel),
    Step::Stage(Stage::Screen),
    Step::FirstFire,
];

impl Hold {
    /// Every visit that the parameters ask for, and the step that waits for it; of two before one step the rough-ins
    /// come first.
    pub fn all(visits: &Visits) -> Vec<(Self, JobStep)> {
        let all = [
            (Self::GasTest, Some(visits.gas_test)),
            (Self::WiringInspection, visits.wiring),
            (Self::VentInspection, Some(visits.vent)),
            (Self::FramingInspection, Some(visits.framing)),
            (Self::BoardInspection, visits.board),
        ];
        let asked = all.into_iter();
        asked
            .filter_map(|(hold, before)| before.map(|it| (hold, it)))
            .collect()
    }

    /// What the job waits for.
    pub const fn name(self) -> &'static str {
        match self {
            Self::GasTest => "hold for the gas test",
            Self::WiringInspection => "hold for the wiring inspection",
            Self::VentInspection => "hold for the vent inspection",
            Self::FramingInspection => "hold for the framing inspection",
            Self::BoardInspection => "hold for the board inspection",
        }
    }
}

impl JobStep {
    /// The step of the order that it is.
    pub const fn step(self) -> Step {
        match self {
            Self::Walls => Step::Stage(Stage::Walls),
            Self::Wiring => Step::Stage(Stage::Wiring),
            Self::Unit => Step::Stage(Stage::Unit),
            Self::Vent => Step::Stage(Stage::Vent),
            Self::Board => Step::Stage(Stage::Board),
            Self::Finish => Step::Stage(Stage::Finish),
            Self::Mantel => Step::Stage(Stage::Mantel),
            Self::FirstFire => Step::FirstFire,
        }
    }
}

impl Step {
    /// What happens.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Search => "what is inside wall and floor",
            Self::Stage(stage) => stage.name(),
            Self::Hold(hold) => hold.name(),
            Self::FirstFire => "connection and first fire",
        }
    }
}
