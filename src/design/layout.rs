//! The numbers that a design follows from: where faces, openings, heads and pipes lie.
//!
//! `out` counts from the wall's finished face into the room; heights count from the floor datum;
//! `left` and `right` count from the left corner of the room.

use std::f64::consts::SQRT_2;

use glam::{DVec2, DVec3};

use super::standing::{StandingWall, WallHole};
use super::vent::{Path, Piece, RoofPass, pass_layout, roof_pass};
use super::wall::framed_sides;
use crate::geom::{Frame, TOLERANCE, Underside};
use crate::params::{FloorDatum, FrontForm, Layer, Leg, Lie, Params, RoomWall};
use crate::units::{Angle, Length};

/// Two ends along a line.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Span {
    /// The lower end.
    pub low: Length,
    /// The upper end.
    pub high: Length,
}

/// What a side of the chase ends against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// Nothing: it is seen, and has board and finish.
    #[default]
    Free,
    /// A wall of the room, square to the face.
    Wall,
    /// A wall of the room at 45° to the face, which widens toward the room: there is no side wall.
    Corner,
}

/// The derived numbers of one design.
#[derive(Debug, Clone, Default)]
pub struct Layout {
    /// Height of the bare slab.
    pub slab: Length,
    /// The ceiling over the world.
    pub ceiling: Underside,
    /// Left and right edge of the chase's framing.
    pub chase: Span,
    /// What the left and the right side of the chase end against.
    pub sides: [Side; 2],
    /// The room's frame, in the chase's.
    pub room: Frame,
    /// Where the inside of the chase begins, out from the wall: behind a divider's own back wall.
    pub inside_begins: Length,
    /// Whether the chase stands across a corner of the room.
    pub is_across_corner: bool,
    /// Stud face of the front that carries the unit, out from the wall.
    pub lower_stud_face: Length,
    /// Stud face of the wall that carries the recess: set back when the front is stepped.
    pub upper_stud_face: Length,
    /// Back of the wall that carries the recess; the side walls end here.
    pub front_back: Length,
    /// Finished face around the unit.
    pub lower_finished: Length,
    /// Finished face around the recess.
    pub upper_finished: Length,
    /// Top of the platform.
    pub platform_top: Length,
    /// Center of the unit, from the left corner.
    pub unit_center: Length,
    /// The unit's face, out from the wall.
    pub unit_face: Length,
    /// The unit's back.
    pub unit_back: Length,
    /// Top of the unit's body.
    pub body_top: Length,
    /// Top of the finished opening.
    pub opening_top: Length,
    /// The rough opening's sides.
    pub rough_opening: Span,
    /// Underside of the header.
    pub header_bottom: Length,
    /// Top of the header.
    pub header_top: Length,
    /// Top of what the mantel may rest on: the ledge when stepped, else the header's top.
    pub framing_top: Length,
    /// Center of the collar and the vertical pipe, out from the wall; of a collar that looks back, its face.
    pub pipe_out: Length,
    /// Height of the first elbow's center, where the two center lines meet; of the vent's end without one.
    pub elbow_height: Length,
    /// How far the first bend reaches from the elbow's center along each center line.
    pub elbow_leg: Length,
    /// How far the first bend turns.
    pub elbow_turn: Angle,
    /// The recess, if there is one.
    pub recess: Option<RecessLayout>,
    /// The vent's middle line, piece by piece.
    pub path: Path,
    /// The hole through a wall; without a wall where the vent goes through the roof.
    pub pass: PassLayout,
    /// The hole through ceiling and roof, where the vent goes that way.
    pub roof_pass: Option<RoofPass>,
    /// The layers of the wall behind the chase, each from the finished face outward (into the wall).
    pub wall: WallLayout,
    /// The walls of the room whose layers are known, the one behind the chase first.
    pub standing: Vec<StandingWall>,
}

/// Where a recess lies.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RecessLayout {
    /// Finished sides.
    pub finished: Span,
    /// Finished sill and head.
    pub finished_height: Span,
    /// Sides of the rough opening that its lining needs.
    pub rough: Span,
    /// Sides that it is framed to: wider than needed where its own would fall on the unit's kings.
    pub framed: Span,
    /// Sill and head of the rough opening.
    pub rough_height: Span,
    /// Finished back surface, out from the wall.
    pub back: Length,
    /// Front of the framing behind the lining.
    pub framing_front: Length,
    /// Back of the framing behind the lining.
    pub framing_back: Length,
}

/// A place under one of the ceiling's planes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnderCeiling {
    /// From the left corner.
    pub right: Length,
    /// Out from the wall.
    pub out: Length,
    /// The plane's height there.
    pub height: Length,
    /// Plumb height that a layer of thickness 1 takes on it.
    pub steepness: f64,
}

