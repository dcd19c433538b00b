//! The pass through ceiling and roof: rafters, the hole between them, its framing, firestop and cap.
//!
//! *Frame*: the room's, x right along the fireplace wall and y into it, z up from the floor datum.

use glam::{DVec2, DVec3};

use super::make::{FIRESTOP_LAP, METAL, frame_stick, part};
use crate::catalog::Material;
use crate::design::builder::{Builder, Make};
use crate::design::standing::existing;
use crate::design::{Branch, Kind, Stage, Stock};
use crate::geom::{EndPlane, Frame, Profile, Swept};
use crate::layout::{
    Layout, RoofPass, across_rafters, one_plane, rafter_centers, raised, rectangle,
};
use crate::params::{Params, Rafters, Roof};
use crate::units::{Length, Span};

/// Level directions of the room's frame across the rafters, as they are counted, and along them.
const fn axes(rafters: Rafters) -> (DVec3, DVec3) {
    match rafters {
        Rafters::Out => (DVec3::X, DVec3::Y),
        Rafters::Along => (DVec3::NEG_Y, DVec3::X),
    }
}

/// A stick over the ceiling: how deep it is, square to the slope, over a board of this thickness.
pub(in crate::design) struct Member {
    pub(in crate::design) depth: Length,
    pub(in crate::design) board: Length,
}

/// A stick of the rafters' size.
fn stick(
    roof: &Roof,
    plane: (&Frame, EndPlane),
    run: (DVec3, Span),
    side: (DVec3, Span),
) -> (Swept, Frame) {
    let member = Member {
        depth: roof.rafter.depth(),
        board: roof.board,
    };
    self::member(&member, plane, run, side)
}

/// A stick that follows the ceiling, its sides and ends plumb: it runs one way and is so wide the other.
pub(in crate::design) fn member(
    member: &Member,
    (room, ceiling): (&Frame, EndPlane),
    (run, run_span): (DVec3, Span),
    (side, side_span): (DVec3, Span),
) -> (Swept, Frame) {
    // x × y has to run along the stick
    let flipped = side.cross(DVec3::Z).dot(run) < 0.0;
    let (side, side_span) = if flipped {
        (-side, Span::new(-side_span.high, -side_span.low))
    } else {
        (side, side_span)
    };
    let rise = |way: DVec3| ceiling.slope.dot(way.truncate());
    let (along, across) = (rise(run), rise(side));
    let stretch = (1.0 + along * along).sqrt();
    let start = run * run_span.low.to_mm() + side * side_span.low.to_mm();
    let under = raised(ceiling, member.board);
    let origin = start.with_z(under.z(start.truncate()));
    let width = side_span.size().to_mm();
    let tilt = across / stretch * width;
    let steepness = (1.0 + ceiling.slope.length_squared()).sqrt();
    let depth = member.depth.to_mm() * steepness / stretch;
    let profile = Profile::polygon(vec![
        DVec2::ZERO,
        DVec2::new(width, tilt),
        DVec2::new(width, tilt + depth),
        DVec2::new(0.0, depth),
    ]);
    let plumb = |length: f64| EndPlane {
        height: length * stretch,
        slope: DVec2::new(0.0, along),
    };
    let shape = Swept {
        profile,
        bottom: vec![plumb(0.0)],
        top: vec![plumb(run_span.size().to_mm())],
        bores: Vec::new(),
    };
    let z = (run + DVec3::Z * along) / stretch;
    let frame = Frame {
        origin,
        x: side,
        y: z.cross(side),
        z,
    };
    (shape, room.place(&frame))
}

/// What stands over a rectangle of the plan, between two planes, with a rectangular opening or without.
fn plan_block(
    room: &Frame,
    (x, y): (Span, Span),
    planes: [EndPlane; 2],
    opening: Option<(Span, Span)>,
) -> (Swept, Frame) {
    let corner = DVec2::new(x.low.to_mm(), y.low.to_mm());
    let base = planes[0].z(corner);
    let [bottom, top] = planes.map(|plane| EndPlane {
        height: plane.z(corner) - base,
        ..plane
    });
    let mut profile = Profile::rectangle(x.size(), y.size());
    if let Some((x, y)) = opening {
        let corners = rectangle(x, y).into_iter().map(|it| it - corner);
        profile = profile.with_opening(corners.collect());
    }
    let shape = Swept {
        profile,
        bottom: vec![bottom],
        top: vec![top],
        bores: Vec::new(),
    };
    (shape, room.place(&Frame::at(corner.extend(base))))
}

/// Builds the rafters; one in the way of the hole ends before and behind it.
pub(in crate::design) fn build_rafters(layout: &Layout, builder: &mut Builder) {
    let Some(roof) = &layout.params.roof else {
        return;
    };
    let room = layout.site.room;
    let ceiling = one_plane(&layout.params);
    let (over_way, along_way) = axes(roof.rafters);
    let whole = match roof.rafters {
        Rafters::Out => Span::new(-layout.params.room.depth, layout.site.ceiling_runs_on),
        Rafters::Along => Span::new(Length::ZERO, layout.params.room.width),
    };
    for center in rafter_centers(&layout.params, roof) {
        let over = Span::about(center, roof.rafter.breadth());
        let cut = layout
            .roof_pass
            .as_ref()
            .filter(|it| it.cut.contains(&center));
        let pieces = cut.map_or_else(
            || vec![whole],
            |pass| {
                let hole = across_rafters(roof, pass).1.grown(roof.rafter.breadth());
                vec![
                    Span::new(whole.low, hole.low),
                    Span::new(hole.high, whole.high),
                ]
            },
        );
        for along in pieces {
            let (run, side) = ((along_way, along), (over_way, over));
            let (shape, frame) = stick(roof, (&room, ceiling), run, side);
            builder.add_next(
                Branch::Room,
                existing(Kind::Rafter, Material::LUMBER),
                shape,
                frame,
            );
        }
    }
}

pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let (Some(roof), Some(pass)) = (&layout.params.roof, &layout.roof_pass) else {
        return;
    };
    frame_hole(&layout.params, roof, pass, builder);
    firestop(&layout.params, pass, builder);
    cap(layout, pass, builder);
}

/// Headers between the rafters that stay whole, and trimmers between the headers beside the hole.
fn frame_hole(params: &Params, roof: &Roof, pass: &RoofPass, builder: &mut Builder) {
    let (hole, along) = across_rafters(roof, pass);
    let thickness = roof.rafter.breadth();
    let mut bay = match roof.rafters {
        Rafters::Out => Span::new(Length::ZERO, params.room.width),
        Rafters::Along => Span::new(Length::ZERO, params.room.depth),
    };
    for center in rafter_centers(params, roof) {
        let rafter = Span::about(center, thickness);
        if rafter.overlaps(hole) {
            continue;
        }
        if rafter.high <= hole.center() {
            bay.low = bay.low.max(rafter.high);
        } else {
            bay.high = bay.high.min(rafter.low);
        }
    }
    let (over_way, along_way) = axes(roof.rafters);
    let planes = (&pass.room, pass.ceiling);
    let mut add = |thin: Length, (shape, frame): (Swept, Frame)| {
        let name = roof.rafter.name().to_owned();
        let whole = !(thickness - thin).is_positive();
        let cut = if whole { Stock::Stick } else { Stock::Rip };
        let make = frame_stick(params.vent.pass_frame, cut(name));
        builder.add_next(Branch::RoofPass, make, shape, frame);
    };
    for end in [
        Span::new(along.low - thickness, along.low),
        Span::new(along.high, along.high + thickness),
    ] {
        add(
            thickness,
            stick(roof, planes, (over_way, bay), (along_way, end)),
        );
    }
    for side in [
        Span::new((hole.low - thickness).max(bay.low), hole.low),
        Span::new(hole.high, (hole.high + thickness).min(bay.high)),
    ] {
        if side.size().is_positive() {
            add(
                side.size(),
                stick(roof, planes, (along_way, along), (over_way, side)),
            );
        }
    }
}

/// Half the pipe's diameter to either side of its middle.
fn around_pipe(params: &Params, pass: &RoofPass) -> (Span, Span) {
    let size = params.vent.pipe_diameter;
    (
        Span::about(pass.middle.0, size),
        Span::about(pass.middle.1, size),
    )
}

/// The plate under the ceiling that closes the hole around the pipe.
fn firestop(params: &Params, pass: &RoofPass, builder: &mut Builder) {
    let plate = (
        pass.right.grown(FIRESTOP_LAP),
        pass.back.grown(FIRESTOP_LAP),
    );
    let planes = [raised(pass.ceiling, -METAL), pass.ceiling];
    let opening = Some(around_pipe(params, pass));
    let (shape, frame) = plan_block(&pass.room, plate, planes, opening);
    builder.add_next(
        Branch::Vent,
        part(Kind::Firestop, Stage::PassSealed),
        shape,
        frame,
    );
}

/// The cap: a hood that the pipe ends in, and its lid.
fn cap(layout: &Layout, pass: &RoofPass, builder: &mut Builder) {
    let Some(last) = layout.path.last() else {
        return;
    };
    let vent = &layout.params.vent;
    let lid = METAL.min(vent.cap_depth / 4.0);
    let end = Length::mm(pass.room.local_point(last.end()).z);
    let low = end - vent.cap_depth / 2.0;
    let levels = [low, low + vent.cap_depth - lid, low + vent.cap_depth].map(EndPlane::level);
    let hole = around_pipe(&layout.params, pass);
    let size = vent.cap_width.max(hole.0.size() + 4.0 * METAL);
    let plan = (
        Span::about(pass.middle.0, size),
        Span::about(pass.middle.1, size),
    );
    let mut add = |planes: [EndPlane; 2], opening, make: Make| {
        let (shape, frame) = plan_block(&pass.room, plan, planes, opening);
        builder.add_next(Branch::Vent, make, shape, frame);
    };
    let make = || part(Kind::Cap, Stage::Vent);
    add([levels[0], levels[1]], Some(hole), make());
    add([levels[1], levels[2]], None, make());
}

/// The space of the pass, between the ceiling's lowest point over it and the roof's surface.
pub(in crate::design) fn pass_volume(
    params: &Params,
    pass: &RoofPass,
    from: Length,
) -> Option<(Swept, Frame)> {
    let roof = params.roof.as_ref()?;
    let size = params.vent.pipe_diameter + 2.0 * roof.pass_clearance.value;
    let plan = (
        Span::about(pass.middle.0, size),
        Span::about(pass.middle.1, size),
    );
    let planes = [EndPlane::level(pass.low.max(from)), pass.roof];
    Some(plan_block(&pass.room, plan, planes, None))
}

/// The directions out of the pass.
pub(in crate::design) fn ways_out(pass: &RoofPass) -> [DVec3; 4] {
    [-pass.room.x, pass.room.x, -pass.room.y, pass.room.y]
}
