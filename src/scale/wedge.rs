//! Design in, the wedge of the ceiling over the chase out: its underside lies on the walls and has the ceiling's
//! slope, its top is level.
//!
//! *Units and frame*: millimetres at full size, in the world's frame.

use glam::DVec2;

use super::Settings;
use super::figure::{Figure, around};
use crate::design::{Design, Group};
use crate::geom::{Body, Bounds, EndPlane, Frame, Profile, Shape, Swept, TOLERANCE};

/// The wedge's bodies, one for each plane of the ceiling, where one slopes over the chase.
pub(super) fn wedge(design: &Design, figures: &[Figure<'_>], settings: &Settings) -> Vec<Body> {
    let framing = figures.iter().filter(|it| it.part.group == Group::Framing);
    let boxes = framing.map(|it| around(&it.mesh));
    // what stands in the room; the wall pass lies in the wall
    let inside = boxes.filter(|it| it.low.y < -TOLERANCE);
    let bounds = inside.fold(Bounds::EMPTY, |all, it| all.union(&it));
    if bounds.is_empty() {
        return Vec::new();
    }
    let (low, high) = (bounds.low, bounds.high);
    let plan = [
        DVec2::new(low.x, low.y),
        DVec2::new(high.x, low.y),
        DVec2::new(high.x, high.y),
        DVec2::new(low.x, high.y),
    ];
    let ceiling = &design.layout.ceiling_behind;
    let over = ceiling.over(&plan);
    let planes = ceiling.planes();
    let heights = over
        .iter()
        .flat_map(|(at, part)| part.iter().map(|it| planes[*at].z(*it)));
    let top = heights.fold(f64::NEG_INFINITY, f64::max);
    let slopes = over.iter().map(|(at, _)| planes[*at].slope);
    if slopes.fold(0.0, |most, it| it.abs().max_element().max(most)) <= TOLERANCE {
        return Vec::new();
    }
    let thick = 2.0 * settings.least().to_mm() * f64::from(settings.ratio);
    let gap = design.params.ceiling.gap.to_mm();
    let parts = over.into_iter().map(|(at, part)| {
        let plane = planes[at];
        let shape = Swept {
            profile: Profile::polygon(part),
            bottom: vec![EndPlane {
                height: plane.height - gap,
                ..plane
            }],
            top: vec![EndPlane {
                height: top + thick,
                slope: DVec2::ZERO,
            }],
            bores: Vec::new(),
        };
        Body::new(Shape::Swept(shape), Frame::WORLD)
    });
    parts.collect()
}