/// The framed hole through the existing wall.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PassLayout {
    /// The wall that the vent goes through.
    pub wall: Option<RoomWall>,
    /// Sides of the hole, from the wall's left end as seen from the room.
    pub sides: Span,
    /// Bottom and top of the hole.
    pub heights: Span,
    /// The clear bay between the existing studs that stand nearest beside the hole's center.
    pub bay: Span,
    /// How far the vent crosses the wall from square; above zero it goes to the right.
    pub angle: Angle,
    /// Where the pipe's middle goes through the finished face: from the wall's left end, and up.
    pub inside: (Length, Length),
    /// Where it goes through the outside face.
    pub outside: (Length, Length),
}

/// The depths of an existing wall's layers, from its finished face.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WallLayout {
    /// Back of the board, where the studs begin.
    pub studs: Length,
    /// Back of the studs, where the sheathing begins.
    pub sheathing: Length,
    /// The outside face.
    pub outside: Length,
}

/// A point of the world from what a tape reads.
pub fn point(right: Length, out: Length, height: Length) -> DVec3 {
    DVec3::new(right.to_mm(), -out.to_mm(), height.to_mm())
}

/// The corners of a rectangle in a plane whose x runs right and whose y runs up.
pub(super) fn rectangle(sides: Span, heights: Span) -> Vec<DVec2> {
    [
        (sides.low, heights.low),
        (sides.high, heights.low),
        (sides.high, heights.high),
        (sides.low, heights.high),
    ]
    .map(|(right, up)| DVec2::new(right.to_mm(), up.to_mm()))
    .to_vec()
}

impl Span {
    /// A span from its ends.
    pub const fn new(low: Length, high: Length) -> Self {
        Self { low, high }
    }

    /// A span of this size about a center.
    pub fn about(center: Length, size: Length) -> Self {
        Self::new(center - size / 2.0, center + size / 2.0)
    }

    /// The distance between the ends.
    pub fn size(self) -> Length {
        self.high - self.low
    }

    /// Halfway between the ends.
    pub fn center(self) -> Length {
        (self.low + self.high) / 2.0
    }

    /// The span with both ends moved outward.
    #[must_use]
    pub fn grown(self, by: Length) -> Self {
        Self::new(self.low - by, self.high + by)
    }

    /// The span with both ends moved the same way.
    #[must_use]
    pub fn moved(self, by: Length) -> Self {
        Self::new(self.low + by, self.high + by)
    }

    /// Whether two spans share more than an end.
    pub fn overlaps(self, other: Self) -> bool {
        (self.high.min(other.high) - self.low.max(other.low)).is_positive()
    }
}

/// What the sides of a chase end against.
fn sides(params: &Params, chase: Span) -> [Side; 2] {
    if params.is_across_corner() {
        // wings stand free; without them the face goes from wall to wall
        let wing = params.chase.depth - chase.size() / 2.0;
        return [if wing.is_positive() {
            Side::Free
        } else {
            Side::Corner
        }; 2];
    }
    let against = |free: bool| if free { Side::Free } else { Side::Wall };
    [
        against(chase.low.is_positive()),
        against((params.room.width - chase.high).is_positive()),
    ]
}

impl Layout {
    /// Derives every number from the parameters.
    pub(super) fn new(params: &Params) -> Self {
        let chase = Span::new(
            params.chase_left(),
            params.chase_left() + params.chase.width,
        );
        let slab = match params.project.floor_datum {
            FloorDatum::BareSlab => Length::ZERO,
            FloorDatum::FinishedFloor => -params.project.floor_buildup,
        };
        let mut layout = Self {
            slab,
            ceiling: params.underside(),
            chase,
            sides: sides(params, chase),
            room: params.room_frame(),
            is_across_corner: params.is_across_corner(),
            inside_begins: if params.is_divider() {
                params.chase.stud.width
            } else {
                Length::ZERO
            },
            platform_top: slab + params.platform.layers.iter().map(Layer::height).sum(),
            unit_center: params.appliance.center.unwrap_or(chase.center()),
            ..Self::default()
        };
        layout.faces(params);
        layout.heights(params);
        layout.vent(params);
        layout.wall(params);
        layout.recess = layout.recess_layout(params);
        layout
    }

    /// The chase's framing so far out from the wall; across a corner from wall to wall it widens.
    pub fn framing_at(&self, out: Length) -> Span {
        self.with_skins(Length::ZERO, out)
    }

