//! An axis-aligned box of the world around something: the first sieve of every query.

use glam::DVec3;

use super::TOLERANCE;

/// The smallest box with the world's axes around something, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// The corner with the smallest coordinates.
    pub low: DVec3,
    /// The corner with the largest coordinates.
    pub high: DVec3,
}

impl Bounds {
    /// The box around nothing; it touches nothing and is endlessly far from everything.
    pub const EMPTY: Self = Self {
        low: DVec3::INFINITY,
        high: DVec3::NEG_INFINITY,
    };

    /// The box around points.
    pub fn around(points: impl IntoIterator<Item = DVec3>) -> Self {
        points.into_iter().fold(Self::EMPTY, |bounds, point| Self {
            low: bounds.low.min(point),
            high: bounds.high.max(point),
        })
    }

    /// The box around two boxes.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            low: self.low.min(other.low),
            high: self.high.max(other.high),
        }
    }

    /// What two boxes have in common; its corners are swapped along an axis that parts them.
    #[must_use]
    pub fn common(&self, other: &Self) -> Self {
        Self {
            low: self.low.max(other.low),
            high: self.high.min(other.high),
        }
    }

    /// Whether nothing is inside.
    pub fn is_empty(&self) -> bool {
        self.low.cmpgt(self.high).any()
    }

    /// Whether two boxes overlap or touch within the tolerance.
    pub fn touches(&self, other: &Self) -> bool {
        self.low.cmple(other.high + TOLERANCE).all() && other.low.cmple(self.high + TOLERANCE).all()
    }

    /// Whether two boxes have more in common than the tolerance in every direction: what is in them can overlap.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.shared(other).cmpgt(DVec3::splat(TOLERANCE)).all()
    }

    /// Whether two boxes have more in common than the tolerance in two directions at least: what is in them can
    /// touch over an area.
    pub fn meets(&self, other: &Self) -> bool {
        let wide = self.shared(other).cmpgt(DVec3::splat(TOLERANCE));
        wide.bitmask().count_ones() > 1 && self.touches(other)
    }

    /// How far along each axis both reach.
    fn shared(&self, other: &Self) -> DVec3 {
        self.high.min(other.high) - self.low.max(other.low)
    }

    /// The largest of way · p over the box.
    pub fn reach(&self, way: DVec3) -> f64 {
        (way * self.low).max(way * self.high).element_sum()
    }

    /// From where to where, as parts from 0 to 1, a segment runs within a distance of the box along every axis;
    /// `None` where it does not.
    pub(crate) fn within(&self, distance: f64, from: DVec3, to: DVec3) -> Option<(f64, f64)> {
        let (low, high) = ((self.low - distance - from), (self.high + distance - from));
        let way = to - from;
        let (mut start, mut end) = (0.0_f64, 1.0_f64);
        for axis in 0..3 {
            if way[axis].abs() > 0.0 {
                let (a, b) = (low[axis] / way[axis], high[axis] / way[axis]);
                start = start.max(a.min(b));
                end = end.min(a.max(b));
            } else if low[axis] > 0.0 || high[axis] < 0.0 {
                return None;
            }
        }
        (start < end).then_some((start, end))
    }

    /// The least distance between two boxes in millimetres, 0 when they touch or overlap.
    ///
    /// What is inside them is at least as far apart.
    pub fn gap(&self, other: &Self) -> f64 {
        (self.low - other.high)
            .max(other.low - self.high)
            .max(DVec3::ZERO)
            .length()
    }

    /// The middle.
    pub fn center(&self) -> DVec3 {
        (self.low + self.high) / 2.0
    }

    /// The lengths of the sides.
    pub fn size(&self) -> DVec3 {
        self.high - self.low
    }
}
