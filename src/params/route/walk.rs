//! The walk along a vent's steps: each takes the middle line on, and says what is wrong with it.

use glam::DVec3;

use super::super::choice::Collar;
use super::super::list::Params;
use super::super::room_wall::RoomWall;
use super::super::vent_step::{Heading, Toward, VentStep};
use super::super::walls::wall_frame;
use super::leg::{Exit, Flaw, Leg, Lie, Route};
use crate::units::{Angle, Length, Slope, TOLERANCE};

/// Directions closer than this are one; a rise that is less is level.
const SAME: f64 = 1e-9;
/// A leg comes no nearer to along a wall than this cosine.
const LEAST_TOWARD: f64 = 0.2;

/// A way along the steps.
pub(super) struct Walk<'a> {
    params: &'a Params,
    pub(super) step: usize,
    /// Where the middle line has come to.
    place: DVec3,
    /// The direction without the rise of runs: what the elbows' own angles count from.
    nominal: DVec3,
    /// Whether the leg that is open has begun with an elbow.
    open: Leg,
    legs: Vec<Leg>,
    exit: Option<Exit>,
    flaws: Vec<Flaw>,
}

impl<'a> Walk<'a> {
    pub(super) fn new(params: &'a Params) -> Self {
        let place = params.collar();
        let (nominal, lie) = match params.vent.collar {
            Collar::Up => (DVec3::Z, Lie::Plumb),
            // the collar itself is square to the body
            Collar::Back => (DVec3::Y, Lie::Run(Slope::LEVEL)),
        };
        Self {
            params,
            step: 0,
            place,
            nominal,
            open: Leg {
                start: place,
                direction: nominal,
                length: Length::ZERO,
                lie,
                turn: Angle::radians(0.0),
                elbow_leg: Length::ZERO,
            },
            legs: Vec::new(),
            exit: None,
            flaws: Vec::new(),
        }
    }

    /// Says what is wrong with this step; what was said of an earlier one already is its consequence.
    fn flaw(&mut self, problem: impl Into<String>, expected: &'static str) {
        let problem = problem.into();
        if self.flaws.iter().all(|it| it.problem != problem) {
            self.flaws.push(Flaw {
                step: self.step,
                problem,
                expected,
            });
        }
    }

    pub(super) fn take(&mut self, step: &VentStep, rest: &[VentStep]) {
        if self.exit.is_some() {
            self.flaw(
                "the vent has ended before this step",
                "the way through a wall or the roof as the last step",
            );
            return;
        }
        match *step {
            VentStep::Go { length, rising } => self.go(length, rising),
            VentStep::Turn { by, toward } => self.turn(by, toward, rest),
            VentStep::Offset {
                sideways,
                by,
                toward,
            } => self.offset(sideways, by, toward, rest),
            VentStep::ThroughWall { wall, rising } => self.through_wall(wall, rising),
            VentStep::ThroughRoof => self.through_roof(),
        }
    }

    fn go(&mut self, length: Length, rising: Option<Slope>) {
        self.rises(rising);
        self.place += self.open.direction * length.to_mm();
        self.open.length += length;
    }

    /// A rise that is written has to be that of the run that it belongs to.
    fn rises(&mut self, rising: Option<Slope>) {
        match (rising, self.open.lie) {
            (Some(rising), Lie::Run(slope)) if rising != slope => {
                self.flaw(
                    "the run already has another rise",
                    "one rise for the whole run, in its first step after the elbow",
                );
            }
            (Some(_), Lie::Plumb | Lie::Inclined) => {
                self.flaw(
                    "this pipe is not a level run",
                    "`rising` only where the pipe runs level",
                );
            }
            _ => {}
        }
    }

    /// A direction of the room or the chase.
    fn toward(&self, toward: Toward) -> DVec3 {
        match toward {
            Toward::Up => DVec3::Z,
            Toward::Down => DVec3::NEG_Z,
            Toward::Wall(wall) => wall_frame(self.params, wall).0.y,
            Toward::Level { side, clockwise } => {
                level(side) * clockwise.cos() + level(side.next()) * clockwise.sin()
            }
        }
    }

    fn turn(&mut self, by: Angle, toward: Toward, rest: &[VentStep]) {
        let toward = self.toward(toward);
        let across = toward - self.nominal * toward.dot(self.nominal);
        if across.length() < SAME {
            self.flaw(
                "the pipe already goes that way, or comes from there",
                "a direction to the side of the pipe",
            );
            return;
        }
        let nominal = self.nominal * exact_cos(by) + across.normalize() * by.sin();
        self.turn_to(nominal, rest);
    }

