//! What parts are made of: whether it is combustible, on what basis, and what it weighs.

/// A material as the checks and the viewer see it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// The trade's name.
    pub name: &'static str,
    /// Whether it counts as combustible.
    pub combustible: bool,
    /// Why it counts so.
    pub basis: &'static str,
    /// Mass per volume, in kilograms per cubic metre.
    pub density: f64,
}

const WOOD: &str = "wood burns";
const NOT: &str = "noncombustible in the sense of ASTM E136, as used";

impl Material {
    /// Framing lumber. Density: 29 lb/ft³ at 12 % moisture (common practice, no source).
    pub const LUMBER: Self = Self::new("lumber", true, WOOD, 465.0);
    /// Preservative-treated lumber. Density: common practice, no source.
    pub const TREATED: Self = Self::new("treated lumber", true, WOOD, 560.0);
    /// Plywood or other structural panel. Density: common practice, no source.
    pub const PANEL: Self = Self::new("structural panel", true, WOOD, 580.0);
    /// Wood of a mantel. Density: common practice, no source.
    pub const MANTEL_WOOD: Self = Self::new("mantel wood", true, WOOD, 640.0);
    /// A noncombustible mantel. Density: common practice, no source.
    pub const MANTEL_STONE: Self = Self::new("mantel stone", false, NOT, 2400.0);
    /// Gypsum board; its paper counts as burning near heat.
    /// Density: ASCE 7 table C3-1a, 2.2 lb/ft² at 1/2 in, from memory.
    pub const DRYWALL: Self = Self::new(
        "paper-faced gypsum board",
        true,
        "its paper faces are combustible",
        845.0,
    );
    /// Cement board. Density: 2.6 lb/ft² at 1/2 in (common practice, no source).
    pub const CEMENT_BOARD: Self = Self::new("cement board", false, NOT, 1000.0);
    /// Stone. Density: common practice, no source.
    pub const STONE: Self = Self::new("stone", false, NOT, 2200.0);
    /// Tile. Density: common practice, no source.
    pub const TILE: Self = Self::new("tile", false, NOT, 2200.0);
    /// Thin brick. Density: common practice, no source.
    pub const BRICK: Self = Self::new("brick", false, NOT, 2000.0);
    /// Plaster. Density: common practice, no source.
    pub const PLASTER: Self = Self::new("plaster", false, NOT, 1700.0);
    /// Sheet metal with what is under it. Density: common practice, no source.
    pub const SHEET_METAL: Self = Self::new("sheet metal", false, NOT, 7850.0);
    /// Paint; which one stands heat is the manual's to say. Density: common practice, no source.
    pub const PAINT: Self = Self::new("paint", false, "a film on its board", 1500.0);
    /// Wallpaper or vinyl. Density: common practice, no source.
    pub const WALLPAPER: Self =
        Self::new("wallpaper", true, "paper and vinyl are combustible", 1000.0);
    /// Boards or panels of wood. Density: common practice, no source.
    pub const WOOD_FINISH: Self = Self::new("wood finish", true, WOOD, 640.0);
    /// Fiberboard. Density: common practice, no source.
    pub const FIBERBOARD: Self = Self::new("fiberboard", true, WOOD, 750.0);
    /// Light-gauge steel and the metal of unit, pipes and frames.
    pub const STEEL: Self = Self::new("steel", false, NOT, 7850.0);
    /// A bought assembly, weighed as a whole.
    pub const ASSEMBLY: Self = Self::new("assembly", false, "part of the listed unit", 250.0);
    /// A screen. Density: common practice, no source.
    pub const SCREEN: Self = Self::new(
        "screen",
        true,
        "plastic and electronics are combustible",
        500.0,
    );
    /// A cabinet with what is in it. Density: common practice, no source.
    pub const CABINET: Self = Self::new("cabinet", true, WOOD, 200.0);
    /// A bundle of cables. Density: common practice, no source.
    pub const CABLE: Self = Self::new("cable", true, "its jacket burns", 2000.0);
    /// A window, a door or another thing that the room has already; never weighed.
    pub const FIXED: Self = Self::new("fixed thing", true, "counts as burning until known", 500.0);
    /// Concrete of the floor slab.
    pub const CONCRETE: Self = Self::new("concrete", false, NOT, 2400.0);

    const fn new(name: &'static str, combustible: bool, basis: &'static str, density: f64) -> Self {
        Self {
            name,
            combustible,
            basis,
            density,
        }
    }
}
