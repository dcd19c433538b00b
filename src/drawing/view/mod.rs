//! The views, one file each, in the order they are bound. A new view is its file, its `mod` line and its line
//! in [`VIEWS`].

mod attachment;
mod blocks;
mod board;
mod cutting;
mod drawing;
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

pub use drawing::Drawing;

use super::figure::Figure;
use super::subject::Subject;

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
