//! The enclosure of a flush chase behind the wall that it is set into: its back, its covers and lining, and the
//! floor and ceiling that the room's own are carried on to.

use super::builder::{Builder, Make, add_box};
use super::room::{SURFACE, ceiling_over};
use super::skins::{CutOut, Sheet, across_sheet, skin};
use super::standing::existing;
use super::wall::{Cover, SquareEdges, Wall};
use super::{Branch, Flank, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::Frame;
use crate::layout::{Layout, point, rectangle};
use crate::params::{ChaseWall, RoomWall, SpaceBehind};
use crate::units::{Length, Span};

/// The framed back, its studs round the hole for the vent; its face looks to the unit.
pub(super) fn frame_back(layout: &Layout, builder: &mut Builder) {
    let chase = &layout.params.chase;
    let origin = point(layout.site.chase.low, -layout.site.lining, layout.slab);
    let mut wall = Wall::under(
        ChaseWall::Back,
        Frame::at(origin),
        (chase.width, [0.0; 2]),
        (&chase.stud, chase.stud_spacing),
        (&layout.ceiling_behind, layout.params.ceiling.gap),
        Cover::Plates(chase.top_plates),
    );
    wall.longest = layout.params.longest_board(&chase.stud);
    wall.level_across(layout.params.saw.tolerance);
    wall.edges = SquareEdges::of(ChaseWall::Back, &layout.params, &builder.ripped);
    let standing = layout.standing_wall(RoomWall::Behind);
    wall.frame_around(standing.and_then(|it| layout.hole_in(it)));
    wall.hand_over(builder);
}

/// Covers, lining, floor and ceiling of the enclosure.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let Some(behind) = layout
        .params
        .behind
        .as_ref()
        .filter(|_| layout.site.opens_wall)
    else {
        return;
    };
    let cover = match behind.space {
        SpaceBehind::Outdoors => sheet(Material::PANEL, behind.cover),
        SpaceBehind::Indoors => sheet(Material::DRYWALL, behind.cover),
    };
    let lining = sheet(Material::DRYWALL, layout.site.lining);
    let studs = layout.params.chase.stud.depth();
    let begins = layout.site.side_begins(Length::ZERO);
    if layout.site.is_enclosed() {
        let inside = layout.site.chase.grown(-studs);
        let outside = layout.site.chase.grown(behind.cover);
        let back = begins - studs;
        hang(
            Branch::Lining(Flank::Back),
            &lining,
            (inside, begins),
            layout,
            builder,
        );
        let place = (outside, back - behind.cover);
        hang(Branch::Cover(Flank::Back), &cover, place, layout, builder);
    }
    let begins = if layout.site.is_enclosed() {
        begins - studs
    } else {
        begins
    };
    let outs = Span::new(begins, layout.faces.front_back);
    let inside = Span::new(Length::ZERO, layout.faces.front_back);
    let (low, high) = (layout.site.chase.low, layout.site.chase.high);
    let sides = [
        (
            Branch::Cover(Flank::Left),
            &cover,
            Span::new(low - behind.cover, low),
            outs,
        ),
        (
            Branch::Cover(Flank::Right),
            &cover,
            Span::new(high, high + behind.cover),
            outs,
        ),
        (
            Branch::Lining(Flank::Left),
            &lining,
            Span::new(low + studs, low + studs + layout.site.lining),
            inside,
        ),
        (
            Branch::Lining(Flank::Right),
            &lining,
            Span::new(high - studs - layout.site.lining, high - studs),
            inside,
        ),
    ];
    for (branch, make, span, outs) in sides {
        if span.size().is_positive() {
            across_sheet(branch, make.clone(), (span, outs), layout, builder);
        }
    }
    surfaces(layout, behind.cover, builder);
}

/// A sheet of the enclosure; it is hung with the walls, since nobody gets there once the unit stands.
fn sheet(material: Material, thickness: Length) -> Make {
    Make {
        stage: Stage::Walls,
        ..skin(Kind::Board, material, thickness)
    }
}

/// A sheet of the back, with the hole for the vent.
fn hang(
    branch: Branch,
    make: &Make,
    (sides, back): (Span, Length),
    layout: &Layout,
    builder: &mut Builder,
) {
    let Stock::Sheet(thickness) = make.stock else {
        return;
    };
    if !thickness.is_positive() {
        return;
    }
    let pass = &layout.pass;
    let hole = (pass.wall == Some(RoomWall::Behind)).then(|| CutOut {
        sides: pass.sides.moved(layout.site.chase.low),
        heights: pass.heights,
    });
    let sheet = Sheet {
        branch,
        make: make.clone(),
        back,
        thickness,
        cuts: hole.into_iter().collect(),
    };
    sheet.hang(layout, (sides, layout.slab, None), builder);
}

/// The floor that the enclosure stands on, as the room's run on, and the ceiling that it ends under: the room's too,
/// or one of its own, up to which the room's lies over the opened wall alone.
fn surfaces(layout: &Layout, cover: Length, builder: &mut Builder) {
    let sides = if layout.site.is_enclosed() {
        layout.site.chase.grown(cover)
    } else {
        Span::new(Length::ZERO, layout.params.room.width)
    };
    let outs = Span::new(-layout.wall.outside, layout.faces.front_back);
    let below = Span::new(layout.slab - SURFACE, layout.slab);
    let floor = existing(Kind::Floor, Material::CONCRETE);
    add_box(Branch::Behind, floor, (sides, outs, below), builder);
    let over_wall = Span::new(layout.faces.front_back, layout.site.wall_face);
    let ceilings = if layout.site.ceiling_behind.is_some() {
        vec![(&layout.ceiling_behind, outs), (&layout.ceiling, over_wall)]
    } else {
        vec![(&layout.ceiling, Span::new(outs.low, over_wall.high))]
    };
    let pass = layout.roof_pass.as_ref();
    let pass = pass.filter(|_| layout.ceiling.planes().len() == 1);
    let hole = pass.map(|it| rectangle(it.right, it.back.moved(-layout.site.wall_face)));
    for (ceiling, over) in ceilings {
        let plan = rectangle(sides, Span::new(-over.high, -over.low));
        ceiling_over(Branch::Behind, ceiling, &plan, hole.as_deref(), builder);
    }
}
