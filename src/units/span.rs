//! Two ends along a line.

use super::length::{Length, TOLERANCE};
use super::tape::{Rounding, TapeUnit};

/// Two ends along a line.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Span {
    /// The lower end.
    pub low: Length,
    /// The upper end.
    pub high: Length,
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

    /// The span of a hole as it is marked out: each end on a mark of the tape, none farther in. It counts from where the
    /// tape does.
    #[must_use]
    pub fn on_marks(self, unit: TapeUnit) -> Self {
        Self::new(
            self.low.to_mark(unit, Rounding::Down),
            self.high.to_mark(unit, Rounding::Up),
        )
    }

    /// The span with both ends moved the same way.
    #[must_use]
    pub fn moved(self, by: Length) -> Self {
        Self::new(self.low + by, self.high + by)
    }

    /// What some spans, in any order, leave of it uncovered, from the lower end up.
    pub fn gaps(self, covered: impl IntoIterator<Item = Self>) -> Vec<Self> {
        let mut covered: Vec<Self> = covered.into_iter().collect();
        covered.sort_by(|a, b| a.low.to_mm().total_cmp(&b.low.to_mm()));
        covered.push(Self::new(self.high, self.high));
        let mut at = self.low;
        let mut gaps = Vec::new();
        for span in covered {
            let gap = Self::new(at, span.low.min(self.high));
            if gap.size().to_mm() > TOLERANCE {
                gaps.push(gap);
            }
            at = at.max(span.high);
        }
        gaps
    }

    /// How much of it another span covers.
    pub fn shared(self, other: Self) -> Length {
        (self.high.min(other.high) - self.low.max(other.low)).max(Length::ZERO)
    }

    /// Whether two spans share more than an end.
    pub fn overlaps(self, other: Self) -> bool {
        self.shared(other).is_positive()
    }
}
