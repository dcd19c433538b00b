//! What is to be cut, what a plan of it is, and which sums of prices there can be.

/// Pieces and boards, in whole micrometres; each piece has its saw cut added, and each board one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Different lengths, and how many of each. No length is longer than the longest board.
    pub pieces: Vec<(u64, usize)>,
    /// Boards: what fits in, and what one costs.
    pub boards: Vec<(u64, u64)>,
}

/// How often each piece is cut from one board.
pub(super) type Counts = Vec<usize>;

/// Sums of prices are listed up to this; beyond, every sum counts as possible.
const LISTED_SUMS: u64 = 4_000_000;

/// A plan on the way.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    pub(super) boards: Vec<(usize, Counts)>,
    pub(super) cost: u64,
}

impl Problem {
    /// The longest of the first pieces' lengths that a board has room for.
    pub(super) fn room(&self, board: usize) -> u64 {
        self.boards[board].0
    }

    /// A plan of these boards, each as cheap as it can be; empty ones are left out.
    pub(super) fn plan(&self, boards: Vec<Counts>) -> Plan {
        let mut plan = Plan {
            boards: Vec::new(),
            cost: 0,
        };
        for counts in boards {
            let load = self.load(&counts);
            let cheapest = (0..self.boards.len())
                .filter(|it| self.room(*it) >= load)
                .min_by_key(|it| self.boards[*it].1);
            if let (Some(board), true) = (cheapest, load > 0) {
                plan.cost += self.boards[board].1;
                plan.boards.push((board, counts));
            }
        }
        plan
    }

    pub(super) fn load(&self, counts: &[usize]) -> u64 {
        let loads = self.pieces.iter().zip(counts);
        loads
            .map(|((length, _), count)| length * *count as u64)
            .sum()
    }
}

/// The sums that prices of boards can make.
pub(super) struct Sums {
    pub(super) unit: u64,
    possible: Vec<bool>,
}

impl Sums {
    pub(super) fn up_to(problem: &Problem, most: u64) -> Self {
        let unit = problem
            .boards
            .iter()
            .map(|it| it.1)
            .fold(0, common_divisor)
            .max(1);
        let size = most / unit;
        if size > LISTED_SUMS {
            return Self {
                unit,
                possible: Vec::new(),
            };
        }
        let mut possible = vec![false; usize::try_from(size).unwrap_or(0) + 1];
        possible[0] = true;
        for (_, cost) in &problem.boards {
            let step = usize::try_from(cost / unit).unwrap_or(usize::MAX);
            for sum in step..possible.len() {
                possible[sum] |= possible[sum - step];
            }
        }
        Self { unit, possible }
    }

    /// The least possible sum that is not below this; beyond the listed ones the next multiple of the unit.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "costs are positive and far below 2^53"
    )]
    pub(super) fn next(&self, least: f64) -> u64 {
        let from = (least / self.unit as f64 - 1e-9).ceil().max(0.0) as u64;
        let at = usize::try_from(from).unwrap_or(usize::MAX);
        let found = self.possible.iter().skip(at).position(|it| *it);
        found.map_or(from, |more| from + more as u64) * self.unit
    }

    /// The most that a linear program may cost, in units, for the next possible sum to be no more than this.
    pub(super) fn limit_units(&self, sum: u64) -> f64 {
        (sum / self.unit) as f64 + 1e-6
    }

    /// The largest possible sum below this, or nothing.
    pub(super) fn below(&self, sum: u64) -> u64 {
        let at = usize::try_from(sum / self.unit).unwrap_or(usize::MAX);
        let listed = self
            .possible
            .get(..at.min(self.possible.len()))
            .unwrap_or_default();
        let found = listed.iter().rposition(|it| *it);
        found.map_or_else(|| sum.saturating_sub(self.unit), |it| it as u64 * self.unit)
    }
}

fn common_divisor(a: u64, b: u64) -> u64 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