    /// Closes the open leg and begins the next one.
    fn turn_to(&mut self, nominal: DVec3, rest: &[VentStep]) {
        let (nominal, lie) = self.lie_of(nominal, rest);
        let direction = match lie {
            Lie::Run(slope) => nominal * slope.angle().cos() + DVec3::Z * slope.angle().sin(),
            Lie::Plumb | Lie::Inclined => nominal,
        };
        let turn = turn_between(&self.open, direction, lie);
        let half = Angle::radians(turn.to_radians() / 2.0);
        self.nominal = nominal;
        let next = Leg {
            start: self.place,
            direction,
            length: Length::ZERO,
            lie,
            turn,
            elbow_leg: self.params.vent.bend_radius * half.tan(),
        };
        self.close(next.elbow_leg);
        self.inside_room();
        self.open = next;
    }

    /// A pipe stays in the room until it goes through its wall.
    pub(super) fn inside_room(&mut self) {
        let radius = self.params.vent.pipe_diameter.to_mm() / 2.0;
        let walls = self.params.to_walls(self.place).map(Length::to_mm);
        if walls.iter().any(|it| *it < radius - TOLERANCE) {
            self.flaw(
                "the pipe leaves the room before it goes through a wall",
                "pipe whose whole width stays inside the room up to the last step",
            );
        }
    }

    /// The hole through a wall or the roof has to be within it.
    fn hole_within(&mut self, what: &str, hole: Length, of: Length) {
        if hole.to_mm() < -TOLERANCE || (hole - of).to_mm() > TOLERANCE {
            self.flaw(
                format!("the hole through the {what} runs past its edge"),
                "a hole farther from the corners and the floor",
            );
        }
    }

    /// Keeps the open leg, if it is as long as the elbows at its two ends need.
    fn close(&mut self, elbow_leg: Length) {
        let straight = self.open.length - self.open.elbow_leg - elbow_leg;
        let first = self.legs.is_empty();
        if straight.to_mm() < -TOLERANCE || (first && straight.to_mm() <= TOLERANCE) {
            let short = format!(
                "the straight before it is too short for its elbows, by {} mm",
                (-straight.to_mm()).max(0.0).ceil()
            );
            self.flaw(short, "a longer straight, counted to where the center lines meet, or a smaller `bend_radius`");
        }
        self.legs.push(self.open);
    }

    fn lie_of(&self, nominal: DVec3, rest: &[VentStep]) -> (DVec3, Lie) {
        if nominal.truncate().length() < SAME {
            return (DVec3::Z * nominal.z.signum(), Lie::Plumb);
        }
        if nominal.z.abs() > SAME {
            return (nominal, Lie::Inclined);
        }
        let level = if nominal.z == 0.0 {
            nominal
        } else {
            nominal.with_z(0.0).normalize()
        };
        let written = match rest.first() {
            Some(VentStep::Go { rising, .. } | VentStep::ThroughWall { rising, .. }) => *rising,
            _ => None,
        };
        (
            level,
            Lie::Run(written.unwrap_or(self.params.vent.slope.value)),
        )
    }

    fn offset(&mut self, sideways: Length, by: Angle, toward: Toward, rest: &[VentStep]) {
        let back_to = self.nominal;
        self.turn(by, toward, &[]);
        let aside = match self.open.lie {
            Lie::Run(slope) => by.sin() * slope.angle().cos(),
            Lie::Plumb | Lie::Inclined => by.sin(),
        };
        self.go(sideways / aside, None);
        self.turn_to(back_to, rest);
    }

    fn through_wall(&mut self, wall: RoomWall, rising: Option<Slope>) {
        self.rises(rising);
        let wall = match wall {
            RoomWall::Back => self.params.site().behind,
            other @ (RoomWall::Left | RoomWall::Right | RoomWall::Behind) => other,
        };
        self.exit = Some(Exit::Wall(wall));
        let Some(thickness) = self.params.thickness(wall) else {
            self.flaw(
                format!("nothing is known of the {}", wall.name()),
                "a table [left_wall], [right_wall] or [far_wall] with the wall's layers and studs",
            );
            return;
        };
        let frame = wall_frame(self.params, wall).0;
        let toward = self.open.direction.dot(frame.y);
        if toward < LEAST_TOWARD {
            self.flaw(
                format!("the pipe does not head for the {}", wall.name()),
                "an elbow toward the wall before it, no flatter to it than 11 degrees",
            );
            return;
        }
        let before = -frame.local_point(self.place).y;
        if before < -TOLERANCE {
            self.flaw(
                format!("the pipe is already past the face of the {}", wall.name()),
                "a shorter straight before it; the last step goes the rest of the way",
            );
        }
        let to_face = Length::mm(before / toward) + self.open.length;
        if (to_face - self.open.elbow_leg).to_mm() < -TOLERANCE {
            self.flaw(
                format!("the last elbow reaches into the {}", wall.name()),
                "more room between the pipe and the wall",
            );
        }
        self.wall_hole(wall, Length::mm(before / toward));
        let depth = thickness + self.params.vent.cap_depth / 2.0;
        self.go(Length::mm((before + depth.to_mm()) / toward), None);
    }

