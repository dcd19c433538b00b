//! The vent: from the collar up, through an elbow, out through the wall to the cap; and the framed pass.

use glam::DVec3;

use super::builder::{Builder, Make};
use super::layout::{Layout, Span, point, rectangle};
use super::skins::add_box;
use super::standing::{StandingWall, WallHole};
use super::unit::collar_height;
use super::{Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{Frame, Profile, Swept, Tube};
use crate::params::Params;
use crate::units::Length;

/// How far the firestop's plate laps over the hole's edge (common practice, no source).
const FIRESTOP_LAP: Length = Length::inches(1.5);
/// Thickness of the firestop's plate and of the cap's metal.
const METAL: Length = Length::inches(0.0625);

/// Builds pipe, elbow, firestop, cap and the framing of the pass.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
    let path = Path::new(params, layout);
    pipes(params, layout, &path, builder);
    firestop(params, layout, builder);
    cap(params, layout, builder);
    pass_frame(layout, builder);
}

/// Where the vent's center line runs.
pub(super) struct Path {
    /// Where the bend begins, pointing up.
    pub(super) bend: Frame,
    /// Where the run begins; its z points along the run, its y up.
    pub(super) run_start: Frame,
    /// From the bend's end to a depth behind the wall's finished face, along the run.
    run_begins_out: Length,
    stretch: f64,
}

impl Path {
    pub(super) fn new(params: &Params, layout: &Layout) -> Self {
        let angle = params.vent.slope.value.angle();
        let run = DVec3::new(0.0, angle.cos(), angle.sin());
        let elbow = point(layout.unit_center, layout.pipe_out, layout.elbow_height);
        let leg = layout.elbow_leg.to_mm();
        let up = DVec3::new(0.0, -angle.sin(), angle.cos());
        Self {
            bend: Frame::new(elbow - DVec3::Z * leg, DVec3::Y, DVec3::NEG_X),
            // x to the left, so that x × y runs out through the wall
            run_start: Frame::new(elbow + run * leg, DVec3::NEG_X, up),
            run_begins_out: layout.pipe_out - layout.elbow_leg * angle.cos(),
            stretch: 1.0 / angle.cos(),
        }
    }

    /// Length of the run's center line up to a depth behind the wall's finished face.
    pub(super) fn run_to(&self, behind: Length) -> Length {
        (self.run_begins_out + behind) * self.stretch
    }
}

fn part(kind: Kind, stage: Stage) -> Make {
    Make {
        kind,
        group: Group::Vent,
        material: Material::STEEL,
        stock: Stock::Bought,
        stage,
    }
}

fn pipes(params: &Params, layout: &Layout, path: &Path, builder: &mut Builder) {
    let vent = &params.vent;
    let outer = vent.pipe_diameter / 2.0;
    let inner = outer - vent.pipe_wall;
    let pipe = part(Kind::Pipe, Stage::Vent);
    let start = layout.body_top + collar_height(params, layout);
    let riser = layout.elbow_height - layout.elbow_leg - start;
    builder.add_next(
        "vent",
        pipe.clone(),
        Tube::straight(outer, inner, riser),
        Frame::at(point(layout.unit_center, layout.pipe_out, start)),
    );
    builder.add_next(
        "vent",
        part(Kind::Elbow, Stage::Vent),
        Tube::bend(outer, inner, vent.bend_radius, layout.elbow_turn),
        path.bend,
    );
    // the run ends inside the cap, half its depth behind the outside face
    let length = path.run_to(layout.wall.outside + vent.cap_depth / 2.0);
    builder.add_next(
        "vent",
        pipe,
        Tube::straight(outer, inner, length),
        path.run_start,
    );
}

/// A square hole that the sloped pipe passes, between two depths behind the wall's finished face.
fn around_pipe(params: &Params, layout: &Layout, behind: Span) -> (Span, Span) {
    let stretch = 1.0 / params.vent.slope.value.angle().cos();
    let radius = params.vent.pipe_diameter / 2.0;
    let heights = Span::new(
        layout.run_height(params, behind.low),
        layout.run_height(params, behind.high),
    )
    .grown(radius * stretch);
    (Span::about(layout.unit_center, radius * 2.0), heights)
}

