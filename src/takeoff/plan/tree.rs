//! Branch and bound over listed fills: the cheapest plan that costs no more than a limit, or the proof that there is
//! none.
//!
//! A plan takes each kind of board a whole number of times, and so it does all boards that hold some pieces in common.
//! Where the linear program takes such a set of columns a broken number of times, the next whole numbers below and above
//! are two programs of which one must hold. The set is chosen by trying the most broken ones on both sides.

use std::collections::BTreeMap;
use std::rc::Rc;

use super::columns::Column;
use super::cut::Line;
use super::linear::{Outcome, Program, only};
use super::{Plan, Problem, Sums};

/// Numbers nearer to a whole one than this are whole.
const WHOLE: f64 = 1e-6;
/// Sets that are tried before one is chosen.
const TRIED: usize = 4;
/// Pivots of a try.
const TRY: usize = 15;
/// Pivots between two questions whether to go on.
const QUIET: usize = 100;
/// Rounds of cuts.
const ROUNDS: usize = 40;
/// Cuts of a round.
const CUTS: usize = 20;

/// How a search ends.
#[derive(Debug)]
pub(super) enum Found {
    /// With the cheapest plan within the limit.
    Cheapest(Plan),
    /// With a plan, but it may not be the cheapest.
    Some(Plan),
    /// With the proof that there is none.
    None,
    /// Without an answer.
    OutOfNodes,
}

/// What columns have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Set {
    /// The board.
    Board(usize),
    /// So many of a piece, or more.
    Pieces(usize, usize),
    /// So many of a piece, or more, in a board.
    PiecesIn(usize, usize, usize),
    /// Two pieces.
    Pair(usize, usize),
    /// One column alone.
    Single(usize),
}

pub(super) struct Tree<'a> {
    problem: &'a Problem,
    sums: &'a Sums,
    columns: Vec<Column>,
    /// Plans cost no more than this.
    limit: u64,
    /// A plan that costs this is the cheapest.
    least: u64,
    best: Option<Plan>,
    complete: bool,
    pub(super) nodes: usize,
    /// Pivots until the next question whether to go on.
    pivots: usize,
    most: usize,
    goes_on: &'a mut dyn FnMut(usize) -> bool,
    pub(super) is_stopped: bool,
}

impl<'a> Tree<'a> {
    pub(super) fn new(
        problem: &'a Problem,
        sums: &'a Sums,
        columns: Vec<Column>,
        (least, limit): (u64, u64),
        most: usize,
        goes_on: &'a mut dyn FnMut(usize) -> bool,
    ) -> Self {
        Self {
            problem,
            sums,
            columns,
            limit,
            least,
            best: None,
            complete: true,
            nodes: 0,
            pivots: 0,
            most,
            goes_on,
            is_stopped: false,
        }
    }

    /// Searches within so many nodes.
    pub(super) fn run(&mut self) -> Found {
        let unit = self.sums.unit as f64;
        let cost = |column: &Column| self.problem.boards[column.board].1 as f64 / unit;
        let mut program = Program::new(self.columns.iter().map(cost).collect());
        for (at, (_, wanted)) in self.problem.pieces.iter().enumerate() {
            let line = self.columns.iter().map(|it| it.counts[at] as f64);
            program.add(Line::new(line.collect()), *wanted as f64);
        }
        self.tighten(&mut program);
        self.branch(program);
        match (self.best.take(), self.complete) {
            (Some(plan), true) => Found::Cheapest(plan),
            (Some(plan), false) => Found::Some(plan),
            (None, true) => Found::None,
            (None, false) => Found::OutOfNodes,
        }
    }

    /// Adds cuts to the first program while they raise its cost.
    fn tighten(&mut self, program: &mut Program) {
        let limit = self.most_units();
        for _ in 0..ROUNDS {
            let outcome = program.solve(limit, usize::MAX, &mut self.pivots);
            if outcome != Outcome::Solved || !self.ask() {
                break;
            }
            program.drop_loose(self.problem.pieces.len());
            let stays = program.drop_dear(limit);
            self.columns = only(&self.columns, &stays);
            let cuts = program.cuts();
            if cuts.is_empty() {
                break;
            }
            for cut in cuts.into_iter().take(CUTS) {
                program.add(cut.line, cut.need);
            }
        }
    }

    /// The most that a linear program may cost, in units: a little below it lies the first sum that is too much.
    fn most_units(&self) -> f64 {
        self.sums.limit_units(self.limit)
    }

    fn is_done(&self) -> bool {
        self.best.as_ref().is_some_and(|it| it.cost <= self.least)
    }

    fn branch(&mut self, mut program: Program) {
        if self.is_done() {
            return;
        }
        if self.nodes >= self.most || !self.ask() {
            self.complete = false;
            return;
        }
        self.nodes += 1;
        let limit = self.most_units();
        let outcome = program.solve(limit, usize::MAX, &mut self.pivots);
        match outcome {
            Outcome::Hopeless => return,
            Outcome::Unsolved => {
                self.complete = false;
                return;
            }
            Outcome::Solved => {}
        }
        let broken = self.broken(&program);
        if broken.is_empty() {
            self.take(&program);
            return;
        }
        let Some((set, value)) = self.choose(&program, &broken) else {
            return;
        };
        let (more, fewer) = self.lines(set);
        let up = |program: &Program| {
            let mut program = program.clone();
            program.add(Rc::clone(&more), value.ceil());
            program
        };
        let down = |program: &Program| {
            let mut program = program.clone();
            program.add(Rc::clone(&fewer), -value.floor());
            program
        };
        let rises = matches!(set, Set::Board(_)) && value.fract() < 0.5;
        if rises {
            self.branch(down(&program));
            self.branch(up(&program));
        } else {
            self.branch(up(&program));
            self.branch(down(&program));
        }
    }

