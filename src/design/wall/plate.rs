//! What a plate under a slope across its wall is cut from: a stick as it is sold, or a rip.
//!
//! A stick as sold keeps its square edges and leans with the ceiling. It is set so that no corner is proud of the
//! face that takes board; from there it covers less of the studs than its width, and its other edge is proud of their
//! backs by what it takes. A rip has plumb edges and covers the studs from face to face.

use glam::DVec2;

use super::Wall;
use super::steel::{top_track, track_name};
use crate::catalog::{FramingMember, Lumber, Material};
use crate::design::Stock;
use crate::geom::{EndPlane, Profile, TOLERANCE};
use crate::units::Length;

/// A square-edged stick under a slope across it: its corners in the plate's section, the lower ones first.
struct Leaning {
    low: [DVec2; 2],
    high: [DVec2; 2],
}

impl Leaning {
    /// Under a line that rises by `tilt` for each step inward from `down`, no corner in front of the face.
    fn under(lumber: &Lumber, tilt: f64, down: f64) -> Self {
        let along = DVec2::new(1.0, tilt).normalize();
        let through = along.perp() * lumber.thickness.to_mm();
        // the corner of the edge at the face that stands out farther is flush with it: the upper one where the
        // plate rises inward, else the lower one
        let at = if tilt > 0.0 { 0.0 } else { through.x };
        let corner = DVec2::new(at, down + tilt * at);
        let across = along * lumber.width.to_mm();
        Self {
            low: [corner - through, corner - through + across],
            high: [corner, corner + across],
        }
    }

    /// How much of studs so deep it covers.
    fn cover(&self, depth: f64) -> f64 {
        let [near, far] = self.low.map(|it| it.x);
        far.min(depth) - near.max(0.0)
    }

    /// How far it reaches inward.
    fn reaches(&self) -> f64 {
        self.low[1].x.max(self.high[1].x)
    }
}

impl Wall<'_> {
    /// How a plane falls across a plate that runs along it.
    pub(super) fn tilt(plane: &EndPlane) -> f64 {
        plane.slope.y / (1.0 + plane.slope.x * plane.slope.x).sqrt()
    }

    /// The stick with square edges that lies so under a slope; `None` where the plate is ripped.
    fn leaning(&self, tilt: f64, down: f64) -> Option<Leaning> {
        let lumber = self.stud.wood()?;
        let bevel = lumber.thickness.to_mm() * tilt.abs();
        let stick = Leaning::under(lumber, tilt, down);
        let covers =
            stick.cover(self.depth().to_mm()) >= self.edges.least_cover.to_mm() - TOLERANCE;
        (covers && bevel < self.edges.below.to_mm()).then_some(stick)
    }

    /// How far its plates stand past the studs at the back.
    pub(in crate::design) fn plates_stand_past(&self) -> Length {
        let depth = self.depth().to_mm();
        let sticks = self.top.planes().iter();
        let sticks = sticks.filter_map(|it| self.leaning(Self::tilt(it), 0.0));
        let past = sticks.map(|it| it.reaches() - depth);
        Length::mm(past.fold(0.0, f64::max))
    }

    /// What a plate under a plane that rises so much across the wall is cut from, and its section; it is so thick,
    /// plumb, and its upper side lies so far from the plane.
    pub(super) fn plate_section(
        &self,
        tilt: f64,
        (thickness, down): (f64, f64),
    ) -> (Material, Stock, Profile) {
        match self.stud {
            FramingMember::Wood(lumber) => {
                let name = lumber.name.clone();
                let (stock, profile) = if tilt.abs() <= TOLERANCE {
                    (Stock::Stick(name), self.ripped(0.0, (thickness, down)))
                } else if let Some(stick) = self.leaning(tilt, down) {
                    let [near, far] = stick.low;
                    let [high_near, high_far] = stick.high;
                    let corners = vec![near, far, high_far, high_near];
                    (Stock::Stick(name), Profile::polygon(corners))
                } else {
                    (Stock::Rip(name), self.ripped(tilt, (thickness, down)))
                };
                (Material::LUMBER, stock, profile)
            }
            FramingMember::Steel(steel) => {
                let stock = Stock::Steel(track_name(steel));
                (Material::STEEL, stock, top_track(steel, tilt))
            }
        }
    }

    /// A parallelogram with plumb edges that covers the studs from face to face and is proud of neither.
    fn ripped(&self, tilt: f64, (thickness, down): (f64, f64)) -> Profile {
        let width = self.depth().to_mm();
        let corners = [
            (0.0, down - thickness),
            (width, down - thickness + tilt * width),
            (width, down + tilt * width),
            (0.0, down),
        ];
        Profile::polygon(corners.map(DVec2::from).to_vec())
    }
}