fn ring(outer: (Span, Span), inner: (Span, Span)) -> Profile {
    Profile::polygon(rectangle(outer.0, outer.1)).with_opening(rectangle(inner.0, inner.1))
}

/// The plate on the room side that closes the hole around the pipe.
fn firestop(params: &Params, layout: &Layout, builder: &mut Builder) {
    let hole = around_pipe(params, layout, Span::new(-METAL, Length::ZERO));
    let plate = (
        layout.pass.sides.grown(FIRESTOP_LAP),
        layout.pass.heights.grown(FIRESTOP_LAP),
    );
    builder.add_next(
        "vent",
        part(Kind::Firestop, Stage::PassSealed),
        Swept::square(ring(plate, hole), METAL),
        Frame::new(
            point(Length::ZERO, Length::ZERO, Length::ZERO),
            DVec3::X,
            DVec3::Z,
        ),
    );
}

/// The cap: a hood that the pipe ends in, and its front.
fn cap(params: &Params, layout: &Layout, builder: &mut Builder) {
    let vent = &params.vent;
    let front = METAL.min(vent.cap_depth / 4.0);
    let hood = vent.cap_depth - front;
    let hole = around_pipe(
        params,
        layout,
        Span::new(layout.wall.outside, layout.wall.outside + hood),
    );
    let center = layout.run_height(params, layout.wall.outside + vent.cap_depth / 2.0);
    let outer = (
        Span::about(
            layout.unit_center,
            vent.cap_width.max(hole.0.size() + 4.0 * METAL),
        ),
        Span::about(center, vent.cap_height.max(hole.1.size() + 4.0 * METAL)),
    );
    let outside = -layout.wall.outside;
    builder.add_next(
        "vent",
        part(Kind::Cap, Stage::Vent),
        Swept::square(ring(outer, hole), hood),
        Frame::new(
            point(Length::ZERO, outside - hood, Length::ZERO),
            DVec3::X,
            DVec3::Z,
        ),
    );
    let plate = Span::new(outside - vent.cap_depth, outside - hood);
    add_box(
        "vent",
        part(Kind::Cap, Stage::Vent),
        (outer.0, plate, outer.1),
        builder,
    );
}

/// Sill, header and sides of the hole, between the existing studs that stay whole.
fn pass_frame(layout: &Layout, builder: &mut Builder) {
    for wall in &layout.standing {
        if let Some(hole) = layout.hole_in(wall) {
            frame_hole(wall, hole, builder);
        }
    }
}

fn frame_hole(wall: &StandingWall, hole: WallHole, builder: &mut Builder) {
    let bay = wall.clear_span(hole.sides);
    let thickness = wall.stud.thickness;
    let depth = Span::new(wall.depths.studs, wall.depths.sheathing);
    let stick = |kind| Make {
        kind,
        group: Group::Vent,
        material: Material::LUMBER,
        stock: Stock::Stick(wall.stud.name.clone()),
        stage: Stage::WallPass,
    };
    let levels = [
        Span::new(hole.heights.low - thickness, hole.heights.low),
        Span::new(hole.heights.high, hole.heights.high + thickness),
    ];
    for level in levels {
        let make = stick(Kind::PassFrame);
        wall.add_block("wall pass", make, (bay, depth, level), builder);
    }
    let sides = [
        Span::new((hole.sides.low - thickness).max(bay.low), hole.sides.low),
        Span::new(hole.sides.high, (hole.sides.high + thickness).min(bay.high)),
    ];
    for side in sides {
        if side.size().is_positive() {
            let mut make = stick(Kind::PassFrame);
            if (thickness - side.size()).is_positive() {
                make.stock = Stock::Rip(wall.stud.name.clone());
            }
            wall.add_block("wall pass", make, (side, depth, hole.heights), builder);
        }
    }
}
