//! Plans at once: board after board, each with the longest piece that is left and the best fill beside it.

use super::bound::Duals;
use super::knapsack;
use super::{Counts, Plan, Problem};

/// The best of several quick plans.
pub(super) fn best(problem: &Problem, duals: &Duals) -> Plan {
    let lengths: Vec<f64> = problem.pieces.iter().map(|it| it.0 as f64).collect();
    let longest = lengths.iter().copied().fold(1.0, f64::max);
    // long pieces first is worth more the more the exponent says so
    let powers = [1.0, 1.1, 1.3].map(|power| {
        lengths
            .iter()
            .map(|it| libm::pow(it / longest, power))
            .collect::<Vec<_>>()
    });
    let plans = powers.iter().chain(std::iter::once(&duals.values));
    let plans = plans.map(|values| build(problem, values));
    plans.min_by_key(|plan| plan.cost).unwrap_or(Plan {
        boards: Vec::new(),
        cost: 0,
    })
}

fn build(problem: &Problem, values: &[f64]) -> Plan {
    let mut rest: Counts = problem.pieces.iter().map(|it| it.1).collect();
    let mut plan = Plan {
        boards: Vec::new(),
        cost: 0,
    };
    while let Some(longest) = rest.iter().position(|count| *count > 0) {
        let Some((board, counts)) = next(problem, values, &rest, longest) else {
            break;
        };
        for (left, count) in rest.iter_mut().zip(&counts) {
            *left -= count;
        }
        plan.cost += problem.boards[board].1;
        plan.boards.push((board, counts));
    }
    plan
}

/// The board whose fill costs least for what it holds.
fn next(
    problem: &Problem,
    values: &[f64],
    rest: &[usize],
    longest: usize,
) -> Option<(usize, Counts)> {
    let mut counts_left = rest.to_vec();
    counts_left[longest] -= 1;
    let length = problem.pieces[longest].0;
    let lengths = problem.pieces.iter().map(|it| it.0).zip(counts_left);
    let items = knapsack::ordered(lengths, values);
    let candidates = problem
        .boards
        .iter()
        .enumerate()
        .filter(|(_, (room, _))| *room >= length);
    let filled = candidates.map(|(board, (room, cost))| {
        let mut counts = knapsack::fill(&items, room - length, rest.len()).counts;
        counts[longest] += 1;
        let load = problem.load(&counts);
        (*cost as f64 / load as f64, board, counts)
    });
    let best = filled.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let load = problem.load(&best.2);
    let cheapest = (0..problem.boards.len())
        .filter(|it| problem.room(*it) >= load)
        .min_by_key(|it| problem.boards[*it].1)?;
    Some((cheapest, best.2))
}
