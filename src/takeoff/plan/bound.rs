//! The linear relaxation over all fills of all boards, by column generation, and from it a value for each piece.
//!
//! A piece's value is what it costs at the margin. No fill of a board is worth more than the board costs, so the
//! values of all pieces together are a bound on the cost of any plan, and what a fill falls short of its
//! board's cost is what it wastes.

use super::knapsack::{self, Fill};
use super::{Counts, Problem};

/// Rounds of column generation; fewer are needed.
const ROUNDS: usize = 5000;
/// Reduced costs above this, as a share of a board's cost, are none.
const NEGLIGIBLE: f64 = 1e-9;
/// The relaxation is solved when the best bound is nearer to its cost than this share of it.
const GAP: f64 = 1e-6;
/// How far prices keep to the best so far.
const STEADY: f64 = 0.7;
/// A value below minus this is negative.
const NEGATIVE: f64 = 1e-7;
/// Amounts below this are zero.
const ZERO: f64 = 1e-11;

/// A value for each piece.
#[derive(Debug, Clone)]
pub(super) struct Duals {
    /// Values, in the cost's unit.
    pub(super) values: Vec<f64>,
    bound: f64,
}

/// A column of the relaxation: a fill with its cost, or a piece cut too many at no cost.
#[derive(Debug, Clone)]
enum Column {
    Fill(Counts, f64),
    Surplus(usize),
}

/// The revised simplex method with the basis' inverse held as rows.
struct Simplex {
    basis: Vec<Column>,
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
}

impl Duals {
    /// Solves the relaxation.
    ///
    /// Prices are taken between those of the last basis and the best so far (Wentges, International Transactions
    /// in Operational Research 4, 1997): by themselves the former swing too far to be of use for long.
    pub(super) fn of(problem: &Problem) -> Self {
        let mut simplex = Simplex::new(problem);
        let mut best = Self::by_length(problem);
        for _ in 0..ROUNDS {
            let values = simplex.values();
            if let Some(column) = Simplex::surplus(&values) {
                simplex.pivot(column);
                continue;
            }
            if simplex.cost() - best.bound < GAP * best.bound {
                break;
            }
            let mixed: Vec<f64> = values
                .iter()
                .zip(&best.values)
                .map(|(value, steady)| STEADY * steady + (1.0 - STEADY) * value)
                .collect();
            let found: Vec<(Fill, f64)> = fills(problem, &mixed).collect();
            let safe = Self::safe(problem, &mixed, &found);
            let rose = safe.bound > best.bound;
            if rose {
                best = safe;
            }
            let mut pivoted = false;
            for (fill, cost) in found {
                let column = Column::Fill(fill.counts, cost);
                if simplex.gain(&column) > NEGLIGIBLE * cost {
                    pivoted |= simplex.pivot(column);
                }
            }
            if !pivoted && !rose {
                break;
            }
        }
        best
    }

    /// Each piece is worth its length.
    fn by_length(problem: &Problem) -> Self {
        let values: Vec<f64> = problem.pieces.iter().map(|it| it.0 as f64).collect();
        let found: Vec<(Fill, f64)> = problem
            .boards
            .iter()
            .map(|(room, cost)| {
                let limit = *room as f64;
                let counts = Counts::new();
                (Fill { counts, limit }, *cost as f64)
            })
            .collect();
        Self::safe(problem, &values, &found)
    }

    /// Values scaled until every fill is proved to be worth no more than its board costs.
    fn safe(problem: &Problem, values: &[f64], found: &[(Fill, f64)]) -> Self {
        let scale = found
            .iter()
            .filter(|(fill, _)| fill.limit > 0.0)
            .map(|(fill, cost)| cost / fill.limit)
            .fold(f64::INFINITY, f64::min);
        let scale = if scale.is_finite() { scale } else { 1.0 };
        let values: Vec<f64> = values.iter().map(|it| it * scale).collect();
        let bound = values.iter().zip(&problem.pieces);
        let bound = bound.map(|(value, (_, count))| value * *count as f64).sum();
        Self { values, bound }
    }

    /// No plan costs less than this.
    pub(super) const fn bound(&self) -> f64 {
        self.bound
    }
}

