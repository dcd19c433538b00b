//! A design in, the margin of every clearance volume out: of the worst part, and of every part that
//! comes within two inches.
//!
//! The margin is the signed gap from a part to the volume's true shape: the least distance when they
//! are apart, 0 when they touch, and minus the smallest move along the volume's own directions when
//! the part is inside. What is measured is the number of the direction that governs, and the margin.
//! The direction that governs is, inside, that of the smallest move; apart, the one nearest to the
//! way from the volume to the part. A part that lies on a side where the volume has no way out, such
//! as the platform under the unit's side, may come as near as it likes: it does not face the number.

use glam::DVec3;

use crate::design::{Bars, Clearance, Design, Group, Part, Reach};
use crate::geom::{Body, Direction, Nearest, Shape, TOLERANCE, exit, nearest, overlap};
use crate::units::Length;

/// Parts that come nearer than this to a volume are always reported.
const NEAR: Length = Length::inches(2.0);

/// How far a part is from a clearance volume that it has to keep out of.
#[derive(Debug, Clone, PartialEq)]
pub struct Margin {
    /// Id of the clearance volume.
    pub clearance: String,
    /// Id of the part.
    pub part: String,
    /// What is left; below zero the part is inside.
    pub margin: Length,
    /// Whether the part is inside, or lies where the number counts: beyond the volume in the
    /// direction that governs, and, for a tube's own direction, not past one of the tube's ends.
    pub faces: bool,
    /// The number of the direction that governs.
    pub required: Length,
    /// The number and the margin.
    pub measured: Length,
    /// Where the number stands.
    pub source: String,
    /// The key of the parameter that holds it.
    pub key: &'static str,
    /// The part's nearest point, or, inside, the middle of the box that both have in common.
    pub location: DVec3,
}

/// The margins of every clearance volume, in the order of the design; of each volume the worst
/// first.
pub fn clearances(design: &Design) -> Vec<Margin> {
    let of_volume = |clearance| margins(clearance, &design.parts);
    design.clearances.iter().flat_map(of_volume).collect()
}

fn margins(clearance: &Clearance, parts: &[Part]) -> Vec<Margin> {
    let barred = parts.iter().filter(|part| bars(clearance, part));
    let box_gap = |part: &Part| clearance.body.bounds.gap(&part.body.bounds);
    let mut order: Vec<(f64, &Part)> = barred.map(|part| (box_gap(part), part)).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.id.cmp(&b.1.id)));
    let mut found: Vec<Margin> = Vec::new();
    let mut worst = Length::mm(f64::INFINITY);
    for (least, part) in order {
        if (Length::mm(least) - worst.max(NEAR)).is_positive() {
            break;
        }
        if let Some(margin) = margin(clearance, part) {
            if margin.faces {
                worst = worst.min(margin.margin);
            }
            found.push(margin);
        }
    }
    found.sort_by(|a, b| {
        let margins = a.margin.to_mm().total_cmp(&b.margin.to_mm());
        margins.then_with(|| a.part.cmp(&b.part))
    });
    let mut faced = false;
    found.retain(|margin| {
        let first = margin.faces && !faced;
        faced |= margin.faces;
        first || !(margin.margin - NEAR).is_positive()
    });
    found
}

/// Whether a volume keeps a part out.
fn bars(clearance: &Clearance, part: &Part) -> bool {
    let own = clearance.belongs_to.iter().any(|entry| {
        let rest = part.id.strip_prefix(entry.as_str());
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    });
    let barred = match clearance.bars {
        Bars::Everything => true,
        Bars::Combustible => part.material.combustible,
        Bars::CombustibleSkins => part.material.combustible && part.group == Group::Skins,
    };
    barred && !own
}

