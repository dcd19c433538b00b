//! A design in, its sheets out: display lists that are written as SVG and PDF elsewhere.
//!
//! *Units and frames*: a view is in millimetres of the model, x to the right and y up; a sheet is in
//! millimetres of paper from its upper left corner, y down. *Errors*: none; a view of what is not there is
//! left out. A new view is its file in `view/` and its line in the list there.

#![deny(clippy::wildcard_enum_match_arm)]

mod cut;
mod digest;
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

pub use digest::digest;
pub use dimension::{Chain, Side};
pub use ink::{Fill, Ink, Pen, Rect, Stroke, Text};
pub use paper::{Paper, Scale};
pub use sheet::Sheet;
pub use view::Drawing;

use glam::{DVec2, DVec3};

use crate::design::Design;
use crate::geom::Body;
use crate::takeoff::Takeoff;
use eye::Eye;
use solid::Solid;
use subject::Subject;

/// The lines of bodies that are seen along parallel rays, as a drawing shows them: x runs along `right`, y along
/// `up`, two unit vectors square to one another; millimetres. Exact for plane-faced bodies; round ones are met by
/// chords.
pub fn visible_lines(bodies: &[&Body], right: DVec3, up: DVec3) -> Vec<[DVec2; 2]> {
    let solids: Vec<Solid> = bodies
        .iter()
        .map(|body| Solid::new(body, DVec3::ZERO))
        .collect();
    let all: Vec<&Solid> = solids.iter().collect();
    let eye = Eye::new(right, up, right.cross(up));
    let lines = hidden::visible(&all, &eye, None).into_iter();
    hidden::merged(lines.map(|it| it.1).collect())
}

/// Every sheet of a design and its takeoff, in the order they are bound.
///
/// # Examples
/// ```
/// use chasewright::design::design;
/// use chasewright::drawing::{Paper, sheets};
/// use chasewright::params;
/// use chasewright::takeoff::takeoff;
///
/// let text = include_str!(concat!(
///     env!("CARGO_MANIFEST_DIR"),
///     "/params/reading-room.toml"
/// ));
/// let design = design(&params::read(text).expect("a sound file"));
/// let paper = Paper::usual(design.params.project.unit);
/// let sheets = sheets(&design, &takeoff(&design), paper);
/// assert!(sheets.iter().all(|sheet| !sheet.title.is_empty()));
/// ```
pub fn sheets(design: &Design, takeoff: &Takeoff, paper: Paper) -> Vec<Sheet> {
    drawn(&Subject::new(design, takeoff, paper), view::VIEWS)
}

/// The sheets of what is cut from sheets of board and panel, counted by themselves.
pub fn cut_sheets(design: &Design, takeoff: &Takeoff, paper: Paper) -> Vec<Sheet> {
    drawn(&Subject::new(design, takeoff, paper), &[view::CUT_SHEETS])
}

fn drawn(subject: &Subject<'_>, views: &[view::View]) -> Vec<Sheet> {
    let figures = in_parallel(views.iter(), |(shows, figures)| {
        let figures = figures(subject).into_iter();
        figures.map(|it| (*shows, it)).collect::<Vec<_>>()
    });
    let figures: Vec<_> = figures.into_iter().flatten().collect();
    let count = figures.len();
    in_parallel(figures.into_iter().enumerate(), |(place, figure)| {
        sheet::lay_out(subject, figure, subject.paper, (place + 1, count))
    })
}

/// What a function makes of each thing, in their order, on as many threads as there are things.
fn in_parallel<T: Send, U: Send>(
    things: impl Iterator<Item = T>,
    make: impl Fn(T) -> U + Sync,
) -> Vec<U> {
    let make = &make;
    std::thread::scope(|scope| {
        let made: Vec<_> = things.map(|it| scope.spawn(move || make(it))).collect();
        made.into_iter()
            .map(|it| {
                it.join()
                    .unwrap_or_else(|why| std::panic::resume_unwind(why))
            })
            .collect()
    })
}
