//! The unit: body, lip, spacers and collar.

use glam::DVec3;

use super::builder::{Builder, Make, add_box};
use super::{Branch, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{Frame, Profile, Swept, Tube};
use crate::layout::{Layout, Piece, point, rectangle};
use crate::units::{Length, Span};

/// The longest collar that is drawn.
const COLLAR: Length = Length::inches(1.0);

/// Builds the unit on its platform.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let unit = &layout.params.appliance;
    let body = (
        Span::about(layout.unit_center, unit.body_width),
        Span::new(layout.faces.unit_back, layout.faces.unit),
        Span::new(layout.heights.platform_top, layout.heights.body_top),
    );
    add_box(
        Branch::Unit,
        part(Kind::UnitBody, Material::ASSEMBLY),
        body,
        builder,
    );
    lip(layout, builder);
    standoffs(unit.standoff, layout, body, builder);
    let Some(first) = layout.path.pieces.first() else {
        return;
    };
    let radius = layout.params.vent.pipe_diameter / 2.0;
    let collar = Tube::straight(
        radius,
        radius - layout.params.vent.pipe_wall,
        collar_height(layout),
    );
    builder.add_next(
        Branch::Unit,
        part(Kind::Collar, Material::STEEL),
        collar,
        first.frame,
    );
}

/// How far the collar stands from the body; the vent's first joint lies at its top.
pub(super) fn collar_height(layout: &Layout) -> Length {
    let first = layout.path.pieces.first();
    COLLAR.min(first.map_or(Length::ZERO, Piece::length) / 2.0)
}

fn part(kind: Kind, material: Material) -> Make {
    Make {
        kind,
        group: Group::Unit,
        material,
        stock: Stock::Bought,
        stage: Stage::Unit,
    }
}

/// The edge around the opening that the finish meets.
fn lip(layout: &Layout, builder: &mut Builder) {
    let unit = &layout.params.appliance;
    if !unit.lip.is_positive() {
        return;
    }
    let sides = Span::about(layout.unit_center, unit.opening_width);
    let heights = Span::new(
        layout.heights.platform_top + unit.opening_bottom,
        layout.heights.opening_top,
    );
    let outer = rectangle(
        sides.grown(unit.lip_thickness),
        heights.grown(unit.lip_thickness),
    );
    let profile = Profile::polygon(outer).with_opening(rectangle(sides, heights));
    let origin = point(Length::ZERO, layout.faces.unit, Length::ZERO);
    builder.add_next(
        Branch::Unit,
        part(Kind::UnitLip, Material::STEEL),
        Swept::square(profile, unit.lip),
        Frame::new(origin, DVec3::X, DVec3::Z),
    );
}

/// Two spacers on top of the body and two behind it.
fn standoffs(
    height: Length,
    layout: &Layout,
    (sides, outs, heights): (Span, Span, Span),
    builder: &mut Builder,
) {
    if !height.is_positive() {
        return;
    }
    let wide = Length::inches(1.0).min(sides.size() / 8.0);
    for at in [sides.low, sides.high - wide] {
        let strip = Span::new(at, at + wide);
        let top = Span::new(heights.high, heights.high + height);
        let back = Span::new(outs.low - height, outs.low);
        let make = part(Kind::Standoff, Material::STEEL);
        let behind_pipe = outs.low.max(layout.path.pipe_out());
        add_box(
            Branch::Unit,
            make.clone(),
            (strip, Span::new(behind_pipe, outs.high), top),
            builder,
        );
        add_box(Branch::Unit, make, (strip, back, heights), builder);
    }
}
