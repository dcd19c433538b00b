//! The clearance volumes of the vent: they follow its pieces, straight by straight and bend by bend.
//!
//! Plumb pipe keeps its distance all round. A run keeps one distance above, one beside and one below;
//! pipe that lies in between keeps the larger of the two kinds on every side. Within a wall or a roof
//! it is the pass.

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use super::volumes::{Volumes, along, hull, reach};
use crate::design::vent::{pass_volume, ways_out};
use crate::design::{Bars, ClearanceKind, Reach};
use crate::geom::{Body, Direction, EndPlane, Frame, Profile, Swept, Tube};
use crate::layout::{Layout, Piece, StandingWall, rectangle};
use crate::params::{Lie, Manual};
use crate::units::{Angle, Length, Span};

/// From where every number of the vent counts.
const SKIN: (Bars, &str) = (Bars::Everything, "the pipe's skin");

/// A number of the manual, and the key that holds it.
type Number<'a> = (&'a Manual<Length>, &'static str);

/// The vent's volumes, numbered within their kinds.
pub(super) struct Vent<'a, 'b> {
    pub(super) volumes: &'a mut Volumes<'b>,
    pub(super) layout: &'a Layout,
    pub(super) numbers: BTreeMap<&'static str, u32>,
}

/// Room round a pipe that does not stand plumb.
struct Rectangle<'a> {
    above: Number<'a>,
    beside: Number<'a>,
    below: Number<'a>,
}

fn larger<'a>(a: Number<'a>, b: Number<'a>) -> Number<'a> {
    if (b.0.value - a.0.value).is_positive() {
        b
    } else {
        a
    }
}

impl Vent<'_, '_> {
    pub(super) fn build(&mut self) {
        for (index, piece) in self.layout.path.pieces.iter().enumerate() {
            let is_last = index + 1 == self.layout.path.pieces.len();
            match piece.lie {
                None => self.bend(piece),
                Some(Lie::Plumb) => self.plumb(piece, is_last),
                Some(Lie::Run(_)) => self.straight("run", piece, is_last),
                Some(Lie::Inclined) => self.straight("sloped pipe", piece, is_last),
            }
        }
    }

    fn add(&mut self, name: &'static str, kind: ClearanceKind, body: Body, reaches: Vec<Reach>) {
        let number = self.numbers.entry(name).or_default();
        *number += 1;
        let numbered = if *number == 1 {
            name.to_owned()
        } else {
            format!("{name} {number}")
        };
        self.volumes.add(&numbered, kind, body, reaches, SKIN);
    }

    fn vertical(&self) -> Number<'_> {
        let vent = &self.layout.params.vent;
        (&vent.vertical_clearance, "vent.vertical_clearance")
    }

    /// A cylinder; under a roof pass it ends where the pass begins.
    fn plumb(&mut self, piece: &Piece, is_last: bool) {
        let vent = &self.layout.params.vent;
        let mut length = piece.length();
        let pass = self.layout.roof_pass.as_ref().filter(|_| is_last);
        let begins = piece.frame.origin.z;
        if let Some(pass) = pass {
            length = length.min(Length::mm(
                pass.room.point(DVec3::Z * pass.low.to_mm()).z - begins,
            ));
        }
        if length.is_positive() {
            let outer = vent.pipe_diameter / 2.0 + vent.vertical_clearance.value;
            let tube = Tube::straight(outer, Length::ZERO, length);
            let (number, key) = self.vertical();
            let ways = vec![reach(Direction::Radial, number, key)];
            let body = Body::new(tube, piece.frame);
            self.add("vertical pipe", ClearanceKind::VerticalPipe, body, ways);
        }
        let (Some(pass), Some(roof)) = (pass, &self.layout.params.roof) else {
            return;
        };
        let from = Length::mm(pass.room.local_point(piece.frame.origin).z);
        if let Some((shape, frame)) = pass_volume(&self.layout.params, pass, from) {
            let ways = ways_out(pass)
                .map(|way| reach(along(way), &roof.pass_clearance, "roof.pass_clearance"));
            let body = Body::new(shape, frame);
            self.add("roof pass", ClearanceKind::RoofPass, body, ways.to_vec());
        }
    }

    fn bend(&mut self, piece: &Piece) {
        let vent = &self.layout.params.vent;
        let reaches_to = vent.pipe_diameter / 2.0 + vent.bend_clearance.value;
        let (body, ways) = round_bend(piece, vent.bend_radius, reaches_to);
        let ways = ways
            .into_iter()
            .map(|way| reach(way, &vent.bend_clearance, "vent.bend_clearance"));
        self.add("elbow", ClearanceKind::Bend, body, ways.collect());
    }

    /// The numbers of a straight that does not stand plumb.
    fn rectangle(&self, lie: Option<Lie>) -> Rectangle<'_> {
        let vent = &self.layout.params.vent;
        let vertical = self.vertical();
        let pick = |number| match lie {
            Some(Lie::Inclined) => larger(number, vertical),
            _ => number,
        };
        Rectangle {
            above: pick((&vent.top_clearance, "vent.top_clearance")),
            beside: pick((&vent.side_clearance, "vent.side_clearance")),
            below: pick((&vent.bottom_clearance, "vent.bottom_clearance")),
        }
    }

    /// The rectangle round a straight: in the room, and from the wall's face on as the pass.
    fn straight(&mut self, name: &'static str, piece: &Piece, is_last: bool) {
        let begin = EndPlane::level(Length::ZERO);
        let wall = self.layout.pass_wall().filter(|_| is_last);
        let kind = ClearanceKind::HorizontalPipe;
        let Some(wall) = wall else {
            self.stretch(
                (name, kind),
                piece,
                [begin, EndPlane::level(piece.length())],
            );
            return;
        };
        let at = |depth: Length| at_depth(wall, &piece.frame, depth);
        let [face, outside] = [Length::ZERO, wall.depths.outside].map(at);
        self.stretch((name, kind), piece, [begin, face]);
        self.stretch(
            ("wall pass", ClearanceKind::WallPass),
            piece,
            [face, outside],
        );
    }

    fn stretch(
        &mut self,
        (name, kind): (&'static str, ClearanceKind),
        piece: &Piece,
        [bottom, top]: [EndPlane; 2],
    ) {
        let Rectangle {
            above,
            beside,
            below,
        } = self.rectangle(piece.lie);
        let radius = self.layout.params.vent.pipe_diameter / 2.0;
        let wide = Span::about(Length::ZERO, 2.0 * (radius + beside.0.value));
        let high = Span::new(-(radius + below.0.value), radius + above.0.value);
        let shape = Swept {
            profile: Profile::polygon(rectangle(wide, high)),
            bottom: vec![bottom],
            top: vec![top],
            bores: Vec::new(),
        };
        let (up, side) = (piece.frame.y, -piece.frame.x);
        let ways = vec![
            reach(along(up), above.0, above.1),
            reach(along(-up), below.0, below.1),
            reach(along(side), beside.0, beside.1),
            reach(along(-side), beside.0, beside.1),
        ];
        let body = Body::new(shape, piece.frame);
        self.add(name, kind, body, ways);
    }
}