/// The best fill of each board, with the board's cost.
fn fills<'a>(problem: &'a Problem, values: &[f64]) -> impl Iterator<Item = (Fill, f64)> + use<'a> {
    let items = knapsack::ordered(problem.pieces.iter().copied(), values);
    problem.boards.iter().map(move |(room, cost)| {
        (
            knapsack::fill(&items, *room, problem.pieces.len()),
            *cost as f64,
        )
    })
}

impl Simplex {
    /// Begins with one board for each piece, filled with that piece alone.
    fn new(problem: &Problem) -> Self {
        let count = problem.pieces.len();
        let mut basis = Vec::new();
        let mut inverse = vec![vec![0.0; count]; count];
        let mut amounts = Vec::new();
        for (place, (length, wanted)) in problem.pieces.iter().enumerate() {
            let best = problem
                .boards
                .iter()
                .filter(|(room, _)| room >= length)
                .map(|(room, cost)| {
                    let fits = usize::try_from(room / length)
                        .unwrap_or(usize::MAX)
                        .min(*wanted);
                    (fits, *cost as f64)
                })
                .min_by(|a, b| (a.1 * b.0 as f64).total_cmp(&(b.1 * a.0 as f64)));
            let (fits, cost) = best.unwrap_or((1, 0.0));
            let mut counts = vec![0; count];
            counts[place] = fits;
            basis.push(Column::Fill(counts, cost));
            inverse[place][place] = 1.0 / fits as f64;
            // a little more of each piece, each by another amount, so that the method cannot run in circles
            let more = 1e-7 * (1.0 + place as f64 / count as f64);
            amounts.push((*wanted as f64 + more) / fits as f64);
        }
        Self {
            basis,
            inverse,
            amounts,
        }
    }

    fn values(&self) -> Vec<f64> {
        let mut values = vec![0.0; self.basis.len()];
        for (column, row) in self.basis.iter().zip(&self.inverse) {
            if let Column::Fill(_, cost) = column {
                for (value, entry) in values.iter_mut().zip(row) {
                    *value += cost * entry;
                }
            }
        }
        values
    }

    /// What the basis costs.
    fn cost(&self) -> f64 {
        let costs = self.basis.iter().zip(&self.amounts);
        let costs = costs.map(|(column, amount)| column.cost() * amount);
        costs.sum()
    }

    /// The piece that is worth less than nothing, as a surplus of it.
    fn surplus(values: &[f64]) -> Option<Column> {
        let least = values
            .iter()
            .enumerate()
            .min_by(|a, b| a.1.total_cmp(b.1))?;
        (*least.1 < -NEGATIVE).then_some(Column::Surplus(least.0))
    }

    /// By how much a column is worth more than it costs at the values of the basis.
    fn gain(&self, column: &Column) -> f64 {
        let values = self.values();
        times(&values, column) - column.cost()
    }

    /// Takes a column into the basis; false where nothing leaves it, which no sound problem has.
    fn pivot(&mut self, column: Column) -> bool {
        let direction: Vec<f64> = self.inverse.iter().map(|row| times(row, &column)).collect();
        let ratios = direction.iter().zip(&self.amounts).enumerate();
        let leaving = ratios
            .filter(|(_, (step, _))| **step > 1e-9)
            .map(|(place, (step, amount))| (amount / step, place))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((step, leaving)) = leaving else {
            return false;
        };
        let pivot = direction[leaving];
        let row: Vec<f64> = self.inverse[leaving].iter().map(|it| it / pivot).collect();
        for (place, factor) in direction.iter().enumerate() {
            if place == leaving {
                continue;
            }
            self.amounts[place] = (self.amounts[place] - factor * step).max(0.0);
            if factor.abs() > ZERO {
                for (entry, change) in self.inverse[place].iter_mut().zip(&row) {
                    *entry -= factor * change;
                }
            }
        }
        self.amounts[leaving] = step;
        self.inverse[leaving] = row;
        self.basis[leaving] = column;
        true
    }
}

impl Column {
    const fn cost(&self) -> f64 {
        match self {
            Self::Fill(_, cost) => *cost,
            Self::Surplus(_) => 0.0,
        }
    }
}

fn times(row: &[f64], column: &Column) -> f64 {
    match column {
        Column::Fill(counts, _) => {
            let products = row.iter().zip(counts).filter(|(_, count)| **count > 0);
            products.map(|(entry, count)| entry * *count as f64).sum()
        }
        Column::Surplus(place) => -row[*place],
    }
}
