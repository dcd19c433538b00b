//! Where the recess lies, and what its sides are framed to.

use super::faces::Faces;
use crate::params::Params;
use crate::units::{Length, Span};

/// Where a recess lies.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RecessLayout {
    /// Finished sides.
    pub finished: Span,
    /// Finished sill and head.
    pub finished_height: Span,
    /// Sides of the rough opening that its lining needs.
    pub rough: Span,
    /// Sides that it is framed to: wider than needed where its own would fall on the unit's kings.
    pub framed: Span,
    /// Sill and head of the rough opening.
    pub rough_height: Span,
    /// Finished back surface, out from the wall.
    pub back: Length,
    /// Front of the framing behind the lining.
    pub framing_front: Length,
    /// Back of the framing behind the lining.
    pub framing_back: Length,
}

impl RecessLayout {
    pub(super) fn new(
        params: &Params,
        chase: Span,
        (faces, opening): (&Faces, Span),
    ) -> Option<Self> {
        let recess = params.recess.as_ref()?;
        let board = params.skins.board;
        let thickness = params.front_stud().breadth();
        let finished = Span::about(recess.center.unwrap_or(chase.center()), recess.width);
        let finished_height = Span::new(recess.sill, recess.sill + recess.height);
        let rough = finished.grown(board);
        let back = faces.upper_finished - recess.depth;
        Some(Self {
            finished,
            finished_height,
            rough,
            framed: framed_sides(rough, opening, thickness),
            rough_height: finished_height.grown(board),
            back,
            framing_front: back - board,
            framing_back: back - board - thickness,
        })
    }
}

/// What supports one side of a recess.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Stand {
    /// Jack and king run down to the sole, outside the unit's kings.
    Sole,
    /// Jack and king stand on the unit's header.
    Header,
    /// The jack stands on the unit's header, against the unit's own king.
    UnitKing,
}

/// The sides that a recess is framed to over the unit's opening, which may be wider than it needs.
pub(crate) fn framed_sides(recess: Span, opening: Span, thickness: Length) -> Span {
    let (_, left) = fit_side(recess.low - opening.low, thickness);
    let (_, right) = fit_side(opening.high - recess.high, thickness);
    Span::new(recess.low - left, recess.high + right)
}

/// What supports the side of a recess that lies so far inside the opening's side, and how much wider
/// than needed it is framed there.
pub(crate) fn fit_side(inside: Length, thickness: Length) -> (Stand, Length) {
    let past_king = inside + 2.0 * thickness;
    if !past_king.is_positive() {
        (Stand::Sole, Length::ZERO)
    } else if !(thickness - inside).is_positive() {
        (Stand::Header, Length::ZERO)
    } else if (-inside).is_positive() {
        (Stand::Sole, past_king)
    } else {
        (Stand::UnitKing, inside)
    }
}
