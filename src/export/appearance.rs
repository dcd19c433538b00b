//! What parts look like: natural colors for what is built, translucent ones for what must stay clear.
//!
//! *Units*: color channels as sRGB from 0 to 255; opacity, metalness and roughness from 0 to 1.

use crate::catalog::Material;
use crate::design::{ClearanceKind, Group, Kind, Part};

/// How a surface looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Appearance {
    /// What the look is called in a file.
    pub(super) name: &'static str,
    /// Red, green and blue.
    pub(super) color: [u8; 3],
    /// 1 hides what is behind; less lets it show.
    pub(super) opacity: f64,
    /// 1 for bare metal.
    pub(super) metalness: f64,
    /// 0 mirrors, 1 is dull.
    pub(super) roughness: f64,
}

impl Appearance {
    /// A part that fails a check.
    pub(super) const FAILING: Self = Self::opaque("fails a check", [214, 40, 32], 0.6);
    /// Where two parts are in one another.
    pub(super) const OVERLAP: Self = Self::clear("overlap", [255, 0, 170], 0.85);
    /// Of the room.
    const FLOOR: Self = Self::clear("floor", [196, 190, 182], 0.55);
    const CEILING: Self = Self::clear("ceiling", [236, 234, 228], 0.22);
    const EXISTING_LUMBER: Self = Self::clear("existing lumber", [204, 178, 136], 0.45);
    const EXISTING_WALL: Self = Self::clear("existing wall", [232, 228, 218], 0.28);
    /// Crisp edges of what hides what is behind it.
    pub(super) const EDGE: Self = Self::opaque("edge", [48, 40, 32], 1.0);
    /// Crisp edges of the room.
    const ROOM_EDGE: Self = Self::opaque("room edge", [170, 166, 158], 1.0);
    /// Crisp edges of clearance volumes.
    const CLEARANCE_EDGE: Self = Self::opaque("clearance edge", [206, 96, 44], 1.0);

    const fn opaque(name: &'static str, color: [u8; 3], roughness: f64) -> Self {
        Self {
            name,
            color,
            opacity: 1.0,
            metalness: 0.0,
            roughness,
        }
    }

    const fn clear(name: &'static str, color: [u8; 3], opacity: f64) -> Self {
        Self {
            name,
            color,
            opacity,
            metalness: 0.0,
            roughness: 0.9,
        }
    }

    const fn metal(name: &'static str, color: [u8; 3], roughness: f64) -> Self {
        Self {
            name,
            color,
            opacity: 1.0,
            metalness: 0.35,
            roughness,
        }
    }

    /// How a part looks; what is in the room already lets the chase show through.
    pub(super) fn of_part(part: &Part) -> Self {
        let own = [
            (Kind::Floor, Self::FLOOR),
            (Kind::Ceiling, Self::CEILING),
            (Kind::ExistingStud, Self::EXISTING_LUMBER),
            (Kind::ExistingPlate, Self::EXISTING_LUMBER),
            (
                Kind::FixedThing,
                Self::clear("fixed thing", [120, 164, 206], 0.55),
            ),
            (Kind::UnitBody, Self::metal("unit", [46, 47, 50], 0.55)),
            (Kind::UnitLip, Self::metal("unit trim", [28, 28, 30], 0.45)),
            (
                Kind::Screen,
                Self::opaque("screen glass", [14, 16, 20], 0.12),
            ),
        ];
        let own = own.into_iter().find(|it| it.0 == part.kind);
        own.map_or_else(
            || {
                if part.group == Group::Room {
                    Self::EXISTING_WALL
                } else {
                    Self::of_material(&part.material)
                }
            },
            |it| it.1,
        )
    }

    fn of_material(material: &Material) -> Self {
        let looks = [
            (Material::LUMBER, [222, 186, 132], 0.8),
            (Material::TREATED, [150, 146, 96], 0.85),
            (Material::PANEL, [205, 163, 105], 0.8),
            (Material::MANTEL_WOOD, [112, 70, 40], 0.55),
            (Material::MANTEL_STONE, [178, 172, 162], 0.75),
            (Material::DRYWALL, [226, 224, 218], 0.95),
            (Material::CEMENT_BOARD, [158, 160, 158], 0.95),
            (Material::STONE, [142, 132, 120], 0.85),
            (Material::TILE, [188, 178, 166], 0.4),
            (Material::BRICK, [150, 84, 66], 0.9),
            (Material::PLASTER, [214, 206, 192], 0.95),
            (Material::PAINT, [232, 230, 224], 0.9),
            (Material::WALLPAPER, [204, 196, 180], 0.9),
            (Material::WOOD_FINISH, [156, 110, 66], 0.6),
            (Material::FIBERBOARD, [176, 142, 102], 0.8),
            (Material::SCREEN, [14, 16, 20], 0.12),
            (Material::CONCRETE, [184, 182, 176], 0.95),
        ];
        let look = looks.iter().find(|(known, ..)| known.name == material.name);
        match look {
            Some((known, color, roughness)) => Self::opaque(known.name, *color, *roughness),
            None if material.combustible => Self::opaque("wood", [200, 160, 110], 0.8),
            None => Self::metal("steel", [176, 180, 186], 0.4),
        }
    }

    /// How a clearance volume looks: the hotter the neighbor, the warmer the color.
    pub(super) fn of_clearance(kind: ClearanceKind) -> Self {
        match kind {
            ClearanceKind::UnitSide
            | ClearanceKind::UnitBack
            | ClearanceKind::UnitTop
            | ClearanceKind::UnitFront => Self::clear("unit clearance", [255, 138, 48], 0.22),
            ClearanceKind::VerticalPipe | ClearanceKind::Bend | ClearanceKind::HorizontalPipe => {
                Self::clear("pipe clearance", [255, 92, 60], 0.25)
            }
            ClearanceKind::RoofPass => Self::clear("roof pass", [224, 64, 120], 0.25),
            ClearanceKind::WallPass => Self::clear("wall pass", [236, 72, 96], 0.25),
            ClearanceKind::FacingZone => Self::clear("facing zone", [250, 196, 60], 0.2),
            ClearanceKind::HandRoom => Self::clear("hand room", [90, 190, 140], 0.22),
            ClearanceKind::MantelRule => Self::clear("mantel rule", [120, 130, 230], 0.16),
        }
    }

    /// How its crisp edges look: faint on what lets the model show through.
    pub(super) fn edge(&self) -> Self {
        let room = [
            Self::FLOOR,
            Self::CEILING,
            Self::EXISTING_LUMBER,
            Self::EXISTING_WALL,
        ];
        if room.contains(self) {
            Self::ROOM_EDGE
        } else if self.opacity < 1.0 {
            Self::CLEARANCE_EDGE
        } else {
            Self::EDGE
        }
    }

    /// A color channel as light rather than as the eye sees it, from 0 to 1.
    ///
    /// Source: IEC 61966-2-1 (sRGB), transfer function.
    pub(super) fn linear(channel: u8) -> f64 {
        let value = f64::from(channel) / 255.0;
        if value <= 0.040_45 {
            value / 12.92
        } else {
            libm::pow((value + 0.055) / 1.055, 2.4)
        }
    }
}
