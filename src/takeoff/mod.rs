//! What to cut, at which saw setting, from which board; what to buy, weigh and pay.
//!
//! In: a design. Out: a [`Takeoff`]. Pure and exact: rounding happens where it is written. What makes the
//! takeoff useless, such as a piece longer than any board, is a fault with the key that mends it.

#![deny(clippy::wildcard_enum_match_arm)]

mod as_built;
mod beads;
mod boards;
mod buy;
mod cut_list;
mod fasteners;
mod finishing;
mod layout;
mod marks;
mod nest;
mod pipes;
pub mod plan;
mod saw;
mod sheets;
mod shims;
mod stick;
mod stick_face;
mod weights;
mod wood;
mod yard;

pub use as_built::{Blank, Measured};
pub use boards::{BoardPlan, CutBoard, NearMiss, PlanCost, PlanWatch, Planning};
pub use buy::{FinishArea, Line, Section, board_feet, square_feet};
pub use cut_list::{CutLength, Row};
pub use fasteners::{FastenerCount, Purpose};
pub use layout::{BoreMark, PlateMarks, PlumbLine, PoleMark, StickMark};
pub use marks::{LevelEdge, LineWhat, PoleWhat, WallSide};
pub use pipes::{PipeList, Run};
pub use saw::{EndCut, Setup, Stop};
pub use sheets::{CutSheet, PlacedPiece, Sheet, SheetPiece, SheetPlan, cut_roundings};
pub use stick::{End, Rip, SecondCut};
pub use stick_face::{StickFace, faces_text};
pub use weights::{Weighed, Weight, is_weighed};
pub use yard::{Board, SoldLength};

use std::collections::BTreeMap;

use crate::design::{Design, Packing};
use crate::params::Fault;
use crate::units::Money;
use yard::Yard;

/// Cut list, layout and buy list, with prices and weights.
#[derive(Debug, Clone)]
pub struct Takeoff {
    /// The cut list, by wall and from the left.
    pub cut_list: Vec<Row>,
    /// Settings of the saw.
    pub saw: Vec<Setup>,
    /// Boards and what is cut from each.
    pub boards: Vec<BoardPlan>,
    /// Sheets and what is cut from each.
    pub sheets: Vec<SheetPlan>,
    /// Where sticks are bored.
    pub bores: Vec<BoreMark>,
    /// Where sticks stand on their plates.
    pub plates: Vec<PlateMarks>,
    /// Heights.
    pub story_pole: Vec<PoleMark>,
    /// Plumb lines on the existing wall.
    pub plumb_lines: Vec<PlumbLine>,
    /// What is packed or scribed, and how much, at each place that was read.
    pub packing: Vec<Packing>,
    /// What is measured as it was built.
    pub as_built: Vec<Blank>,
    /// Nails, screws and anchors by purpose.
    pub fasteners: Vec<FastenerCount>,
    /// The vent as it is bought.
    pub pipes: PipeList,
    /// Everything that is bought.
    pub buy: Vec<Line>,
    /// Faces to be finished.
    pub finish: Vec<FinishArea>,
    /// Weights.
    pub weights: Vec<Weight>,
    /// What keeps the takeoff from being of use.
    pub faults: Vec<Fault>,
}

impl Takeoff {
    /// The cost of everything that has a price.
    pub fn cost(&self) -> Money {
        self.buy.iter().filter_map(Line::cost).sum()
    }

    /// What has no price.
    pub fn without_price(&self) -> impl Iterator<Item = &str> {
        let missing = self.buy.iter().filter(|it| it.price.is_none());
        missing.map(|it| it.item.as_str())
    }

    /// What is bought whole and has no weight, which the weight on the slab lacks.
    pub fn without_weight(&self) -> impl Iterator<Item = &str> {
        let whole = self.buy.iter().filter(|it| it.is_whole);
        whole
            .filter(|it| it.weight.is_none())
            .map(|it| it.item.as_str())
    }
}

/// What is written on each stick, by its part's id.
pub fn marks(design: &Design) -> BTreeMap<String, String> {
    let rows = cut_list::rows(design, &Yard::new(&design.params));
    let marks = rows.into_iter().flat_map(|row| {
        let mark = row.mark;
        row.parts.into_iter().map(move |part| (part, mark.clone()))
    });
    marks.collect()
}

/// How long each stick is from long point to long point, by its part's id.
pub fn cut_lengths(design: &Design) -> BTreeMap<String, CutLength> {
    let rows = cut_list::rows(design, &Yard::new(&design.params));
    let lengths = rows.into_iter().flat_map(|row| {
        let length = row.long();
        row.parts.into_iter().map(move |part| (part, length))
    });
    lengths.collect()
}

/// Takes off a design.
///
/// # Examples
/// ```
/// use chasewright::design::design;
/// use chasewright::params;
/// use chasewright::takeoff::takeoff;
///
/// let text = include_str!(concat!(
///     env!("CARGO_MANIFEST_DIR"),
///     "/params/reading-room.toml"
/// ));
/// let design = design(&params::read(text).expect("a sound file"));
/// let takeoff = takeoff(&design);
/// let sticks: usize = takeoff.cut_list.iter().map(|row| row.parts.len()).sum();
/// assert!(sticks > 50);
/// ```
pub fn takeoff(design: &Design) -> Takeoff {
    takeoff_watched(design, &mut |_| true)
}

/// Takes off a design; its cutting plans are searched as long as `watch` says to go on, and are then the best so far.
pub fn takeoff_watched(design: &Design, watch: PlanWatch<'_>) -> Takeoff {
    let params = &design.params;
    let yard = Yard::new(params);
    let cut_list = cut_list::rows(design, &yard);
    let mut faults = Vec::new();
    let boards = boards::plans(&cut_list, &yard, params, &mut faults, watch);
    let sheets = sheets::plans(design);
    let fasteners = fasteners::count(design);
    let pipes = pipes::list(design);
    let buy = buy::lines(design, &boards, &sheets, &fasteners, &pipes);
    Takeoff {
        saw: saw::setups(&cut_list, params),
        bores: layout::bores(design),
        plates: layout::plates(design),
        story_pole: layout::story_pole(design),
        plumb_lines: layout::plumb_lines(design),
        packing: design.packing.clone(),
        as_built: as_built::blanks(design),
        finish: buy::finish(design),
        weights: weights::weights(design, &buy),
        buy,
        cut_list,
        boards,
        sheets,
        fasteners,
        pipes,
        faults,
    }
}
