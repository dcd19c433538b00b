//! Bores through uprights: round holes for what crosses a stud square.
//!
//! In: the parts so far. Out: the sticks with their bores, each as wide as what passes it, rounded up to a mark of
//! the tape. What breaks out of an edge, goes through steel, or comes too near to another bore is not made; the
//! rules find it.
//!
//! A bore is a hole of the stick's own shape (`geom::Bore`). Convex pieces are of the filled stick: `overlap` takes the
//! bores off, and everything else errs to the side of wood that is there.

use glam::{DVec2, DVec3};

use super::builder::Builder;
use super::{Kind, Part, Stock};
use crate::geom::{Body, Bore, CenterLine, EndPlane, Frame, Shape, Swept, TOLERANCE, Tube, edges};
use crate::params::Params;
use crate::units::{Length, Rounding, TapeUnit};

/// Where something round passes straight through an upright with square sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Of the hole that it needs.
    pub diameter: Length,
    /// The upright's width across it.
    pub width: Length,
    /// From its middle to the nearer edge; below zero beyond it.
    pub from_edge: Length,
    /// From the upright's foot up to its middle.
    pub up: Length,
    /// Its middle, in the world.
    pub location: DVec3,
    /// The hole, in the upright's own frame.
    bore: Bore,
}

impl Crossing {
    /// How service and upright cross; `None` where they do not, or otherwise than straight through.
    pub fn of(service: &Part, upright: &Part, unit: TapeUnit) -> Option<Self> {
        if !is_service(service) || !is_upright(upright) {
            return None;
        }
        let (Shape::Tube(tube), Shape::Swept(swept)) = (&service.body.shape, &upright.body.shape)
        else {
            return None;
        };
        let steel = matches!(upright.stock, Stock::Steel(_));
        let (near, far) = box_of(swept, steel)?;
        let ends = ends(tube, &service.body.frame)?;
        let [start, end] = ends.map(|it| upright.body.frame.local_point(it));
        let way = (end - start).normalize_or_zero();
        let through = [way.x, way.y].map(|it| it.abs() > 1.0 - TOLERANCE);
        let height = start.z;
        let (passes, place, across, sides) = match through {
            [true, _] => (
                [start.x, end.x, near.x, far.x],
                start.y,
                [near.y, far.y],
                [near.x, far.x].map(|x| DVec3::new(x, start.y, height)),
            ),
            // through the flanges of a steel stud nothing passes
            [_, true] if !steel => (
                [start.y, end.y, near.y, far.y],
                start.x,
                [near.x, far.x],
                [near.y, far.y].map(|y| DVec3::new(start.x, y, height)),
            ),
            _ => return None,
        };
        let [a, b, front, back] = passes;
        let passes = a.min(b) <= front + TOLERANCE && a.max(b) >= back - TOLERANCE;
        let [low, high] = across;
        let diameter = Length::mm(tube.outer * 2.0).to_mark(unit, Rounding::Up);
        let radius = (diameter / 2.0).to_mm();
        let heights = |planes: &[EndPlane]| -> Vec<f64> {
            let corners = swept.profile.outline.iter();
            corners
                .flat_map(|it| planes.iter().map(|plane| plane.z(*it)))
                .collect()
        };
        let (bottom, top) = (heights(&swept.bottom), heights(&swept.top));
        let highest_bottom = bottom.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let lowest_top = top.iter().copied().fold(f64::INFINITY, f64::min);
        // a hole that touches an end would open into it
        let within = height - radius > highest_bottom + TOLERANCE
            && height + radius < lowest_top - TOLERANCE;
        let from_edge = (place - low).min(high - place);
        let meets = from_edge + tube.outer > TOLERANCE;
        let foot = bottom.iter().copied().fold(f64::INFINITY, f64::min);
        (passes && within && meets).then(|| Self {
            diameter,
            width: Length::mm(high - low),
            from_edge: Length::mm(from_edge),
            up: Length::mm(height - foot),
            location: upright.body.frame.point((sides[0] + sides[1]) / 2.0),
            bore: Bore {
                start: sides[0],
                end: sides[1],
                radius,
            },
        })
    }

    /// The hole, in the upright's own frame.
    pub const fn bore(&self) -> &Bore {
        &self.bore
    }

    /// What is left of the upright between the hole and the nearer edge; not above zero for a notch.
    pub fn wood_beside(&self) -> Length {
        self.from_edge - self.diameter / 2.0
    }
}

/// Every service with every upright that it crosses.
pub fn crossings(parts: &[Part], unit: TapeUnit) -> Vec<(&Part, &Part, Crossing)> {
    let mut found = Vec::new();
    for service in parts.iter().filter(|it| is_service(it)) {
        for upright in parts.iter().filter(|it| is_upright(it)) {
            if service.body.bounds.touches(&upright.body.bounds)
                && let Some(crossing) = Crossing::of(service, upright, unit)
            {
                found.push((service, upright, crossing));
            }
        }
    }
    found
}

/// Bores every upright of lumber that a service crosses.
pub(super) fn drill(params: &Params, builder: &mut Builder) {
    let mut bores: Vec<(String, Bore)> = Vec::new();
    for (_, upright, crossing) in crossings(&builder.parts, params.project.unit) {
        let is_whole =
            !matches!(upright.stock, Stock::Steel(_)) && crossing.wood_beside().is_positive();
        let reach = |it: &Bore| it.radius + crossing.bore.radius + TOLERANCE;
        let is_apart = bores
            .iter()
            .filter(|it| it.0 == upright.id)
            .all(|(_, it)| (it.start.z - crossing.bore.start.z).abs() > reach(it));
        if is_whole && is_apart {
            bores.push((upright.id.clone(), crossing.bore));
        }
    }
    for (id, bore) in bores {
        let part = builder.parts.iter_mut().find(|it| it.id == id);
        if let Some(part) = part
            && let Shape::Swept(swept) = &part.body.shape
        {
            let mut swept = swept.clone();
            swept.bores.push(bore);
            part.body = Body::new(swept, part.body.frame);
        }
    }
}

fn is_service(part: &Part) -> bool {
    matches!(part.kind, Kind::Cable | Kind::GasStub)
}

fn is_upright(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple | Kind::ExistingStud
    )
}

/// The box round a profile whose sides run along its axes; of lumber that is the profile itself.
fn box_of(swept: &Swept, steel: bool) -> Option<(DVec2, DVec2)> {
    let outline = &swept.profile.outline;
    let [first, ..] = outline.as_slice() else {
        return None;
    };
    let is_square = (steel || outline.len() == 4)
        && edges(outline)
            .all(|(a, b)| (a.x - b.x).abs() <= TOLERANCE || (a.y - b.y).abs() <= TOLERANCE);
    let near = outline.iter().fold(*first, |near, it| near.min(*it));
    let far = outline.iter().fold(*first, |far, it| far.max(*it));
    is_square.then_some((near, far))
}

/// Both ends of a straight tube.
fn ends(tube: &Tube, frame: &Frame) -> Option<[DVec3; 2]> {
    match tube.center_line {
        CenterLine::Segment { length } => Some([0.0, length].map(|at| frame.point(DVec3::Z * at))),
        CenterLine::Arc { .. } => None,
    }
}
