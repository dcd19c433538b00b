//! A linear program over listed fills, kept solved while rows are added: the dual simplex method.
//!
//! In: columns with their costs, rows that must reach a number. Out: the least cost, and how often each column is
//! taken for it. Every row reads "at least". The costs are never negative, so the method begins without any column
//! and its cost only rises: it may be stopped as soon as it is too high.

use std::rc::Rc;

use super::cut::{self, Cut, Line};

/// A row is reached when it lacks no more than this.
const LACKING: f64 = 1e-7;
/// A step of the method smaller than this is none.
const STEP: f64 = 1e-8;
/// Weights smaller than this are zero.
const ZERO: f64 = 1e-13;
/// Pivots after which the inverse is made anew.
const AFRESH: usize = 60;
/// Pivots for each row after which the method gives up.
const PATIENCE: usize = 60;
/// A cost above its limit by less than this is computed anew before it counts.
const NEAR: f64 = 1e-3;

/// How the method ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Outcome {
    /// With the least cost.
    Solved,
    /// With a cost above the limit, or no way to reach every row.
    Hopeless,
    /// With too many pivots; the cost so far is still a bound.
    Unsolved,
}

/// A program with its basis.
#[derive(Debug, Clone)]
pub(super) struct Program {
    rows: Vec<Line>,
    needs: Vec<f64>,
    costs: Rc<Vec<f64>>,
    /// Columns, then one surplus for each row.
    basis: Vec<usize>,
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
    /// What a unit of each column and surplus costs more than it is worth.
    reduced: Vec<f64>,
    is_basic: Vec<bool>,
    pivots: usize,
}

impl Program {
    /// A program without rows.
    pub(super) fn new(costs: Vec<f64>) -> Self {
        Self {
            rows: Vec::new(),
            needs: Vec::new(),
            basis: Vec::new(),
            inverse: Vec::new(),
            amounts: Vec::new(),
            is_basic: vec![false; costs.len()],
            reduced: costs.clone(),
            costs: Rc::new(costs),
            pivots: 0,
        }
    }

    /// The cost of the basis: no solution costs less.
    pub(super) fn cost(&self) -> f64 {
        let basis = self.basis.iter().zip(&self.amounts);
        let costs = basis.map(|(column, amount)| self.cost_of(*column) * amount);
        costs.sum()
    }

    fn cost_of(&self, column: usize) -> f64 {
        self.costs.get(column).copied().unwrap_or(0.0)
    }

    /// Columns that are taken, and how often.
    pub(super) fn taken(&self) -> impl Iterator<Item = (usize, f64)> {
        let columns = self.costs.len();
        let basis = self.basis.iter().copied().zip(self.amounts.iter().copied());
        basis.filter(move |(column, amount)| *column < columns && *amount > STEP)
    }

    /// Adds a row that must reach `need`.
    pub(super) fn add(&mut self, line: Line, need: f64) {
        let mut weights = vec![0.0; self.rows.len()];
        let mut amount = 0.0;
        for (place, column) in self.basis.iter().enumerate() {
            let entry = line.get(*column).copied().unwrap_or(0.0);
            if entry.abs() > ZERO {
                amount += entry * self.amounts[place];
                for (weight, of) in weights.iter_mut().zip(&self.inverse[place]) {
                    *weight += entry * of;
                }
            }
        }
        for it in &mut self.inverse {
            it.push(0.0);
        }
        weights.push(-1.0);
        self.inverse.push(weights);
        self.amounts.push(amount - need);
        self.needs.push(need);
        self.basis.push(self.reduced.len());
        self.reduced.push(0.0);
        self.is_basic.push(true);
        self.rows.push(line);
    }

    /// Rows that every whole solution keeps and this one breaks, those that it breaks most first.
    pub(super) fn cuts(&self) -> Vec<Cut> {
        let mut cuts: Vec<(f64, Cut)> = Vec::new();
        for (amount, line) in self.amounts.iter().zip(&self.inverse) {
            if (amount - amount.round()).abs() < cut::BROKEN {
                continue;
            }
            for sign in [1.0, -1.0] {
                let weights: Vec<f64> = line.iter().map(|it| cut::weight(sign * it)).collect();
                let needs = weights.iter().zip(&self.needs).map(|(a, b)| a * b);
                let cut = Cut::new(self.sums(&weights), needs.sum());
                cuts.extend(cut.and_then(|it| Some((it.distance(self.taken())?, it))));
            }
        }
        cuts.sort_by(|a, b| b.0.total_cmp(&a.0));
        cuts.into_iter().map(|it| it.1).collect()
    }

