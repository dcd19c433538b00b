//! Parameters in, the ceiling out: one plane, written or laid through readings, or the lower of the two
//! that meet at a ridge.
//!
//! *Frame*: the room's; y runs into the wall, so a plane that rises out into the room falls along y.

use glam::{DVec2, DVec3};

use super::choice::{PlatesAlong, RidgeRun};
use super::list::{Params, Ridge};
use crate::geom::{EndPlane, Underside, fitted_plane};
use crate::units::{Length, Slope};

impl Params {
    /// The ceiling's underside over the chase's frame, from the floor datum.
    pub fn underside(&self) -> Underside {
        self.room_underside().placed(&self.site().room)
    }

    /// The ceiling's underside over what stands behind the wall that a flush chase is set into, over the chase's
    /// frame: the room's, run on, unless there is one of its own.
    pub fn underside_behind(&self) -> Underside {
        self.site().ceiling_behind.map_or_else(
            || self.underside(),
            |height| Underside::new(vec![EndPlane::level(height)]),
        )
    }

    /// The ceiling's underside over the room's frame.
    pub fn room_underside(&self) -> Underside {
        let [rise_right, rise_out] = self.rises();
        let plane = |height: Length, right: Slope, out: Slope| {
            EndPlane::sloped(height, DVec2::new(right.to_ratio(), -out.to_ratio()))
        };
        let fitted = fitted_plane(&self.ceiling_points());
        if let Some(fitted) = fitted {
            return Underside::new(vec![fitted]);
        }
        let Some(ridge) = &self.ridge else {
            let plane = plane(self.corner_height(), rise_right, rise_out);
            return Underside::new(vec![plane]);
        };
        let rise = self.rise_to(ridge);
        let beyond = Slope::ratio(-self.fall_beyond(ridge).to_ratio());
        let at_ridge = self.ridge_height(ridge);
        // the second plane, brought back to the corner that heights are given at
        let height = at_ridge - beyond.rise(ridge.at);
        Underside::new(match ridge.runs {
            RidgeRun::Out => vec![
                plane(self.corner_height(), rise, rise_out),
                plane(height, beyond, rise_out),
            ],
            RidgeRun::Along => vec![
                plane(self.corner_height(), rise_right, rise),
                plane(height, rise_right, beyond),
            ],
        })
    }

    /// Where the ceiling was read, over the chase's frame, and how far each lies over the plane that is laid
    /// through all; below zero where the ceiling hangs under it.
    pub fn off_the_plane(&self) -> Vec<(DVec3, Length)> {
        let room = self.site().room;
        let ceiling = self.underside();
        let off = |it: DVec3| (it, Length::mm(it.z - ceiling.z(it.truncate())));
        let points = self.ceiling_points().into_iter();
        points.map(|it| off(room.point(it))).collect()
    }

    /// How far plates may lie under that plane beyond the gap, where they follow the readings: as far as the
    /// lowest reading over the chase, or within a stud spacing of it.
    pub fn plates_drop(&self) -> Length {
        if self.ceiling.plates == PlatesAlong::Plane {
            return Length::ZERO;
        }
        let site = self.site();
        let (left, spacing) = (site.chase.low.to_mm(), self.chase.stud_spacing.to_mm());
        let right = left - spacing..=left + site.width.to_mm() + spacing;
        let back = -self.chase.depth.to_mm() - spacing..=spacing;
        let off = self.off_the_plane().into_iter();
        off.filter(|(it, _)| right.contains(&it.x) && back.contains(&it.y))
            .map(|(_, off)| -off)
            .fold(Length::ZERO, Length::max)
    }

    /// The keys that would say how the ceiling rises, where nothing does: it is drawn level that way.
    pub fn missing_rises(&self) -> Vec<&'static str> {
        let ceiling = &self.ceiling;
        if ceiling.slope.is_some() || !ceiling.readings.is_empty() {
            return Vec::new();
        }
        let ridge = self.ridge.as_ref().filter(|it| it.height.is_some());
        let ridge = ridge.map(|it| it.runs);
        let said = [
            ceiling.rise_right.is_some() || ridge == Some(RidgeRun::Out),
            ceiling.rise_out.is_some() || ridge == Some(RidgeRun::Along),
        ];
        let keys = ["ceiling.rise_right", "ceiling.rise_out"].into_iter();
        keys.zip(said)
            .filter(|(_, said)| !said)
            .map(|(key, _)| key)
            .collect()
    }

    /// The key that would say how high the ceiling over a flush chase's enclosure is, where nothing does: the room's
    /// is drawn to run on.
    fn missing_ceiling_behind(&self) -> Option<&'static str> {
        let behind = self.behind.as_ref().filter(|_| self.site().opens_wall)?;
        let is_told = behind.ceiling.is_some() || behind.ceiling_runs_on == Some(true);
        (!is_told).then_some("behind.ceiling")
    }

    /// Keys of every fact that is not given and that something is drawn by meanwhile.
    pub fn not_told(&self) -> Vec<&'static str> {
        let mut keys = self.untold.clone();
        keys.extend(self.missing_rises());
        keys.extend(self.missing_ceiling_behind());
        keys
    }

    /// How the ceiling rises to the right and out, level where nothing says so.
    fn rises(&self) -> [Slope; 2] {
        let rises = [self.ceiling.rise_right, self.ceiling.rise_out];
        rises.map(|it| it.unwrap_or(Slope::LEVEL))
    }

    /// The written height at the left corner.
    fn corner_height(&self) -> Length {
        self.ceiling.height.unwrap_or_default()
    }

    /// Whether the parameters say how high the ceiling is.
    pub(super) fn has_ceiling(&self) -> bool {
        let readings = || fitted_plane(&self.ceiling_points());
        self.ceiling.height.is_some() || readings().is_some()
    }

    /// The ceiling's own slope in the direction that leads to the ridge, where it is written.
    pub(super) fn slope_toward(&self, ridge: &Ridge) -> Option<Slope> {
        match ridge.runs {
            RidgeRun::Out => self.ceiling.rise_right,
            RidgeRun::Along => self.ceiling.rise_out,
        }
    }

    /// How far the ceiling goes on in that direction.
    pub(super) fn extent_across(&self, ridge: &Ridge) -> Length {
        match ridge.runs {
            RidgeRun::Out => self.room.width,
            RidgeRun::Along => self.room.depth,
        }
    }

    /// How the ceiling rises to the ridge.
    pub(super) fn rise_to(&self, ridge: &Ridge) -> Slope {
        let written = self.slope_toward(ridge).unwrap_or(Slope::LEVEL);
        ridge.height.map_or(written, |height| {
            Slope::ratio((height - self.corner_height()) / ridge.at)
        })
    }

    /// How it falls beyond it.
    pub(super) fn fall_beyond(&self, ridge: &Ridge) -> Slope {
        let beyond = self.extent_across(ridge) - ridge.at;
        match ridge.far_height.filter(|_| beyond.is_positive()) {
            Some(far) => Slope::ratio((self.ridge_height(ridge) - far) / beyond),
            None => ridge.fall.unwrap_or(Slope::LEVEL),
        }
    }

    fn ridge_height(&self, ridge: &Ridge) -> Length {
        self.corner_height() + self.rise_to(ridge).rise(ridge.at)
    }
}