    /// The same with skins of this thickness on the sides that stand free.
    pub fn with_skins(&self, thickness: Length, out: Length) -> Span {
        let reach = |side: Side, edge: Length| match side {
            Side::Free => edge + thickness,
            Side::Wall => edge,
            Side::Corner => out,
        };
        let middle = self.chase.center();
        let half = self.chase.size() / 2.0;
        Span::new(
            middle - reach(self.sides[0], half),
            middle + reach(self.sides[1], half),
        )
    }

    /// Between the end studs of the wall that carries the recess. Across a corner they lie flat on the
    /// room's walls, at 45°, and reach farther in at the wall's back.
    pub fn between_end_studs(&self, params: &Params) -> Span {
        let stud = &params.chase.stud;
        let taken = self.sides.map(|side| match side {
            Side::Corner => stud.width + stud.thickness * SQRT_2,
            Side::Free | Side::Wall => stud.thickness,
        });
        let wall = self.framing_at(self.upper_stud_face);
        Span::new(wall.low + taken[0], wall.high - taken[1])
    }

    /// Where a side of the chase meets the wall behind it, so far outside (or, below zero, inside) of
    /// its framing; out from the wall or the corner.
    pub fn side_begins(&self, outside: Length) -> Length {
        if self.is_across_corner {
            self.chase.size() / 2.0 + outside
        } else {
            self.inside_begins
        }
    }

    /// How far out the wall behind the chase comes over this much to either side of the unit's center.
    pub fn wall_behind(&self, half: Length) -> Length {
        if self.is_across_corner {
            (self.unit_center - self.chase.center()).abs() + half
        } else {
            self.inside_begins
        }
    }

    /// How far out the wall behind the chase comes at most between two places.
    pub fn wall_behind_span(&self, sides: Span) -> Length {
        if self.is_across_corner {
            let middle = self.chase.center();
            (sides.low - middle).abs().max((sides.high - middle).abs())
        } else {
            self.inside_begins
        }
    }

    /// From the middle of the vertical pipe to the wall behind the chase, square to that wall.
    pub fn pipe_to_wall(&self) -> Length {
        let out = self.pipe_out - self.wall_behind(Length::ZERO);
        out / self.wall_stretch()
    }

    /// The way straight back to the wall behind the chase, for each step square to that wall.
    pub fn wall_stretch(&self) -> f64 {
        if self.is_across_corner { SQRT_2 } else { 1.0 }
    }

    /// The shortest way straight out from the chase's front to a wall of the room.
    pub fn way_before(&self, params: &Params, front: Length) -> Length {
        let sides = self.framing_at(front);
        let out = self.room.local_vector(DVec3::NEG_Y);
        let far = DVec2::new(params.room.width.to_mm(), -params.room.depth.to_mm());
        let to_wall = |place: f64, toward: f64, walls: [f64; 2]| {
            let ways = walls.map(|wall| (wall - place) / toward);
            if toward.abs() > TOLERANCE {
                ways[0].max(ways[1])
            } else {
                f64::INFINITY
            }
        };
        let ways = [sides.low, sides.center(), sides.high].map(|right| {
            let place = self.room.local_point(point(right, front, Length::ZERO));
            let along = to_wall(place.x, out.x, [0.0, far.x]);
            along.min(to_wall(place.y, out.y, [0.0, far.y]))
        });
        Length::mm(ways.into_iter().fold(f64::INFINITY, f64::min))
    }

    /// Whether the front has a set-back wall behind a bump-out frame.
    pub fn is_stepped(&self) -> bool {
        (self.lower_stud_face - self.upper_stud_face).is_positive()
    }

    fn faces(&mut self, params: &Params) {
        let (chase, skins) = (&params.chase, &params.skins);
        let ledge = match params.front.form {
            FrontForm::OneWall => Length::ZERO,
            FrontForm::Stepped => params
                .front
                .ledge
                .as_ref()
                .map_or(Length::ZERO, |it| it.width),
        };
        let upper_finish = match params.front.form {
            FrontForm::OneWall => skins.lower_finish,
            FrontForm::Stepped => skins.upper_finish,
        };
        self.lower_stud_face = chase.depth;
        self.upper_stud_face = chase.depth - ledge;
        self.front_back = self.upper_stud_face - chase.stud.width;
        self.lower_finished = self.lower_stud_face + skins.board + skins.lower_finish;
        self.upper_finished = self.upper_stud_face + skins.board + upper_finish;
        self.unit_face = chase.depth + params.appliance.face_offset;
        self.unit_back = self.unit_face - params.appliance.body_depth;
    }

