//! The numbers that a design follows from: where faces, openings, heads and pipes lie, before anything is built.
//!
//! Parameters in, one [`Layout`] out, made in one expression: each number is there before what follows from it. It
//! knows of no part.
//!
//! `out` counts from the wall's finished face into the room; heights count from the floor datum;
//! `left` and `right` count from the left corner of the room.

#![deny(clippy::wildcard_enum_match_arm)]

mod described;
mod faces;
mod members;
mod opened;
mod pass;
mod path;
mod place;
mod recess;
mod roof;
mod standing;
mod under;
mod vent;
mod walls;

use std::sync::Arc;

use glam::DVec3;

use crate::geom::{TOLERANCE, Underside};
use crate::params::{Collar, End, Heights, Lean, Params, RoomWall, SheetKind, Site};
use crate::units::{Length, Span};

pub use faces::Faces;
pub use members::CeilingMembers;
pub use opened::OpenedWall;
pub use pass::PassLayout;
pub(crate) use pass::exit as pass_exit;
pub(crate) use path::crossing;
pub use path::{Path, Piece};
pub use place::{UnderCeiling, point, rectangle};
pub use recess::RecessLayout;
pub(crate) use recess::{Stand, fit_side, framed_sides};
pub use roof::RoofPass;
pub(crate) use roof::{across_rafters, one_plane, rafter_centers, raised};
pub use standing::{StandingWall, WallHole, WallLayout};

/// The derived numbers of one design.
#[derive(Debug, Clone)]
pub struct Layout {
    /// The parameters that they follow from.
    pub params: Arc<Params>,
    /// Where the chase stands.
    pub site: Site,
    /// Height of the bare slab.
    pub slab: Length,
    /// The ceiling over the world: the lower of its planes. What lies below is convex, so a height is least over a
    /// corner. Rafters, and blocks over plates, are this ceiling's alone.
    pub ceiling: Underside,
    /// The ceiling over what stands wholly behind the wall that a flush chase is set into: the same, unless
    /// `behind.ceiling` is written.
    pub ceiling_behind: Underside,
    /// Where the faces of front and unit lie.
    pub faces: Faces,
    /// How high platform, unit and header reach.
    pub heights: Heights,
    /// Center of the unit, from the left corner.
    pub unit_center: Length,
    /// The rough opening's sides.
    pub rough_opening: Span,
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
    /// The wall that a flush chase is set into.
    pub opened: Option<OpenedWall>,
}

impl Layout {
    /// Derives every number from the parameters.
    pub fn new(params: &Params) -> Self {
        let site = params.site();
        let faces = Faces::new(params, &site);
        let unit_center = params.appliance.center.unwrap_or(site.chase.center());
        let rough_opening = rough_opening(params, unit_center);
        let path = Path::new(params);
        let (standing, opened) = walls::standing(params, &site, rough_opening);
        let behind = standing.iter().find(|wall| wall.place == site.behind);
        Self {
            slab: params.slab(),
            ceiling: params.underside(),
            ceiling_behind: params.underside_behind(),
            heights: Heights::new(params),
            recess: RecessLayout::new(params, site.chase, (&faces, rough_opening)),
            pass: PassLayout::new(params, &path, &standing),
            roof_pass: RoofPass::new(params, &path),
            wall: behind.map_or_else(WallLayout::default, |wall| wall.depths),
            lean: params.wall_lean(params.slab()),
            params: Arc::new(params.clone()),
            site,
            faces,
            unit_center,
            rough_opening,
            path,
            standing,
            opened,
        }
    }

    /// The wall at a side of the room, where its layers are known.
    pub fn standing_wall(&self, place: RoomWall) -> Option<&StandingWall> {
        self.standing.iter().find(|wall| wall.place == place)
    }

    /// The ceiling over what reaches so far out from the wall behind the chase: that of the room, unless it stands
    /// wholly behind the wall that is opened.
    pub fn ceiling_to(&self, out: Length) -> &Underside {
        if (out - self.faces.front_back).to_mm() <= TOLERANCE {
            &self.ceiling_behind
        } else {
            &self.ceiling
        }
    }

    /// Between the end studs of the wall that carries the recess. Across a corner they lie flat on the
    /// room's walls and reach farther in at the wall's back.
    pub fn between_end_studs(&self) -> Span {
        let stud = self.params.front_stud();
        let taken = self.site.ends.map(|end| match end {
            End::Corner => {
                stud.depth() * self.site.spread
                    + stud.breadth() * (1.0 + self.site.spread * self.site.spread).sqrt()
            }
            End::Free | End::Wall | End::Behind => stud.breadth(),
        });
        let wall = self.site.framing_at(self.faces.upper_stud);
        Span::new(wall.low + taken[0], wall.high - taken[1])
    }

    /// What a side wall takes of the chase's width, with its lining.
    pub fn side_taken(&self) -> Length {
        self.params.chase.stud.depth() + self.site.lining
    }

    /// How far out the wall behind the chase comes over this much to either side of the unit's center.
    pub fn wall_comes_out(&self, half: Length) -> Length {
        let aside = (self.unit_center - self.site.chase.center()).abs();
        self.site.wall_comes(aside + half)
    }

    /// From the middle of the vertical pipe to the wall behind the chase, square to that wall.
    pub fn pipe_to_wall(&self) -> Length {
        let out = self.path.pipe_out() - self.wall_comes_out(Length::ZERO);
        out / self.site.wall_stretch()
    }

    /// The least depth of the chase for the body with what has to be free behind it, and for the pipe before the
    /// wall; the larger governs. Of a vent that leaves the body behind only the first.
    pub fn least_depths(&self) -> [Length; 2] {
        let params = &self.params;
        let (unit, vent) = (&params.appliance, &params.vent);
        let half = unit.body_width / 2.0 + unit.side_clearance.value;
        let body = unit.body_depth + unit.rear_clearance.value - unit.face_offset
            + self.wall_comes_out(half);
        let pipe = match vent.collar {
            Collar::Up => {
                // a wall at an angle comes less near to the pipe than it lies behind it
                let clear = vent.pipe_diameter / 2.0 + vent.vertical_clearance.value;
                params.chase.depth + (clear - self.pipe_to_wall()) * self.site.wall_stretch()
            }
            Collar::Back => Length::ZERO,
        };
        [body, pipe]
    }

    /// How far a place is from the walls of the room that the front looks at, square to the nearest.
    pub fn way_before(&self, place: DVec3) -> Length {
        let room = &self.params.room;
        self.site.way_before(place, (room.width, room.depth))
    }

    /// Whether one upright sheet of gypsum board covers a face from side to side, so that its framing bears no joint.
    pub fn is_one_sheet(&self, width: Length) -> bool {
        let board = self.params.skins.board;
        let (sheet, _) = self.params.sheet_size(SheetKind::GypsumBoard, board);
        !(width + board - sheet).is_positive()
    }

    /// Whether the front has a set-back wall behind a bump-out frame.
    pub fn is_stepped(&self) -> bool {
        (self.faces.lower_stud - self.faces.upper_stud).is_positive()
    }
}

/// The rough opening's sides round the unit's body with its clearances.
fn rough_opening(params: &Params, center: Length) -> Span {
    let unit = &params.appliance;
    let width = unit.body_width + 2.0 * unit.side_clearance.value + params.front.opening_ease;
    Span::about(center, width)
}
