//! Framed walls: every wall is framed in a frame of its own, so that one code serves all of them.
//!
//! *Wall frame*: u along the wall from its left end as seen from the room side, v from that face
//! inward, w up from the slab. The top is one plane over (u, v), or the lower of several.

mod joints;
mod opened;
mod opening;
mod plate;
mod state;
mod steel;
mod stick;
mod studs;
mod top;

pub(super) use opening::{HeadHeights, Opening, Recess};
pub(super) use state::{Cover, LayoutFrom, SquareEdges, Wall};
use state::{Hole, Reach, Stick, kind_of};
use steel::Flanges;
pub(super) use steel::{Web, c_shape, half_track, track_name};
pub(super) use stick::framing;
pub(super) use studs::evenly;

use glam::DVec2;

use super::builder::Builder;
use super::{Kind, Note};
use crate::catalog::{FramingMember, Material, track_flange};
use crate::geom::{EndPlane, Frame, Underside};
use crate::params::ChaseWall;
use crate::units::{Length, Span};

impl<'a> Wall<'a> {
    /// A wall under what lies over the world, `gap` below it; its ends run to the right by the skew for
    /// each step inward.
    pub(super) fn under(
        which: ChaseWall,
        frame: Frame,
        (length, skew): (Length, [f64; 2]),
        (stud, spacing): (&'a FramingMember, Length),
        (underside, gap): (&Underside, Length),
        cover: Cover<'a>,
    ) -> Self {
        let over = underside.seen_from(&frame).lowered(|_| gap);
        Self {
            which,
            frame,
            length,
            stud,
            spacing,
            layout_from: LayoutFrom::Left,
            top: top::over_wall(&over, (length, skew), stud),
            skew,
            cover,
            edges: SquareEdges::NOWHERE,
            plates_short: [Length::ZERO; 2],
            longest: Length::mm(f64::INFINITY),
            hammer_room: Length::ZERO,
            is_even: false,
            stands_already: false,
            standing: Vec::new(),
            sticks: Vec::new(),
            dropped: Vec::new(),
        }
    }

    /// Numbers the sticks of each kind from the left, then from below, and hands them over.
    pub(super) fn hand_over(mut self, builder: &mut Builder) {
        self.sticks.sort_by(|a, b| {
            let key = |it: &Stick| (it.from_left.0.to_mm(), it.from_left.1.to_mm());
            let ((u, w), (other_u, other_w)) = (key(a), key(b));
            u.total_cmp(&other_u).then(w.total_cmp(&other_w))
        });
        for stick in self.sticks {
            builder.add_next(self.which, stick.make, stick.shape, stick.frame);
        }
        for center in self.dropped {
            builder.notes.push(Note::Dropped {
                wall: self.which,
                center,
            });
        }
    }

    /// Lays the top level across a wall of wood, under its lowest, where it rises less than this from face to face:
    /// plates lie flat on studs that are cut square across.
    pub(super) fn level_across(&mut self, least: Length) {
        if self.stud.wood().is_none() {
            return;
        }
        let depth = self.depth().to_mm();
        let planes = self.top.planes().iter().map(|plane| {
            let rise = plane.slope.y * depth;
            if rise.abs() < least.to_mm() {
                EndPlane {
                    height: plane.height + rise.min(0.0),
                    slope: DVec2::new(plane.slope.x, 0.0),
                }
            } else {
                *plane
            }
        });
        self.top = Underside::new(planes.collect());
    }

    /// Thickness of the wall.
    fn depth(&self) -> Length {
        self.stud.depth()
    }

    /// What a plate, or the web of a track, takes of its height.
    fn plate(&self) -> Length {
        self.stud.plate()
    }

    /// Frames a wall without openings.
    pub(super) fn frame_plain(&mut self) {
        self.frame_around(None);
    }

    /// Frames a wall with an opening and, if there is one, a recess above it.
    pub(super) fn frame_front(&mut self, opening: &Opening<'_>, recess: Option<&Recess>) {
        self.sole(&[
            Span::new(Length::ZERO, opening.sides.low),
            Span::new(opening.sides.high, self.length),
        ]);
        self.end_studs();
        let fitted = recess.map(|recess| recess.fit(opening, self.stud.breadth()));
        self.frame_opening(opening, fitted.as_ref());
        let mut holes = vec![self.opening_hole(opening)];
        if let Some(fitted) = &fitted {
            self.frame_recess(opening, fitted);
            holes.push(self.recess_hole(fitted));
        }
        self.ridge_studs(&holes);
        self.pack_slots(&holes);
        self.layout_studs(&holes);
        self.close();
    }

    fn sole(&mut self, runs: &[Span]) {
        for run in runs {
            let place = (*run, Length::ZERO);
            match self.stud {
                FramingMember::Wood(lumber) => {
                    self.flat(Kind::SolePlate, Material::TREATED, place, lumber);
                }
                FramingMember::Steel(steel) => {
                    let up = (track_flange(steel), Flanges::Up);
                    self.level_track(Kind::SolePlate, steel, place, up);
                }
            }
        }
    }

    /// A stud at each end. Where the end is not square it is ripped to lie flat against what the wall
    /// ends at: as thick as any, its edges flush with the wall's two faces.
    fn end_studs(&mut self) {
        let breadth = self.stud.breadth();
        for (end, skew) in [Length::ZERO, self.length].into_iter().zip(self.skew) {
            let along = breadth * (1.0 + skew * skew).sqrt();
            let left = if end.is_positive() { end - along } else { end };
            let reach = Reach::ToPlates(self.plate());
            match self.stud {
                FramingMember::Wood(_) => {
                    self.upright_of(Kind::Stud, left, (along, skew), reach);
                }
                FramingMember::Steel(steel) => {
                    let web = if end.is_positive() {
                        Web::Right
                    } else {
                        Web::Left
                    };
                    self.steel_upright(Kind::Stud, (left, web), reach, steel);
                }
            }
        }
    }

    /// The plates under the ceiling, or the ledge.
    fn close(&mut self) {
        match self.cover {
            Cover::Plates(count) => {
                for layer in 0..count {
                    self.top_plates(layer, count);
                }
            }
            Cover::Ledge(ledge) => {
                let along = Span::new(Length::ZERO, self.length);
                let bottom = self.top.height_at(Length::ZERO, Length::ZERO) - ledge.plate();
                if let FramingMember::Steel(steel) = self.stud {
                    let under = bottom - self.plate();
                    let flange = (track_flange(steel), Flanges::Down);
                    self.level_track(Kind::Ledge, steel, (along, under), flange);
                    // the ledge on it comes first
                    if let Some(track) = self.sticks.last_mut() {
                        track.from_left.1 = bottom + ledge.plate();
                    }
                }
                self.flat(Kind::Ledge, Material::LUMBER, (along, bottom), ledge);
            }
        }
    }
}
