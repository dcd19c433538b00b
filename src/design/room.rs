//! The room as it stands: surfaces as thin solids outside of it, and the studs of the existing wall.

use glam::{DVec2, DVec3};

use super::builder::{Builder, Make};
use super::layout::{Layout, Span, point, rectangle};
use super::skins::add_box;
use super::{Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Swept, TOLERANCE, Underside, roofline};
use crate::params::Params;
use crate::units::Length;

/// Thickness of the solids that stand for floor, ceiling and the other walls.
const SURFACE: Length = Length::inches(0.5);

/// Builds floor, walls, ceiling and existing studs.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
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

/// One thin solid for each plane of the ceiling; they meet plumb.
fn ceiling(params: &Params, layout: &Layout, builder: &mut Builder) {
    let corner = point(Length::ZERO, params.room.depth, Length::ZERO);
    let far = point(params.room.width, Length::ZERO, Length::ZERO);
    let plan = [
        corner.truncate(),
        DVec2::new(far.x, corner.y),
        far.truncate(),
        DVec2::new(corner.x, far.y),
    ];
    for (at, part) in layout.ceiling.over(&plan) {
        let plane = layout.ceiling.planes()[at];
        let at_height = |height: f64| EndPlane { height, ..plane };
        let outline = part.iter().map(|it| *it - part[0]).collect();
        let shape = Swept {
            profile: Profile::polygon(outline),
            bottom: vec![at_height(0.0)],
            top: vec![at_height(SURFACE.to_mm())],
        };
        let frame = Frame::at(part[0].extend(plane.z(part[0])));
        let make = existing(Kind::Ceiling, Material::DRYWALL);
        builder.add_next("room", make, shape, frame);
    }
}

/// The walls to the left and to the right, up to the ceiling.
fn side_walls(params: &Params, layout: &Layout, builder: &mut Builder) {
    let corner = |out: Length, height: Length| DVec2::new(out.to_mm(), height.to_mm());
    let depth = params.room.depth;
    for (inner, outer) in [
        (Length::ZERO, -SURFACE),
        (params.room.width, params.room.width + SURFACE),
    ] {
        let place = |out: Length| point(inner, out, Length::ZERO).truncate();
        let lines: Vec<_> = layout
            .ceiling
            .lines(place(Length::ZERO), place(depth))
            .collect();
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

/// Board and sheathing of the existing wall, with the hole for the vent.
fn fireplace_wall(params: &Params, layout: &Layout, builder: &mut Builder) {
    let profile = wall_profile(params, layout);
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

/// The wall up to the ceiling without the hole for the vent; a hole that runs past the ceiling leaves a notch.
fn wall_profile(params: &Params, layout: &Layout) -> Profile {
    let width = params.room.width.to_mm();
    let roof = |right: f64| layout.ceiling.z(DVec2::new(right, 0.0));
    let lines = layout.ceiling.lines(DVec2::ZERO, DVec2::new(width, 0.0));
    let mut top = roofline(&lines.collect::<Vec<_>>(), (0.0, width));
    top.reverse();
    let hole = rectangle(layout.pass.sides, layout.pass.heights);
    let above = |corner: DVec2| corner.y - roof(corner.x);
    let slab = layout.slab.to_mm();
    let mut outline = vec![DVec2::new(0.0, slab), DVec2::new(width, slab)];
    if hole.iter().all(|corner| above(*corner) < -TOLERANCE) {
        outline.extend(top);
        return Profile::polygon(outline).with_opening(hole);
    }
    let notch = notch(&hole, above);
    let beside = |it: &DVec2, side: f64| notch.iter().all(|corner| (it.x - corner.x) * side > 0.0);
    outline.extend(top.iter().filter(|it| beside(it, 1.0)));
    outline.extend(&notch);
    outline.extend(top.iter().filter(|it| !beside(it, 1.0) && beside(it, -1.0)));
    Profile::polygon(outline)
}

/// The part of a counter-clockwise hole under a line, from its right end on the line round to its
/// left; nothing when the hole lies over the line.
fn notch(hole: &[DVec2], above: impl Fn(DVec2) -> f64) -> Vec<DVec2> {
    let under = |corner: DVec2| above(corner) < -TOLERANCE;
    let count = hole.len();
    let Some(first) = (0..count).find(|i| !under(hole[*i]) && under(hole[(i + 1) % count])) else {
        return Vec::new();
    };
    let crossing = |a: DVec2, b: DVec2| a.lerp(b, above(a) / (above(a) - above(b)));
    let mut found = Vec::new();
    for step in 0..count {
        let (a, b) = (
            hole[(first + step) % count],
            hole[(first + step + 1) % count],
        );
        if under(a) != under(b) {
            found.push(crossing(a, b));
        }
        if under(b) {
            found.push(b);
        }
    }
    found.reverse();
    found
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
    let cut = cut_studs(params, hole.sides);
    for center in centers(params) {
        let left = center - thickness / 2.0;
        let roof = |bottom: Length| over_stud(layout, left, thickness, bottom);
        let whole = (layout.slab, roof(layout.slab));
        let pieces = if cut.contains(&center) {
            let sill = hole.heights.low - thickness;
            let head = hole.heights.high + thickness;
            vec![
                (layout.slab, vec![EndPlane::level(sill - layout.slab)]),
                (head, roof(head)),
            ]
        } else {
            vec![whole]
        };
        for (bottom, top) in pieces {
            let shape = Swept {
                profile: Profile::rectangle(thickness, wall.stud.width),
                bottom: vec![EndPlane::level(Length::ZERO)],
                top,
            };
            let frame = Frame::at(point(left, -layout.wall.studs, bottom));
            let make = existing(Kind::ExistingStud, Material::LUMBER);
            builder.add_next("room", make, shape, frame);
        }
    }
}

/// What an existing stud with this left side ends under, from its bottom: level across the wall.
fn over_stud(layout: &Layout, left: Length, thickness: Length, bottom: Length) -> Vec<EndPlane> {
    let level = |plane: &EndPlane| EndPlane {
        height: plane.z(DVec2::new(left.to_mm(), 0.0)) - bottom.to_mm(),
        slope: DVec2::new(plane.slope.x, 0.0),
    };
    let planes = layout.ceiling.planes().iter().map(level).collect();
    let section = Profile::rectangle(thickness, thickness).outline;
    Underside::new(planes).planes_over(&section)
}
