//! What fasteners are for.

use std::fmt;

/// What a fastener holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Studs on a sole plate, through the plate.
    StudToSoleEnd,
    /// Studs on a sole plate that lies already.
    StudToSoleToe,
    /// A plate on its studs.
    PlateToStud,
    /// Studs under a plate that is fixed already.
    StudToTopPlate,
    /// Top plates of two walls.
    PlatesAtCorners,
    /// The plates of one wall.
    DoubledPlates,
    /// The plies of a header.
    HeaderPlies,
    /// Header or sill between studs of wood.
    HeaderToStud,
    /// Blocks between sticks.
    Blocking,
    /// Studs side by side, of wood.
    DoubledStuds,
    /// Panels of the platform.
    PlatformPanels,
    /// Board of cement.
    CementBoard,
    /// Board of gypsum.
    GypsumBoard,
    /// Uprights that stand flat against a wall of the room.
    EndStuds,
    /// Sole plates, or tracks, on the slab.
    SolePlates,
    /// Top plates under the ceiling.
    UnderCeiling,
    /// What holds the mantel.
    Mantel,
    /// Plugs over those screws.
    MantelPlugs,
    /// The mantel on its cleat or brackets.
    MantelOn,
    /// Steel studs in their tracks.
    StudToTrack,
    /// Tracks of two walls.
    TracksAtCorners,
    /// The members of a steel header.
    HeaderMembers,
    /// Header or sill between studs of steel.
    SteelHeaderToStud,
    /// Straps on studs.
    StrapToStud,
    /// Uprights of two walls.
    WallsAtCorners,
    /// Studs side by side, of steel.
    DoubledSteelStuds,
    /// The ledge on the track under it.
    LedgeToTrack,
    /// Any other stick of wood on one of steel.
    WoodToSteel,
    /// Plates that keep screws from what passes a bore.
    OverBores,
    /// Cleats on the studs.
    Cleats,
    /// The shelf on its cleats.
    Shelf,
}

impl Purpose {
    /// The words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::StudToSoleEnd => "stud to sole plate, end nailed",
            Self::StudToSoleToe => "stud to sole plate, toe nailed",
            Self::PlateToStud => "top plate to stud, end nailed",
            Self::StudToTopPlate => "stud to top plate, toe nailed",
            Self::PlatesAtCorners => "plates at corners",
            Self::DoubledPlates => "doubled top plates",
            Self::HeaderPlies => "plies of a header, along each edge",
            Self::HeaderToStud => "header or sill to stud, toe nailed",
            Self::Blocking => "blocking, toe nailed",
            Self::DoubledStuds => "doubled studs",
            Self::PlatformPanels => "platform panels",
            Self::CementBoard => "cement board",
            Self::GypsumBoard => "gypsum board",
            Self::EndStuds => "end studs to the room's walls",
            Self::SolePlates => "sole plates to the slab",
            Self::UnderCeiling => "top plates through the ceiling board",
            Self::Mantel => "mantel's support, into framing",
            Self::MantelPlugs => "over the screws of the mantel",
            Self::MantelOn => "mantel to its cleat or brackets",
            Self::StudToTrack => "stud to track, one through each flange",
            Self::TracksAtCorners => "tracks at corners",
            Self::HeaderMembers => "members of a header, along each edge",
            Self::SteelHeaderToStud => "header or sill to stud",
            Self::StrapToStud => "strap to stud",
            Self::WallsAtCorners => "walls at corners",
            Self::DoubledSteelStuds => "doubled studs, through straps on both faces",
            Self::LedgeToTrack => "ledge to its track",
            Self::WoodToSteel => "wood to steel",
            Self::Cleats => "cleats to studs, two at each",
            Self::Shelf => "shelf on its cleats",
            Self::OverBores => "over bores near a stud's edge",
        }
    }
}

impl fmt::Display for Purpose {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
