//! What stands beside the opening: legs under the mantel, and cabinets beside the chase.

use super::builder::{Builder, Make, add_box};
use super::{Branch, ChaseFace, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::layout::Layout;
use crate::params::{BesideSides, End};
use crate::units::{Length, Span};

/// Builds legs and cabinets.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    legs(layout, builder);
    for cabinet in cabinets(layout) {
        add_box(
            Branch::Cabinets,
            bought(Kind::Cabinet, Material::CABINET),
            (cabinet.sides, cabinet.outs, cabinet.heights),
            builder,
        );
    }
}

fn bought(kind: Kind, material: Material) -> Make {
    Make {
        kind,
        group: Group::Skins,
        material,
        stock: Stock::Bought,
        stage: Stage::Mantel,
    }
}

fn legs(layout: &Layout, builder: &mut Builder) {
    let Some(legs) = &layout.params.legs else {
        return;
    };
    let opening = Span::about(layout.unit_center, layout.params.appliance.opening_width);
    let inner = opening.grown(legs.distance);
    let outer = inner.grown(legs.width);
    let outs = Span::new(
        layout.faces.lower_finished,
        layout.faces.lower_finished + legs.projection,
    );
    let material = if legs.combustible {
        Material::MANTEL_WOOD
    } else {
        Material::MANTEL_STONE
    };
    for sides in [
        Span::new(outer.low, inner.low),
        Span::new(inner.high, outer.high),
    ] {
        add_box(
            Branch::Face(ChaseFace::Front),
            bought(Kind::Leg, material),
            (sides, outs, Span::new(layout.slab, legs.top)),
            builder,
        );
    }
}

/// A cabinet beside the chase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CabinetLayout {
    /// Whether it stands to the left of the chase.
    pub on_the_left: bool,
    /// Its sides.
    pub sides: Span,
    /// Its back and front, out from the wall.
    pub outs: Span,
    /// Its bottom and top.
    pub heights: Span,
}

/// Whether there is room for a cabinet beside: no wall of the room stands there.
const fn stands_free(side: End) -> bool {
    matches!(side, End::Free | End::Behind)
}

/// The cabinets that the parameters ask for; none where the chase stands against the room's wall.
pub fn cabinets(layout: &Layout) -> Vec<CabinetLayout> {
    let Some(cabinets) = &layout.params.cabinets else {
        return Vec::new();
    };
    let skins = layout.params.skins.board + layout.params.skins.side_finish;
    let chase = layout
        .site
        .with_skins(skins, layout.faces.lower_finished)
        .grown(cabinets.gap);
    let outs = Span::new(Length::ZERO, cabinets.depth).moved(layout.site.wall_face);
    let heights = Span::new(layout.slab, layout.slab + cabinets.height);
    let left = Span::new(chase.low - cabinets.width, chase.low);
    let right = Span::new(chase.high, chase.high + cabinets.width);
    let wanted = [
        (
            true,
            left,
            stands_free(layout.site.ends[0]) && cabinets.sides != BesideSides::Right,
        ),
        (
            false,
            right,
            stands_free(layout.site.ends[1]) && cabinets.sides != BesideSides::Left,
        ),
    ];
    wanted
        .into_iter()
        .filter(|it| it.2)
        .map(|(on_the_left, sides, _)| CabinetLayout {
            on_the_left,
            sides,
            outs,
            heights,
        })
        .collect()
}
