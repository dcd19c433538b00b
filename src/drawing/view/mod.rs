//! The views, one file each, in the order they are bound. A new view is its file, its `mod` line and its line
//! in [`VIEWS`].

mod attachment;
mod blocks;
mod board;
mod cutting;
mod end_stud;
mod face;
mod framing;
mod front;
mod isometric;
mod outside;
mod panels;
mod plan;
mod platform;
mod plumb;
mod pole;
mod roof_pass;
mod run;
mod section;
mod side;
mod template;
mod wall_pass;

use super::figure::Figure;
use super::subject::Subject;

/// What a sheet shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drawing {
    /// Framing, platform, unit and vent as they stand.
    Assembled,
    /// From above.
    Plan,
    /// The finished front.
    Front,
    /// Cut across the chase.
    Section,
    /// Cut along a run of the vent.
    Run,
    /// A side.
    Side,
    /// The framing of one wall.
    Framing,
    /// Blocks in a wall of the room.
    BlocksInWall,
    /// Blocks over the ceiling.
    BlocksOverCeiling,
    /// The platform.
    Platform,
    /// Plumb lines on a wall of the room.
    PlumbLines,
    /// The framed hole through a wall.
    WallPass,
    /// The framed hole through ceiling and roof.
    RoofPass,
    /// The cap, from outside.
    Outside,
    /// How a wall is held under the ceiling and on the slab.
    Attachment,
    /// The end of a side wall at a wall of the room.
    EndStud,
    /// The framing pulled apart.
    Exploded,
    /// Boards and what is cut from each.
    Cutting,
    /// The board of one face.
    Board,
    /// Sheets and what is cut from each.
    Panels,
    /// A template of an angle, at full size.
    Template,
    /// A part of the story pole.
    Pole,
    /// The pieces of a scale model.
    Kit,
}

/// The figures that a view makes of a subject, none where there is nothing to show.
type Figures = fn(&Subject<'_>) -> Vec<Figure>;

/// A view: what it shows, and its figures.
pub(super) type View = (Drawing, Figures);

/// Every view.
pub(super) static VIEWS: &[View] = &[
    (Drawing::Assembled, isometric::assembled),
    (Drawing::Plan, plan::plan),
    (Drawing::Front, front::front),
    (Drawing::Section, section::section),
    (Drawing::Run, run::along),
    (Drawing::Side, side::side),
    (Drawing::Framing, framing::walls),
    (Drawing::BlocksInWall, blocks::in_walls),
    (Drawing::BlocksOverCeiling, blocks::over_ceiling),
    (Drawing::Platform, platform::platform),
    (Drawing::PlumbLines, plumb::lines),
    (Drawing::WallPass, wall_pass::wall_pass),
    (Drawing::RoofPass, roof_pass::roof_pass),
    (Drawing::Outside, outside::outside),
    (Drawing::Attachment, attachment::details),
    (Drawing::EndStud, end_stud::details),
    (Drawing::Exploded, isometric::exploded),
    (Drawing::Cutting, cutting::bars),
    (Drawing::Board, board::boards),
    CUT_SHEETS,
    (Drawing::Template, template::templates),
    (Drawing::Pole, pole::pole),
];

/// What is cut from sheets, which is a file of its own too.
pub(super) const CUT_SHEETS: View = (Drawing::Panels, panels::panels);
