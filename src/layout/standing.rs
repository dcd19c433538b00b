//! The walls of the room that stand: where they are, what they consist of, and what is cut into them.
//!
//! *Wall frame*: u along the wall from its left end as seen from the room, v from its finished face
//! inward, w up from the bare slab. One code serves the wall behind the chase and the walls to its
//! left and right, so a hole, its framing and a stud headed off for it are the same in each of them.

use glam::{DVec2, DVec3};

use super::described::{centers, described, framed_centers};
use crate::catalog::FramingMember;
use crate::geom::{EndPlane, Frame, Profile, TOLERANCE, Underside, roofline};
use crate::params::{Bearing, Params, RoomWall, Site, wall_frame};
use crate::units::{Length, Span};

/// A wall of the room whose layers and studs are known.
#[derive(Debug, Clone, PartialEq)]
pub struct StandingWall {
    /// Which wall it is.
    pub place: RoomWall,
    /// Where it stands; see the frame above.
    pub frame: Frame,
    /// Its length along u.
    pub length: Length,
    /// Depths of its layers from the finished face.
    pub depths: WallLayout,
    /// Its studs.
    pub stud: FramingMember,
    /// Centers of its studs along u, from the left.
    pub centers: Vec<Length>,
    /// Whether it is bearing.
    pub bearing: Bearing,
    /// The ceiling at its top, over (u, v).
    pub top: Underside,
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

/// A rectangular hole square through a standing wall, in the wall's own frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallHole {
    /// Its sides along u.
    pub sides: Span,
    /// Its bottom and top along w, from the bare slab.
    pub heights: Span,
}

impl StandingWall {
    /// The wall at a side of the room; `None` where the parameters do not describe it.
    pub(super) fn new(params: &Params, site: &Site, place: RoomWall) -> Option<Self> {
        let wall = described(params, place)?;
        let (frame, length) = wall_frame(params, place);
        let frame = Frame {
            origin: frame.origin + DVec3::Z * params.slab().to_mm(),
            ..frame
        };
        let studs = wall.board;
        Some(Self {
            place,
            frame,
            length,
            depths: WallLayout {
                studs,
                sheathing: studs + wall.stud.depth(),
                outside: wall.thickness(),
            },
            centers: if site.frames(place) {
                framed_centers(&wall, length)
            } else {
                // both side walls count from the wall behind the chase
                centers(&wall, length, place == RoomWall::Left)
            },
            stud: wall.stud,
            bearing: wall.bearing,
            top: match place {
                RoomWall::Behind => params.underside_behind(),
                RoomWall::Back | RoomWall::Left | RoomWall::Right => params.underside(),
            }
            .seen_from(&frame),
        })
    }

    /// A point of the world.
    pub fn point(&self, u: Length, v: Length, w: Length) -> DVec3 {
        self.frame
            .point(DVec3::new(u.to_mm(), v.to_mm(), w.to_mm()))
    }

    /// Height of the ceiling over a place of the finished face, from the bare slab.
    pub fn top_at(&self, u: Length) -> Length {
        Length::mm(self.top.z(DVec2::new(u.to_mm(), 0.0)))
    }

    /// Where the stud with this center stands.
    pub fn stud_at(&self, center: Length) -> Span {
        Span::about(center, self.stud.breadth())
    }

    /// Centers of the studs that a hole would cut.
    pub fn cut_studs(&self, hole: Span) -> Vec<Length> {
        let studs = self.centers.iter().copied();
        studs
            .filter(|center| self.stud_at(*center).overlaps(hole))
            .collect()
    }

    /// The space between the studs that stay whole beside a hole, or up to the wall's ends.
    pub fn clear_span(&self, hole: Span) -> Span {
        let mut clear = Span::new(Length::ZERO, self.length);
        for center in &self.centers {
            let stud = self.stud_at(*center);
            if !stud.overlaps(hole) {
                if stud.high <= hole.center() {
                    clear.low = clear.low.max(stud.high);
                } else {
                    clear.high = clear.high.min(stud.low);
                }
            }
        }
        clear
    }

    /// The clear space between the two studs next to a place, or between a stud and an end of the wall.
    pub fn bay(&self, u: Length) -> Span {
        let mut bay = Span::new(Length::ZERO, self.length);
        for center in &self.centers {
            let stud = self.stud_at(*center);
            if *center <= u {
                bay.low = bay.low.max(stud.high);
            } else {
                bay.high = bay.high.min(stud.low);
            }
        }
        bay
    }

    /// Its outline up to the ceiling, without a hole: along it, and up from the bare slab.
    pub fn outline(&self) -> Vec<DVec2> {
        let mut outline = vec![DVec2::ZERO, DVec2::new(self.length.to_mm(), 0.0)];
        outline.extend(self.roofline().into_iter().rev());
        outline
    }

    /// How much of one of its studs lies behind a stretch of its face.
    pub fn stud_behind(&self, stretch: Span) -> Length {
        let studs = self.centers.iter().map(|center| self.stud_at(*center));
        studs
            .map(|it| it.high.min(stretch.high) - it.low.max(stretch.low))
            .fold(Length::ZERO, Length::max)
    }

    /// Whether a place of its face lies clear of all of the face's edges.
    pub(crate) fn is_inside(&self, place: DVec2) -> bool {
        let right = self.length.to_mm() - place.x;
        let up = self.top.z(DVec2::new(place.x, 0.0)) - place.y;
        [place.x, place.y, right, up]
            .iter()
            .all(|it| *it > TOLERANCE)
    }

    /// The top edge of its face from the left end to the right.
    pub(crate) fn roofline(&self) -> Vec<DVec2> {
        let right = self.length.to_mm();
        let lines = self.top.lines(DVec2::ZERO, DVec2::new(right, 0.0));
        roofline(&lines.collect::<Vec<_>>(), (0.0, right))
    }

    /// Plates under the ceiling of a wall that stands: of an outside wall always two (IRC 2018 R602.3.2).
    pub(crate) const TOP_PLATES: u32 = 2;

    /// How high, plumb, a plate is that rises so much along the wall, in millimetres.
    pub(crate) fn plate_plumb(&self, rise: f64) -> f64 {
        self.stud.plate().to_mm() * (1.0 + rise * rise).sqrt()
    }

    /// What a stud with this left side ends under, its wall's plates, from its bottom: level across the wall.
    pub(crate) fn under_plates(&self, left: Length, bottom: Length) -> Vec<EndPlane> {
        let level = |plane: &EndPlane| {
            let plates = f64::from(Self::TOP_PLATES) * self.plate_plumb(plane.slope.x);
            EndPlane {
                height: plane.z(DVec2::new(left.to_mm(), 0.0)) - plates - bottom.to_mm(),
                slope: DVec2::new(plane.slope.x, 0.0),
            }
        };
        let planes = self.top.planes().iter().map(level).collect();
        let section = Profile::rectangle(self.stud.breadth(), self.stud.depth()).outline;
        Underside::new(planes).planes_over(&section)
    }
}
