//! Furring under the flange of a unit that is set forward of the studs: strips of cement board on jacks and header, as
//! thick as the unit stands forward. They do not burn, since they lie in the facing zone.

use super::builder::{Builder, Make, add_box};
use super::{Branch, ChaseFace, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::layout::Layout;
use crate::params::FrontForm;
use crate::units::Span;

/// What board and finish leave open for unit and furring, sides and heights; nothing where the unit is flush with the studs.
pub(super) fn opening(layout: &Layout) -> Option<(Span, Span)> {
    let offset = layout.params.appliance.face_offset;
    let wide = layout.params.lower_stud().breadth();
    let heights = Span::new(
        layout.heights.platform_top,
        layout.heights.header_bottom + wide,
    );
    let sides = layout.rough_opening.grown(wide);
    offset.is_positive().then_some((sides, heights))
}

/// Builds the strips: beside the opening from the platform up, and over it.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let Some((around, up)) = opening(layout) else {
        return;
    };
    let inside = layout.rough_opening;
    let outs = Span::new(layout.faces.lower_stud, layout.faces.unit);
    let head = Span::new(layout.heights.header_bottom, up.high);
    let beside = Span::new(up.low, head.low);
    let face = match layout.params.front.form {
        FrontForm::OneWall => ChaseFace::Front,
        FrontForm::Stepped => ChaseFace::Lower,
    };
    let strips = [
        (Span::new(around.low, inside.low), beside),
        (Span::new(inside.high, around.high), beside),
        (around, head),
    ];
    for (sides, heights) in strips {
        let make = Make {
            kind: Kind::Furring,
            group: Group::Skins,
            material: Material::CEMENT_BOARD,
            stock: Stock::Sheet(outs.size()),
            stage: Stage::Walls,
        };
        add_box(Branch::Face(face), make, (sides, outs, heights), builder);
    }
}