/// A depth of a wall, as an end of what is swept along a straight.
fn at_depth(wall: &StandingWall, frame: &Frame, depth: Length) -> EndPlane {
    let inward = wall.frame.y;
    end_plane(frame, inward, inward.dot(wall.frame.origin) + depth.to_mm())
}

/// The volume around an elbow, and the ways out of it: the bent tube itself, or, where the clearance
/// reaches past the middle of the bend and the tube would run into itself, the box round it.
fn round_bend(piece: &Piece, radius: Length, reach: Length) -> (Body, Vec<Direction>) {
    if (radius - reach).is_positive() {
        let tube = Tube {
            center_line: piece.line,
            outer: reach.to_mm(),
            inner: 0.0,
        };
        return (Body::new(tube, piece.frame), vec![Direction::Radial]);
    }
    let profile = Profile::polygon(around_bend(piece, radius, reach));
    let (toward, side, up) = (piece.frame.x, -piece.frame.y, piece.frame.z);
    let origin = piece.frame.origin - side * reach.to_mm();
    let shape = Swept::square(profile, 2.0 * reach);
    let ways = [-toward, toward, -side, side, up, -up].map(along);
    (
        Body::new(shape, Frame::new(origin, toward, up)),
        ways.to_vec(),
    )
}

/// The outline round a tight bend in its own plane, x toward the side it turns to and y along the pipe
/// before it: the hull of the two ends, of the point where the outer lines of both legs meet, and of
/// the corner round what reaches past the middle of the bend.
fn around_bend(piece: &Piece, radius: Length, reach: Length) -> Vec<DVec2> {
    let (reach, radius) = (reach.to_mm(), radius.to_mm());
    let turn = piece.turn();
    let half = Angle::radians(turn.to_radians() / 2.0);
    let along_run = DVec2::new(turn.sin(), turn.cos());
    let outward = DVec2::new(-turn.cos(), turn.sin());
    let leg = piece.elbow_leg.to_mm();
    let end = DVec2::new(0.0, leg) + along_run * leg;
    let middle = DVec2::new(radius, 0.0);
    let inward = DVec2::new(half.cos(), -half.sin());
    hull(vec![
        DVec2::new(-reach, 0.0),
        DVec2::new(reach, 0.0),
        middle + inward * ((reach - radius) / half.cos()),
        end - outward * reach,
        end + outward * reach,
        DVec2::new(-reach, leg + reach * half.tan()),
    ])
}

/// A plane of the world, of points p with normal · p = offset, as an end plane of what is swept
/// along a frame's z.
fn end_plane(frame: &Frame, normal: DVec3, offset: f64) -> EndPlane {
    let seen = frame.local_vector(normal);
    EndPlane {
        height: (offset - normal.dot(frame.origin)) / seen.z,
        slope: DVec2::new(-seen.x / seen.z, -seen.y / seen.z),
    }
}
