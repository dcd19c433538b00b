//! The room as it stands: surfaces as thin solids outside of it, and the walls whose layers are known.

use glam::{DVec2, DVec3};

use super::builder::{Builder, add_box};
use super::standing::existing;
use super::vent::build_rafters;
use super::{Branch, Kind, opened};
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Swept, Underside, roofline};
use crate::layout::{Layout, rectangle};
use crate::params::{RoomWall, room_plan};
use crate::units::{Length, Span};

/// Thickness of the solids that stand for floor, ceiling and the other walls.
pub(super) const SURFACE: Length = Length::inches(0.5);

/// Builds floor, walls, ceiling and existing studs, in the room's own frame.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    builder.within = layout.site.room;
    let plan = room_plan(&layout.params);
    let across = plan.iter().map(|it| Length::mm(it.x));
    let width = across.fold(
        Span::new(Length::ZERO, layout.params.room.width),
        |all, it| Span::new(all.low.min(it), all.high.max(it)),
    );
    let behind = layout.standing_wall(RoomWall::Back);
    let behind = behind.map_or(Length::ZERO, |wall| wall.depths.outside);
    let under_wall = Span::new(-behind, layout.params.room.depth);
    let below = Span::new(layout.slab - SURFACE, layout.slab);
    let floor = existing(Kind::Floor, Material::CONCRETE);
    add_box(
        Branch::Room,
        floor,
        (width.grown(SURFACE), under_wall, below),
        builder,
    );
    side_walls(layout, builder);
    ceiling(layout, builder);
    builder.within = Frame::WORLD;
    build_rafters(layout, builder);
    for wall in &layout.standing {
        match wall.place {
            RoomWall::Back if layout.opened.is_some() => {
                opened::layers(layout, builder);
                continue;
            }
            // the enclosure's own back is framed with the chase
            wall if layout.site.frames(wall) => continue,
            RoomWall::Back | RoomWall::Behind | RoomWall::Left | RoomWall::Right => {}
        }
        wall.build_layers(layout.hole_in(wall), builder);
        wall.build_plates(builder);
        wall.build_studs(layout.hole_in(wall), builder);
    }
}

/// The room's ceiling, with the hole for a vent that goes through it.
fn ceiling(layout: &Layout, builder: &mut Builder) {
    let ceiling = layout.params.room_underside();
    // one plane only: a hole across a ridge would part its opening in two
    let pass = layout.roof_pass.as_ref();
    let pass = pass.filter(|_| ceiling.planes().len() == 1 && layout.opened.is_none());
    let hole = pass.map(|it| rectangle(it.right, it.back));
    let plan = room_plan(&layout.params);
    ceiling_over(Branch::Room, &ceiling, &plan, hole.as_deref(), builder);
}

/// One thin solid for each plane of a ceiling over a plan, counter-clockwise; they meet plumb.
pub(super) fn ceiling_over(
    branch: Branch,
    ceiling: &Underside,
    plan: &[DVec2],
    hole: Option<&[DVec2]>,
    builder: &mut Builder,
) {
    for (at, part) in ceiling.over(plan) {
        let plane = ceiling.planes()[at];
        let at_height = |height: f64| EndPlane { height, ..plane };
        let outline = part.iter().map(|it| *it - part[0]).collect();
        let mut profile = Profile::polygon(outline);
        if let Some(hole) = hole {
            profile = profile.with_opening(hole.iter().map(|it| *it - part[0]).collect());
        }
        let shape = Swept {
            profile,
            bottom: vec![at_height(0.0)],
            top: vec![at_height(SURFACE.to_mm())],
            bores: Vec::new(),
        };
        let frame = Frame::at(part[0].extend(plane.z(part[0])));
        let make = existing(Kind::Ceiling, Material::DRYWALL);
        builder.add_next(branch, make, shape, frame);
    }
}

/// The walls to the left and to the right, up to the ceiling, where no more is known of them.
fn side_walls(layout: &Layout, builder: &mut Builder) {
    let corner = |out: Length, height: Length| DVec2::new(out.to_mm(), height.to_mm());
    let depth = layout.site.side_walls;
    let right = DVec3::X * layout.params.room.width.to_mm();
    for (wall, corner_at, outward) in [
        (RoomWall::Left, DVec3::ZERO, Length::ZERO),
        (RoomWall::Right, right, SURFACE),
    ] {
        if layout.standing_wall(wall).is_some() {
            continue;
        }
        let along = layout.params.way_out_along(wall);
        // the left wall is swept outward, the right one inward
        let swept = along.cross(DVec3::Z);
        let ceiling = layout.params.room_underside();
        let place = |out: Length| (corner_at + along * out.to_mm()).truncate();
        let lines: Vec<_> = ceiling.lines(place(Length::ZERO), place(depth)).collect();
        let roof = roofline(&lines, (0.0, depth.to_mm()));
        let floor = [Length::ZERO, depth].map(|out| corner(out, layout.slab));
        let outline = floor.into_iter().chain(roof.into_iter().rev()).collect();
        let origin = corner_at - swept * outward.to_mm();
        builder.add_next(
            Branch::Room,
            existing(Kind::SideWall, Material::DRYWALL),
            Swept::square(Profile::polygon(outline), SURFACE),
            Frame::new(origin, along, DVec3::Z),
        );
    }
}