    /// Whether to go on; asked after some work only.
    fn ask(&mut self) -> bool {
        if self.pivots >= QUIET {
            self.pivots = 0;
            self.is_stopped |= !(self.goes_on)(self.nodes);
        }
        !self.is_stopped
    }

    /// Sets that are taken a broken number of times, the most broken first.
    fn broken(&self, program: &Program) -> Vec<(Set, f64)> {
        let mut sums: BTreeMap<Set, f64> = BTreeMap::new();
        for (at, amount) in program.taken() {
            let column = &self.columns[at];
            let mut add = |set| *sums.entry(set).or_default() += amount;
            add(Set::Board(column.board));
            add(Set::Single(at));
            for (piece, count) in column.counts.iter().enumerate() {
                for so_many in 1..=*count {
                    add(Set::Pieces(piece, so_many));
                    add(Set::PiecesIn(piece, so_many, column.board));
                }
                if *count > 0 {
                    for (other, more) in column.counts.iter().enumerate().skip(piece + 1) {
                        if *more > 0 {
                            add(Set::Pair(piece, other));
                        }
                    }
                }
            }
        }
        let off = |value: f64| (value - value.round()).abs();
        let mut broken: Vec<(Set, f64)> = sums.into_iter().filter(|it| off(it.1) > WHOLE).collect();
        let weight = |(set, value): &(Set, f64)| {
            let class = match set {
                Set::Board(_) => 1.0,
                Set::Pieces(..) | Set::PiecesIn(..) | Set::Pair(..) => 0.0,
                Set::Single(_) => -1.0,
            };
            class + off(*value)
        };
        broken.sort_by(|a, b| weight(b).total_cmp(&weight(a)).then(a.0.cmp(&b.0)));
        broken
    }

    /// The set whose two programs cost most; none where a set has no program within the limit.
    fn choose(&mut self, program: &Program, broken: &[(Set, f64)]) -> Option<(Set, f64)> {
        let limit = self.most_units();
        let before = program.cost();
        let mut best: Option<(f64, Set, f64)> = None;
        for (set, value) in broken.iter().take(TRIED) {
            let (more, fewer) = self.lines(*set);
            let mut rise = |line: Line, least: f64| {
                let mut tried = program.clone();
                tried.add(line, least);
                match tried.solve(limit, TRY, &mut self.pivots) {
                    Outcome::Hopeless => limit - before + 1.0,
                    Outcome::Solved | Outcome::Unsolved => tried.cost() - before,
                }
            };
            let (down, up) = (rise(fewer, -value.floor()), rise(more, value.ceil()));
            let most = limit - before + 1.0;
            if down >= most && up >= most {
                return None;
            }
            let score = down.max(1e-6) * up.max(1e-6);
            if best.is_none_or(|it| score > it.0) {
                best = Some((score, *set, *value));
            }
        }
        best.map(|it| (it.1, it.2))
    }

    /// The rows that count a set from below and from above.
    fn lines(&self, set: Set) -> (Line, Line) {
        let belongs = |at: usize, column: &Column| match set {
            Set::Board(board) => column.board == board,
            Set::Pieces(piece, count) => column.counts[piece] >= count,
            Set::PiecesIn(piece, count, board) => {
                column.counts[piece] >= count && column.board == board
            }
            Set::Pair(a, b) => column.counts[a] > 0 && column.counts[b] > 0,
            Set::Single(only) => at == only,
        };
        let columns = self.columns.iter().enumerate();
        let members: Vec<bool> = columns.map(|(at, it)| belongs(at, it)).collect();
        let line = |sign: f64| {
            let entries = members.iter().map(|it| if *it { sign } else { 0.0 });
            Line::new(entries.collect())
        };
        (line(1.0), line(-1.0))
    }

    /// Keeps the plan of a program that takes every column a whole number of times.
    fn take(&mut self, program: &Program) {
        let mut rest: Vec<usize> = self.problem.pieces.iter().map(|it| it.1).collect();
        let mut boards = Vec::new();
        for (at, amount) in program.taken() {
            for _ in 0..times(amount) {
                let counts = self.columns[at].counts.iter().zip(&mut rest);
                let counts: Vec<usize> = counts
                    .map(|(count, left)| {
                        let taken = (*count).min(*left);
                        *left -= taken;
                        taken
                    })
                    .collect();
                boards.push(counts);
            }
        }
        if rest.iter().any(|it| *it > 0) {
            self.complete = false;
            return;
        }
        let plan = self.problem.plan(boards);
        if plan.cost <= self.limit {
            self.limit = self.sums.below(plan.cost);
            self.best = Some(plan);
        }
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a small positive count"
)]
fn times(amount: f64) -> usize {
    amount.round().max(0.0) as usize
}
