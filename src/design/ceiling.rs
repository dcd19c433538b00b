//! The framing of the ceiling over the chase, and the blocks in it that top plates need.
//!
//! In: the rafters of `[roof]`, or `[rafters]`; the top plates. Out: the members as part of the room, and
//! blocks between two of them over plates that none of them crosses. Sticks are made under a ceiling of
//! one plane only.

use glam::DVec3;

use super::builder::{Builder, Make, has_room};
use super::standing::existing;
use super::vent::{Member, member};
use super::wall::framing;
use super::{Branch, Kind, Part, Stage, Stock};
use crate::catalog::{FramingMember, Material};
use crate::geom::{Body, EndPlane, Profile, Swept, TOLERANCE, Underside};
use crate::layout::{CeilingMembers, Layout};
use crate::params::{ChaseWall, Params, PlateEdges, Rafters};
use crate::units::{Length, Span};

/// Farthest that a top plate may run without being held: blocks stand so far apart (common practice, no source).
pub const PLATE_HELD: Length = Length::inches(24.0);
/// How much of a member has to lie over a plate, or a stud behind a wall's end, for a screw that stays 3/8 in
/// from the edges of both (common practice, no source).
pub const LEAST_HOLD: Length = Length::inches(0.75);

/// A top plate as it lies under the ceiling's members, seen from above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateRun {
    /// Its length, in plan.
    pub length: Length,
    /// Where its middle line begins, across the members.
    start: Length,
    /// How far that goes on across the members for each step along the plate.
    turn: f64,
    /// Its width across the members where it runs along them.
    width: Length,
    /// Where it begins along the members, and how that goes on.
    along: (Length, f64),
}

impl PlateRun {
    /// The top plates of a wall, pieces and layers as one; `None` where it has none.
    pub fn of(wall: ChaseWall, parts: &[Part], members: &CeilingMembers) -> Option<Self> {
        let mut plates = parts
            .iter()
            .filter(|it| it.kind == Kind::TopPlate && it.is_of(wall))
            .peekable();
        let first = plates.peek()?;
        let along = first.body.frame.z.with_z(0.0).normalize_or_zero();
        let across = DVec3::Z.cross(along);
        let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
        let mut sides = ends;
        for plate in plates {
            for (way, all) in [(along, &mut ends), (across, &mut sides)] {
                let reach = plate.reach(way);
                *all = (all.0.min(reach.low.to_mm()), all.1.max(reach.high.to_mm()));
            }
        }
        let start = along * ends.0 + across * f64::midpoint(sides.0, sides.1);
        let start = members.room.local_point(start);
        let way = members.room.local_vector(along);
        let (over, beside) = members.axes();
        Some(Self {
            length: Length::mm(ends.1 - ends.0),
            start: Length::mm(start.dot(over)),
            turn: way.dot(over),
            width: Length::mm(sides.1 - sides.0),
            along: (Length::mm(start.dot(beside)), way.dot(beside)),
        })
    }

    /// Whether it runs along the members.
    pub fn is_parallel(&self) -> bool {
        self.turn.abs() < 0.01
    }

    /// Its reach across the members, where it runs along them.
    fn over(&self) -> Span {
        Span::about(self.start, self.width)
    }

    /// Whether one member lies over all of it, far enough for screws.
    pub fn lies_under_one(&self, members: &CeilingMembers) -> bool {
        let own = self.over();
        self.is_parallel()
            && members.centers.iter().any(|center| {
                let member = Span::about(*center, members.stock.breadth());
                let common = member.high.min(own.high) - member.low.max(own.low);
                (common - LEAST_HOLD).to_mm() > -TOLERANCE
            })
    }

    /// How far along it the members cross it, sorted.
    pub fn crossings(&self, members: &CeilingMembers) -> Vec<Length> {
        if self.is_parallel() {
            return Vec::new();
        }
        let edge = LEAST_HOLD / 2.0;
        let centers = members.centers.iter();
        let mut found: Vec<Length> = centers
            .map(|center| (*center - self.start) / self.turn)
            .filter(|at| *at >= edge && *at <= self.length - edge)
            .collect();
        found.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
        found
    }
}

/// The longest stretch of a length without anything at these places, sorted; the whole of it where there are none.
pub fn longest_free(length: Length, held: &[Length]) -> Length {
    let mut at = Length::ZERO;
    let mut longest = Length::ZERO;
    for place in held.iter().copied().chain([length]) {
        longest = longest.max(place - at);
        at = place;
    }
    longest
}

/// What a ceiling screw passes before it bites, plumb: the plates on this slope, the gap, the most that plates
/// are packed, and the board.
pub fn passed_by_ceiling_screw(params: &Params, plane: &EndPlane) -> Length {
    let plates = |stud: &FramingMember| stud.plate() * f64::from(params.plates_on(stud));
    let thickest = plates(&params.chase.stud).max(plates(params.front_stud()));
    let over = params.ceiling.gap + params.plates_drop();
    thickest * plane.steepness() + over + params.fasteners.ceiling_board
}

