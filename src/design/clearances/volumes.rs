//! Where clearance volumes are put, and what several of them are made of.

use glam::{DVec2, DVec3};

use crate::design::builder::{Builder, has_body};
use crate::design::{Bars, Branch, Clearance, ClearanceKind, Own, Reach};
use crate::geom::{Body, Direction, TOLERANCE};
use crate::params::Manual;
use crate::units::Length;

pub(super) struct Volumes<'a> {
    pub(super) builder: &'a mut Builder,
}

pub(super) fn reach(direction: Direction, number: &Manual<Length>, key: &'static str) -> Reach {
    Reach {
        direction,
        required: number.value,
        source: format!("manual p. {}", number.page),
        key,
    }
}

pub(super) fn along(direction: DVec3) -> Direction {
    Direction::Along(direction)
}

/// The convex outline round points, counter-clockwise; points on it that do not turn are left out.
pub(super) fn hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let chain = |points: &mut dyn Iterator<Item = &DVec2>| {
        let mut kept: Vec<DVec2> = Vec::new();
        for point in points {
            while let [.., before, last] = kept.as_slice()
                && (*last - *before).perp_dot(*point - *last) <= TOLERANCE
            {
                kept.pop();
            }
            kept.push(*point);
        }
        kept.pop();
        kept
    };
    let mut outline = chain(&mut points.iter());
    outline.extend(chain(&mut points.iter().rev()));
    outline
}

/// What no clearance is held against: the unit and the vent themselves.
const OWN: [Own; 2] = [Own::All(Branch::Unit), Own::All(Branch::Vent)];

impl Volumes<'_> {
    pub(super) fn add(
        &mut self,
        name: &str,
        kind: ClearanceKind,
        body: Body,
        reaches: Vec<Reach>,
        (bars, datum): (Bars, &'static str),
    ) {
        let id = format!("clearance/{name}");
        if has_body(&body.shape) {
            self.builder.clearances.push(Clearance {
                id,
                kind,
                body,
                reaches,
                belongs_to: OWN.to_vec(),
                bars,
                datum,
            });
        } else if reaches.iter().all(|it| it.required.is_positive()) {
            // a number of zero asks for no volume; anything else must not pass unseen
            self.builder
                .leave_out(id, "the clearance volume would have no body");
        }
    }
}
