//! The numbers that a design follows from: where faces, openings, heads and pipes lie.
//!
//! `out` counts from the wall's finished face into the room; heights count from the floor datum;
//! `left` and `right` count from the left corner of the room.

mod recess;
mod vent;

use glam::DVec3;

use super::opened::OpenedWall;
use super::part::Part;
use super::span::Span;
use super::standing::StandingWall;
use super::vent::{Path, RoofPass, pass_layout, roof_pass};
use crate::geom::{Frame, TOLERANCE, Underside};
use crate::params::{Collar, FrontForm, Layer, Lean, Params, Placement, RoomWall};
use crate::units::{Angle, Length, TapeUnit};

/// What a side of the chase ends against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// Nothing: it is seen, and has board and finish.
    #[default]
    Free,
    /// A wall of the room, square to the face.
    Wall,
    /// A wall of the room at half the corner's angle to the way out, so that the chase widens toward the room: there
    /// is no side wall.
    Corner,
    /// The back of the wall that the chase is set into: the enclosure's side is not seen from the room.
    Behind,
}

/// The derived numbers of one design.
#[derive(Debug, Clone, Default)]
pub struct Layout {
    /// Height of the bare slab.
    pub slab: Length,
    /// The ceiling over the world.
    pub ceiling: Underside,
    /// The ceiling over what stands wholly behind the wall that a flush chase is set into; elsewhere the same.
    pub ceiling_behind: Underside,
    /// Left and right edge of the chase's framing.
    pub chase: Span,
    /// What the left and the right side of the chase end against.
    pub sides: [Side; 2],
    /// The room's frame, in the chase's.
    pub room: Frame,
    /// Where the inside of the chase begins, out from the wall: behind a divider's own back wall.
    pub inside_begins: Length,
    /// Board on the inside of the side walls and the back: of the enclosure of a flush chase outdoors.
    pub lining: Length,
    /// Finished face of the fireplace wall, out from the chase's own back; nothing unless that wall is opened.
    pub wall_face: Length,
    /// The wall that a flush chase is set into.
    pub opened: Option<OpenedWall>,
    /// How far the walls of the corner that the chase stands across go to either side for each step out: 1 where
    /// it is square.
    pub spread: f64,
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
    /// How the wall behind the chase leans, where it was read.
    pub lean: Option<Lean>,
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

impl PassLayout {
    /// The hole as it is marked out, its sides from the wall's left end and its heights from the bare slab: each edge on
    /// the tape's next mark outward, and its sizes what lies between.
    pub fn on_marks(&self, slab: Length, unit: TapeUnit) -> (Span, Span) {
        let heights = self.heights.moved(-slab);
        (self.sides.on_marks(unit), heights.on_marks(unit))
    }
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

/// What the sides of a chase end against.
fn sides(params: &Params, chase: Span) -> [Side; 2] {
    if params.is_flush() {
        return [Side::Behind; 2];
    }
    if params.is_across_corner() {
        // wings stand free; without them the face goes from wall to wall
        let wing = params.chase.depth - chase.size() / (2.0 * params.corner_spread());
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
            params.chase_left() + params.chase_width(),
        );
        let slab = params.slab();
        let mut layout = Self {
            slab,
            lean: params.wall_lean(slab),
            ceiling: params.underside(),
            ceiling_behind: params.underside_behind(),
            chase,
            sides: sides(params, chase),
            room: params.room_frame(),
            is_across_corner: params.is_across_corner(),
            lining: params.lining(),
            wall_face: params.wall_face(),
            spread: params.corner_spread(),
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

    /// The ceiling over what reaches so far out from the wall behind the chase.
    pub fn ceiling_to(&self, out: Length) -> &Underside {
        if (out - self.front_back).to_mm() <= TOLERANCE {
            &self.ceiling_behind
        } else {
            &self.ceiling
        }
    }

    /// The ceiling over a part: that of the room, unless it stands wholly behind the wall that is opened.
    pub fn ceiling_of(&self, part: &Part) -> &Underside {
        self.ceiling_to(Length::mm(-part.body.bounds.low.y))
    }

    /// The chase's framing so far out from the wall; across a corner from wall to wall it widens.
    pub fn framing_at(&self, out: Length) -> Span {
        self.with_skins(Length::ZERO, out)
    }

    /// The same with skins of this thickness on the sides that stand free.
    pub fn with_skins(&self, thickness: Length, out: Length) -> Span {
        let reach = |side: Side, edge: Length| match side {
            Side::Free => edge + thickness,
            Side::Wall | Side::Behind => edge,
            Side::Corner => out * self.spread,
        };
        let middle = self.chase.center();
        let half = self.chase.size() / 2.0;
        Span::new(
            middle - reach(self.sides[0], half),
            middle + reach(self.sides[1], half),
        )
    }

    /// Between the end studs of the wall that carries the recess. Across a corner they lie flat on the
    /// room's walls and reach farther in at the wall's back.
    pub fn between_end_studs(&self, params: &Params) -> Span {
        let stud = params.front_stud();
        let taken = self.sides.map(|side| match side {
            Side::Corner => {
                stud.width * self.spread + stud.thickness * (1.0 + self.spread * self.spread).sqrt()
            }
            Side::Free | Side::Wall | Side::Behind => stud.thickness,
        });
        let wall = self.framing_at(self.upper_stud_face);
        Span::new(wall.low + taken[0], wall.high - taken[1])
    }

    /// Where a side of the chase meets the wall behind it, so far outside (or, below zero, inside) of
    /// its framing; out from the wall or the corner.
    pub fn side_begins(&self, outside: Length) -> Length {
        if self.is_across_corner {
            (self.chase.size() / 2.0 + outside) / self.spread
        } else {
            // a side wall butts against the studs of the back, whose lining lies between the sides
            self.inside_begins - self.lining
        }
    }

    /// What a side wall takes of the chase's width, with its lining.
    pub fn side_taken(&self, params: &Params) -> Length {
        params.chase.stud.width + self.lining
    }

    /// How far out the wall behind the chase comes over this much to either side of the unit's center.
    pub fn wall_behind(&self, half: Length) -> Length {
        if self.is_across_corner {
            ((self.unit_center - self.chase.center()).abs() + half) / self.spread
        } else {
            self.inside_begins
        }
    }

    /// How far out the wall behind the chase comes at most between two places.
    pub fn wall_behind_span(&self, sides: Span) -> Length {
        if self.is_across_corner {
            let middle = self.chase.center();
            (sides.low - middle).abs().max((sides.high - middle).abs()) / self.spread
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
        if self.is_across_corner {
            (1.0 + 1.0 / (self.spread * self.spread)).sqrt()
        } else {
            1.0
        }
    }

    /// The least depth of the chase for the body with what has to be free behind it, and for the pipe before the
    /// wall; the larger governs. Of a vent that leaves the body behind only the first.
    pub fn least_depths(&self, params: &Params) -> [Length; 2] {
        let (unit, vent) = (&params.appliance, &params.vent);
        let half = unit.body_width / 2.0 + unit.side_clearance.value;
        let body =
            unit.body_depth + unit.rear_clearance.value - unit.face_offset + self.wall_behind(half);
        let pipe = match vent.collar {
            Collar::Up => {
                // a wall at an angle comes less near to the pipe than it lies behind it
                let clear = vent.pipe_diameter / 2.0 + vent.vertical_clearance.value;
                params.chase.depth + (clear - self.pipe_to_wall()) * self.wall_stretch()
            }
            Collar::Back => Length::ZERO,
        };
        [body, pipe]
    }

    /// How far a place is from the walls of the room that the front looks at, square to the nearest: the one
    /// opposite, and across a corner also the side wall that is no wall of that corner.
    pub fn way_before(&self, params: &Params, place: DVec3) -> Length {
        let place = self.room.local_point(place);
        let right = Length::mm(place.x);
        let opposite = params.room.depth + Length::mm(place.y);
        match params.chase.placement {
            Placement::LeftCorner => opposite.min(params.room.width - right),
            Placement::RightCorner => opposite.min(right),
            Placement::Projecting | Placement::Divider | Placement::Flush => opposite,
        }
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
        self.front_back = if params.is_flush() {
            self.upper_stud_face - params.wall.stud.width - params.wall.sheathing
        } else {
            self.upper_stud_face - params.front_stud().width
        };
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
        self.header_top = self.header_bottom + params.header_height(params.lower_stud());
        self.framing_top = self.header_top
            + match (front.form, &front.ledge) {
                (FrontForm::Stepped, Some(ledge)) => ledge.thickness,
                _ => Length::ZERO,
            };
    }

    /// The wall at a side of the room, where its layers are known.
    pub fn standing_wall(&self, place: RoomWall) -> Option<&StandingWall> {
        self.standing.iter().find(|wall| wall.place == place)
    }

    fn wall(&mut self, params: &Params) {
        self.standing = StandingWall::all(params, self.slab);
        self.opened = OpenedWall::new(params, self);
        if let Some(opened) = &self.opened
            && let Some(wall) = self
                .standing
                .iter_mut()
                .find(|it| it.place == RoomWall::Back)
        {
            wall.centers = opened.whole();
        }
        let back = self.standing_wall(params.wall_behind());
        self.wall = back.map_or_else(WallLayout::default, |wall| wall.depths);
        self.pass = pass_layout(params, &self.path, &self.standing, self.slab);
        self.roof_pass = roof_pass(params, &self.path);
    }
}
