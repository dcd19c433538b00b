//! A design in, its sheets out: display lists that are written as SVG and PDF elsewhere.
//!
//! *Units and frames*: a view is in millimetres of the model, x to the right and y up; a sheet is in
//! millimetres of paper from its upper left corner, y down. *Errors*: none; a view of what is not there is
//! left out. A new view is its file in `view/` and its line in the list there.

mod cut;
mod dimension;
mod eye;
mod figure;
mod hatch;
mod hidden;
mod ink;
mod layout;
pub mod letters;
mod paper;
mod sheet;
mod solid;
mod subject;
mod view;

pub use dimension::Chain;
pub use ink::{Fill, Ink, Pen, Rect, Text};
pub use paper::{Paper, Scale};
pub use sheet::Sheet;

use crate::design::Design;
use crate::takeoff::Takeoff;
use subject::Subject;

/// Every sheet of a design and its takeoff, in the order they are bound.
pub fn sheets(design: &Design, takeoff: &Takeoff, paper: Paper) -> Vec<Sheet> {
    let subject = Subject::new(design, takeoff, paper);
    let figures: Vec<figure::Figure> = view::VIEWS.iter().flat_map(|view| view(&subject)).collect();
    let count = figures.len();
    let numbered = figures.into_iter().enumerate();
    numbered
        .map(|(place, figure)| sheet::lay_out(&subject, figure, paper, (place + 1, count)))
        .collect()
}