    /// Rows added up with these weights, by column.
    fn sums(&self, weights: &[f64]) -> Vec<f64> {
        let mut sums = vec![0.0; self.costs.len()];
        for (line, weight) in self.rows.iter().zip(weights) {
            if weight.abs() > ZERO {
                for (sum, entry) in sums.iter_mut().zip(line.iter()) {
                    *sum += weight * entry;
                }
            }
        }
        sums
    }

    /// Leaves out rows from the `first` on that the solution more than reaches.
    pub(super) fn drop_loose(&mut self, first: usize) {
        for row in (first..self.rows.len()).rev() {
            let surplus = self.costs.len() + row;
            let Some(place) = self.basis.iter().position(|it| *it == surplus) else {
                continue;
            };
            self.basis.remove(place);
            self.amounts.remove(place);
            self.inverse.remove(place);
            for line in &mut self.inverse {
                line.remove(row);
            }
            for column in &mut self.basis {
                *column -= usize::from(*column > surplus);
            }
            self.needs.remove(row);
            self.rows.remove(row);
            self.reduced.remove(surplus);
            self.is_basic.remove(surplus);
        }
    }

    /// Leaves out columns of which one alone would raise the cost above `limit`; says which stay.
    pub(super) fn drop_dear(&mut self, limit: f64) -> Vec<bool> {
        let spare = limit - self.cost();
        let count = self.costs.len();
        let stays: Vec<bool> = (0..count)
            .map(|at| self.is_basic[at] || self.reduced[at] <= spare)
            .collect();
        let mut places = Vec::with_capacity(count);
        let mut kept = 0;
        for stay in &stays {
            places.push(kept);
            kept += usize::from(*stay);
        }
        if kept < count {
            for column in &mut self.basis {
                let surplus = *column + kept;
                *column = places
                    .get(*column)
                    .map_or_else(|| surplus - count, |it| *it);
            }
            self.costs = Rc::new(only(&self.costs, &stays));
            for line in &mut self.rows {
                *line = Rc::new(only(line, &stays));
            }
            self.reduced = only(&self.reduced, &stays);
            self.is_basic = only(&self.is_basic, &stays);
        }
        stays
    }

    /// Solves, or stops as soon as the cost is above `limit` or after so many pivots; counts them.
    pub(super) fn solve(&mut self, limit: f64, most: usize, used: &mut usize) -> Outcome {
        let patience = (PATIENCE * self.needs.len()).min(most);
        for _ in 0..patience {
            if self.pivots >= AFRESH {
                self.refresh();
            }
            let cost = self.cost();
            if cost > limit {
                if cost > limit + NEAR || self.pivots == 0 {
                    return Outcome::Hopeless;
                }
                self.refresh();
                continue;
            }
            let Some(leaving) = self.leaving() else {
                return Outcome::Solved;
            };
            *used += 1;
            if !self.pivot(leaving) {
                if self.pivots == 0 {
                    return Outcome::Hopeless;
                }
                self.refresh();
            }
        }
        Outcome::Unsolved
    }

    fn leaving(&self) -> Option<usize> {
        let amounts = self.amounts.iter().enumerate();
        let least = amounts.min_by(|a, b| a.1.total_cmp(b.1))?;
        (*least.1 < -LACKING).then_some(least.0)
    }

