//! The search for a plan of a given cost: board after board, with nothing wasted beyond what that cost allows.
//!
//! The next board always holds the longest piece that is left, and it is full: a piece that would still fit could
//! come from a later board at no cost. What a fill wastes is its board's cost less the value of its pieces; all wastes
//! together are the plan's cost less the bound, so few fills come into question.

use std::collections::BTreeMap;

use super::bound::Duals;
use super::knapsack::relaxed;
use super::{Counts, Plan, Problem};

/// Rounding of sums of values, as a share of a board's cost.
const ROUNDING: f64 = 1e-7;

/// How a search ends.
#[derive(Debug)]
pub(super) enum Outcome {
    /// With a plan.
    Found(Plan),
    /// With the proof that there is none.
    None,
    /// Without an answer.
    OutOfSteps,
}

pub(super) struct Search<'a> {
    problem: &'a Problem,
    values: &'a [f64],
    limit: usize,
    steps: usize,
    rounding: f64,
    /// What could not be cut from boards that cost so much.
    hopeless: BTreeMap<Counts, f64>,
    chosen: Vec<(usize, Counts)>,
}

/// A way to fill the next board.
struct Choice {
    waste: f64,
    board: usize,
    counts: Counts,
}

impl<'a> Search<'a> {
    pub(super) fn new(problem: &'a Problem, duals: &'a Duals, limit: usize) -> Self {
        let dearest = problem.boards.iter().map(|it| it.1).max().unwrap_or(1);
        Self {
            problem,
            values: &duals.values,
            limit,
            steps: 0,
            rounding: ROUNDING * dearest as f64,
            hopeless: BTreeMap::new(),
            chosen: Vec::new(),
        }
    }

    pub(super) const fn steps(&self) -> usize {
        self.steps
    }

    /// Looks for a plan that costs no more than this.
    pub(super) fn run(&mut self, cost: u64) -> Outcome {
        let rest = self.problem.pieces.iter().map(|it| it.1).collect();
        let money = cost as f64 + self.rounding;
        if self.cut(rest, money) {
            let boards = std::mem::take(&mut self.chosen);
            let cost = boards
                .iter()
                .map(|(board, _)| self.problem.boards[*board].1)
                .sum();
            Outcome::Found(Plan { boards, cost })
        } else if self.steps >= self.limit {
            Outcome::OutOfSteps
        } else {
            Outcome::None
        }
    }

    /// Cuts what is left from boards that cost no more than `money` together.
    fn cut(&mut self, rest: Counts, money: f64) -> bool {
        let Some(longest) = rest.iter().position(|count| *count > 0) else {
            return true;
        };
        if self
            .hopeless
            .get(&rest)
            .is_some_and(|known| *known >= money)
        {
            return false;
        }
        let worth = rest
            .iter()
            .zip(self.values)
            .map(|(count, value)| *count as f64 * value);
        let spare = money - worth.sum::<f64>();
        for choice in self.choices(&rest, longest, spare) {
            let left = rest
                .iter()
                .zip(&choice.counts)
                .map(|(a, b)| a - b)
                .collect();
            let cost = self.problem.boards[choice.board].1 as f64;
            self.chosen.push((choice.board, choice.counts));
            if self.cut(left, money - cost) {
                return true;
            }
            self.chosen.pop();
            if self.steps >= self.limit {
                return false;
            }
        }
        self.hopeless.insert(rest, money);
        false
    }

    /// Every full board with the longest piece that wastes no more than `spare`, the least waste first.
    fn choices(&mut self, rest: &[usize], longest: usize, spare: f64) -> Vec<Choice> {
        let length = self.problem.pieces[longest].0;
        let values = self.values;
        let mut order: Vec<usize> = (longest..rest.len()).filter(|it| rest[*it] > 0).collect();
        let ratio = |place: usize| values[place] / self.problem.pieces[place].0 as f64;
        order.sort_by(|a, b| ratio(*b).total_cmp(&ratio(*a)).then(a.cmp(b)));
        let mut choices = Vec::new();
        for board in 0..self.problem.boards.len() {
            let (room, cost) = self.problem.boards[board];
            if room < length {
                continue;
            }
            let mut counts = vec![0; rest.len()];
            counts[longest] = 1;
            let mut fills = Fills {
                search: self,
                values,
                rest,
                order: &order,
                longest,
                board,
                counts,
                least: cost as f64 - spare,
                choices: &mut choices,
            };
            fills.branch(0, room - length, values[longest]);
        }
        choices.sort_by(|a, b| {
            a.waste
                .total_cmp(&b.waste)
                .then_with(|| b.counts.cmp(&a.counts))
        });
        choices
    }
}

/// Goes through the fills of one board.
struct Fills<'a, 'b, 'c> {
    search: &'a mut Search<'b>,
    values: &'b [f64],
    rest: &'c [usize],
    order: &'c [usize],
    longest: usize,
    board: usize,
    counts: Counts,
    /// What the fill must be worth.
    least: f64,
    choices: &'a mut Vec<Choice>,
}

impl Fills<'_, '_, '_> {
    fn branch(&mut self, at: usize, room: u64, value: f64) {
        self.search.steps += 1;
        if self.search.steps >= self.search.limit {
            return;
        }
        let Some(place) = self.order.get(at).copied() else {
            self.take(room, value);
            return;
        };
        let (length, worth) = (self.search.problem.pieces[place].0, self.values[place]);
        let search = &self.search;
        let left = self.order.get(at..).unwrap_or_default().iter().map(|it| {
            let most = self.rest[*it] - usize::from(*it == self.longest);
            (self.values[*it], search.problem.pieces[*it].0, most)
        });
        if value + relaxed(left, room) < self.least {
            return;
        }
        let taken = usize::from(place == self.longest);
        let fits = usize::try_from(room / length).unwrap_or(usize::MAX);
        for count in (0..=fits.min(self.rest[place] - taken)).rev() {
            self.counts[place] = count + taken;
            self.branch(
                at + 1,
                room - length * count as u64,
                value + worth * count as f64,
            );
        }
        self.counts[place] = taken;
    }

    /// Keeps a fill that is full, worth enough, and in the cheapest board that holds it.
    fn take(&mut self, room: u64, value: f64) {
        let problem = self.search.problem;
        let full = self.order.iter().all(|place| {
            self.counts[*place] == self.rest[*place] || problem.pieces[*place].0 > room
        });
        let (size, cost) = problem.boards[self.board];
        let load = size - room;
        let cheaper = problem
            .boards
            .iter()
            .any(|(other, less)| *other >= load && *less < cost);
        if value >= self.least && full && !cheaper {
            self.choices.push(Choice {
                waste: cost as f64 - value,
                board: self.board,
                counts: self.counts.clone(),
            });
        }
    }
}
