//! A design in, the margin of every clearance volume out: of the worst part, and of every part that
//! comes within two inches.
//!
//! The margin is the signed gap from a part to the volume's true shape: the least distance when they
//! are apart, 0 when they touch, and minus the smallest move along the volume's own directions when
//! the part is inside. What is measured is the number of the direction that governs, and the margin.
//! The direction that governs is, inside, that of the smallest move; apart, the one nearest to the
//! way from the volume to the part. A part that lies on a side where the volume has no way out, such
//! as the platform under the unit's side, may come as near as it likes: it does not face the number.
//!
//! The elbow's volume is a bent tube; where the clearance is larger than the bend's radius, so that the tube would run into
//! itself, it is the box round it. A part that is apart faces a number where its nearest point lies beyond the volume's
//! face, however far the rest of it reaches back, as a wall across a corner does.

use glam::DVec3;

use crate::design::{Bars, Clearance, Design, Group, Part, Reach};
use crate::geom::{Body, Direction, Nearest, Shape, TOLERANCE, exit, nearest_within, overlaps};
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
    /// Whether the part is inside, or lies where the number counts: with its nearest point beyond the volume
    /// in the direction that governs, and, for a tube's own direction, not past one of the tube's ends.
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

/// What is found before anything is written about it: most of it is dropped again.
struct Measured<'a> {
    part: &'a Part,
    reach: &'a Reach,
    margin: Length,
    faces: bool,
    location: DVec3,
}

fn margins<'a>(clearance: &'a Clearance, parts: &'a [Part]) -> Vec<Margin> {
    let barred = parts.iter().filter(|part| bars(clearance, part));
    let box_gap = |part: &Part| clearance.body.bounds.gap(&part.body.bounds);
    let mut order: Vec<(f64, &Part)> = barred.map(|part| (box_gap(part), part)).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.id.cmp(&b.1.id)));
    let mut found: Vec<Measured<'_>> = Vec::new();
    let mut worst = Length::mm(f64::INFINITY);
    for (least, part) in order {
        if (Length::mm(least) - worst.max(NEAR)).is_positive() {
            break;
        }
        // a hair more, so that parts at one distance are told apart by their ids only
        let limit = worst.max(NEAR) + Length::mm(1.0);
        if let Some(margin) = margin(clearance, part, limit) {
            if margin.faces {
                worst = worst.min(margin.margin);
            }
            found.push(margin);
        }
    }
    found.sort_by(|a, b| {
        let margins = a.margin.to_mm().total_cmp(&b.margin.to_mm());
        margins.then_with(|| a.part.id.cmp(&b.part.id))
    });
    let mut faced = false;
    found.retain(|margin| {
        let first = margin.faces && !faced;
        faced |= margin.faces;
        first || !(margin.margin - NEAR).is_positive()
    });
    let written = |it: Measured<'_>| Margin {
        clearance: clearance.id.clone(),
        part: it.part.id.clone(),
        margin: it.margin,
        faces: it.faces,
        required: it.reach.required,
        measured: it.reach.required + it.margin,
        source: it.reach.source.clone(),
        key: it.reach.key,
        location: it.location,
    };
    found.into_iter().map(written).collect()
}

/// Whether a volume keeps a part out.
fn bars(clearance: &Clearance, part: &Part) -> bool {
    let barred = match clearance.bars {
        Bars::Everything => true,
        Bars::Combustible => part.material.combustible,
        Bars::CombustibleSkins => part.material.combustible && part.group == Group::Skins,
    };
    barred && !clearance.belongs_to.iter().any(|it| it.holds(part))
}

/// The margin of one part; `None` when it is not below the limit, and for a volume without directions. A part of several convex pieces,
/// such as a sheet with a hole round the volume, may face it with one piece and not with another.
fn margin<'a>(clearance: &'a Clearance, part: &'a Part, limit: Length) -> Option<Measured<'a>> {
    let whole = margin_of(clearance, part, &part.body, limit)?;
    if whole.margin < Length::ZERO || part.body.pieces.len() < 2 {
        return Some(whole);
    }
    let gap = |at: &usize| clearance.body.bounds.gap(&part.body.pieces[*at].bounds);
    let mut nearer: Vec<(f64, usize)> = (0..part.body.pieces.len())
        .map(|at| (gap(&at), at))
        .collect();
    nearer.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut kept: Option<(usize, Measured<'_>)> = None;
    for (least, at) in nearer {
        // no piece from here on is nearer than the one that was found
        if kept
            .as_ref()
            .is_some_and(|it| least > it.1.margin.to_mm() + TOLERANCE)
        {
            break;
        }
        let piece = &part.body.pieces[at];
        let body = Body {
            shape: part.body.shape.clone(),
            frame: part.body.frame,
            bounds: piece.bounds,
            pieces: vec![piece.clone()],
        };
        if let Some(found) = margin_of(clearance, part, &body, limit).filter(|it| it.faces)
            && kept.as_ref().is_none_or(|(before, it)| {
                let margins = found.margin.to_mm().total_cmp(&it.margin.to_mm());
                margins.then(at.cmp(before)).is_lt()
            })
        {
            kept = Some((at, found));
        }
    }
    Some(kept.map_or(whole, |it| it.1))
}

fn margin_of<'a>(
    clearance: &'a Clearance,
    part: &'a Part,
    body: &Body,
    limit: Length,
) -> Option<Measured<'a>> {
    let apart = nearest_within(&clearance.body, body, limit.to_mm());
    if apart.distance.is_infinite() {
        return None;
    }
    // the way between two that are a last bit apart points anywhere
    let is_apart = apart.distance > TOLERANCE;
    let (reach, margin, location) = if is_apart {
        let reach = best(&clearance.reaches, |reach| agreement(reach, &apart))?;
        (reach, apart.distance, apart.on_second)
    } else {
        let (reach, margin) = inside_or_touching(clearance, body)?;
        let shared = clearance.body.bounds.common(&body.bounds);
        (reach, margin, shared.center())
    };
    let faces = margin < 0.0
        || separation(reach, clearance, body) >= -TOLERANCE
        || (is_apart && is_beyond(reach, &apart));
    Some(Measured {
        part,
        reach,
        margin: Length::mm(margin),
        faces,
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

/// Whether a part that is apart from the volume comes nearest to it beyond its face in a direction, more so than past
/// one of its ends, however far the rest of the part reaches back: a wall that runs across a corner does.
fn is_beyond(reach: &Reach, apart: &Nearest) -> bool {
    matches!(reach.direction, Direction::Along(_)) && agreement(reach, apart) > 0.5
}

/// The governing direction and the margin of a part that touches the volume or is inside.
fn inside_or_touching<'a>(clearance: &'a Clearance, body: &Body) -> Option<(&'a Reach, f64)> {
    if !overlaps(body, &clearance.body) {
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
