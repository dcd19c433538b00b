//! The vent: from the collar along its path, out through a wall or the roof to the cap; and the framed pass.

mod make;
mod pass;
mod roof;
mod sections;

use make::part;
pub(super) use roof::{Member, build_rafters, member, pass_volume, ways_out};
pub use sections::Sections;
pub(super) use sections::joints;

use super::builder::Builder;
use super::unit::collar_height;
use super::{Branch, Kind, Stage};
use crate::geom::{CenterLine, Frame, Tube};
use crate::layout::{Layout, Piece};
use crate::units::Length;

/// Builds pipe, elbows, firestop, cap and the framing of the pass.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    pipes(layout, builder);
    pass::build(layout, builder);
    roof::build(layout, builder);
}

/// The pipe from the collar's end on, and the flue within it from the body on.
fn pipes(layout: &Layout, builder: &mut Builder) {
    let vent = &layout.params.vent;
    let outer = vent.pipe_diameter / 2.0;
    for (index, piece) in layout.path.pieces.iter().enumerate() {
        let kind = match piece.line {
            CenterLine::Segment { .. } => Kind::Pipe,
            CenterLine::Arc { .. } => Kind::Elbow,
        };
        let start = if index == 0 {
            collar_height(layout)
        } else {
            Length::ZERO
        };
        let (line, frame) = shortened(piece, start);
        let tube = tube(line, outer, vent.pipe_wall);
        builder.add_next(Branch::Vent, part(kind, Stage::Vent), tube, frame);
    }
    let Some(flue) = vent.flue_diameter else {
        return;
    };
    for piece in &layout.path.pieces {
        let tube = tube(piece.line, flue / 2.0, vent.pipe_wall);
        builder.add_next(
            Branch::Vent,
            part(Kind::Flue, Stage::Vent),
            tube,
            piece.frame,
        );
    }
}

fn tube(line: CenterLine, outer: Length, metal: Length) -> Tube {
    Tube {
        center_line: line,
        outer: outer.to_mm(),
        inner: (outer - metal).to_mm().max(0.0),
    }
}

/// A straight without its first part.
fn shortened(piece: &Piece, by: Length) -> (CenterLine, Frame) {
    match piece.line {
        CenterLine::Segment { length } if by.is_positive() => (
            CenterLine::Segment {
                length: length - by.to_mm(),
            },
            Frame {
                origin: piece.frame.origin + piece.frame.z * by.to_mm(),
                ..piece.frame
            },
        ),
        line @ (CenterLine::Segment { .. } | CenterLine::Arc { .. }) => (line, piece.frame),
    }
}