    /// The hole has to lie over the floor; whether it lies within the wall's two ends, the checks say.
    fn wall_hole(&mut self, wall: RoomWall, to_face: Length) {
        let frame = wall_frame(self.params, wall).0;
        let vent = &self.params.vent;
        let along = frame.local_vector(self.open.direction);
        let face = frame.local_point(self.place + self.open.direction * to_face.to_mm());
        let radius = vent.pipe_diameter / 2.0;
        let square = along.truncate().length() / along.y;
        let wide = (radius + vent.side_clearance.value) * square;
        let (below, above) = (vent.bottom_clearance.value, vent.top_clearance.value);
        let steep = Length::mm(1.0 / along.truncate().length());
        let need = (radius * 2.0 + below + above) * steep.to_mm();
        let missing = (vent.firestop_height - need).max(Length::ZERO) / 2.0;
        let lower = (radius + below) * steep.to_mm() + wide * along.z.abs() + missing;
        let bottom = Length::mm(face.z) - lower - vent.pass_ease;
        let slab = self.params.slab();
        self.hole_within(wall.name(), bottom - slab, Length::mm(f64::INFINITY));
    }

    fn through_roof(&mut self) {
        self.exit = Some(Exit::Roof);
        let Some(roof) = &self.params.roof else {
            self.flaw(
                "nothing is known of the roof",
                "a table [roof] with its thickness and its rafters",
            );
            return;
        };
        if self.open.lie != Lie::Plumb || self.open.direction.z < 0.0 {
            self.flaw(
                "the pipe does not go up plumb",
                "an elbow toward up before it",
            );
            return;
        }
        let top = self.params.roof_over(self.place) + roof.cap_above.value;
        let up = top - Length::mm(self.place.z);
        let straight = up + self.open.length - self.open.elbow_leg;
        if up.to_mm() < -TOLERANCE || straight.to_mm() <= TOLERANCE {
            self.flaw(
                "the pipe is already above the roof",
                "a shorter rise to the last elbow",
            );
            return;
        }
        let vent = &self.params.vent;
        let needed = vent.pipe_diameter + 2.0 * roof.pass_clearance.value;
        let half = |own: Length| needed.max(own) / 2.0 + vent.pass_ease;
        let walls = self.params.to_walls(self.place);
        for (from, to, half) in [
            (walls[0], walls[1], half(vent.firestop_width)),
            (walls[2], walls[3], half(vent.firestop_height)),
        ] {
            self.hole_within("roof", from - half, from + to);
            self.hole_within("roof", from + half, from + to);
        }
        self.go(up, None);
    }

    pub(super) fn finish(mut self, last: Option<&VentStep>) -> (Route, Vec<Flaw>) {
        if !matches!(
            last,
            Some(VentStep::ThroughWall { .. } | VentStep::ThroughRoof)
        ) {
            self.flaw(
                "the vent does not end",
                "the way through a wall or the roof as the last step",
            );
        }
        self.legs.push(self.open);
        let route = Route {
            legs: self.legs,
            exit: self.exit.unwrap_or(Exit::Wall(self.params.site().behind)),
        };
        (route, self.flaws)
    }
}

const fn level(side: Heading) -> DVec3 {
    match side {
        Heading::Back => DVec3::Y,
        Heading::Right => DVec3::X,
        Heading::Out => DVec3::NEG_Y,
        Heading::Left => DVec3::NEG_X,
    }
}

/// The cosine; of a right angle just nothing.
fn exact_cos(angle: Angle) -> f64 {
    let cos = angle.cos();
    if cos.abs() < SAME { 0.0 } else { cos }
}

/// How far a leg turns from the one before.
fn turn_between(before: &Leg, direction: DVec3, lie: Lie) -> Angle {
    if let (Lie::Plumb, Lie::Run(slope)) = (before.lie, lie) {
        let rise = slope.angle().to_radians() * before.direction.z;
        return Angle::radians(std::f64::consts::FRAC_PI_2 - rise);
    }
    let sine = before.direction.cross(direction).length();
    Angle::radians(libm::atan2(sine, before.direction.dot(direction)))
}
