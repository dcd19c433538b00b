//! The room as it stands: surfaces as thin solids outside of it, and the walls whose layers are known.

use glam::{DVec2, DVec3};

use super::Kind;
use super::builder::Builder;
use super::layout::{Layout, Span, point, rectangle};
use super::skins::add_box;
use super::standing::existing;
use super::vent::build_rafters;
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Swept};
use crate::params::{Params, RoomWall};
use crate::units::Length;

/// Thickness of the solids that stand for floor, ceiling and the other walls.
const SURFACE: Length = Length::inches(0.5);

/// Builds floor, walls, ceiling and existing studs, in the room's own frame.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
    builder.within = layout.room;
    let width = Span::new(Length::ZERO, params.room.width);
    let depth = Span::new(Length::ZERO, params.room.depth);
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
    ceiling(params, layout, (width, depth), builder);
    builder.within = Frame::WORLD;
    build_rafters(params, layout, builder);
    for wall in &layout.standing {
        wall.build_layers(layout.hole_in(wall), builder);
        wall.build_studs(layout.hole_in(wall), builder);
    }
}

/// The ceiling's height over a point of the room's own frame.
fn ceiling_at(params: &Params, right: Length, out: Length) -> Length {
    let place = point(right, out, Length::ZERO).truncate();
    Length::mm(params.room_ceiling().z(place))
}

fn ceiling(params: &Params, layout: &Layout, (width, depth): (Span, Span), builder: &mut Builder) {
    let plane = params.room_ceiling();
    let mut profile = Profile::rectangle(width.size(), depth.size());
    if let Some(pass) = &layout.roof_pass {
        profile = profile.with_opening(rectangle(pass.right, pass.back.moved(depth.high)));
    }
    let shape = Swept {
        profile,
        bottom: vec![EndPlane {
            height: 0.0,
            ..plane
        }],
        top: vec![EndPlane {
            height: SURFACE.to_mm(),
            ..plane
        }],
    };
    let corner = point(Length::ZERO, params.room.depth, Length::ZERO);
    let height = plane.z(corner.truncate());
    let frame = Frame::at(DVec3::new(corner.x, corner.y, height));
    let make = existing(Kind::Ceiling, Material::DRYWALL);
    builder.add_next("room", make, shape, frame);
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
        let roof = |out: Length| ceiling_at(params, inner, out);
        let outline = vec![
            corner(Length::ZERO, layout.slab),
            corner(depth, layout.slab),
            corner(depth, roof(depth)),
            corner(Length::ZERO, roof(Length::ZERO)),
        ];
        let origin = point(inner.max(outer), Length::ZERO, Length::ZERO);
        builder.add_next(
            "room",
            existing(Kind::SideWall, Material::DRYWALL),
            Swept::square(Profile::polygon(outline), SURFACE),
            Frame::new(origin, DVec3::NEG_Y, DVec3::Z),
        );
    }
}
