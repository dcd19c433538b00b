//! The framing of the ceiling over the chase: the rafters of `[roof]`, or what `[rafters]` says.

use glam::DVec3;

use crate::catalog::Lumber;
use crate::geom::Frame;
use crate::params::{Params, Rafters};
use crate::units::Length;

/// The rafters, joists or trusses over the chase.
#[derive(Debug, Clone, PartialEq)]
pub struct CeilingMembers {
    /// The frame of the room, that their places count in.
    pub room: Frame,
    /// How they run.
    pub runs: Rafters,
    /// Centers: from the left corner where they run out, from the fireplace wall where they run along it.
    pub centers: Vec<Length>,
    /// What they are.
    pub stock: Lumber,
    /// Thickness of the board under them.
    pub board: Length,
}

impl CeilingMembers {
    /// Those that the parameters describe, if they do.
    pub fn of(params: &Params) -> Option<Self> {
        let (runs, first, spacing, stock, board) = match (&params.rafters, &params.roof) {
            (_, Some(roof)) => (
                roof.rafters,
                roof.first_rafter,
                roof.rafter_spacing,
                &roof.rafter,
                roof.board,
            ),
            (Some(own), None) => (
                own.runs,
                own.first?,
                own.spacing,
                &own.stock,
                params.fasteners.ceiling_board,
            ),
            (None, None) => return None,
        };
        let centers = member_centers(params, runs, (first, spacing), stock.breadth());
        Some(Self {
            room: params.site().room,
            runs,
            centers,
            stock: stock.clone(),
            board,
        })
    }

    /// Level directions across the members, as they are counted, and along them, in the room's frame.
    pub const fn axes(&self) -> (DVec3, DVec3) {
        match self.runs {
            Rafters::Out => (DVec3::X, DVec3::Y),
            Rafters::Along => (DVec3::NEG_Y, DVec3::X),
        }
    }
}

/// Centers of framing of the ceiling, between the room's walls, and on behind a wall that a flush chase is
/// set into.
pub(super) fn member_centers(
    params: &Params,
    runs: Rafters,
    (first, spacing): (Length, Length),
    thickness: Length,
) -> Vec<Length> {
    let (begin, end) = match runs {
        Rafters::Out => (Length::ZERO, params.room.width),
        Rafters::Along => (-params.site().ceiling_runs_on, params.room.depth),
    };
    let half = thickness / 2.0;
    let mut center = first;
    // the first is that of the room; others lie behind its wall
    while begin < Length::ZERO && center - spacing - half >= begin {
        center -= spacing;
    }
    let mut found = Vec::new();
    while center + half <= end {
        if center - half >= begin {
            found.push(center);
        }
        center += spacing;
    }
    found
}
