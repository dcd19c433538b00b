//! The vent's pieces: each straight and each elbow of its middle line, with a frame of its own.

use glam::DVec3;

use super::standing::StandingWall;
use crate::geom::{CenterLine, Frame};
use crate::params::{Exit, Leg, Lie, Params};
use crate::units::{Angle, Length, Span, TOLERANCE};

/// The middle line of the vent from the body to the cap.
#[derive(Debug, Clone)]
pub struct Path {
    /// Straights and elbows in order.
    pub pieces: Vec<Piece>,
    /// The straights from where center lines meet to where the next two meet.
    pub legs: Vec<Leg>,
    /// Where it ends.
    pub exit: Exit,
    /// The collar's middle on the body.
    collar: DVec3,
}

/// A straight or an elbow.
#[derive(Debug, Clone, Copy)]
pub struct Piece {
    /// Where it begins; z points along it. A straight's y points up, or out where it is plumb; an
    /// elbow's x points to the side it turns to.
    pub frame: Frame,
    /// Its middle line, in that frame.
    pub line: CenterLine,
    /// How it lies; none for an elbow.
    pub lie: Option<Lie>,
    /// An elbow: from where the center lines meet to either of its ends.
    pub elbow_leg: Length,
}

impl Piece {
    /// Length of its middle line.
    pub fn length(&self) -> Length {
        Length::mm(self.line.length())
    }

    /// Where its middle line ends.
    pub fn end(&self) -> DVec3 {
        self.frame.point(self.line.at(1.0).0)
    }

    /// How far an elbow turns; zero for a straight.
    pub fn turn(&self) -> Angle {
        match self.line {
            CenterLine::Arc { angle, .. } => Angle::radians(angle),
            CenterLine::Segment { .. } => Angle::radians(0.0),
        }
    }
}

impl Path {
    pub(super) fn new(params: &Params) -> Self {
        let route = params.route();
        let mut pieces = Vec::new();
        for (index, leg) in route.legs.iter().enumerate() {
            let next = route.legs.get(index + 1);
            if let Some(before) = index.checked_sub(1).and_then(|it| route.legs.get(it)) {
                pieces.push(elbow(before, leg, params.vent.bend_radius));
            }
            let taken = next.map_or(Length::ZERO, |it| it.elbow_leg);
            let straight = leg.length - leg.elbow_leg - taken;
            if straight.to_mm() > TOLERANCE {
                pieces.push(Piece {
                    frame: straight_frame(leg),
                    line: CenterLine::Segment {
                        length: straight.to_mm(),
                    },
                    lie: Some(leg.lie),
                    elbow_leg: Length::ZERO,
                });
            }
        }
        Self {
            pieces,
            legs: route.legs,
            exit: route.exit,
            collar: params.collar(),
        }
    }

    /// Center of the collar and the vertical pipe, out from the wall; of a collar that looks back, its face.
    pub fn pipe_out(&self) -> Length {
        Length::mm(-self.collar.y)
    }

    /// Height of the first elbow's center, where the two center lines meet; of the vent's end without one.
    pub fn elbow_height(&self) -> Length {
        let meets = self.legs.get(1).map(|leg| leg.start.z);
        let end = self.last().map(|piece| piece.end().z);
        Length::mm(meets.or(end).unwrap_or(self.collar.z))
    }

    /// The elbows in order.
    pub fn elbows(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().filter(|piece| piece.lie.is_none())
    }

    /// The straight that comes plumb from the body, if one does.
    pub fn riser(&self) -> Option<&Piece> {
        self.pieces
            .first()
            .filter(|it| it.lie == Some(Lie::Plumb) && it.frame.z.z > 0.0)
    }

    /// The straight that goes out.
    pub fn last(&self) -> Option<&Piece> {
        self.pieces.last()
    }
}

/// From the end of the elbow before a leg, along it.
fn straight_frame(leg: &Leg) -> Frame {
    let origin = leg.start + leg.direction * leg.elbow_leg.to_mm();
    let along = leg.direction;
    if leg.lie == Lie::Plumb {
        let y = if along.z > 0.0 {
            DVec3::Y
        } else {
            DVec3::NEG_Y
        };
        return Frame::new(origin, DVec3::X, y);
    }
    let up = (DVec3::Z - along * along.z).normalize();
    Frame {
        origin,
        x: up.cross(along),
        y: up,
        z: along,
    }
}

fn elbow(before: &Leg, leg: &Leg, radius: Length) -> Piece {
    let along = before.direction;
    let side = (leg.direction - along * along.dot(leg.direction)).normalize();
    let origin = leg.start - along * leg.elbow_leg.to_mm();
    Piece {
        frame: Frame {
            origin,
            x: side,
            y: along.cross(side),
            z: along,
        },
        line: CenterLine::Arc {
            radius: radius.to_mm(),
            angle: leg.turn.to_radians(),
        },
        lie: None,
        elbow_leg: leg.elbow_leg,
    }
}

/// The least rectangle, along u and w of a wall, round a straight with this much room beside, below
/// and above its middle, between two depths of the wall.
pub(crate) fn crossing(
    wall: &StandingWall,
    straight: &Piece,
    beside: Length,
    (below, above): (Length, Length),
    depths: Span,
) -> (Span, Span) {
    let frame = &straight.frame;
    let along = wall.frame.local_vector(frame.z);
    let mut low = DVec3::splat(f64::INFINITY);
    let mut high = -low;
    for across in [-beside, beside] {
        for up in [-below, above] {
            let corner = DVec3::new(across.to_mm(), up.to_mm(), 0.0);
            let line = wall.frame.local_point(frame.point(corner));
            for depth in [depths.low, depths.high] {
                let point = line + along * ((depth.to_mm() - line.y) / along.y);
                low = low.min(point);
                high = high.max(point);
            }
        }
    }
    let span = |low: f64, high: f64| Span::new(Length::mm(low), Length::mm(high));
    (span(low.x, high.x), span(low.z, high.z))
}
