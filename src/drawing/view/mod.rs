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

/// A view: the figures that it makes of a subject, none where there is nothing to show.
pub(super) type View = fn(&Subject<'_>) -> Vec<Figure>;

/// Every view.
pub(super) static VIEWS: &[View] = &[
    isometric::assembled,
    plan::plan,
    front::front,
    section::section,
    run::along,
    side::side,
    framing::walls,
    blocks::in_walls,
    blocks::over_ceiling,
    platform::platform,
    plumb::lines,
    wall_pass::wall_pass,
    roof_pass::roof_pass,
    outside::outside,
    attachment::details,
    end_stud::details,
    isometric::exploded,
    cutting::bars,
    board::boards,
    CUT_SHEETS,
    template::templates,
    pole::pole,
];

/// What is cut from sheets, which is a file of its own too.
pub(super) const CUT_SHEETS: View = panels::panels;
