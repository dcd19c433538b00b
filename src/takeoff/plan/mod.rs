//! The cutting plan: which pieces come out of which board, at least cost, with a proved bound.
//!
//! In: [`Problem`], in whole numbers. Out: [`Solution`]: the boards, their cost, and a bound that no plan can go below.
//! The bound is that of Gilmore and Gomory (Operations Research 9, 1961): the linear relaxation over all ways to fill
//! a board, raised to the next sum of prices that boards can have. The search then looks for a plan of that cost;
//! where it proves that there is none, the bound rises. Its length is counted in steps, so that the same problem
//! gives the same plan on every machine.

mod bound;
mod greedy;
mod knapsack;
mod search;

use bound::Duals;

/// Pieces and boards, in whole micrometres; each piece has its saw cut added, and each board one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Different lengths, and how many of each. No length is longer than the longest board.
    pub pieces: Vec<(u64, usize)>,
    /// Boards: what fits in, and what one costs.
    pub boards: Vec<(u64, u64)>,
}

/// How a problem is solved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Solution {
    /// Each board: its place in the problem's boards, and the places of the pieces cut from it.
    pub boards: Vec<(usize, Vec<usize>)>,
    /// What they cost.
    pub cost: u64,
    /// No plan costs less than this.
    pub bound: u64,
    /// Steps that the search took.
    pub steps: usize,
}

impl Solution {
    /// Whether no plan costs less.
    pub const fn is_proved(&self) -> bool {
        self.cost == self.bound
    }
}

/// How often each piece is cut from one board.
type Counts = Vec<usize>;

/// Sums of prices are listed up to this; beyond, every sum counts as possible.
const LISTED_SUMS: u64 = 4_000_000;

/// Solves a problem within so many steps of the search.
pub fn solve(problem: &Problem, steps: usize) -> Solution {
    let problem_in_order = in_order(problem);
    let duals = Duals::of(&problem_in_order.problem);
    let mut best = greedy::best(&problem_in_order.problem, &duals);
    let sums = Sums::up_to(&problem_in_order.problem, best.cost);
    let mut bound = sums.next(duals.bound()).min(best.cost);
    let mut used = 0;
    let mut jump = 0;
    let mut stuck = false;
    while bound < best.cost && used < steps {
        let highest = sums.below(best.cost);
        let target = if stuck {
            highest
        } else {
            sums.next((bound + jump) as f64).min(highest)
        };
        let limit = ((steps - used) / 2).max(1000).min(steps - used);
        let mut search = search::Search::new(&problem_in_order.problem, &duals, limit);
        let outcome = search.run(target);
        used += search.steps();
        match outcome {
            search::Outcome::Found(plan) => {
                best = plan;
                jump = best.cost.saturating_sub(bound) / 2;
            }
            search::Outcome::None => {
                bound = sums.next(target as f64 + 0.5).min(best.cost);
                jump = (2 * jump).max(sums.unit);
            }
            search::Outcome::OutOfSteps if stuck => break,
            search::Outcome::OutOfSteps => stuck = true,
        }
    }
    problem_in_order.restore(&best, bound, used)
}

/// A plan on the way.
#[derive(Debug, Clone)]
struct Plan {
    boards: Vec<(usize, Counts)>,
    cost: u64,
}

/// A problem with the longest pieces first and without useless boards, and the way back.
struct InOrder {
    problem: Problem,
    pieces: Vec<usize>,
    boards: Vec<usize>,
}

fn in_order(problem: &Problem) -> InOrder {
    let mut pieces: Vec<usize> = (0..problem.pieces.len())
        .filter(|it| problem.pieces[*it].1 > 0)
        .collect();
    pieces.sort_by_key(|it| std::cmp::Reverse(problem.pieces[*it].0));
    let useless = |at: usize| {
        let (room, cost) = problem.boards[at];
        problem
            .boards
            .iter()
            .enumerate()
            .any(|(other, (more, less))| {
                let better = *more >= room && *less <= cost;
                better && (*more > room || *less < cost || other < at)
            })
    };
    let mut boards: Vec<usize> = (0..problem.boards.len())
        .filter(|it| !useless(*it))
        .collect();
    boards.sort_by_key(|it| problem.boards[*it].0);
    InOrder {
        problem: Problem {
            pieces: pieces.iter().map(|it| problem.pieces[*it]).collect(),
            boards: boards.iter().map(|it| problem.boards[*it]).collect(),
        },
        pieces,
        boards,
    }
}

impl InOrder {
    fn restore(&self, plan: &Plan, bound: u64, steps: usize) -> Solution {
        let boards = plan.boards.iter().map(|(board, counts)| {
            let pieces = counts.iter().zip(&self.pieces);
            let pieces = pieces.flat_map(|(count, piece)| std::iter::repeat_n(*piece, *count));
            (self.boards[*board], pieces.collect())
        });
        Solution {
            boards: boards.collect(),
            cost: plan.cost,
            bound,
            steps,
        }
    }
}

impl Problem {
    /// The longest of the first pieces' lengths that a board has room for.
    fn room(&self, board: usize) -> u64 {
        self.boards[board].0
    }

    fn load(&self, counts: &[usize]) -> u64 {
        let loads = self.pieces.iter().zip(counts);
        loads
            .map(|((length, _), count)| length * *count as u64)
            .sum()
    }
}

/// The sums that prices of boards can make.
struct Sums {
    unit: u64,
    possible: Vec<bool>,
}

impl Sums {
    fn up_to(problem: &Problem, most: u64) -> Self {
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
    fn next(&self, least: f64) -> u64 {
        let from = (least / self.unit as f64 - 1e-9).ceil().max(0.0) as u64;
        let at = usize::try_from(from).unwrap_or(usize::MAX);
        let found = self.possible.iter().skip(at).position(|it| *it);
        found.map_or(from, |more| from + more as u64) * self.unit
    }

    /// The largest possible sum below this, or nothing.
    fn below(&self, sum: u64) -> u64 {
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
