//! Parameters that are one word out of a few.

use super::value::{Kind, Quantity, Value};
use crate::units::{Length, TapeUnit};

/// Gives an enumeration its written words, and with them its place among the kinds of parameter.
macro_rules! words {
    ($choice:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        impl $choice {
            /// The words of the parameter file, in the order they are offered.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// Every choice, in the same order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word of the parameter file.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }

            /// The choice that a word of the parameter file means.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }

        impl Quantity for $choice {
            const KIND: Kind = Kind::Choice(Self::WORDS);

            fn to_value(&self) -> Option<Value> {
                Some(Value::Choice(self.word()))
            }

            fn from_value(value: &Value) -> Option<Self> {
                match value {
                    Value::Choice(word) => Self::from_word(word),
                    _ => None,
                }
            }
        }
    };
}

/// The gap that is usually left between top plates and ceiling, so that a wall can be tilted up under it; over a wider
/// one plates are shimmed or clipped (common practice, no source).
pub const USUAL_GAP: Length = Length::inches(0.25);

/// From where heights count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FloorDatum {
    /// The bare slab.
    BareSlab,
    /// The top of the floor covering.
    FinishedFloor,
}

/// Where the unit's collar looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Collar {
    /// Up, from the top of the body.
    Up,
    /// Back, from behind the body.
    Back,
}

/// What a pass is framed with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrameStock {
    /// The wall's own lumber.
    Wood,
    /// Steel of the same size.
    Steel,
}

/// How rafters run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rafters {
    /// Out from the fireplace wall.
    Out,
    /// Along the fireplace wall.
    Along,
}

/// The framing of the ceiling.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RafterKind {
    /// Rafters under a sloped ceiling.
    Rafter,
    /// Joists over a flat one.
    Joist,
    /// Trusses, which move and are never cut.
    Truss,
}

/// How the ceiling slopes, in a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CeilingSlope {
    /// Level both ways.
    Flat,
}

/// How a ridge of the ceiling runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RidgeRun {
    /// Out from the fireplace wall, into the room.
    Out,
    /// Along the fireplace wall.
    Along,
}

/// What top plates lie along under a ceiling that was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlatesAlong {
    /// The plane through all readings, less the gap.
    Plane,
    /// Each wall's own straight line under the readings over it.
    Readings,
}

/// The edges of a stick that lies across a slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlateEdges {
    /// Square, as the stock is sold: it leans.
    Square,
    /// Plumb, ripped from wider stock.
    Ripped,
}

/// Whether the existing wall is bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bearing {
    /// It does.
    Yes,
    /// It does not.
    No,
    /// Nobody has said; it counts as bearing.
    Unknown,
}

/// Where in the room the chase stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Placement {
    /// Before the wall, or square in a corner of the room.
    Projecting,
    /// Free of the wall behind it, with a framed back of its own: it divides the room.
    Divider,
    /// Set into a wall of the room: the face lies in that wall, the enclosure stands behind it.
    Flush,
    /// In an alcove, from one of its side walls to the other.
    Alcove,
    /// Across the left corner of the fireplace wall, its face at one angle to both walls.
    LeftCorner,
    /// Across the right corner of the fireplace wall, its face at one angle to both walls.
    RightCorner,
}

/// How the front of the chase is built.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrontForm {
    /// One wall from slab to ceiling.
    OneWall,
    /// A set-back wall with a bump-out frame before it, whose top plate is the ledge.
    Stepped,
}

/// How what spans an opening lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeaderForm {
    /// One stick of the wall's own studs, lying flat; in a wall of steel a track.
    Flat,
    /// Plies standing on edge, or two members of steel toe to toe.
    OnEdge,
}

/// How a wall of the chase goes up, and so how its studs are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// By the first of the others that there is room for.
    FirstThatFits,
    /// The wall is framed lying down and raised as one frame: studs rather short than long.
    TiltUp,
    /// Its top plates are fixed first, and the rest is raised beside and slid under them: rather short than long.
    PlateFirst,
    /// Studs are tapped in between fixed plates: rather long than short.
    InPlace,
}

/// An answer that only the manual can give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Permission {
    /// It may.
    Yes,
    /// It may not.
    No,
}

/// From where the manual counts a mantel's projection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ProjectionDatum {
    /// The finished face around the unit.
    FinishedFace,
    /// The unit's own face.
    UnitFace,
    /// The front of the opening, its lip.
    Opening,
}

/// From where the manual counts a mantel's height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeightDatum {
    /// The top of the opening.
    OpeningTop,
    /// The top of the unit's body.
    BodyTop,
}

/// How far a mantel reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MantelExtent {
    /// Over the chase's finished front.
    Chase,
    /// From wall to wall of the room.
    Room,
    /// Its own length.
    Length,
}

/// What holds a mantel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MantelHold {
    /// Screws down into the ledge.
    Screws,
    /// A cleat on the finished face, in the hollow of the mantel.
    Cleat,
    /// Steel bars on the sides of studs.
    Brackets,
}

/// A step of the job that waits for a visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum JobStep {
    /// The walls are framed.
    Walls,
    /// Wires and boxes.
    Wiring,
    /// The unit is set.
    Unit,
    /// The vent is put together.
    Vent,
    /// The framing is covered.
    Board,
    /// The finish.
    Finish,
    /// The mantel.
    Mantel,
    /// The first fire.
    FirstFire,
}

