//! The room as it stands: surfaces as thin solids outside of it, and the walls whose layers are known.

use glam::{DVec2, DVec3};

use super::Kind;
use super::builder::Builder;
use super::layout::Layout;
use super::skins::add_box;
use super::span::{Span, point, rectangle};
use super::standing::existing;
use super::vent::build_rafters;
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Swept, roofline};
use crate::params::{Params, RoomWall};
use crate::units::Length;

/// Thickness of the solids that stand for floor, ceiling and the other walls.
const SURFACE: Length = Length::inches(0.5);

/// Builds floor, walls, ceiling and existing studs, in the room's own frame.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
    builder.within = layout.room;
    let width = Span::new(Length::ZERO, params.room.width);
    let under_wall = Span::new(-layout.wall.outside, params.room.depth);
    let below = Span::new(layout.slab - SURFACE, layout.slab);
    let floor = existing(Kind::Floor, Material::CONCRETE);
    add_box(
        "room",
        floor,
        (width.grown(SURFACE), under_wall, below),
        builder,
    );
    side_walls(params, layout, builder);
    ceiling(params, layout, builder);
    builder.within = Frame::WORLD;
    build_rafters(params, layout, builder);
    for wall in &layout.standing {
        wall.build_layers(layout.hole_in(wall), builder);
        wall.build_studs(layout.hole_in(wall), builder);
    }
}

/// One thin solid for each plane of the ceiling; they meet plumb.
fn ceiling(params: &Params, layout: &Layout, builder: &mut Builder) {
    let ceiling = params.room_underside();
    let corner = point(Length::ZERO, params.room.depth, Length::ZERO);
    let far = point(params.room.width, Length::ZERO, Length::ZERO);
    let plan = [
        corner.truncate(),
        DVec2::new(far.x, corner.y),
        far.truncate(),
        DVec2::new(corner.x, far.y),
    ];
    for (at, part) in ceiling.over(&plan) {
        let plane = ceiling.planes()[at];
        let at_height = |height: f64| EndPlane { height, ..plane };
        let outline = part.iter().map(|it| *it - part[0]).collect();
        let mut profile = Profile::polygon(outline);
        // one plane only: a hole across a ridge would part its opening in two
        if let Some(pass) = layout
            .roof_pass
            .as_ref()
            .filter(|_| ceiling.planes().len() == 1)
        {
            let hole = rectangle(pass.right, pass.back);
            profile = profile.with_opening(hole.iter().map(|it| *it - part[0]).collect());
        }
        let shape = Swept {
            profile,
            bottom: vec![at_height(0.0)],
            top: vec![at_height(SURFACE.to_mm())],
        };
        let frame = Frame::at(part[0].extend(plane.z(part[0])));
        let make = existing(Kind::Ceiling, Material::DRYWALL);
        builder.add_next("room", make, shape, frame);
    }
}

/// The walls to the left and to the right, up to the ceiling, where no more is known of them.
fn side_walls(params: &Params, layout: &Layout, builder: &mut Builder) {
    let corner = |out: Length, height: Length| DVec2::new(out.to_mm(), height.to_mm());
    let depth = params.room.depth;
    for (place, inner, outer) in [
        (RoomWall::Left, Length::ZERO, -SURFACE),
        (
            RoomWall::Right,
            params.room.width,
            params.room.width + SURFACE,
        ),
    ] {
        if layout.standing_wall(place).is_some() {
            continue;
        }
        let ceiling = params.room_underside();
        let place = |out: Length| point(inner, out, Length::ZERO).truncate();
        let lines: Vec<_> = ceiling.lines(place(Length::ZERO), place(depth)).collect();
        let roof = roofline(&lines, (0.0, depth.to_mm()));
        let floor = [Length::ZERO, depth].map(|out| corner(out, layout.slab));
        let outline = floor.into_iter().chain(roof.into_iter().rev()).collect();
        let origin = point(inner.max(outer), Length::ZERO, Length::ZERO);
        builder.add_next(
            "room",
            existing(Kind::SideWall, Material::DRYWALL),
            Swept::square(Profile::polygon(outline), SURFACE),
            Frame::new(origin, DVec3::NEG_Y, DVec3::Z),
        );
    }
}
