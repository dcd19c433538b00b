//! What a design consists of: parts, clearance volumes and notes.

use std::borrow::Cow;

use glam::{DVec2, DVec3};

use super::branch::{Branch, Own};
use super::square_cut::{self, Wedge};
use crate::catalog::Material;
use crate::geom::{Body, Direction, Shape, Underside};
use crate::layout::Layout;
use crate::params::ChaseWall;
use crate::units::{Length, Span};

/// One physical thing, placed.
#[derive(Debug, Clone)]
pub struct Part {
    /// Readable, stable and unique: the part's path in every tree, such as `front/stud/3`.
    pub id: String,
    /// What the trade calls it.
    pub kind: Kind,
    /// The group of the model tree that it hangs in.
    pub group: Group,
    /// What it belongs to there: the first word of its id.
    pub branch: Branch,
    /// What it is made of.
    pub material: Material,
    /// What it is cut from.
    pub stock: Stock,
    /// When it is built.
    pub stage: Stage,
    /// Its exact shape and place, as it is cut.
    pub body: Body,
    /// The slope that a square cut leaves out at its bottom and its top end; zero where nothing is left out.
    pub left_out: [DVec2; 2],
}

/// What a part is cut from.
#[derive(Debug, Clone, PartialEq)]
pub enum Stock {
    /// A stick; the name is the yard's, such as `2x4`.
    Stick(String),
    /// A stick ripped from wider stock; the name is the stock's.
    Rip(String),
    /// A length of a steel member; the name is its designation, such as `362S125-30`.
    Steel(String),
    /// A sheet of this thickness.
    Sheet(Length),
    /// Bought as it is.
    Bought,
    /// Already there.
    Existing,
}

/// Groups of the model tree, in the order they are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Sticks of the chase.
    Framing,
    /// The hearth platform.
    Platform,
    /// Board, finish, mantel and screen.
    Skins,
    /// The unit.
    Unit,
    /// Pipe, pass and cap.
    Vent,
    /// Gas and cables.
    Services,
    /// Clearance volumes.
    Clearances,
    /// The room as it stands.
    Room,
    /// What is fixed to the room's walls.
    Fixed,
}

/// Stages of the job, in the order of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// Already there.
    Existing,
    /// The framed pass through the wall.
    WallPass,
    /// The thimble or firestop in it.
    Thimble,
    /// The outside wall behind the chase is insulated, sealed and boarded.
    SealedWall,
    /// Ceiling and walls of the room are opened for blocks, and closed.
    RoomBlocks,
    /// Sole and top plates.
    Plates,
    /// The hearth platform.
    Platform,
    /// Studs, headers, sills and what belongs to the walls.
    Walls,
    /// Hollows are closed against fire.
    Fireblocks,
    /// The gas line is roughed in.
    Gas,
    /// Wires and boxes.
    Wiring,
    /// The unit is set, through the front opening.
    Unit,
    /// Vent joints and cap.
    Vent,
    /// The pass is closed round the pipe.
    PassSealed,
    /// The shelf that keeps cables out of the warm space.
    CableShelf,
    /// Steel brackets of the mantel, on the sides of studs.
    MantelBrackets,
    /// Board.
    Board,
    /// Finish.
    Finish,
    /// Mantel.
    Mantel,
    /// Screen.
    Screen,
}

