//! The wall of the room that a flush chase is set into: what is cut of it, and what is framed into it.
//!
//! In: its studs and the unit's opening. Out: which of them stay, which end over the header, which are taken
//! out, and where new ones stand behind the joint of the old board and the new. Places count along the wall
//! from the room's left corner.

use super::Kind;
use super::builder::Builder;
use super::skins::{CutOut, Sheet};
use super::standing::existing;
use super::wall::{Cover, Opening, Wall};
use crate::catalog::Material;
use crate::geom::Frame;
use crate::layout::{Layout, point};
use crate::params::{ChaseWall, SpaceBehind};
use crate::units::{Length, Span};

/// Frames the opening into the wall, between its old plates.
pub(super) fn frame(layout: &Layout, builder: &mut Builder) {
    let (Some(opened), Some(behind)) = (&layout.opened, &layout.params.behind) else {
        return;
    };
    let origin = point(Length::ZERO, layout.faces.lower_stud, layout.slab);
    let mut wall = Wall::under(
        ChaseWall::Opened,
        Frame::at(origin),
        (layout.params.room.width, [0.0; 2]),
        (&layout.params.wall.stud, layout.params.wall.stud_spacing),
        (&layout.ceiling, Length::ZERO),
        Cover::Plates(behind.wall_plates),
    );
    let opening = Opening {
        sides: layout.rough_opening,
        header_bottom: layout.heights.header_bottom - layout.slab,
        header: layout.params.unit_header(ChaseWall::Opened),
    };
    wall.frame_opened(&opening, opened);
    wall.hand_over(builder);
}

/// The wall's board, cut out where the chase's own hangs, and what covers its other side, cut out at the opening.
pub(super) fn layers(layout: &Layout, builder: &mut Builder) {
    let Some(behind) = &layout.params.behind else {
        return;
    };
    let wall = &layout.params.wall;
    let far_side = match behind.space {
        SpaceBehind::Outdoors => Material::PANEL,
        SpaceBehind::Indoors => Material::DRYWALL,
    };
    let whole_height = Span::new(layout.slab, Length::mm(f64::MAX));
    let opening = Span::new(layout.slab, layout.heights.header_bottom);
    let layers = [
        (
            layout.faces.lower_stud,
            wall.board,
            Material::DRYWALL,
            CutOut {
                sides: layout.site.chase,
                heights: whole_height,
            },
        ),
        (
            layout.faces.front_back,
            wall.sheathing,
            far_side,
            CutOut {
                sides: layout.rough_opening,
                heights: opening,
            },
        ),
    ];
    for (back, thickness, material, cut) in layers {
        if thickness.is_positive() {
            let sheet = Sheet {
                branch: ChaseWall::Opened.into(),
                make: existing(Kind::WallLayer, material),
                back,
                thickness,
                cuts: vec![cut],
            };
            let sides = Span::new(Length::ZERO, layout.params.room.width);
            sheet.hang(layout, (sides, layout.slab, None), builder);
        }
    }
}
