//! Parameters in, the ceiling out: one plane, written or laid through readings, or the lower of the two
//! that meet at a ridge.
//!
//! *Frame*: the room's; y runs into the wall, so a plane that rises out into the room falls along y.

use glam::DVec2;

use super::choice::RidgeRun;
use super::list::{Params, Ridge};
use super::reading::ceiling_points;
use crate::geom::{EndPlane, Underside, fitted_plane};
use crate::units::{Length, Slope};

impl Params {
    /// The ceiling's underside over the chase's frame, from the floor datum.
    pub fn underside(&self) -> Underside {
        self.room_underside().placed(&self.room_frame())
    }

    /// The same over the room's frame.
    pub fn room_underside(&self) -> Underside {
        let ceiling = &self.ceiling;
        let plane = |height: Length, right: Slope, out: Slope| {
            EndPlane::sloped(height, DVec2::new(right.to_ratio(), -out.to_ratio()))
        };
        let fitted = fitted_plane(&ceiling_points(&ceiling.readings));
        if let Some(fitted) = fitted {
            return Underside::new(vec![fitted]);
        }
        let Some(ridge) = &self.ridge else {
            let plane = plane(self.corner_height(), ceiling.rise_right, ceiling.rise_out);
            return Underside::new(vec![plane]);
        };
        let rise = self.rise_to(ridge);
        let beyond = Slope::ratio(-self.fall_beyond(ridge).to_ratio());
        let at_ridge = self.ridge_height(ridge);
        // the second plane, brought back to the corner that heights are given at
        let height = at_ridge - beyond.rise(ridge.at);
        Underside::new(match ridge.runs {
            RidgeRun::Out => vec![
                plane(self.corner_height(), rise, ceiling.rise_out),
                plane(height, beyond, ceiling.rise_out),
            ],
            RidgeRun::Along => vec![
                plane(self.corner_height(), ceiling.rise_right, rise),
                plane(height, ceiling.rise_right, beyond),
            ],
        })
    }

    /// The written height at the left corner.
    fn corner_height(&self) -> Length {
        self.ceiling.height.unwrap_or_default()
    }

    /// Whether the parameters say how high the ceiling is.
    pub(super) fn has_ceiling(&self) -> bool {
        let readings = || fitted_plane(&ceiling_points(&self.ceiling.readings));
        self.ceiling.height.is_some() || readings().is_some()
    }

    /// The ceiling's own slope in the direction that leads to the ridge.
    pub(super) fn slope_toward(&self, ridge: &Ridge) -> Slope {
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
        ridge.height.map_or(self.slope_toward(ridge), |height| {
            Slope::ratio((height - self.corner_height()) / ridge.at)
        })
    }

    /// How it falls beyond it.
    pub(super) fn fall_beyond(&self, ridge: &Ridge) -> Slope {
        let left = self.extent_across(ridge) - ridge.at;
        match ridge.far_height.filter(|_| left.is_positive()) {
            Some(far) => Slope::ratio((self.ridge_height(ridge) - far) / left),
            None => ridge.fall.unwrap_or(Slope::LEVEL),
        }
    }

    fn ridge_height(&self, ridge: &Ridge) -> Length {
        self.corner_height() + self.rise_to(ridge).rise(ridge.at)
    }
}
