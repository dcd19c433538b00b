//! The bays between the uprights of a wall, in which blocks stand.
//!
//! In: a band of a wall and its sticks. Out: the room between neighboring uprights, whose sides may lean.

use glam::DVec3;

use super::super::{Kind, Part};
use super::band::{Band, LEAST_BAY};
use crate::geom::{Frame, Shape, TOLERANCE};
use crate::units::{Length, Span};

/// The side of an upright, as it lies at the face and at the depth of a block; it may lean.
#[derive(Clone, Copy)]
pub(super) struct Edge {
    pub(super) face: Length,
    pub(super) back: Length,
}

/// The room between the sides of two uprights.
pub(super) struct Bay {
    pub(super) low: Edge,
    pub(super) high: Edge,
}

/// An upright right behind a face: from where it stands to where it is whole, and its two sides.
pub(super) struct Upright {
    low: Length,
    top: Length,
    sides: [Edge; 2],
}

/// The uprights right behind a band's face, from left to right, down to a depth.
pub(super) fn uprights(band: &Band, depth: Length, parts: &[Part]) -> Vec<Upright> {
    let mut uprights: Vec<Upright> = parts
        .iter()
        .filter(|part| is_upright(part) && part.branch == band.wall)
        .filter_map(|part| {
            Some(Upright {
                low: Length::mm(part.body.bounds.low.z),
                top: lowest_top(part),
                sides: sides(part, &band.frame, depth)?,
            })
        })
        .collect();
    let left = |it: &Upright| it.sides[0].face.to_mm();
    uprights.sort_by(|a, b| left(a).total_cmp(&left(b)));
    uprights
}

/// The open bays between uprights that stand over the whole of these heights.
pub(super) fn bays(uprights: &[Upright], heights: Span) -> Vec<Bay> {
    let standing = uprights.iter().filter(|it| {
        !(it.low - heights.low).is_positive() && !(heights.high - it.top).is_positive()
    });
    let mut bays = Vec::new();
    let mut covered: Option<Edge> = None;
    for [left, right] in standing.map(|it| it.sides) {
        if let Some(low) = covered {
            let narrowest = (left.face - low.face).min(left.back - low.back);
            if (narrowest - LEAST_BAY).is_positive() {
                bays.push(Bay { low, high: left });
            }
        }
        covered = Some(covered.map_or(right, |it| Edge {
            face: it.face.max(right.face),
            back: it.back.max(right.back),
        }));
    }
    bays
}

/// The left and the right side of an upright that stands right behind a face; `None` for any other.
fn sides(part: &Part, frame: &Frame, depth: Length) -> Option<[Edge; 2]> {
    let at_face = section(part, frame, Length::ZERO)?;
    let at_back = section(part, frame, depth).unwrap_or(at_face);
    Some([
        Edge {
            face: at_face.low,
            back: at_back.low,
        },
        Edge {
            face: at_face.high,
            back: at_back.high,
        },
    ])
}

pub(super) fn is_upright(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::Stud
            | Kind::King
            | Kind::Jack
            | Kind::Cripple
            | Kind::RecessFraming
            | Kind::ExistingStud
    )
}

/// From where to where along a wall a stick reaches at a depth behind the face; `None` where it lies
/// before or behind that depth.
///
/// An upright is seen by its outline, which may lean; anything else by the box round it.
pub fn section(part: &Part, frame: &Frame, depth: Length) -> Option<Span> {
    match &part.body.shape {
        Shape::Swept(swept) if part.body.frame.z.z > 1.0 - TOLERANCE => {
            let outline = swept.profile.outline.iter();
            let placed = outline.map(|it| part.body.frame.point(it.extend(0.0)));
            crossed(placed.map(|it| frame.local_point(it)), depth.to_mm())
        }
        Shape::Swept(_) | Shape::Tube(_) => {
            let bounds = &part.body.bounds;
            let [a, b] = [bounds.low, bounds.high].map(|it| frame.local_point(it));
            let (low, high) = (a.min(b), a.max(b));
            let corners = [low, high.with_y(low.y), high, low.with_y(high.y)];
            crossed(corners.into_iter(), depth.to_mm())
        }
    }
}

/// From where to where along x a closed run of corners meets the line at this y.
fn crossed(corners: impl Iterator<Item = DVec3> + Clone, depth: f64) -> Option<Span> {
    let mut found: Option<(f64, f64)> = None;
    let mut meet = |x: f64| {
        let (low, high) = found.unwrap_or((x, x));
        found = Some((low.min(x), high.max(x)));
    };
    let next = corners.clone().skip(1).chain(corners.clone().take(1));
    for (a, b) in corners.zip(next) {
        if (a.y - depth).abs() <= TOLERANCE {
            meet(a.x);
        } else if (a.y - depth) * (b.y - depth) < 0.0 {
            meet(a.x + (b.x - a.x) * (depth - a.y) / (b.y - a.y));
        }
    }
    found.map(|(low, high)| Span::new(Length::mm(low), Length::mm(high)))
}

/// The lowest point of an upright's top.
fn lowest_top(part: &Part) -> Length {
    let Shape::Swept(swept) = &part.body.shape else {
        return Length::mm(part.body.bounds.high.z);
    };
    let tops = swept
        .profile
        .outline
        .iter()
        .flat_map(|corner| swept.top.iter().map(|plane| plane.z(*corner)));
    Length::mm(part.body.frame.origin.z + tops.fold(f64::INFINITY, f64::min))
}
