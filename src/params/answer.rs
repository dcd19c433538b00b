//! Words for what the floor, the finishes and the gas line are, and for what an electrician or the manual says.

use super::choice::words;
use super::value::{Kind, Quantity, Value};

/// What the floor under the chase is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FloorKind {
    /// A slab of concrete.
    Slab,
    /// A slab with tensioned tendons in it.
    TensionedSlab,
    /// Joists with panels or boards on them.
    Wood,
}

/// What a finish is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FinishMaterial {
    /// Stone, natural or cast.
    Stone,
    /// Tile of clay or porcelain.
    Tile,
    /// Thin brick.
    Brick,
    /// Plaster.
    Plaster,
    /// Sheet metal.
    Metal,
    /// Paint.
    Paint,
    /// Wallpaper or a cover of vinyl.
    Wallpaper,
    /// Boards or panels of wood.
    Wood,
    /// Fiberboard.
    Mdf,
}

/// Whether there is a receptacle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Receptacle {
    /// There is one, or an electrician sets one.
    Planned,
    /// None is asked for.
    NotNeeded,
}

/// From where a unit is serviced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ServiceFrom {
    /// From the front, through its opening.
    Front,
    /// Through a panel in the chase.
    Panel,
}

/// What a gas line is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasMaterial {
    /// Steel pipe.
    Steel,
    /// Copper tubing.
    Copper,
    /// Flexible corrugated tubing of stainless steel.
    Flexible,
}

words!(FloorKind { Slab = "slab", TensionedSlab = "tensioned_slab", Wood = "wood" });
words!(FinishMaterial { Stone = "stone", Tile = "tile", Brick = "brick", Plaster = "plaster", Metal = "metal", Paint = "paint", Wallpaper = "wallpaper", Wood = "wood", Mdf = "mdf" });
words!(Receptacle { Planned = "planned", NotNeeded = "not_needed" });
words!(ServiceFrom { Front = "front", Panel = "panel" });
words!(GasMaterial { Steel = "steel", Copper = "copper", Flexible = "flexible" });
