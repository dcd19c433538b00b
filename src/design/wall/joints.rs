//! Where the pieces of a plate meet that is longer than the yard's longest board.

use super::{Reach, Wall};
use crate::units::{Length, Span};

/// Between the joints of two plates on each other: IRC 2021 R602.3.2.
const JOINTS_APART: Length = Length::inches(24.0);

/// Pieces of a plate are not made shorter than this for want of longer boards (common practice, no source).
pub(super) const SHORTEST_PIECE: Length = Length::inches(24.0);

impl Wall<'_> {
    /// Where a plate on the studs is joined: over the farthest upright that a board reaches.
    pub(super) fn joints_over_uprights(&self, whole: Span, reach: Length) -> Vec<Length> {
        let mut joints = Vec::new();
        let mut start = whole.low;
        while (whole.high - start - reach).is_positive() {
            let under = self
                .standing
                .iter()
                .filter(|(_, to)| matches!(to, Reach::ToPlates(_)))
                .map(|(span, _)| span.center())
                .filter(|at| (*at - start).is_positive() && !(*at - start - reach).is_positive())
                .fold(start, Length::max);
            start = if under > start { under } else { start + reach };
            joints.push(start);
        }
        joints
    }
}

/// Where a plate on another one is joined: as far as a board reaches, but away from the joints below.
pub(super) fn joints_away_from(below: &[Length], whole: Span, reach: Length) -> Vec<Length> {
    let mut joints = Vec::new();
    let mut start = whole.low;
    while (whole.high - start - reach).is_positive() {
        let near = |at: Length| {
            let mut joints = below.iter().copied();
            joints.find(|it| (JOINTS_APART - (at - *it).abs()).is_positive())
        };
        let mut at = start + reach;
        while let Some(joint) = near(at) {
            at = joint - JOINTS_APART;
        }
        start = if (at - start).is_positive() {
            at
        } else {
            start + reach
        };
        joints.push(start);
    }
    joints
}