    fn heights(&mut self, params: &Params) {
        let (appliance, front) = (&params.appliance, &params.front);
        let width =
            appliance.body_width + 2.0 * appliance.side_clearance.value + front.opening_ease;
        self.rough_opening = Span::about(self.unit_center, width);
        self.body_top = self.platform_top + appliance.body_height;
        self.opening_top = self.platform_top + appliance.opening_top;
        self.header_bottom = self.body_top + appliance.top_clearance.value + front.header_ease;
        self.header_top = self.header_bottom + front.header.width;
        self.framing_top = self.header_top
            + match (front.form, &front.ledge) {
                (FrontForm::Stepped, Some(ledge)) => ledge.thickness,
                _ => Length::ZERO,
            };
    }

    fn vent(&mut self, params: &Params) {
        self.path = Path::new(params);
        let collar = params.collar();
        self.pipe_out = Length::mm(-collar.y);
        let first = self.path.elbows().next();
        let meets = self.path.legs.get(1).map(|leg| leg.start.z);
        let end = self.path.last().map(|piece| piece.end().z);
        self.elbow_height = Length::mm(meets.or(end).unwrap_or(collar.z));
        self.elbow_leg = first.map_or(Length::ZERO, |it| it.elbow_leg);
        self.elbow_turn = first.map_or(Angle::radians(0.0), Piece::turn);
    }

    /// The rise from the top of the body to the first elbow's center; `None` where the vent does not
    /// come plumb from the body.
    pub fn rise(&self) -> Option<Length> {
        self.path.riser()?;
        self.path.legs.first().map(|leg| leg.length)
    }

    /// How far the vent runs level, to the outside face of the wall that it goes through.
    pub fn vent_run(&self) -> Length {
        let level = |leg: &Leg| leg.length.to_mm() * leg.direction.truncate().length();
        let past = self
            .path
            .last()
            .zip(self.pass.wall)
            .and_then(|(last, place)| {
                let wall = self.standing_wall(place)?;
                let along = wall.frame.local_vector(last.frame.z);
                let beyond = wall.frame.local_point(last.end()).y - wall.depths.outside.to_mm();
                Some(beyond / along.y * last.frame.z.truncate().length())
            });
        let whole: f64 = self.path.legs.iter().map(level).sum();
        Length::mm(whole - past.unwrap_or(0.0))
    }

    /// How far the vent rises plumb.
    pub fn vent_rise(&self) -> Length {
        let plumb = self.path.legs.iter().filter(|leg| leg.lie == Lie::Plumb);
        plumb.map(|leg| leg.length * leg.direction.z).sum()
    }

    /// The height of the last straight's center line, at a depth behind the finished face of the wall
    /// behind the chase; of the vent's end, where that one does not go there.
    pub fn run_height(&self, behind: Length) -> Length {
        let Some(last) = self.path.last() else {
            return self.elbow_height;
        };
        let (start, along) = (last.frame.origin, last.frame.z);
        if along.y > TOLERANCE {
            Length::mm(start.z + (behind.to_mm() - start.y) / along.y * along.z)
        } else {
            Length::mm(last.end().z)
        }
    }

    /// Where the clearance of the vertical pipe nearest to the room begins, out from the wall; that of
    /// the collar where no pipe is vertical.
    pub fn pipe_clearance_front(&self, params: &Params) -> Length {
        let vent = &params.vent;
        let plumb = self.path.legs.iter().filter(|leg| leg.lie == Lie::Plumb);
        let outs = plumb.map(|leg| Length::mm(-leg.start.y));
        outs.reduce(Length::max).unwrap_or(self.pipe_out)
            + vent.pipe_diameter / 2.0
            + vent.vertical_clearance.value
    }

    /// The highest point of the clearances of elbows and runs inside the room; the vent's end where it
    /// goes up through the ceiling.
    pub fn vent_clearance_top(&self, params: &Params) -> Length {
        let vent = &params.vent;
        if self.roof_pass.is_some() {
            let end = self.path.last().map(|piece| piece.end().z);
            return end.map_or(self.elbow_height, Length::mm);
        }
        let radius = vent.pipe_diameter / 2.0;
        let (top, up) = (vent.top_clearance.value, vent.vertical_clearance.value);
        let mut highest = self.elbow_height;
        for (index, leg) in self.path.legs.iter().enumerate() {
            if index > 0 {
                let elbow = Length::mm(leg.start.z) + radius + vent.bend_clearance.value;
                highest = highest.max(elbow);
            }
            let room = if leg.lie == Lie::Plumb {
                up.max(top)
            } else {
                top
            };
            if index > 0 || leg.lie != Lie::Plumb {
                let end = self.inside_end(leg);
                highest = highest.max(Length::mm(end.z) + radius + room);
            }
        }
        highest
    }

