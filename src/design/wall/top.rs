//! What a wall ends under: one plane, or several that meet over it, each with plates of its own.
//!
//! Plates meet plumb under a ridge (their section: `plate.rs`), and a stick of the wall stands under the joint.

use glam::{DVec2, DVec3};

use super::super::Kind;
use super::joints::{SHORTEST_PIECE, joints_away_from};
use super::{Cover, Hole, Reach, Wall, kind_of};
use crate::catalog::FramingMember;
use crate::geom::{EndPlane, Frame, Swept, TOLERANCE, Underside};
use crate::units::{Length, Span};

/// A stretch of a wall under one plane.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    plane: EndPlane,
    /// Its left and its right end, plumb.
    ends: [Seam; 2],
}

/// A plumb plane across a wall.
#[derive(Debug, Clone, Copy)]
struct Seam {
    /// Where it crosses the wall's face.
    u: f64,
    /// How far it runs to the right for each step inward: 0 is square.
    skew: f64,
}

/// The top of a wall of this length and these studs: the planes of the underside where they meet
/// across the wall; one plane under them where they meet lengthwise in it, or so near an end that no
/// stud stands under the shorter plate.
pub(super) fn over_wall(
    underside: &Underside,
    (length, skew): (Length, [f64; 2]),
    stud: &FramingMember,
) -> Underside {
    let (length, depth) = (length.to_mm(), stud.depth().to_mm());
    let mut whole = area(0.0, length, depth);
    whole[2].x += skew[1] * depth;
    whole[3].x += skew[0] * depth;
    let planes = underside.planes_over(&whole);
    if planes.len() < 2 {
        return Underside::new(planes);
    }
    let meeting = Underside::new(planes);
    let shortest = stud.breadth().to_mm();
    // where a stud fits before both ends, which may come in behind
    let fits = |deep: f64, u: f64| {
        let low = shortest + (skew[0] * deep).max(0.0);
        let high = length - shortest + (skew[1] * deep).min(0.0);
        (low..=high).contains(&u)
    };
    let across = stretches(&meeting, length, depth).is_some_and(|found| {
        let mut seams = found.iter().skip(1).map(|it| it.ends[0]);
        seams.all(|it| fits(0.0, it.u) && fits(depth, it.u + it.skew * depth))
            && found.iter().all(|it| it.is_long_enough(shortest, depth))
    });
    if across {
        meeting
    } else {
        let mut plane = underside.plane_under(length, depth);
        // ends that are not square reach past the rectangle
        let over = whole.iter().map(|it| plane.z(*it) - underside.z(*it));
        plane.height -= over.fold(0.0, f64::max);
        Underside::new(vec![plane])
    }
}

/// A rectangle of the wall's plan.
fn area(from: f64, to: f64, depth: f64) -> [DVec2; 4] {
    [
        DVec2::new(from, 0.0),
        DVec2::new(to, 0.0),
        DVec2::new(to, depth),
        DVec2::new(from, depth),
    ]
}

/// The stretches of a wall from the left; `None` where planes meet lengthwise.
fn stretches(top: &Underside, length: f64, depth: f64) -> Option<Vec<Stretch>> {
    let mut parts = top.over(&area(0.0, length, depth));
    let begins = |part: &[DVec2]| part.iter().map(|it| it.x).fold(f64::INFINITY, f64::min);
    parts.sort_by(|a, b| begins(&a.1).total_cmp(&begins(&b.1)));
    let planes = parts.iter().map(|(at, _)| top.planes()[*at]);
    let planes: Vec<EndPlane> = planes.collect();
    let square = |u: f64| Seam { u, skew: 0.0 };
    let mut seams = vec![square(0.0)];
    for pair in planes.windows(2) {
        seams.push(Seam::between(&pair[0], &pair[1])?);
    }
    seams.push(square(length));
    let ends = seams.windows(2).map(|pair| [pair[0], pair[1]]);
    let both = planes.into_iter().zip(ends);
    Some(both.map(|(plane, ends)| Stretch { plane, ends }).collect())
}

