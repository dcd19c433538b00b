//! Readings of a wall against a plumb line in, the wall's lean out: the straight line through them by least squares.
//!
//! *Datum*: whatever counts out from the wall counts from the place where the wall comes farthest into the room,
//! between the slab and the ceiling over the chase. There the ends of the chase's walls stand, plumb.

use glam::DVec2;

use super::fault::Fault;
use super::grid::PlumbRows;
use super::list::Params;
use super::text::length_text;
use crate::geom::fitted_line;
use crate::units::Length;

/// A wall that leans more was read wrong, or is no wall.
const MOST: f64 = 0.1;

impl PlumbRows {
    /// The straight line through them: distance at height 0, and for each step up.
    fn line(&self) -> Option<DVec2> {
        let points = self
            .0
            .iter()
            .map(|[height, distance]| DVec2::new(height.to_mm(), distance.to_mm()));
        fitted_line(&points.collect::<Vec<_>>())
    }
}

/// How the wall behind the chase stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Lean {
    /// The line through the readings: how far the wall lies behind its place farthest into the room, at height
    /// 0, and for each step up.
    line: DVec2,
    /// The readings: height, how far the wall lies there behind that place, and how far behind the line (below
    /// zero: before it).
    pub read: Vec<(Length, Length, Length)>,
}

impl Lean {
    /// How far the wall lies behind its place farthest into the room, on the line through the readings.
    pub fn behind(&self, height: Length) -> Length {
        Length::mm(self.line.x + self.line.y * height.to_mm())
    }
}

impl Params {
    /// How the wall behind the chase stands, where it was read; its extent is from the slab, so high, to the
    /// highest of the ceiling over the chase.
    pub fn wall_lean(&self, slab: Length) -> Option<Lean> {
        let rows = &self.fireplace_wall.plumb;
        let line = rows.line()?;
        let site = self.site();
        let (left, width) = (site.chase.low.to_mm(), site.width.to_mm());
        let depth = -self.chase.depth.to_mm();
        let plan = [(0.0, depth), (width, depth), (width, 0.0), (0.0, 0.0)];
        let plan = plan.map(|(x, y)| DVec2::new(left + x, y));
        let ceiling = self.underside().highest(&plan);
        let ends = [slab.to_mm(), ceiling].map(|height| line.x + line.y * height);
        let read = rows.0.iter().map(|it| it[1].to_mm());
        let nearest = ends.into_iter().chain(read).fold(f64::INFINITY, f64::min);
        let read = rows.0.iter().map(|[height, distance]| {
            let off = distance.to_mm() - (line.x + line.y * height.to_mm());
            (*height, *distance - Length::mm(nearest), Length::mm(off))
        });
        Some(Lean {
            line: DVec2::new(line.x - nearest, line.y),
            read: read.collect(),
        })
    }
}

/// Readings of a wall make a line, and not too slanted a one.
pub(super) fn faults(params: &Params) -> Vec<Fault> {
    let rows = &params.fireplace_wall.plumb;
    if rows.0.is_empty() {
        return Vec::new();
    }
    let fault = |problem: &str, found: String, expected: &str| {
        let fault = Fault::new("wall.plumb", problem).found(found);
        let fault = fault.expected(expected);
        vec![fault.way_out(
            "read the distance from a plumb line to the wall near the floor and near the ceiling",
        )]
    };
    match rows.line() {
        None => fault(
            "these readings of the wall do not fix a line",
            format!("{} of them, at one height", rows.0.len()),
            "two or more, at different heights",
        ),
        Some(line) if line.y.abs() > MOST => fault(
            "the readings make the wall lean too far",
            length_text(Length::mm(line.y.abs() * 1000.0), params.project.unit) + " in 1000 mm",
            "at most 1 in 10",
        ),
        Some(_) => Vec::new(),
    }
}