/// What the trade calls a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Plate on the floor.
    SolePlate,
    /// Plate under the ceiling.
    TopPlate,
    /// Full-height stud.
    Stud,
    /// Stud beside a jack, full height unless a recess stops it.
    King,
    /// Stud that supports a header.
    Jack,
    /// Short stud over a header or under a sill.
    Cripple,
    /// Beam over an opening.
    Header,
    /// Packing between the plies of a header.
    HeaderSpacer,
    /// Level stick under an opening.
    Sill,
    /// Flat top plate of the bump-out frame: the ledge.
    Ledge,
    /// Short stick that closes the end of the bump-out frame.
    Return,
    /// Blocking between or behind studs.
    Blocking,
    /// Framing behind a recess.
    RecessFraming,
    /// Platform framing on the floor.
    Sleeper,
    /// Platform panel.
    PlatformPanel,
    /// Strip on the studs that the unit's flange is fastened to.
    Furring,
    /// Wall board.
    Board,
    /// Stone, tile or plaster over the board.
    Finish,
    /// The mantel.
    Mantel,
    /// The screen in the recess.
    Screen,
    /// What the screen hangs on.
    Mount,
    /// Body of the unit.
    UnitBody,
    /// The unit's edge that the finish meets.
    UnitLip,
    /// Spacer on the unit.
    Standoff,
    /// Collar of the unit.
    Collar,
    /// Straight vent pipe.
    Pipe,
    /// Vent elbow.
    Elbow,
    /// Inner pipe of the vent.
    Flue,
    /// Strap that holds the vent.
    Strap,
    /// Framing of the pass through the wall.
    PassFrame,
    /// Plate that holds the pipe in the pass.
    Firestop,
    /// Cap outside.
    Cap,
    /// End of a hollow mantel.
    MantelEnd,
    /// Steel bar under the mantel.
    Bracket,
    /// Leg under the mantel.
    Leg,
    /// Cabinet beside the chase.
    Cabinet,
    /// End of the gas line in the room.
    GasStub,
    /// Shutoff of the gas line.
    Shutoff,
    /// Bundle of cables.
    Cable,
    /// Shelf that keeps cables off the hot top.
    CableShelf,
    /// Stick along a wall that the end of a shelf lies on.
    Cleat,
    /// Floor of the room.
    Floor,
    /// Ceiling of the room.
    Ceiling,
    /// Another wall of the room.
    SideWall,
    /// Surface layer of an existing wall.
    WallLayer,
    /// Stud of an existing wall.
    ExistingStud,
    /// Plate of an existing wall.
    ExistingPlate,
    /// Rafter over the ceiling.
    Rafter,
    /// A thing fixed to a wall of the room.
    FixedThing,
}

/// A volume around something hot, or in front of it, that others have to keep out of.
#[derive(Debug, Clone)]
pub struct Clearance {
    /// Readable, stable and unique, such as `clearance/unit/left`.
    pub id: String,
    /// What it keeps clear of.
    pub kind: ClearanceKind,
    /// The volume's true shape and place.
    pub body: Body,
    /// The directions in which things can leave the volume, each with the manual's number for it.
    pub reaches: Vec<Reach>,
    /// What the volume belongs to or is meant to end against; this is never judged.
    pub belongs_to: Vec<Own>,
    /// What the volume keeps out.
    pub bars: Bars,
    /// From where the number counts.
    pub datum: &'static str,
}

/// One direction out of a clearance volume.
#[derive(Debug, Clone)]
pub struct Reach {
    /// The way out.
    pub direction: Direction,
    /// The number for this direction.
    pub required: Length,
    /// Where the number stands: the manual's page.
    pub source: String,
    /// The key of the parameter that holds it.
    pub key: &'static str,
}

/// What a clearance volume keeps out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bars {
    /// Everything that it does not belong to.
    Everything,
    /// Anything combustible.
    Combustible,
    /// Skins that burn: board, finish, mantel, screen. What stands behind them is not seen.
    CombustibleSkins,
}

/// Kinds of clearance volume.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClearanceKind {
    /// Beside the unit's body.
    UnitSide,
    /// Behind the unit's body.
    UnitBack,
    /// Above the unit's body.
    UnitTop,
    /// In front of the unit.
    UnitFront,
    /// Around vertical pipe.
    VerticalPipe,
    /// Around an elbow.
    Bend,
    /// Around pipe that runs out.
    HorizontalPipe,
    /// The hole through the wall.
    WallPass,
    /// The hole through ceiling and roof.
    RoofPass,
    /// Where no surface may burn.
    FacingZone,
    /// Under the line that the mantel rule draws.
    MantelRule,
    /// Before the gas shutoff, for a hand.
    HandRoom,
}