    /// Where a straight ends inside the room: where it meets the next one, or at the wall's face.
    pub fn inside_end(&self, leg: &Leg) -> DVec3 {
        let end = leg.start + leg.direction * leg.length.to_mm();
        let walls = self.standing.iter();
        let Some(wall) = walls
            .into_iter()
            .find(|it| self.pass.wall == Some(it.place))
        else {
            return end;
        };
        let [from, to] = [leg.start, end].map(|it| wall.frame.local_point(it).y);
        if to > 0.0 && from < to {
            leg.start.lerp(end, (-from / (to - from)).max(0.0))
        } else {
            end
        }
    }

    /// How high the ceiling has to be over a recess whose finished head lies at this height: board,
    /// header, plates on a ceiling of this steepness, and the gap.
    ///
    /// A plate of thickness t on a plane with slopes a and b takes t·√(1 + a² + b²) of height.
    pub fn stack_over_head(params: &Params, head: Length, steepness: f64) -> Length {
        let stud = &params.chase.stud;
        head + params.skins.board
            + stud.thickness * (1.0 + f64::from(params.chase.top_plates) * steepness)
            + params.ceiling.gap
    }

    /// The place over the header of the recess where the ceiling leaves least room for plates.
    /// `None` without a recess.
    pub fn ceiling_over_recess(&self, params: &Params) -> Option<UnderCeiling> {
        let corners = self.over_recess(params)?.into_iter();
        let all = corners.flat_map(|place| {
            let lowest = self.ceiling.z(place) + TOLERANCE;
            let planes = self.ceiling.planes().iter();
            let here = planes.filter(move |plane| plane.z(place) <= lowest);
            here.map(move |plane| UnderCeiling {
                right: Length::mm(place.x),
                out: Length::mm(-place.y),
                height: Length::mm(plane.z(place)),
                steepness: plane.steepness(),
            })
        });
        let left = |it: &UnderCeiling| {
            (it.height - Self::stack_over_head(params, Length::ZERO, it.steepness)).to_mm()
        };
        all.min_by(|a, b| left(a).total_cmp(&left(b)))
    }

    /// The highest that the ceiling comes over the header of the recess. `None` without a recess.
    pub fn highest_over_recess(&self, params: &Params) -> Option<Length> {
        let area = self.over_recess(params)?;
        Some(Length::mm(self.ceiling.highest(&area)))
    }

    /// The plan of the header over the recess, counter-clockwise.
    fn over_recess(&self, params: &Params) -> Option<[DVec2; 4]> {
        let header = self.recess?.rough.grown(params.chase.stud.thickness);
        let (front, back) = (self.upper_stud_face, self.front_back);
        let corners = [
            (header.low, front),
            (header.high, front),
            (header.high, back),
            (header.low, back),
        ];
        Some(corners.map(|(right, out)| DVec2::new(right.to_mm(), -out.to_mm())))
    }

    /// The wall at a side of the room, where its layers are known.
    pub fn standing_wall(&self, place: RoomWall) -> Option<&StandingWall> {
        self.standing.iter().find(|wall| wall.place == place)
    }

    /// The vent's hole in a wall, if it goes through that one.
    pub fn hole_in(&self, wall: &StandingWall) -> Option<WallHole> {
        (self.pass.wall == Some(wall.place)).then(|| WallHole {
            sides: self.pass.sides,
            heights: self.pass.heights.moved(-self.slab),
        })
    }

    fn wall(&mut self, params: &Params) {
        self.standing = StandingWall::all(params, self.slab);
        let back = self.standing_wall(RoomWall::Back);
        self.wall = back.map_or_else(WallLayout::default, |wall| wall.depths);
        self.pass = pass_layout(params, &self.path, &self.standing, self.slab);
        self.roof_pass = roof_pass(params, &self.path);
    }

    fn recess_layout(&self, params: &Params) -> Option<RecessLayout> {
        let recess = params.recess.as_ref()?;
        let board = params.skins.board;
        let finished = Span::about(recess.center.unwrap_or(self.chase.center()), recess.width);
        let finished_height = Span::new(recess.sill, recess.sill + recess.height);
        let back = self.upper_finished - recess.depth;
        Some(RecessLayout {
            finished,
            finished_height,
            rough: finished.grown(board),
            framed: framed_sides(
                finished.grown(board),
                self.rough_opening,
                params.chase.stud.thickness,
            ),
            rough_height: finished_height.grown(board),
            back,
            framing_front: back - board,
            framing_back: back - board - params.chase.stud.thickness,
        })
    }
}
