//! The cutting plan: which pieces come out of which board, at least cost, with a proved bound.
//!
//! In: [`Problem`], in whole numbers. Out: [`Solution`]: the boards, their cost, and a bound that no plan can go below.
//! The bound begins as that of Gilmore and Gomory (Operations Research 9, 1961): the linear relaxation over all ways to
//! fill a board, raised to the next sum of prices that boards can have. Then a plan of that cost is looked for among all
//! fills that such a plan may hold, by cuts and by branch and bound; where it is proved that there is none, the bound
//! rises. The length of the search is counted in nodes, so that the same problem gives the same plan on every machine.
//!
//! Only a search that somebody stops depends on the clock, and its plan says so. Cuts are made of whole-number sums, so that
//! rounding can weaken one but never make it wrong.

mod bound;
mod columns;
mod cut;
mod greedy;
mod knapsack;
mod linear;
mod problem;
mod tree;

use bound::Duals;
use columns::{Column, columns};
pub use problem::Problem;
use problem::{Counts, Plan, Sums};
use tree::{Found, Tree};

/// How a problem is solved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Solution {
    /// Each board: its place in the problem's boards, and the places of the pieces cut from it.
    pub boards: Vec<(usize, Vec<usize>)>,
    /// What they cost.
    pub cost: u64,
    /// No plan costs less than this.
    pub bound: u64,
    /// Nodes that the search took.
    pub nodes: usize,
    /// Whether it was stopped before its end.
    pub is_stopped: bool,
}

impl Solution {
    /// Whether no plan costs less.
    pub const fn is_proved(&self) -> bool {
        self.cost == self.bound
    }
}

/// Fills that are listed at the most for a proof.
const MOST_COLUMNS: usize = 20_000;
/// Fills that are listed at the most when a plan is looked for without a proof.
const FEW_COLUMNS: usize = 1000;
/// The share of the nodes that is kept for looking for a plan without a proof: one in so many.
const KEPT: usize = 4;
/// Rounding of sums of values, as a share of the bound.
const ROUNDING: f64 = 1e-8;

/// How far a search has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// What the best plan so far costs.
    pub cost: u64,
    /// What no plan costs less than.
    pub bound: u64,
    /// Nodes so far.
    pub nodes: usize,
}

/// Whether to go on, asked now and then with how far the search has come.
pub type Watch<'a> = &'a mut dyn FnMut(Progress) -> bool;

/// Solves a problem within so many nodes of the search.
pub fn solve(problem: &Problem, nodes: usize) -> Solution {
    solve_watched(problem, nodes, &mut |_| true)
}

/// Solves a problem within so many nodes, as long as `watch` says to go on.
pub fn solve_watched(problem: &Problem, nodes: usize, watch: Watch<'_>) -> Solution {
    let in_order = in_order(problem);
    let mut search = Search::new(&in_order.problem, nodes, watch);
    search.prove();
    search.look();
    in_order.restore(&search)
}

/// Raises the bound and looks for plans.
struct Search<'a, 'b> {
    problem: &'a Problem,
    duals: Duals,
    sums: Sums,
    best: Plan,
    bound: u64,
    used: usize,
    nodes: usize,
    watch: Watch<'b>,
    is_stopped: bool,
}

impl<'a, 'b> Search<'a, 'b> {
    fn new(problem: &'a Problem, nodes: usize, watch: Watch<'b>) -> Self {
        let duals = Duals::of(problem);
        let best = greedy::best(problem, &duals);
        let sums = Sums::up_to(problem, best.cost);
        let bound = sums.next(duals.bound()).min(best.cost);
        let mut search = Self {
            problem,
            duals,
            sums,
            best,
            bound,
            used: 0,
            nodes,
            watch,
            is_stopped: false,
        };
        search.report();
        search
    }

    fn report(&mut self) {
        let progress = Progress {
            cost: self.best.cost,
            bound: self.bound,
            nodes: self.used,
        };
        self.is_stopped |= !(self.watch)(progress);
    }

    fn is_done(&self, nodes: usize) -> bool {
        self.bound >= self.best.cost || self.used >= nodes || self.is_stopped
    }

    /// Asks for a plan of the bound's cost, and for dearer ones as long as there is none.
    fn prove(&mut self) {
        let nodes = self.nodes - self.nodes / KEPT;
        let mut jump = 0;
        while !self.is_done(nodes) {
            let highest = self.sums.below(self.best.cost);
            let target = self.sums.next((self.bound + jump) as f64).min(highest);
            let Some(columns) = self.columns(target, MOST_COLUMNS) else {
                break;
            };
            match self.tree(columns, (self.bound, target), nodes) {
                Found::Cheapest(plan) => {
                    self.bound = plan.cost;
                    self.best = plan;
                }
                Found::Some(plan) => self.best = plan,
                Found::None => {
                    self.bound = self.sums.next(target as f64 + 0.5).min(self.best.cost);
                    jump = (2 * jump).max(2 * self.sums.unit);
                }
                Found::OutOfNodes => break,
            }
            self.report();
        }
    }

    /// Looks for better plans among the fills that waste least, without a proof.
    fn look(&mut self) {
        let mut target = self.sums.below(self.best.cost);
        while !self.is_done(self.nodes) && target >= self.bound {
            let Some(columns) = self.columns(target, FEW_COLUMNS) else {
                // as many fills as there may be, but still plans up to the cost of the best
                target = self.sums.below(target - (target - self.bound) / 2);
                continue;
            };
            let limit = self.sums.below(self.best.cost);
            match self.tree(columns, (self.bound, limit), self.nodes) {
                Found::Cheapest(plan) | Found::Some(plan) => self.best = plan,
                Found::None | Found::OutOfNodes => break,
            }
            self.report();
        }
    }

    /// Every fill that a plan of this cost may hold, if they are few enough.
    fn columns(&self, target: u64, most: usize) -> Option<Vec<Column>> {
        let bound = self.duals.bound();
        let spare = target as f64 - bound + ROUNDING * bound;
        columns(self.problem, &self.duals.values, spare, most)
    }

    fn tree(&mut self, columns: Vec<Column>, limits: (u64, u64), nodes: usize) -> Found {
        let mut goes_on = |used: usize| {
            let progress = Progress {
                cost: self.best.cost,
                bound: self.bound,
                nodes: self.used + used,
            };
            (self.watch)(progress)
        };
        let most = nodes - self.used;
        let mut tree = Tree::new(
            self.problem,
            &self.sums,
            columns,
            limits,
            most,
            &mut goes_on,
        );
        let found = tree.run();
        let (used, is_stopped) = (tree.nodes, tree.is_stopped);
        self.used += used;
        self.is_stopped |= is_stopped;
        found
    }
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
    fn restore(&self, search: &Search<'_, '_>) -> Solution {
        let plan = &search.best;
        let boards = plan.boards.iter().map(|(board, counts)| {
            let pieces = counts.iter().zip(&self.pieces);
            let pieces = pieces.flat_map(|(count, piece)| std::iter::repeat_n(*piece, *count));
            (self.boards[*board], pieces.collect())
        });
        Solution {
            boards: boards.collect(),
            cost: plan.cost,
            bound: search.bound,
            nodes: search.used,
            is_stopped: search.is_stopped,
        }
    }
}
