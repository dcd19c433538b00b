//! The views, one file each, in the order they are bound. A new view is its file, its `mod` line and its line
//! in [`VIEWS`].

mod framing;
mod front;
mod isometric;
mod outside;
mod plan;
mod section;
mod side;
mod wall_pass;

use super::figure::Figure;
use super::subject::Subject;

/// A view: the figures that it makes of a subject, none where there is nothing to show.
type View = fn(&Subject<'_>) -> Vec<Figure>;

/// Every view.
pub(super) static VIEWS: &[View] = &[
    isometric::assembled,
    plan::plan,
    front::front,
    section::section,
    side::side,
    framing::walls,
    wall_pass::wall_pass,
    outside::outside,
    isometric::exploded,
];
