//! What a finish of the parameters is as a material.

use crate::catalog::Material;
use crate::params::FinishMaterial;

/// What a finish is made of; one that nobody has named is drawn as stone, the heaviest, and asked about.
pub(super) const fn finish(material: Option<FinishMaterial>) -> Material {
    match material {
        Some(FinishMaterial::Stone) | None => Material::STONE,
        Some(FinishMaterial::Tile) => Material::TILE,
        Some(FinishMaterial::Brick) => Material::BRICK,
        Some(FinishMaterial::Plaster) => Material::PLASTER,
        Some(FinishMaterial::Metal) => Material::SHEET_METAL,
        Some(FinishMaterial::Paint) => Material::PAINT,
        Some(FinishMaterial::Wallpaper) => Material::WALLPAPER,
        Some(FinishMaterial::Wood) => Material::WOOD_FINISH,
        Some(FinishMaterial::Mdf) => Material::FIBERBOARD,
    }
}

/// Whether a finish counts as burning.
pub const fn finish_burns(material: FinishMaterial) -> bool {
    finish(Some(material)).combustible
}

/// Whether a finish is known to be stone, tile or brick that is stuck to the board.
pub const fn is_veneer(material: Option<FinishMaterial>) -> bool {
    matches!(
        material,
        Some(FinishMaterial::Stone | FinishMaterial::Tile | FinishMaterial::Brick)
    )
}
