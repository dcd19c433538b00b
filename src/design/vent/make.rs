//! What pipe, firestop, cap and the frame of a pass are made of.

use crate::catalog::Material;
use crate::design::builder::Make;
use crate::design::{Group, Kind, Stage, Stock};
use crate::params::FrameStock;
use crate::units::Length;

/// How far the firestop's plate laps over the hole's edge (common practice, no source).
pub(super) const FIRESTOP_LAP: Length = Length::inches(1.5);
/// Thickness of the firestop's plate and of the cap's metal.
pub(super) const METAL: Length = Length::inches(0.0625);

pub(super) fn part(kind: Kind, stage: Stage) -> Make {
    Make {
        kind,
        group: Group::Vent,
        material: Material::STEEL,
        stock: Stock::Bought,
        stage,
    }
}

/// A stick of a pass's frame.
pub(super) fn frame_stick(stock: FrameStock, from: Stock) -> Make {
    let (material, from) = match stock {
        FrameStock::Wood => (Material::LUMBER, from),
        FrameStock::Steel => (Material::STEEL, Stock::Bought),
    };
    Make {
        kind: Kind::PassFrame,
        group: Group::Vent,
        material,
        stock: from,
        stage: Stage::WallPass,
    }
}