impl Stretch {
    /// From its first to its last point along the wall.
    fn reach(&self, depth: f64) -> Span {
        let [left, right] = self.ends;
        Span::new(
            Length::mm(left.u.min(left.u + left.skew * depth)),
            Length::mm(right.u.max(right.u + right.skew * depth)),
        )
    }

    fn is_long_enough(&self, least: f64, depth: f64) -> bool {
        let [left, right] = self.ends;
        let behind = right.u - left.u + (right.skew - left.skew) * depth;
        (right.u - left.u).min(behind) >= least
    }
}

impl Seam {
    /// Where the plane to the left goes over into the one to the right.
    fn between(left: &EndPlane, right: &EndPlane) -> Option<Self> {
        let turn = left.slope - right.slope;
        (turn.x > TOLERANCE).then(|| Self {
            u: (right.height - left.height) / turn.x,
            skew: -turn.y / turn.x,
        })
    }
}

impl Wall<'_> {
    fn stretches(&self) -> Vec<Stretch> {
        let found = stretches(&self.top, self.length.to_mm(), self.depth().to_mm());
        let mut found = found.unwrap_or_default();
        if let Some(first) = found.first_mut() {
            first.ends[0].skew = self.skew[0];
        }
        if let Some(last) = found.last_mut() {
            last.ends[1].skew = self.skew[1];
        }
        found
    }

    /// The stretches that plates lie over: they stop short of what stands past the wall that this one butts against.
    fn plated(&self) -> Vec<Stretch> {
        let mut found = self.stretches();
        if let Some(first) = found.first_mut() {
            first.ends[0].u += self.plates_short[0].to_mm();
        }
        if let Some(last) = found.last_mut() {
            last.ends[1].u -= self.plates_short[1].to_mm();
        }
        found
    }

    /// How far below a plane of the top studs end.
    fn cover_under(&self, plane: &EndPlane) -> Length {
        match self.cover {
            Cover::Plates(count) => self.plate() * (f64::from(count) * plane.steepness()),
            Cover::Ledge(ledge) => ledge.plate() + self.stud.nested(),
        }
    }

    /// The planes that close an upright of this section, its own origin at (u, 0, low): the
    /// underside of the plates that lie over it.
    pub(super) fn plates_over(&self, u: Length, section: &[DVec2], low: Length) -> Vec<EndPlane> {
        let origin = Frame::at(DVec3::new(u.to_mm(), 0.0, low.to_mm()));
        let above = self.top.seen_from(&origin).planes_over(section);
        let lowered = Underside::new(above).lowered(|plane| self.cover_under(plane));
        lowered.planes_over(section)
    }

    /// The lowest point of the plates' underside over part of the wall.
    pub(super) fn lowest_stud_top(&self, along: Span) -> Length {
        let lowered = self.top.lowered(|plane| self.cover_under(plane));
        let section = area(along.low.to_mm(), along.high.to_mm(), self.depth().to_mm());
        Length::mm(lowered.lowest(section))
    }

    /// A stick under every joint of the plates that none stands under yet: as near to its middle as
    /// the others let it, and only down to an opening under it.
    pub(super) fn ridge_studs(&mut self, holes: &[Hole]) {
        let stretches = self.stretches();
        for pair in stretches.windows(2) {
            let Some(along) = self.place_under(self.joint(pair[0], pair[1])) else {
                continue;
            };
            for reach in self.around(along, holes) {
                if let Reach::ToPlates(_) = reach {
                    self.upright(kind_of(reach, along, holes), along.low, reach);
                }
            }
        }
    }

    /// From where plates meet to where their undersides do: a steeper plate is the thicker one, plumb.
    fn joint(&self, left: Stretch, right: Stretch) -> Span {
        let seam = right.ends[0];
        let meet = Length::mm(seam.u + seam.skew * self.depth().to_mm() / 2.0);
        let deeper = self.cover_under(&left.plane) - self.cover_under(&right.plane);
        let under = meet + deeper / (left.plane.slope.x - right.plane.slope.x);
        Span::new(meet.min(under), meet.max(under))
    }

    /// Where a stick under a joint has room; `None` where one stands under it, or none has room.
    fn place_under(&self, joint: Span) -> Option<Span> {
        let breadth = self.stud.breadth();
        let mut free = Span::new(Length::ZERO, self.length);
        for (stick, reach) in &self.standing {
            if !matches!(reach, Reach::ToPlates(_)) {
                continue;
            }
            if (joint.low - stick.low).is_positive() && (stick.high - joint.high).is_positive() {
                return None;
            }
            if (joint.center() - stick.center()).is_positive() {
                free.low = free.low.max(stick.high);
            } else {
                free.high = free.high.min(stick.low);
            }
        }
        let centered = joint.center() - breadth / 2.0;
        let low = centered.min(free.high - breadth).max(free.low);
        let fits = !(low + breadth - free.high).is_positive();
        fits.then(|| Span::new(low, low + breadth))
    }

    /// The plates of one layer, in the planes of the top, their ends plumb; layer 0
    /// is the upper one. A plate longer than the longest board is joined over an upright, and the
    /// plate on it elsewhere.
    pub(super) fn top_plates(&mut self, layer: u32, count: u32) {
        for stretch in self.plated() {
            let whole = stretch.reach(self.depth().to_mm());
            let reach = self.board_reach(&stretch.plane);
            let lower = self.joints_over_uprights(whole, reach);
            let joints = if layer + 1 == count {
                lower
            } else {
                joints_away_from(&lower, whole, reach)
            };
            let square = joints.iter().map(|at| Seam {
                u: at.to_mm(),
                skew: 0.0,
            });
            let mut left = stretch.ends[0];
            for right in square.chain([stretch.ends[1]]) {
                let piece = Stretch {
                    ends: [left, right],
                    ..stretch
                };
                self.top_plate(layer, &piece);
                left = right;
            }
        }
    }

    /// How far a board reaches along the wall under a plane, from tip to tip of its plumb ends.
    fn board_reach(&self, plane: &EndPlane) -> Length {
        let rise = plane.slope;
        let longer = (1.0 + rise.x * rise.x).sqrt();
        let tilt = rise.y / longer;
        let tall = self.stud.lying() * (1.0 + tilt * tilt).sqrt() + self.depth() * tilt.abs();
        (self.longest - tall * rise.x.abs()).max(SHORTEST_PIECE) / longer
    }

    /// A plate, or a piece of one, over a stretch of the wall.
    fn top_plate(&mut self, layer: u32, stretch: &Stretch) {
        let rise = stretch.plane.slope;
        let longer = (1.0 + rise.x * rise.x).sqrt();
        let tilt = Self::tilt(&stretch.plane);
        let thickness = self.plate().to_mm() * (1.0 + tilt * tilt).sqrt();
        let down = -thickness * f64::from(layer);
        let (material, stock, profile) = self.plate_section(tilt, (thickness, down));
        let [left, right] = stretch.ends;
        let plumb = |seam: Seam| EndPlane {
            height: (seam.u - left.u) * longer,
            slope: DVec2::new(seam.skew * longer, rise.x),
        };
        let shape = Swept {
            profile,
            bottom: vec![plumb(left)],
            top: vec![plumb(right)],
            bores: Vec::new(),
        };
        let place = DVec2::new(left.u, 0.0);
        let frame = self.frame.place(&Frame::new(
            place.extend(stretch.plane.z(place)),
            DVec3::Y,
            DVec3::new(-rise.x, 0.0, 1.0) / longer,
        ));
        let make = self.make(Kind::TopPlate, material, stock);
        self.raise((Length::mm(left.u), Length::mm(down)), make, shape, frame);
    }
}