/// The margin of one part; `None` for a volume without directions. A part of several convex pieces,
/// such as a sheet with a hole round the volume, may face it with one piece and not with another.
fn margin(clearance: &Clearance, part: &Part) -> Option<Margin> {
    let whole = margin_of(clearance, &part.body, &part.id)?;
    if whole.margin < Length::ZERO || part.body.pieces.len() < 2 {
        return Some(whole);
    }
    let facing = part.body.pieces.iter().filter_map(|piece| {
        let body = Body {
            bounds: piece.bounds,
            pieces: vec![piece.clone()],
            ..part.body.clone()
        };
        margin_of(clearance, &body, &part.id).filter(|it| it.faces)
    });
    let nearest = facing.min_by(|a, b| a.margin.to_mm().total_cmp(&b.margin.to_mm()));
    Some(nearest.unwrap_or(whole))
}

fn margin_of(clearance: &Clearance, body: &Body, id: &str) -> Option<Margin> {
    let apart = nearest(&clearance.body, body);
    let (reach, margin, location) = if apart.distance > 0.0 {
        let reach = best(&clearance.reaches, |reach| agreement(reach, &apart))?;
        (reach, apart.distance, apart.on_second)
    } else {
        let (reach, margin) = inside_or_touching(clearance, body)?;
        let shared = clearance.body.bounds.common(&body.bounds);
        (reach, margin, shared.center())
    };
    let faces = margin < 0.0 || separation(reach, clearance, body) >= -TOLERANCE;
    let margin = Length::mm(margin);
    Some(Margin {
        clearance: clearance.id.clone(),
        part: id.to_owned(),
        margin,
        faces,
        required: reach.required,
        measured: reach.required + margin,
        source: reach.source.clone(),
        key: reach.key,
        location,
    })
}

/// The reach with the highest score, the first of equals.
fn best(reaches: &[Reach], score: impl Fn(&Reach) -> f64) -> Option<&Reach> {
    let mut reaches = reaches.iter();
    let first = reaches.next()?;
    let start = (first, score(first));
    let pick = reaches.fold(start, |kept, reach| {
        let score = score(reach);
        if score > kept.1 { (reach, score) } else { kept }
    });
    Some(pick.0)
}

/// How well a direction agrees with the way from the volume to a part that is apart from it.
fn agreement(reach: &Reach, apart: &Nearest) -> f64 {
    match reach.direction {
        Direction::Along(way) => way.dot(apart.on_second - apart.on_first) / apart.distance,
        Direction::Radial => 1.0,
    }
}

/// The governing direction and the margin of a part that touches the volume or is inside.
fn inside_or_touching<'a>(clearance: &'a Clearance, body: &Body) -> Option<(&'a Reach, f64)> {
    if overlap(body, &clearance.body).is_none() {
        return Some((
            best(&clearance.reaches, |reach| {
                separation(reach, clearance, body)
            })?,
            0.0,
        ));
    }
    let way_out = |reach: &Reach| exit(body, &clearance.body, &[reach.direction]);
    let reach = best(&clearance.reaches, |reach| -way_out(reach))?;
    Some((reach, -way_out(reach)))
}

/// How far the part as a whole lies beyond the volume in a direction, in millimetres; below zero it
/// reaches back. For a tube's own direction: 0 beside the tube, below zero past one of its ends.
fn separation(reach: &Reach, clearance: &Clearance, body: &Body) -> f64 {
    let near = |way: DVec3| way.dot(body.farthest(-way));
    match (reach.direction, &clearance.body.shape) {
        (Direction::Along(way), _) => near(way) - way.dot(clearance.body.farthest(way)),
        (Direction::Radial, Shape::Swept(_)) => 0.0,
        (Direction::Radial, Shape::Tube(tube)) => {
            let past = [(0.0, -1.0), (1.0, 1.0)].map(|(end, sign)| {
                let (center, along) = tube.center_line.at(end);
                let out = clearance.body.frame.vector(along * sign);
                near(out) - out.dot(clearance.body.frame.point(center))
            });
            let past = past[0].max(past[1]);
            if past >= -TOLERANCE {
                -past.max(2.0 * TOLERANCE)
            } else {
                0.0
            }
        }
    }
}
