//! The wall of the room that a flush chase is set into: what is cut of it, and what is framed into it.
//!
//! In: its studs and the unit's opening. Out: which of them stay, which end over the header, which are taken
//! out, and where new ones stand behind the joint of the old board and the new. Places count along the wall
//! from the room's left corner.

use super::builder::Builder;
use super::layout::Layout;
use super::skins::{Cut, Sheet};
use super::span::{Span, point};
use super::standing::existing;
use super::wall::{Cover, Opening, Wall};
use super::{Kind, StandingWall};
use crate::catalog::Material;
use crate::geom::Frame;
use crate::params::{Bearing, ChaseWall, Params, RoomWall, SpaceBehind};
use crate::units::Length;

/// What happens to the wall that a chase is set into.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenedWall {
    /// Centers of the studs that stay whole.
    pub kept: Vec<Length>,
    /// Centers of those that are cut, and end over the header.
    pub cut: Vec<Length>,
    /// Centers of those that are taken out: a king of the opening stands there.
    pub taken_out: Vec<Length>,
    /// Centers of new studs behind the joint of the old board and the new.
    pub added: Vec<Length>,
    /// Whether header and jacks are settled: a wall that carries nothing has the header of the parameters,
    /// any other has one that somebody designs.
    pub is_settled: bool,
}

impl OpenedWall {
    /// What the wall's studs become; `None` where no wall is opened.
    pub(super) fn new(params: &Params, layout: &Layout) -> Option<Self> {
        if !params.is_flush() {
            return None;
        }
        let wall = layout.standing_wall(RoomWall::Back)?;
        let thickness = wall.stud.thickness;
        let header = layout.rough_opening.grown(thickness);
        let kings = header.grown(thickness);
        let mut opened = Self {
            kept: Vec::new(),
            cut: Vec::new(),
            taken_out: Vec::new(),
            added: Vec::new(),
            is_settled: wall.bearing == Bearing::No,
        };
        for center in &wall.centers {
            let stud = Span::about(*center, thickness);
            let within_header =
                !(header.low - stud.low).is_positive() && !(stud.high - header.high).is_positive();
            let list = if !stud.overlaps(kings) {
                &mut opened.kept
            } else if within_header {
                &mut opened.cut
            } else {
                &mut opened.taken_out
            };
            list.push(*center);
        }
        for edge in [layout.chase.low, layout.chase.high] {
            let added = opened.behind_joint(edge, kings, wall);
            opened.added.extend(added);
        }
        Some(opened)
    }

    /// Where a new stud stands behind a joint of the boards; `None` where none has room, one that holds both edges
    /// already being in its place.
    fn behind_joint(&self, joint: Length, kings: Span, wall: &StandingWall) -> Option<Length> {
        let thickness = wall.stud.thickness;
        let stands = self.kept.iter().chain(&self.added);
        let stands = stands.map(|it| Span::about(*it, thickness)).chain([kings]);
        let stands: Vec<Span> = stands.collect();
        let wanted = Span::about(joint, thickness);
        let beside = stands.iter().filter(|it| it.overlaps(wanted));
        let beside = beside.flat_map(|it| [it.low - thickness / 2.0, it.high + thickness / 2.0]);
        let ends = [thickness / 2.0, wall.length - thickness / 2.0];
        let places = [joint.max(ends[0]).min(ends[1])].into_iter().chain(beside);
        let mut fit: Vec<Length> = places
            .filter(|at| {
                let stud = Span::about(*at, thickness);
                let in_wall = !(ends[0] - *at).is_positive() && !(*at - ends[1]).is_positive();
                in_wall && !stands.iter().any(|it| it.overlaps(stud))
            })
            .filter(|at| !((*at - joint).abs() - thickness / 2.0).is_positive())
            .collect();
        fit.sort_by(|a, b| {
            (*a - joint)
                .abs()
                .to_mm()
                .total_cmp(&(*b - joint).abs().to_mm())
        });
        fit.first().copied()
    }

    /// Centers of every stud that stands whole in the wall, the new ones too, from the left.
    pub(super) fn whole(&self) -> Vec<Length> {
        let mut whole = [self.kept.as_slice(), &self.added].concat();
        whole.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
        whole
    }
}

/// Frames the opening into the wall, between its old plates.
pub(super) fn frame(params: &Params, layout: &Layout, builder: &mut Builder) {
    let (Some(opened), Some(behind)) = (&layout.opened, &params.behind) else {
        return;
    };
    let origin = point(Length::ZERO, layout.lower_stud_face, layout.slab);
    let mut wall = Wall::under(
        ChaseWall::Opened,
        Frame::at(origin),
        (params.room.width, [0.0; 2]),
        (&params.wall.stud, params.wall.stud_spacing),
        (&layout.ceiling, Length::ZERO),
        Cover::Plates(behind.wall_plates),
    );
    let opening = Opening {
        sides: layout.rough_opening,
        header_bottom: layout.header_bottom - layout.slab,
        header: &params.front.header,
        header_height: params.header_height(&params.wall.stud),
    };
    wall.frame_opened(&opening, opened);
    wall.hand_over(builder);
}

/// The wall's board, cut out where the chase's own hangs, and what covers its other side, cut out at the opening.
pub(super) fn layers(params: &Params, layout: &Layout, builder: &mut Builder) {
    let Some(behind) = &params.behind else { return };
    let wall = &params.wall;
    let far_side = match behind.space {
        SpaceBehind::Outdoors => Material::PANEL,
        SpaceBehind::Indoors => Material::DRYWALL,
    };
    let whole_height = Span::new(layout.slab, Length::mm(f64::MAX));
    let opening = Span::new(layout.slab, layout.header_bottom);
    let layers = [
        (
            layout.lower_stud_face,
            wall.board,
            Material::DRYWALL,
            Cut {
                sides: layout.chase,
                heights: whole_height,
            },
        ),
        (
            layout.front_back,
            wall.sheathing,
            far_side,
            Cut {
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
            let sides = Span::new(Length::ZERO, params.room.width);
            sheet.hang(layout, (sides, layout.slab, None), builder);
        }
    }
}