/// Builds the members, and the blocks where they are wanted.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let Some(own) = &layout.params.rafters else {
        return;
    };
    let (Some(members), [ceiling]) = (CeilingMembers::of(&layout.params), layout.ceiling.planes())
    else {
        return;
    };
    let (over, beside) = members.axes();
    let seen = Underside::new(vec![*ceiling]).seen_from(&members.room);
    let [plane] = seen.planes() else { return };
    if layout.params.roof.is_none() {
        let whole = match members.runs {
            Rafters::Out => Span::new(-layout.params.room.depth, layout.site.ceiling_runs_on),
            Rafters::Along => Span::new(Length::ZERO, layout.params.room.width),
        };
        for center in &members.centers {
            let sides = Span::about(*center, members.stock.breadth());
            let (shape, frame) = member(
                &Member {
                    depth: members.stock.depth(),
                    board: members.board,
                },
                (&members.room, *plane),
                (beside, whole),
                (over, sides),
            );
            let make = existing(Kind::Rafter, Material::LUMBER);
            builder.add_next(Branch::Room, make, shape, frame);
        }
    }
    // the framing of another ceiling, over the plates behind an opened wall, is not given
    if own.blocks && layout.site.ceiling_behind.is_none() {
        blocks(&layout.params, &members, *plane, builder);
    }
}

/// Blocks on flat from member to member, over every plate that lies between two and crosses none.
fn blocks(params: &Params, members: &CeilingMembers, plane: EndPlane, builder: &mut Builder) {
    let stud = params.block_stock();
    let (over, beside) = members.axes();
    for wall in ChaseWall::FRAMED {
        let Some(run) = PlateRun::of(wall, &builder.parts, members) else {
            continue;
        };
        let free = if run.is_parallel() {
            !run.lies_under_one(members)
        } else {
            run.crossings(members).is_empty()
        };
        let middle = run.start + run.length * run.turn / 2.0;
        let Some(bay) = bay(members, middle).filter(|_| free) else {
            continue;
        };
        for at in run.block_places() {
            let place = run.along.0 + at * run.along.1;
            let size = Member {
                depth: stud.breadth(),
                board: members.board,
            };
            let side = Span::about(place, stud.depth());
            let (shape, frame) = member(&size, (&members.room, plane), (over, bay), (beside, side));
            let square = Swept {
                profile: leaning(&shape.profile, (stud.depth(), stud.breadth())),
                ..shape.clone()
            };
            let fits = |shape: &Swept| has_room(&Body::new(shape.clone(), frame), builder);
            let as_sold = params.chase.plate_edges == PlateEdges::Square && fits(&square);
            let shape = if as_sold { square } else { shape };
            if as_sold || fits(&shape) {
                let cut = Stock::Stick(stud.name().to_owned());
                let make = Make {
                    stage: Stage::RoomBlocks,
                    ..framing(Kind::Blocking, Material::LUMBER, cut)
                };
                builder.add_next(Branch::Ceiling, make, shape, frame);
            }
        }
    }
}

/// A stick as sold in the middle of a profile with plumb edges, flat on the same line.
fn leaning(ripped: &Profile, (width, thickness): (Length, Length)) -> Profile {
    let [near, far] = [ripped.outline[0], ripped.outline[1]];
    let along = (far - near).normalize();
    let half = along * (width.to_mm() / 2.0);
    let through = along.perp() * thickness.to_mm();
    let middle = (near + far) / 2.0;
    let (near, far) = (middle - half, middle + half);
    Profile::polygon(vec![near, far, far + through, near + through])
}

impl PlateRun {
    /// Where blocks cross it, as far apart as they may be: two at least where it runs along the members,
    /// one over its middle where it runs from one toward the next.
    pub fn block_places(&self) -> Vec<Length> {
        if !self.is_parallel() {
            return vec![self.length / 2.0];
        }
        held_places(self.length)
    }
}

/// Places along a length, no farther apart than a plate may run without being held: two at least, the first and the
/// last half as far from the ends.
pub(super) fn held_places(length: Length) -> Vec<Length> {
    let mut count = 2.0;
    while (length / count - PLATE_HELD).is_positive() {
        count += 1.0;
    }
    let mut places = Vec::new();
    let mut number = 0.5;
    while number < count {
        places.push(length * (number / count));
        number += 1.0;
    }
    places
}

/// Between the two members next to a place.
fn bay(members: &CeilingMembers, place: Length) -> Option<Span> {
    let half = members.stock.breadth() / 2.0;
    let below = members.centers.iter().rev().find(|it| **it <= place)?;
    let above = members.centers.iter().find(|it| **it > place)?;
    Some(Span::new(*below + half, *above - half))
}
