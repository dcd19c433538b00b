//! What the trade calls kinds, stages and stock, in words for people.

use std::fmt;

use super::{ClearanceKind, Kind, Stage, Stock};

impl Kind {
    /// The trade's words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::SolePlate => "sole plate",
            Self::TopPlate => "top plate",
            Self::Stud => "stud",
            Self::King => "king",
            Self::Jack => "jack",
            Self::Cripple => "cripple",
            Self::Header => "header",
            Self::HeaderSpacer => "header spacer",
            Self::Sill => "sill",
            Self::Ledge => "ledge",
            Self::Return => "return",
            Self::Blocking => "blocking",
            Self::RecessFraming => "recess framing",
            Self::Sleeper => "sleeper",
            Self::PlatformPanel => "panel",
            Self::Furring => "furring",
            Self::Board => "board",
            Self::Finish => "finish",
            Self::Mantel => "mantel",
            Self::Screen => "screen",
            Self::Mount => "mount",
            Self::UnitBody => "body",
            Self::UnitLip => "lip",
            Self::Standoff => "standoff",
            Self::Collar => "collar",
            Self::Pipe => "pipe",
            Self::Elbow => "elbow",
            Self::Flue => "flue",
            Self::Strap => "strap",
            Self::PassFrame => "pass frame",
            Self::Firestop => "firestop",
            Self::Cap => "cap",
            Self::MantelEnd => "mantel end",
            Self::Bracket => "bracket",
            Self::Leg => "leg",
            Self::Cabinet => "cabinet",
            Self::GasStub => "stub",
            Self::Shutoff => "shutoff",
            Self::Cable => "cable",
            Self::CableShelf => "shelf",
            Self::Cleat => "cleat",
            Self::Floor => "floor",
            Self::Ceiling => "ceiling",
            Self::SideWall => "side wall",
            Self::WallLayer => "wall layer",
            Self::ExistingStud => "existing stud",
            Self::ExistingPlate => "existing plate",
            Self::Rafter => "rafter",
            Self::FixedThing => "fixed thing",
        }
    }
}

impl Stage {
    /// What is done at this stage.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Existing => "existing",
            Self::WallPass => "wall pass",
            Self::Thimble => "thimble",
            Self::SealedWall => "sealed wall",
            Self::RoomBlocks => "blocks in the room",
            Self::Plates => "plates",
            Self::Platform => "platform",
            Self::Walls => "walls",
            Self::Fireblocks => "fireblocks",
            Self::Gas => "gas rough-in",
            Self::Wiring => "wiring",
            Self::Unit => "unit",
            Self::Vent => "vent",
            Self::PassSealed => "pass sealed",
            Self::CableShelf => "cable shelf",
            Self::MantelBrackets => "mantel brackets",
            Self::Board => "board",
            Self::Finish => "finish",
            Self::Mantel => "mantel",
            Self::Screen => "screen",
        }
    }
}

impl ClearanceKind {
    /// What it keeps clear of.
    pub const fn name(self) -> &'static str {
        match self {
            Self::UnitSide => "unit side clearance",
            Self::UnitBack => "unit back clearance",
            Self::UnitTop => "unit top clearance",
            Self::UnitFront => "unit front clearance",
            Self::VerticalPipe => "vertical pipe clearance",
            Self::Bend => "bend clearance",
            Self::HorizontalPipe => "horizontal pipe clearance",
            Self::WallPass => "wall pass clearance",
            Self::RoofPass => "roof pass clearance",
            Self::FacingZone => "facing zone",
            Self::MantelRule => "mantel rule envelope",
            Self::HandRoom => "hand room at the shutoff",
        }
    }
}

impl fmt::Display for Stock {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Stick(name) | Self::Steel(name) => f.write_str(name),
            Self::Rip(name) => write!(f, "ripped from {name}"),
            Self::Sheet(thickness) => {
                // without the noise of sums: a millionth of an inch is enough
                let inches = (thickness.to_inches() * 1e6).round() / 1e6;
                write!(f, "{inches} in sheet")
            }
            Self::Bought => f.write_str("bought"),
            Self::Existing => f.write_str("existing"),
        }
    }
}
