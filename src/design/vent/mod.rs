//! The vent: from the collar along its path, out through a wall or the roof to the cap; and the framed pass.

mod pass;
mod path;
mod roof;
mod sections;

use super::builder::{Builder, Make};
use super::layout::Layout;
use super::unit::collar_height;
use super::{Branch, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{CenterLine, Frame, Tube};
use crate::params::Params;
use crate::units::Length;

pub(super) use pass::pass_layout;
pub(super) use path::end_plane;
pub use path::{Path, Piece};
pub use roof::RoofPass;
pub(super) use roof::{Member, build_rafters, member, pass_volume, roof_pass, ways_out};
pub use sections::Sections;
pub(super) use sections::joints;

/// How far the firestop's plate laps over the hole's edge (common practice, no source).
const FIRESTOP_LAP: Length = Length::inches(1.5);
/// Thickness of the firestop's plate and of the cap's metal.
const METAL: Length = Length::inches(0.0625);

/// Builds pipe, elbows, firestop, cap and the framing of the pass.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
    pipes(params, layout, builder);
    pass::build(params, layout, builder);
    roof::build(params, layout, builder);
}

fn part(kind: Kind, stage: Stage) -> Make {
    Make {
        kind,
        group: Group::Vent,
        material: Material::STEEL,
        stock: Stock::Bought,
        stage,
    }
}

/// The pipe from the collar's end on, and the flue within it from the body on.
fn pipes(params: &Params, layout: &Layout, builder: &mut Builder) {
    let vent = &params.vent;
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
        line => (line, piece.frame),
    }
}
