//! The room as it stands: surfaces as thin solids outside of it, and the studs of the existing wall.

use glam::{DVec2, DVec3};

use super::builder::{Builder, Make};
use super::layout::{Layout, Span, ceiling_plane, point, rectangle};
use super::skins::add_box;
use super::{Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Swept};
use crate::params::Params;
use crate::units::Length;

/// Thickness of the solids that stand for floor, ceiling and the other walls.
const SURFACE: Length = Length::inches(0.5);

/// Builds floor, walls, ceiling and existing studs.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
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
    ceiling(params, width, depth, builder);
    fireplace_wall(params, layout, builder);
    studs(params, layout, builder);
}

fn existing(kind: Kind, material: Material) -> Make {
    Make {
        kind,
        group: Group::Room,
        material,
        stock: Stock::Existing,
        stage: Stage::Existing,
    }
}

fn ceiling(params: &Params, width: Span, depth: Span, builder: &mut Builder) {
    let plane = ceiling_plane(params);
    let shape = Swept {
        profile: Profile::rectangle(width.size(), depth.size()),
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

/// The walls to the left and to the right, up to the ceiling.
fn side_walls(params: &Params, layout: &Layout, builder: &mut Builder) {
    let corner = |out: Length, height: Length| DVec2::new(out.to_mm(), height.to_mm());
    let depth = params.room.depth;
    for (inner, outer) in [
        (Length::ZERO, -SURFACE),
        (params.room.width, params.room.width + SURFACE),
    ] {
        let roof = |out: Length| Layout::ceiling_at(params, inner, out);
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

/// Board and sheathing of the existing wall, with the hole for the vent.
fn fireplace_wall(params: &Params, layout: &Layout, builder: &mut Builder) {
    let width = params.room.width;
    let corner = |right: Length, height: Length| DVec2::new(right.to_mm(), height.to_mm());
    let roof = |right: Length| Layout::ceiling_at(params, right, Length::ZERO);
    let hole = &layout.pass;
    let profile = Profile::polygon(vec![
        corner(Length::ZERO, layout.slab),
        corner(width, layout.slab),
        corner(width, roof(width)),
        corner(Length::ZERO, roof(Length::ZERO)),
    ])
    .with_opening(rectangle(hole.sides, hole.heights));
    let layers = [
        (
            Span::new(Length::ZERO, layout.wall.studs),
            Material::DRYWALL,
        ),
        (
            Span::new(layout.wall.sheathing, layout.wall.outside),
            Material::PANEL,
        ),
    ];
    for (behind, material) in layers {
        if behind.size().is_positive() {
            let origin = point(Length::ZERO, -behind.high, Length::ZERO);
            builder.add_next(
                "room",
                existing(Kind::WallLayer, material),
                Swept::square(profile.clone(), behind.size()),
                Frame::new(origin, DVec3::X, DVec3::Z),
            );
        }
    }
}

/// Centers of the existing studs.
fn centers(params: &Params) -> Vec<Length> {
    let wall = &params.wall;
    let half = wall.stud.thickness / 2.0;
    let mut center = wall.first_stud;
    let mut found = Vec::new();
    while center + half <= params.room.width {
        if center >= half {
            found.push(center);
        }
        center += wall.stud_spacing;
    }
    found
}

/// The existing studs that a hole would cut, by their centers.
pub fn cut_studs(params: &Params, hole: Span) -> Vec<Length> {
    let thickness = params.wall.stud.thickness;
    centers(params)
        .into_iter()
        .filter(|center| Span::about(*center, thickness).overlaps(hole))
        .collect()
}

/// The space between the existing studs that stay whole beside a hole, or up to the corners of the room.
pub(super) fn clear_span(params: &Params, hole: Span) -> Span {
    let half = params.wall.stud.thickness / 2.0;
    let mut clear = Span::new(Length::ZERO, params.room.width);
    for center in centers(params) {
        let stud = Span::new(center - half, center + half);
        if !stud.overlaps(hole) {
            if stud.high <= hole.center() {
                clear.low = clear.low.max(stud.high);
            } else {
                clear.high = clear.high.min(stud.low);
            }
        }
    }
    clear
}

/// Existing studs; one that stands in the hole is headed off above and below it.
fn studs(params: &Params, layout: &Layout, builder: &mut Builder) {
    let wall = &params.wall;
    let thickness = wall.stud.thickness;
    let hole = &layout.pass;
    let plane = ceiling_plane(params);
    let cut = cut_studs(params, hole.sides);
    for center in centers(params) {
        let left = center - thickness / 2.0;
        let roof = |bottom: Length| EndPlane {
            height: plane.z(DVec2::new(left.to_mm(), 0.0)) - bottom.to_mm(),
            slope: DVec2::new(plane.slope.x, 0.0),
        };
        let whole = (layout.slab, roof(layout.slab));
        let pieces = if cut.contains(&center) {
            let sill = hole.heights.low - thickness;
            let head = hole.heights.high + thickness;
            vec![
                (layout.slab, EndPlane::level(sill - layout.slab)),
                (head, roof(head)),
            ]
        } else {
            vec![whole]
        };
        for (bottom, top) in pieces {
            let shape = Swept {
                profile: Profile::rectangle(thickness, wall.stud.width),
                bottom: vec![EndPlane::level(Length::ZERO)],
                top: vec![top],
            };
            let frame = Frame::at(point(left, -layout.wall.studs, bottom));
            let make = existing(Kind::ExistingStud, Material::LUMBER);
            builder.add_next("room", make, shape, frame);
        }
    }
}
