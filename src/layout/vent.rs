//! The numbers of the vent: how far it runs and rises, where its clearances end, and its hole.

use glam::DVec3;

use super::Layout;
use super::standing::{StandingWall, WallHole};
use crate::geom::TOLERANCE;
use crate::params::{Leg, Lie, RoomWall};
use crate::units::Length;

impl Layout {
    /// The rise from the top of the body to the first elbow's center; `None` where the vent does not
    /// come plumb from the body.
    pub fn rise(&self) -> Option<Length> {
        self.path.riser()?;
        self.path.legs.first().map(|leg| leg.length)
    }

    /// In the frame of the wall that the vent goes through: the way of its last straight, and where its center
    /// line leaves that wall as it is drawn.
    fn leaves_wall(&self) -> Option<(DVec3, DVec3)> {
        let (last, wall) = self.path.last().zip(self.pass_wall())?;
        let along = wall.frame.local_vector(last.frame.z);
        let end = wall.frame.local_point(last.end());
        let beyond = (end.y - wall.depths.outside.to_mm()) / along.y;
        Some((along, end - along * beyond))
    }

    /// How much farther the vent goes, along its last straight, than to the wall as it is drawn: the wall behind
    /// the chase lies so far behind its place farthest into the room where the center line leaves it.
    pub fn vent_goes_on(&self) -> Length {
        let lean = self
            .lean
            .as_ref()
            .filter(|_| self.pass.wall == Some(RoomWall::Back));
        let Some((lean, (along, leaves))) = lean.zip(self.leaves_wall()) else {
            return Length::ZERO;
        };
        // the wall's own frame stands on the slab, and the wall was read from the datum
        let height = self.slab.to_mm() + leaves.z;
        let behind = lean.behind(Length::mm(height));
        // a pipe that rises meets the wall where it lies a little farther behind, or less far
        let farther = lean.behind(Length::mm(height + along.z)) - behind;
        behind / (along.y - farther.to_mm())
    }

    /// How far the vent runs level, to the outside face of the wall that it goes through.
    pub fn vent_run(&self) -> Length {
        let level = |leg: &Leg| leg.length.to_mm() * leg.direction.truncate().length();
        let whole: f64 = self.path.legs.iter().map(level).sum();
        let Some(last) = self.path.last() else {
            return Length::mm(whole);
        };
        let past = self.pass_wall().zip(self.leaves_wall());
        let past = past.map_or(0.0, |(wall, (_, leaves))| {
            (last.end() - wall.frame.point(leaves)).dot(last.frame.z)
        });
        let beyond = self.vent_goes_on().to_mm() - past;
        Length::mm(whole + beyond * last.frame.z.truncate().length())
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
            return self.path.elbow_height();
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
    pub fn pipe_clearance_front(&self) -> Length {
        let vent = &self.params.vent;
        let plumb = self.path.legs.iter().filter(|leg| leg.lie == Lie::Plumb);
        let outs = plumb.map(|leg| Length::mm(-leg.start.y));
        outs.reduce(Length::max).unwrap_or(self.path.pipe_out())
            + vent.pipe_diameter / 2.0
            + vent.vertical_clearance.value
    }

    /// The highest point of the clearances of elbows and runs inside the room; the vent's end where it
    /// goes up through the ceiling.
    pub fn vent_clearance_top(&self) -> Length {
        let vent = &self.params.vent;
        if self.roof_pass.is_some() {
            let end = self.path.last().map(|piece| piece.end().z);
            return end.map_or(self.path.elbow_height(), Length::mm);
        }
        let radius = vent.pipe_diameter / 2.0;
        let (top, up) = (vent.top_clearance.value, vent.vertical_clearance.value);
        let mut highest = self.path.elbow_height();
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
    fn inside_end(&self, leg: &Leg) -> DVec3 {
        let end = leg.start + leg.direction * leg.length.to_mm();
        let Some(wall) = self.pass_wall() else {
            return end;
        };
        let [from, to] = [leg.start, end].map(|it| wall.frame.local_point(it).y);
        if to > 0.0 && from < to {
            leg.start.lerp(end, (-from / (to - from)).max(0.0))
        } else {
            end
        }
    }

    /// The wall that the vent goes through, where its layers are known.
    pub fn pass_wall(&self) -> Option<&StandingWall> {
        self.standing_wall(self.pass.wall?)
    }

    /// The vent's hole in a wall, if it goes through that one.
    pub fn hole_in(&self, wall: &StandingWall) -> Option<WallHole> {
        (self.pass.wall == Some(wall.place)).then(|| WallHole {
            sides: self.pass.sides,
            heights: self.pass.heights.moved(-self.slab),
        })
    }
}