/// What the ceiling is over the chase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OverChase {
    /// Its own gypsum board runs on over the chase in one piece.
    Board,
    /// It is cut, thinner, of something else, or not there.
    Open,
}

/// What fills the gap between top plates and ceiling.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GapFill {
    /// Lumber.
    Lumber,
    /// Gypsum board.
    Board,
    /// Mineral wool, packed.
    MineralWool,
}

impl GapFill {
    /// What is bought for it.
    pub const fn material(self) -> &'static str {
        match self {
            Self::Lumber => "lumber",
            Self::Board => "gypsum board of 1/2 in or more",
            Self::MineralWool => "packed mineral wool",
        }
    }
}

/// What burns in the unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fuel {
    /// Natural gas.
    Natural,
    /// Propane.
    Propane,
}

/// Nominal sizes of steel gas pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasPipe {
    /// 1/2 in.
    Half,
    /// 3/4 in.
    ThreeQuarters,
    /// 1 in.
    One,
    /// 1-1/4 in.
    OneAndQuarter,
}

/// By which pressure drop the gas pipe is sized.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasTable {
    /// 0.5 in of water.
    HalfInch,
    /// 3.0 in of water.
    ThreeInches,
}

/// What lies behind the wall that a flush chase is set into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpaceBehind {
    /// The open: the enclosure is a bay of the house.
    Outdoors,
    /// A closet, a room or a garage.
    Indoors,
}

/// From where the gas stub comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StubFrom {
    /// Up from the floor.
    Floor,
    /// Out from the wall.
    Wall,
}

/// From which side a hand reaches something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// From the front.
    Front,
    /// From the left.
    Left,
    /// From the right.
    Right,
}

/// On which sides of the chase something stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BesideSides {
    /// On both.
    Both,
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// On which side a door hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DoorHinge {
    /// On the side toward the chase.
    Near,
    /// On the side away from it.
    Far,
}

/// By which edition the adhered veneer is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VeneerStandard {
    /// TMS 402-16 or an earlier one.
    Tms402Of16,
    /// TMS 402-22.
    Tms402Of22,
    /// Nobody has said.
    Unknown,
}

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

/// Where the gas line enters the unit, as seen from the room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasEntry {
    /// In its left side.
    Left,
    /// In its right side.
    Right,
    /// In its back.
    Back,
    /// In its bottom, out of the platform.
    Bottom,
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
words!(GasEntry { Left = "left", Right = "right", Back = "back", Bottom = "bottom" });
words!(GasMaterial { Steel = "steel", Copper = "copper", Flexible = "flexible" });
words!(MantelExtent { Chase = "chase", Room = "room", Length = "length" });
words!(JobStep {
    Walls = "walls",
    Wiring = "wiring",
    Unit = "unit",
    Vent = "vent",
    Board = "board",
    Finish = "finish",
    Mantel = "mantel",
    FirstFire = "first_fire",
});
words!(MantelHold { Screws = "screws", Cleat = "cleat", Brackets = "brackets" });
words!(Fuel { Natural = "natural", Propane = "propane" });
words!(GasPipe { Half = "1/2", ThreeQuarters = "3/4", One = "1", OneAndQuarter = "1-1/4" });
words!(GasTable { HalfInch = "half_inch_drop", ThreeInches = "three_inch_drop" });
words!(StubFrom { Floor = "floor", Wall = "wall" });
words!(Reach { Front = "front", Left = "left", Right = "right" });
words!(BesideSides { Both = "both", Left = "left", Right = "right" });
words!(DoorHinge { Near = "near", Far = "far" });
words!(VeneerStandard { Tms402Of16 = "tms_402_16", Tms402Of22 = "tms_402_22", Unknown = "unknown" });
words!(TapeUnit { Inch = "inch", Millimeter = "mm" });
words!(FloorDatum { BareSlab = "bare_slab", FinishedFloor = "finished_floor" });
words!(Collar { Up = "up", Back = "back" });
words!(FrameStock { Wood = "wood", Steel = "steel" });
words!(Rafters { Out = "out", Along = "along" });
words!(RafterKind { Rafter = "rafter", Joist = "joist", Truss = "truss" });
words!(CeilingSlope { Flat = "flat" });
words!(RidgeRun { Out = "out", Along = "along" });
words!(OverChase { Board = "board", Open = "open" });
words!(GapFill { Lumber = "lumber", Board = "board", MineralWool = "mineral_wool" });
words!(PlateEdges { Square = "square", Ripped = "ripped" });
words!(PlatesAlong { Plane = "plane", Readings = "readings" });
words!(Bearing { Yes = "yes", No = "no", Unknown = "unknown" });
words!(Placement { Projecting = "projecting", Divider = "divider", Flush = "flush", Alcove = "alcove", LeftCorner = "left_corner", RightCorner = "right_corner" });
words!(SpaceBehind { Outdoors = "outdoors", Indoors = "indoors" });
words!(FrontForm { OneWall = "one_wall", Stepped = "stepped" });
words!(HeaderForm { Flat = "flat", OnEdge = "on_edge" });
words!(Fit { FirstThatFits = "first_that_fits", TiltUp = "tilt_up", PlateFirst = "plate_first", InPlace = "in_place" });
words!(Permission { Yes = "yes", No = "no" });
words!(ProjectionDatum { FinishedFace = "finished_face", UnitFace = "unit_face", Opening = "opening" });
words!(HeightDatum { OpeningTop = "opening_top", BodyTop = "body_top" });
