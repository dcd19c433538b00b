//! Ends cut square where the saw's tolerance allows it.
//!
//! In: a stick as it would fit. Out: the stick as it is cut. Each of an end's two angles counts for itself, the miter
//! over the wide face and the bevel through the thickness: one that rises less than the tolerance across the stick is
//! left out. The length never is: the end is cut where the stick is shortest, so what is cut lies wholly within what
//! would fit, and the wedge between the two is shimmed. An end of two planes, under a ridge, is cut as it stands.

use glam::{DVec2, DVec3};

use crate::geom::{EndPlane, Frame, Profile, Swept, TOLERANCE, edges};
use crate::units::Length;

/// What a square cut leaves between a stick and what it stands against.
#[derive(Debug, Clone, PartialEq)]
pub struct Wedge {
    /// Out of the stick, at that end.
    pub end: DVec3,
    /// Where it is thickest: to one side of the stick, or to two.
    pub thick_at: Vec<DVec3>,
    /// How thick it is there, along the stick.
    pub thickness: Length,
    /// Which angle the end is still cut at.
    pub left: Left,
}

/// The angle that an end keeps beside one that is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Left {
    /// None: the end is square.
    Nothing,
    /// The one over the wide face.
    Miter,
    /// The one through the thickness.
    Bevel,
}

/// A slope below this is none.
const NO_SLOPE: f64 = 1e-9;

/// Leaves out what the tolerance allows, and says what that is at the bottom and at the top.
pub(super) fn squared(swept: &mut Swept, tolerance: Length) -> [DVec2; 2] {
    let profile = &swept.profile;
    let cut = |planes: &mut Vec<EndPlane>, outward: f64| match planes.as_mut_slice() {
        [plane] => {
            let left_out = negligible(profile, plane.slope, tolerance.to_mm());
            tilt(plane, -left_out, profile, outward);
            left_out
        }
        _ => DVec2::ZERO,
    };
    [cut(&mut swept.bottom, -1.0), cut(&mut swept.top, 1.0)]
}

/// A stick with the wedges that were left out.
pub(super) fn filled(swept: &Swept, left_out: [DVec2; 2]) -> Swept {
    let mut filled = swept.clone();
    let ends = [(&mut filled.bottom, -1.0), (&mut filled.top, 1.0)];
    for ((planes, outward), slope) in ends.into_iter().zip(left_out) {
        if let [plane] = planes.as_mut_slice() {
            // it touches the cut where that is shortest
            plane.height -= outward * range(&swept.profile, slope * outward).0;
            plane.slope += slope;
        }
    }
    filled
}

/// The wedges that were left out, in the world.
pub(super) fn wedges(swept: &Swept, left_out: [DVec2; 2], frame: &Frame) -> Vec<Wedge> {
    let ends = left_out.into_iter().zip([-1.0, 1.0]);
    let there = ends.filter(|(slope, _)| *slope != DVec2::ZERO);
    there
        .map(|(slope, outward)| {
            let (low, high) = range(&swept.profile, slope);
            let sides = axes(&swept.profile).map(|axis| axis * slope.dot(axis) * outward);
            let thick = sides.into_iter().filter(|it| it.length() > f64::EPSILON);
            Wedge {
                end: frame.z * outward,
                thick_at: thick
                    .map(|it| frame.vector(it.normalize().extend(0.0)))
                    .collect(),
                thickness: Length::mm(high - low),
                left: left(swept, outward),
            }
        })
        .collect()
}

/// The angle that an end is still cut at, beside one that is left out.
fn left(swept: &Swept, outward: f64) -> Left {
    let planes = if outward > 0.0 {
        &swept.top
    } else {
        &swept.bottom
    };
    let slopes = axes(&swept.profile).map(|axis| {
        let rises = planes.iter().map(|it| it.slope.dot(axis).abs());
        rises.fold(0.0, f64::max)
    });
    match slopes.map(|it| it > NO_SLOPE) {
        [true, _] => Left::Miter,
        [_, true] => Left::Bevel,
        _ => Left::Nothing,
    }
}

/// Turns an end's plane, and keeps it within where it was.
fn tilt(plane: &mut EndPlane, by: DVec2, profile: &Profile, outward: f64) {
    plane.height -= outward * range(profile, by * outward).1;
    plane.slope += by;
}

/// The part of a slope that rises less than a tolerance across the profile, each way for itself.
fn negligible(profile: &Profile, slope: DVec2, tolerance: f64) -> DVec2 {
    let small = axes(profile).into_iter().filter_map(|axis| {
        let part = axis * slope.dot(axis);
        let (low, high) = range(profile, part);
        (high - low > TOLERANCE && high - low < tolerance).then_some(part)
    });
    small.sum()
}

/// Across the wide face of a stick, and through its thickness.
fn axes(profile: &Profile) -> [DVec2; 2] {
    let sides = edges(&profile.outline).map(|(a, b)| b - a);
    let longest = sides.max_by(|a, b| a.length().total_cmp(&b.length()));
    let across = longest.unwrap_or(DVec2::X).normalize_or(DVec2::X);
    [across, across.perp()]
}

/// From where to where a slope rises over the profile, from its origin.
fn range(profile: &Profile, slope: DVec2) -> (f64, f64) {
    let heights = profile.outline.iter().map(|corner| slope.dot(*corner));
    heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
        (low.min(it), high.max(it))
    })
}
