//! The numbers that a design follows from: where faces, openings, heads and pipes lie.
//!
//! `out` counts from the wall's finished face into the room; heights count from the floor datum;
//! `left` and `right` count from the left corner of the room.

use glam::{DVec2, DVec3};

use super::wall::framed_sides;
use crate::geom::{TOLERANCE, Underside};
use crate::params::{FloorDatum, FrontForm, Layer, Params};
use crate::units::{Angle, Length};

/// Two ends along a line.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Span {
    /// The lower end.
    pub low: Length,
    /// The upper end.
    pub high: Length,
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
    /// Inside width of the room.
    pub room_width: Length,
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
    /// Center of the collar and the vertical pipe, out from the wall.
    pub pipe_out: Length,
    /// Height of the elbow's center, where the two center lines meet.
    pub elbow_height: Length,
    /// How far the bend reaches from the elbow's center along each center line.
    pub elbow_leg: Length,
    /// How far the bend turns.
    pub elbow_turn: Angle,
    /// The recess, if there is one.
    pub recess: Option<RecessLayout>,
    /// The hole through the wall.
    pub pass: PassLayout,
    /// The existing wall's layers, each from the finished face outward (into the wall).
    pub wall: WallLayout,
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
    /// Sides of the hole, from the left corner.
    pub sides: Span,
    /// Bottom and top of the hole.
    pub heights: Span,
    /// The clear bay between the existing studs that stand nearest beside the hole's center.
    pub bay: Span,
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

impl Layout {
    /// Derives every number from the parameters.
    pub(super) fn new(params: &Params) -> Self {
        let chase = Span::new(params.chase.left, params.chase.left + params.chase.width);
        let slab = match params.project.floor_datum {
            FloorDatum::BareSlab => Length::ZERO,
            FloorDatum::FinishedFloor => -params.project.floor_buildup,
        };
        let mut layout = Self {
            slab,
            ceiling: params.underside(),
            chase,
            room_width: params.room.width,
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

    /// Whether the chase's left side stands free; against the room's own wall it is not seen.
    pub fn left_is_free(&self) -> bool {
        self.chase.low.is_positive()
    }

    /// Whether the chase's right side stands free.
    pub fn right_is_free(&self) -> bool {
        (self.room_width - self.chase.high).is_positive()
    }

    /// The chase's framing with skins of this thickness on the sides that stand free.
    pub fn with_skins(&self, thickness: Length) -> Span {
        let on = |free: bool| if free { thickness } else { Length::ZERO };
        Span::new(
            self.chase.low - on(self.left_is_free()),
            self.chase.high + on(self.right_is_free()),
        )
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
        let vent = &params.vent;
        self.pipe_out = self.unit_face - vent.collar_offset;
        self.elbow_height = self.body_top + vent.rise;
        let turn = std::f64::consts::FRAC_PI_2 - vent.slope.value.angle().to_radians();
        self.elbow_turn = Angle::radians(turn);
        self.elbow_leg = vent.bend_radius * Angle::radians(turn / 2.0).tan();
    }

    /// The height of the run's center line, at a depth behind the wall's finished face.
    pub fn run_height(&self, params: &Params, behind: Length) -> Length {
        self.elbow_height + params.vent.slope.value.rise(self.pipe_out + behind)
    }

    /// Where the vertical pipe's clearance begins, out from the wall.
    pub fn pipe_clearance_front(&self, params: &Params) -> Length {
        let vent = &params.vent;
        self.pipe_out + vent.pipe_diameter / 2.0 + vent.vertical_clearance.value
    }

    /// The highest point of the clearances of elbow and run inside the room.
    pub fn vent_clearance_top(&self, params: &Params) -> Length {
        let vent = &params.vent;
        let radius = vent.pipe_diameter / 2.0;
        let elbow = self.elbow_height + radius + vent.bend_clearance.value;
        let run = self.run_height(params, Length::ZERO) + radius + vent.top_clearance.value;
        elbow.max(run)
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

    fn wall(&mut self, params: &Params) {
        let (wall, vent) = (&params.wall, &params.vent);
        let studs = wall.board;
        let sheathing = studs + wall.stud.width;
        self.wall = WallLayout {
            studs,
            sheathing,
            outside: sheathing + wall.sheathing,
        };
        let stretch = 1.0 / vent.slope.value.angle().cos();
        let radius = vent.pipe_diameter / 2.0;
        let needed = Span::new(
            self.run_height(params, Length::ZERO)
                - (radius + vent.bottom_clearance.value) * stretch,
            self.run_height(params, self.wall.outside)
                + (radius + vent.top_clearance.value) * stretch,
        );
        let width = vent.pipe_diameter + 2.0 * vent.side_clearance.value;
        self.pass.sides =
            Span::about(self.unit_center, width.max(vent.firestop_width)).grown(vent.pass_ease);
        self.pass.heights = Span::about(needed.center(), needed.size().max(vent.firestop_height))
            .grown(vent.pass_ease);
        self.pass.bay = self.bay(params);
    }

    /// The clear space between the two existing studs next to the pipe's center line, or between a
    /// stud and the corner of the room.
    fn bay(&self, params: &Params) -> Span {
        let (wall, half) = (&params.wall, params.wall.stud.thickness / 2.0);
        let bays = ((self.unit_center - wall.first_stud) / wall.stud_spacing).floor();
        let left = wall.first_stud + wall.stud_spacing * bays;
        let right = left + wall.stud_spacing;
        Span::new(
            if bays < 0.0 {
                Length::ZERO
            } else {
                left + half
            },
            if right + half > params.room.width {
                params.room.width
            } else {
                right - half
            },
        )
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
