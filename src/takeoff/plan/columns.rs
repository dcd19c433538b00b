//! Every full board that a plan of a given cost may hold.
//!
//! What a fill wastes is its board's cost less the value of its pieces. All wastes of a plan together are its cost less
//! the bound, so a fill that alone wastes more than that difference is in no plan of that cost. A fill is full: a piece
//! that would still fit could as well be cut from it as from a later board. And it lies in the cheapest board that
//! holds it.

use super::knapsack::relaxed;
use super::{Counts, Problem};

/// A full board.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// Which board.
    pub(super) board: usize,
    /// How often each piece is cut from it.
    pub(super) counts: Counts,
}

/// Every fill that wastes no more than `spare`; nothing where there are more than `most`.
pub(super) fn columns(
    problem: &Problem,
    values: &[f64],
    spare: f64,
    most: usize,
) -> Option<Vec<Column>> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    let ratio = |place: usize| values[place] / problem.pieces[place].0 as f64;
    order.sort_by(|a, b| ratio(*b).total_cmp(&ratio(*a)).then(a.cmp(b)));
    let mut found = Vec::new();
    for (board, (room, cost)) in problem.boards.iter().enumerate() {
        let mut fills = Fills {
            problem,
            values,
            order: &order,
            board,
            least: *cost as f64 - spare,
            counts: vec![0; values.len()],
            most,
            steps: most.saturating_mul(STEPS_PER_COLUMN),
            found: &mut found,
        };
        if !fills.branch(0, *room, 0.0) {
            return None;
        }
    }
    Some(found)
}

/// Branches that listing may take for each column that may be found.
const STEPS_PER_COLUMN: usize = 50;

/// Goes through the fills of one board.
struct Fills<'a> {
    problem: &'a Problem,
    values: &'a [f64],
    order: &'a [usize],
    board: usize,
    /// What a fill must be worth.
    least: f64,
    counts: Counts,
    most: usize,
    steps: usize,
    found: &'a mut Vec<Column>,
}

impl Fills<'_> {
    /// False where there are too many.
    fn branch(&mut self, at: usize, room: u64, value: f64) -> bool {
        let Some(steps) = self.steps.checked_sub(1) else {
            return false;
        };
        self.steps = steps;
        let Some(place) = self.order.get(at).copied() else {
            self.take(room, value);
            return self.found.len() <= self.most;
        };
        let pieces = self.order.get(at..).unwrap_or_default().iter().map(|it| {
            let (length, most) = self.problem.pieces[*it];
            (self.values[*it], length, most)
        });
        if value + relaxed(pieces, room) < self.least {
            return true;
        }
        let (length, most) = self.problem.pieces[place];
        let fits = usize::try_from(room / length).unwrap_or(usize::MAX);
        for count in (0..=fits.min(most)).rev() {
            self.counts[place] = count;
            let rest = room - length * count as u64;
            if !self.branch(at + 1, rest, value + self.values[place] * count as f64) {
                return false;
            }
        }
        self.counts[place] = 0;
        true
    }

    /// Keeps a fill that is full, worth enough, and in the cheapest board that holds it.
    fn take(&mut self, room: u64, value: f64) {
        let mut pieces = self.problem.pieces.iter().zip(&self.counts);
        let full = pieces.all(|((length, most), count)| count == most || *length > room);
        let (size, cost) = self.problem.boards[self.board];
        let load = size - room;
        let mut boards = self.problem.boards.iter();
        let cheaper = boards.any(|(other, less)| *other >= load && *less < cost);
        if value >= self.least && full && !cheaper && load > 0 {
            self.found.push(Column {
                board: self.board,
                counts: self.counts.clone(),
            });
        }
    }
}