/// Something the design had to do otherwise than asked, said so that nobody wonders.
#[derive(Debug, Clone, PartialEq)]
pub enum Note {
    /// A stick that would have had no length, or no room.
    LeftOut {
        /// The stick's id.
        id: String,
        /// Why.
        why: String,
    },
    /// A part or clearance volume whose shape is no proper solid, so that the model's files are without it.
    Unproved {
        /// Its id.
        id: String,
        /// What is wrong with its shape.
        why: String,
    },
    /// Something drawn by an assumed value.
    Assumed {
        /// The key of the fact.
        key: &'static str,
        /// What it is drawn as.
        value: String,
    },
    /// A layout stud left out for a jack, king or end stud.
    Dropped {
        /// The wall.
        wall: ChaseWall,
        /// Where its center would have been, from the wall's left end.
        center: Length,
    },
}

impl Part {
    /// Whether it belongs to a wall, or to another branch.
    pub fn is_of(&self, branch: impl Into<Branch>) -> bool {
        self.branch == branch.into()
    }

    /// Its body with the wedges that square cuts leave: what holds it and what it holds, once it is shimmed.
    pub fn shimmed(&self) -> Cow<'_, Body> {
        match &self.body.shape {
            Shape::Swept(swept) if self.left_out != [DVec2::ZERO; 2] => {
                let filled = square_cut::filled(swept, self.left_out);
                Cow::Owned(Body::new(filled, self.body.frame))
            }
            Shape::Swept(_) | Shape::Tube(_) => Cow::Borrowed(&self.body),
        }
    }

    /// The wedges that square cuts leave at its ends.
    pub fn wedges(&self) -> Vec<Wedge> {
        match &self.body.shape {
            Shape::Swept(swept) => square_cut::wedges(swept, self.left_out, &self.body.frame),
            Shape::Tube(_) => Vec::new(),
        }
    }

    /// From where to where it reaches along a unit vector, counted from the world's origin.
    pub fn reach(&self, way: DVec3) -> Span {
        let end = |outward: DVec3| Length::mm(self.body.farthest(outward).dot(way));
        Span::new(end(-way), end(way))
    }

    /// From its left to its right end.
    pub fn sides(&self) -> Span {
        let bounds = &self.body.bounds;
        Span::new(Length::mm(bounds.low.x), Length::mm(bounds.high.x))
    }

    /// From its lowest to its highest point.
    pub fn heights(&self) -> Span {
        let bounds = &self.body.bounds;
        Span::new(Length::mm(bounds.low.z), Length::mm(bounds.high.z))
    }
}

impl Kind {
    /// Whether it is a plate of a framed wall.
    pub const fn is_plate(self) -> bool {
        matches!(self, Self::SolePlate | Self::TopPlate)
    }

    /// Whether both its lower and its upper edge are marked on the story pole.
    pub const fn is_set_by_both_edges(self) -> bool {
        matches!(
            self,
            Self::Header | Self::Mantel | Self::Screen | Self::Blocking
        )
    }

    /// Whether it is a layer or a surface.
    pub const fn is_sheet(self) -> bool {
        matches!(
            self,
            Self::Board
                | Self::Finish
                | Self::WallLayer
                | Self::Floor
                | Self::Ceiling
                | Self::SideWall
        )
    }
}

impl Layout {
    /// The ceiling over a part: that of the room, unless it stands wholly behind the wall that is opened.
    pub fn ceiling_of(&self, part: &Part) -> &Underside {
        self.ceiling_to(Length::mm(-part.body.bounds.low.y))
    }
}

impl Group {
    /// Every group, in the order of the tree.
    pub const ALL: [Self; 9] = [
        Self::Framing,
        Self::Platform,
        Self::Skins,
        Self::Unit,
        Self::Vent,
        Self::Services,
        Self::Clearances,
        Self::Room,
        Self::Fixed,
    ];

    /// The group's name in every tree.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Framing => "framing",
            Self::Platform => "platform",
            Self::Skins => "skins",
            Self::Unit => "unit",
            Self::Vent => "vent",
            Self::Services => "services",
            Self::Clearances => "clearances",
            Self::Room => "room",
            Self::Fixed => "fixed",
        }
    }

    /// Whether it is there before the chase is built: the room and what is fixed to it.
    pub const fn stands_already(self) -> bool {
        matches!(self, Self::Room | Self::Fixed)
    }
}
