//! The pass through a standing wall: the hole, its framing, firestop and cap, at any crossing angle.

use glam::DVec3;

use super::make::{FIRESTOP_LAP, METAL, frame_stick, part};
use crate::design::builder::{Builder, Make};
use crate::design::{Branch, Group, Kind, Stage, Stock};
use crate::geom::{Frame, Profile, Swept};
use crate::layout::{Layout, Piece, StandingWall, WallHole, crossing, pass_exit, rectangle};
use crate::params::{ChaseWall, Params, RoomWall};
use crate::units::{Length, Span};

pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let Some((wall, straight)) = pass_exit(&layout.path, &layout.standing) else {
        return;
    };
    let Some(hole) = layout.hole_in(wall) else {
        return;
    };
    firestop(&layout.params, (wall, straight), hole, builder);
    cap(&layout.params, (wall, straight), builder);
    frame_hole(layout, wall, hole, builder);
}

fn ring(outer: (Span, Span), inner: (Span, Span)) -> Profile {
    Profile::polygon(rectangle(outer.0, outer.1)).with_opening(rectangle(inner.0, inner.1))
}

/// A rectangular hole that the pipe passes, between two depths.
fn around_pipe(
    params: &Params,
    wall: &StandingWall,
    straight: &Piece,
    depths: Span,
) -> (Span, Span) {
    let radius = params.vent.pipe_diameter / 2.0;
    crossing(wall, straight, radius, (radius, radius), depths)
}

/// The frame of a sheet in a wall's plane whose sweep begins at this depth and goes toward the room.
fn sheet_frame(wall: &StandingWall, depth: Length) -> Frame {
    let back = DVec3::new(0.0, depth.to_mm(), 0.0);
    wall.frame.place(&Frame::new(back, DVec3::X, DVec3::Z))
}

/// The plate on the room side that closes the hole around the pipe.
fn firestop(
    params: &Params,
    (wall, straight): (&StandingWall, &Piece),
    hole: WallHole,
    builder: &mut Builder,
) {
    let inner = around_pipe(params, wall, straight, Span::new(-METAL, Length::ZERO));
    let plate = (
        hole.sides.grown(FIRESTOP_LAP),
        hole.heights.grown(FIRESTOP_LAP),
    );
    builder.add_next(
        Branch::Vent,
        part(Kind::Firestop, Stage::Thimble),
        Swept::square(ring(plate, inner), METAL),
        sheet_frame(wall, Length::ZERO),
    );
}

/// The cap: a hood that the pipe ends in, and its front.
fn cap(params: &Params, (wall, straight): (&StandingWall, &Piece), builder: &mut Builder) {
    let vent = &params.vent;
    let front = METAL.min(vent.cap_depth / 4.0);
    let hood = vent.cap_depth - front;
    let outside = wall.depths.outside;
    let inner = around_pipe(params, wall, straight, Span::new(outside, outside + hood));
    let outer = (
        Span::about(
            inner.0.center(),
            vent.cap_width.max(inner.0.size() + 4.0 * METAL),
        ),
        Span::about(
            inner.1.center(),
            vent.cap_height.max(inner.1.size() + 4.0 * METAL),
        ),
    );
    builder.add_next(
        Branch::Vent,
        part(Kind::Cap, Stage::Vent),
        Swept::square(ring(outer, inner), hood),
        sheet_frame(wall, outside + hood),
    );
    let plate = Span::new(outside + hood, outside + vent.cap_depth);
    let make = part(Kind::Cap, Stage::Vent);
    wall.add_block(Branch::Vent, make, (outer.0, plate, outer.1), builder);
}

/// Sill, head and sides of the hole, between the existing studs that stay whole.
fn frame_hole(layout: &Layout, wall: &StandingWall, hole: WallHole, builder: &mut Builder) {
    let stock = layout.params.vent.pass_frame;
    // in a back that is framed with the chase its sticks belong to that wall
    let own = wall.place == RoomWall::Behind && layout.site.is_enclosed();
    let branch = if own {
        Branch::Wall(ChaseWall::Back)
    } else {
        Branch::WallPass
    };
    let frame_stick = |from: Stock| {
        let make = frame_stick(stock, from);
        if own {
            Make {
                group: Group::Framing,
                stage: Stage::Walls,
                ..make
            }
        } else {
            make
        }
    };
    let bay = wall.clear_span(hole.sides);
    let thickness = wall.stud.breadth();
    let depth = Span::new(wall.depths.studs, wall.depths.sheathing);
    let name = wall.stud.name();
    let levels = [
        Span::new(hole.heights.low - thickness, hole.heights.low),
        Span::new(hole.heights.high, hole.heights.high + thickness),
    ];
    for level in levels {
        let make = frame_stick(Stock::Stick(name.to_owned()));
        wall.add_along(branch, make, (bay, depth, level), builder);
    }
    let sides = [
        Span::new((hole.sides.low - thickness).max(bay.low), hole.sides.low),
        Span::new(hole.sides.high, (hole.sides.high + thickness).min(bay.high)),
    ];
    for side in sides {
        if side.size().is_positive() {
            let whole = !(thickness - side.size()).is_positive();
            let cut = if whole { Stock::Stick } else { Stock::Rip };
            let make = frame_stick(cut(name.to_owned()));
            wall.add_block(branch, make, (side, depth, hole.heights), builder);
        }
    }
}
