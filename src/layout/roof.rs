//! The framed hole through ceiling and roof, and the rafters that it meets.
//!
//! *Frame*: the room's, x right along the fireplace wall and y into it, z up from the floor datum.

use super::members::member_centers;
use super::path::Path;
use super::place::rectangle;
use crate::geom::{EndPlane, Frame};
use crate::params::{Exit, Params, Rafters, Roof};
use crate::units::{Length, Span, TapeUnit};

/// The framed hole through ceiling and roof, square in plan.
#[derive(Debug, Clone, PartialEq)]
pub struct RoofPass {
    /// The room's frame.
    pub room: Frame,
    /// Where the pipe's middle stands in it.
    pub middle: (Length, Length),
    /// The hole's sides along x.
    pub right: Span,
    /// The hole's sides along y.
    pub back: Span,
    /// The ceiling's surface, over (x, y).
    pub ceiling: EndPlane,
    /// The roof's surface.
    pub roof: EndPlane,
    /// The ceiling's lowest point over the hole.
    pub low: Length,
    /// Centers of the rafters that it cuts.
    pub cut: Vec<Length>,
}

impl RoofPass {
    /// The hole's sizes along x and along y as it is marked out, measured on the slope of the ceiling.
    pub fn on_the_slope(&self, unit: TapeUnit) -> (Length, Length) {
        let stretch = |slope: f64| (1.0 + slope * slope).sqrt();
        (
            self.right.on_marks(unit).size() * stretch(self.ceiling.slope.x),
            self.back.on_marks(unit).size() * stretch(self.ceiling.slope.y),
        )
    }
}

/// A plane that lies so far above another, measured square to it.
pub(crate) fn raised(plane: EndPlane, thickness: Length) -> EndPlane {
    let steepness = (1.0 + plane.slope.length_squared()).sqrt();
    EndPlane {
        height: plane.height + thickness.to_mm() * steepness,
        ..plane
    }
}

/// The ceiling over the room's frame; a roof is described under one plane only.
pub(crate) fn one_plane(params: &Params) -> EndPlane {
    let ceiling = params.room_underside();
    let first = ceiling.planes().first().copied();
    first.unwrap_or(EndPlane::level(Length::ZERO))
}

impl RoofPass {
    /// The hole of a vent that goes through the roof.
    pub(super) fn new(params: &Params, path: &Path) -> Option<Self> {
        let (Exit::Roof, Some(roof), Some(last)) = (path.exit, &params.roof, path.last()) else {
            return None;
        };
        let vent = &params.vent;
        let room = params.site().room;
        let middle = room.local_point(last.frame.origin);
        let (x, y) = (Length::mm(middle.x), Length::mm(middle.y));
        let needed = vent.pipe_diameter + 2.0 * roof.pass_clearance.value;
        let right = Span::about(x, needed.max(vent.firestop_width)).grown(vent.pass_ease);
        let back = Span::about(y, needed.max(vent.firestop_height)).grown(vent.pass_ease);
        let ceiling = one_plane(params);
        let corners = rectangle(right, back);
        let low = corners
            .iter()
            .map(|corner| ceiling.z(*corner))
            .fold(f64::INFINITY, f64::min);
        let mut pass = Self {
            room,
            middle: (x, y),
            right,
            back,
            ceiling,
            roof: raised(ceiling, roof.thickness),
            low: Length::mm(low),
            cut: Vec::new(),
        };
        let hole = across_rafters(roof, &pass).0;
        pass.cut = rafter_centers(params, roof);
        pass.cut
            .retain(|center| Span::about(*center, roof.rafter.breadth()).overlaps(hole));
        Some(pass)
    }
}

/// The hole across the rafters, counted as they are, and along them, as x or y.
pub(crate) fn across_rafters(roof: &Roof, pass: &RoofPass) -> (Span, Span) {
    match roof.rafters {
        Rafters::Out => (pass.right, pass.back),
        Rafters::Along => (Span::new(-pass.back.high, -pass.back.low), pass.right),
    }
}

/// Centers of the rafters over the room.
pub(crate) fn rafter_centers(params: &Params, roof: &Roof) -> Vec<Length> {
    let layout = (roof.first_rafter, roof.rafter_spacing);
    member_centers(params, roof.rafters, layout, roof.rafter.breadth())
}
