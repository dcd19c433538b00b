//! Cuts: rows that every whole solution of a linear program keeps and its broken solution breaks.
//!
//! Rows of whole numbers are added up in parts, and every number of the sum is rounded up (Gomory, Bulletin of the
//! American Mathematical Society 64, 1958; in the form of Chvátal, Discrete Mathematics 4, 1973). That holds for
//! whatever parts; those that break the present solution are the parts of the basis' inverse beyond whole numbers.

use std::rc::Rc;

/// Amounts nearer to a whole number than this make no cut.
pub(super) const BROKEN: f64 = 0.01;
/// Steps of a weight in one.
const STEPS: f64 = (1_u64 << 36) as f64;
/// How much lower weights are taken, so that sums which should be whole do not lie above.
const MARGIN: f64 = 1e-9;
/// Cuts with larger numbers are left out: rounding grows with them.
const LARGEST: f64 = 200.0;
/// A cut that lacks less than this is none.
const LACKS: f64 = 1e-3;

/// The numbers of a row, by column.
pub(super) type Line = Rc<Vec<f64>>;

/// A row and what it must reach.
#[derive(Debug)]
pub(super) struct Cut {
    pub(super) line: Line,
    pub(super) need: f64,
}

/// The part of a number beyond a whole one, in whole steps. Sums of products of such with whole numbers are exact, so
/// that a cut holds for every whole solution whatever rounding has done to the inverse.
pub(super) fn weight(number: f64) -> f64 {
    let part = number - (number + MARGIN).floor();
    ((part - MARGIN) * STEPS).floor().max(0.0)
}

/// The next whole number above a sum of weights.
fn up(sum: f64) -> f64 {
    (sum / STEPS).ceil() + 0.0
}

impl Cut {
    /// The cut of these sums of weights; none where its numbers grow too large.
    pub(super) fn new(mut sums: Vec<f64>, need: f64) -> Option<Self> {
        for sum in &mut sums {
            *sum = up(*sum);
        }
        let fits = sums.iter().all(|it| it.abs() <= LARGEST);
        fits.then(|| Self {
            line: Line::new(sums),
            need: up(need),
        })
    }

    /// How far the solution is from it; nothing where it keeps the cut.
    pub(super) fn distance(&self, taken: impl Iterator<Item = (usize, f64)>) -> Option<f64> {
        let (mut reached, mut square) = (0.0, 1.0);
        for (column, amount) in taken {
            let entry = self.line[column];
            reached += entry * amount;
            square += entry * entry;
        }
        let lacks = self.need - reached;
        (lacks > LACKS).then(|| lacks / f64::sqrt(square))
    }
}