    /// Takes a column for one that is taken less than not at all; false where none can be.
    fn pivot(&mut self, leaving: usize) -> bool {
        let weights = &self.inverse[leaving];
        let mut row = self.sums(weights);
        row.extend(weights.iter().map(|it| -it));
        let mut entering: Option<(f64, f64, usize)> = None;
        for (column, step) in row.iter().enumerate() {
            if *step > -STEP || self.is_basic[column] {
                continue;
            }
            let ratio = self.reduced[column].max(0.0) / -step;
            let better = entering.is_none_or(|(least, size, _)| {
                ratio < least - 1e-12 || (ratio < least + 1e-12 && *step < size)
            });
            if better {
                entering = Some((ratio, *step, column));
            }
        }
        let Some((ratio, _, entering)) = entering else {
            return false;
        };
        for (reduced, step) in self.reduced.iter_mut().zip(&row) {
            *reduced += ratio * step;
        }
        let old = self.basis[leaving];
        self.reduced[old] = ratio;
        self.reduced[entering] = 0.0;
        let direction = self.direction(entering);
        self.exchange(leaving, &direction);
        self.is_basic[old] = false;
        self.is_basic[entering] = true;
        self.basis[leaving] = entering;
        self.pivots += 1;
        true
    }

    /// What a column changes in each row of the tableau.
    fn direction(&self, column: usize) -> Vec<f64> {
        let entries: Vec<f64> = (self.rows.iter().enumerate())
            .map(|(at, line)| {
                let surplus = column == self.costs.len() + at;
                line.get(column)
                    .copied()
                    .unwrap_or(if surplus { -1.0 } else { 0.0 })
            })
            .collect();
        let rows = self.inverse.iter();
        rows.map(|row| row.iter().zip(&entries).map(|(a, b)| a * b).sum())
            .collect()
    }

    fn exchange(&mut self, leaving: usize, direction: &[f64]) {
        let pivot = direction[leaving];
        let step = self.amounts[leaving] / pivot;
        let line: Vec<f64> = self.inverse[leaving].iter().map(|it| it / pivot).collect();
        for (place, factor) in direction.iter().enumerate() {
            if place == leaving || factor.abs() < ZERO {
                continue;
            }
            self.amounts[place] -= factor * step;
            for (entry, change) in self.inverse[place].iter_mut().zip(&line) {
                *entry -= factor * change;
            }
        }
        self.amounts[leaving] = step;
        self.inverse[leaving] = line;
    }

    /// Makes inverse, amounts and reduced costs anew from the basis alone, against the sum of rounding.
    fn refresh(&mut self) {
        self.pivots = 0;
        let rows = self.needs.len();
        let columns = self.costs.len();
        let wanted = std::mem::take(&mut self.basis);
        self.basis = (columns..columns + rows).collect();
        for (place, row) in self.inverse.iter_mut().enumerate() {
            row.fill(0.0);
            row[place] = -1.0;
        }
        self.amounts = self.needs.iter().map(|it| -it).collect();
        // surpluses keep their own rows; every other column takes the row in which it weighs most
        let mut free: Vec<bool> = vec![true; rows];
        let (surplus, others): (Vec<usize>, Vec<usize>) =
            wanted.into_iter().partition(|it| *it >= columns);
        for it in surplus {
            free[it - columns] = false;
        }
        for column in others {
            let direction = self.direction(column);
            let heaviest = (0..rows)
                .filter(|it| free[*it])
                .max_by(|a, b| direction[*a].abs().total_cmp(&direction[*b].abs()));
            if let Some(place) = heaviest {
                free[place] = false;
                self.exchange(place, &direction);
                self.basis[place] = column;
            }
        }
        self.price();
    }

    /// What each column costs more than it is worth.
    fn price(&mut self) {
        let mut values = vec![0.0; self.needs.len()];
        for (column, line) in self.basis.iter().zip(&self.inverse) {
            let cost = self.cost_of(*column);
            for (value, entry) in values.iter_mut().zip(line) {
                *value += cost * entry;
            }
        }
        let worth = self.sums(&values);
        let reduced = self
            .costs
            .iter()
            .zip(worth)
            .map(|(cost, worth)| cost - worth);
        self.reduced = reduced.chain(values).collect();
        for column in &self.basis {
            self.reduced[*column] = 0.0;
        }
    }
}

/// The items that stay, and those beyond the list.
pub(super) fn only<T: Clone>(items: &[T], stays: &[bool]) -> Vec<T> {
    let items = items.iter().enumerate();
    let kept = items.filter(|(at, _)| stays.get(*at).is_none_or(|it| *it));
    kept.map(|it| it.1.clone()).collect()
}
