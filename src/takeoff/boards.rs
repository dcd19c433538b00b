//! The cutting plan of a design: each kind of board by itself, its pieces by mark, and what is left over.
//!
//! In: the cut list and the yard. Out: for each board which pieces come out of it in which order, and for each kind
//! the cost or length with its proved bound. A piece longer than any board is a fault of the stock.

use super::cut_list::{CutLength, Row};
use super::plan::{Problem, Progress, Solution, solve_watched};
use super::yard::{Board, SoldLength, Yard};
use crate::catalog::FramingMember;
use crate::params::{Fault, Params};
use crate::units::{Length, Money, Rounding};

/// Micrometres in a millimetre: lengths are planned in whole ones, pieces rounded up and boards down.
const MICROMETRES: f64 = 1000.0;
/// What rounding forgives, in micrometres; a thousandth of the tape's finest mark.
const FORGIVEN: f64 = 0.01;
/// A piece longer than a board by less than this is worth a second look.
const NEAR: Length = Length::inches(1.0);

/// The plan for one kind of board.
#[derive(Debug, Clone)]
pub struct BoardPlan {
    /// The kind.
    pub board: Board,
    /// The boards, the longest first.
    pub boards: Vec<CutBoard>,
    /// What the plan costs.
    pub cost: PlanCost,
    /// What no plan goes below.
    pub bound: PlanCost,
    /// The problem in whole numbers.
    pub problem: Problem,
    /// Its solution.
    pub solution: Solution,
    /// Pieces that miss a board's length by little.
    pub near_misses: Vec<NearMiss>,
}

/// What is made small: money where every board has its price, else the length of all boards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PlanCost {
    /// The price of all boards.
    Money(Money),
    /// The length of all boards.
    Length(Length),
}

/// A board and what is cut from it.
#[derive(Debug, Clone)]
pub struct CutBoard {
    /// The board.
    pub sold: SoldLength,
    /// Marks and lengths, in the order in which they are cut after the trimmed end.
    pub pieces: Vec<(String, CutLength)>,
    /// What is left at the other end.
    pub offcut: Length,
}

/// A piece that a slightly shorter design would cut from a shorter board.
#[derive(Debug, Clone, PartialEq)]
pub struct NearMiss {
    /// The mark.
    pub mark: String,
    /// The board's length.
    pub board: Length,
    /// By how much the piece is longer than the trimmed board.
    pub by: Length,
}

impl BoardPlan {
    /// Whether no plan is better.
    pub fn is_proved(&self) -> bool {
        self.cost == self.bound
    }

    /// Whether the search was stopped before it had proved its plan.
    pub fn is_stopped(&self) -> bool {
        self.solution.is_stopped && !self.is_proved()
    }

    /// Boards bought beyond the plan.
    pub fn spare(&self, percent: u32) -> usize {
        (self.boards.len() * percent as usize).div_ceil(100)
    }
}

/// How far the plan for one kind of board has come.
#[derive(Debug, Clone, PartialEq)]
pub struct Planning {
    /// The kind.
    pub board: String,
    /// What the best plan so far costs.
    pub cost: PlanCost,
    /// What no plan goes below.
    pub bound: PlanCost,
    /// Nodes of the search so far.
    pub nodes: usize,
}

/// Whether to go on with a plan, asked now and then.
pub type PlanWatch<'a> = &'a mut dyn FnMut(&Planning) -> bool;

/// Pieces of one kind of board.
struct Kind<'a> {
    board: Board,
    rows: Vec<&'a Row>,
}

/// Plans every kind of board, in the order of the cut list.
pub(super) fn plans(
    rows: &[Row],
    yard: &Yard<'_>,
    params: &Params,
    faults: &mut Vec<Fault>,
    watch: PlanWatch<'_>,
) -> Vec<BoardPlan> {
    let mut kinds: Vec<Kind<'_>> = Vec::new();
    for row in rows {
        match kinds.iter_mut().find(|it| it.board == row.board) {
            Some(kind) => kind.rows.push(row),
            None => kinds.push(Kind {
                board: row.board.clone(),
                rows: vec![row],
            }),
        }
    }
    let plans = kinds.into_iter().filter_map(|kind| {
        let sold = yard.lengths(&kind.board);
        let too_long = too_long(&kind, &sold, params);
        if too_long.is_empty() {
            Some(plan(&kind, &sold, params, watch))
        } else {
            faults.extend(too_long);
            None
        }
    });
    plans.collect()
}

fn too_long(kind: &Kind<'_>, sold: &[SoldLength], params: &Params) -> Vec<Fault> {
    let unit = params.project.unit;
    let longest = sold
        .iter()
        .map(|it| it.length)
        .fold(Length::ZERO, Length::max);
    let usable = longest - params.stock.end_trim;
    let listed = params
        .stock
        .boards
        .iter()
        .any(|it| it.size.name() == kind.board.size.name());
    let key = if listed {
        "stock.boards"
    } else {
        match kind.board.size {
            FramingMember::Wood(_) => "stock.lengths",
            FramingMember::Steel(_) => "stock.steel_lengths",
        }
    };
    let rows = kind
        .rows
        .iter()
        .filter(|row| (row.long_point - usable).is_positive());
    let faults = rows.map(|row| Fault {
        key: key.into(),
        place: None,
        problem: format!("no board is long enough for {}", row.parts.join(", ")).into(),
        found: format!(
            "a piece of {} out of {}, whose longest board is {} before trimming",
            row.long().tape(unit),
            kind.board.name(),
            longest.tape(unit, Rounding::Down)
        )
        .into(),
        expected: format!(
            "a board of {} or more",
            (row.long_point + params.stock.end_trim).tape(unit, Rounding::Up)
        )
        .into(),
        way_out: format!("add a longer board to `{key}`, or make the piece shorter").into(),
    });
    faults.collect()
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "lengths of boards are positive and below 2^53 micrometres"
)]
fn micrometres(length: Length, up: bool) -> u64 {
    let exact = length.to_mm() * MICROMETRES;
    let whole = if up {
        (exact - FORGIVEN).ceil()
    } else {
        (exact + FORGIVEN).floor()
    };
    whole.max(0.0) as u64
}

fn plan(kind: &Kind<'_>, sold: &[SoldLength], params: &Params, watch: PlanWatch<'_>) -> BoardPlan {
    let (kerf, trim) = (params.stock.kerf, params.stock.end_trim);
    let mut pieces: Vec<(u64, Vec<&Row>)> = Vec::new();
    for row in &kind.rows {
        let length = micrometres(row.long_point + kerf, true);
        let all = std::iter::repeat_n(*row, row.quantity());
        match pieces.iter_mut().find(|it| it.0 == length) {
            Some(same) => same.1.extend(all),
            None => pieces.push((length, all.collect())),
        }
    }
    let prices: Option<Vec<Money>> = sold.iter().map(|it| it.price).collect();
    // with a price of nothing nothing can be compared
    let prices = prices.filter(|it| it.iter().all(|price| *price > Money::ZERO));
    let cost = |at: usize| match &prices {
        Some(prices) => u64::try_from(prices[at].to_hundredths()).unwrap_or(u64::MAX),
        None => micrometres(sold[at].length, false),
    };
    let rooms = sold.iter().enumerate().map(|(at, it)| {
        // the last piece of a board needs no cut of its own
        (micrometres(it.length - trim + kerf, false), cost(at))
    });
    let problem = Problem {
        pieces: pieces.iter().map(|it| (it.0, it.1.len())).collect(),
        boards: rooms.collect(),
    };
    let nodes = usize::try_from(params.stock.search_nodes).unwrap_or(usize::MAX);
    let worth = |value: u64| {
        if prices.is_some() {
            PlanCost::Money(Money::hundredths(i64::try_from(value).unwrap_or(i64::MAX)))
        } else {
            PlanCost::Length(Length::mm(value as f64 / MICROMETRES))
        }
    };
    let mut report = |progress: Progress| {
        watch(&Planning {
            board: kind.board.name(),
            cost: worth(progress.cost),
            bound: worth(progress.bound),
            nodes: progress.nodes,
        })
    };
    let solution = solve_watched(&problem, nodes, &mut report);
    BoardPlan {
        board: kind.board.clone(),
        cost: worth(solution.cost),
        bound: worth(solution.bound),
        near_misses: near_misses(kind, sold, params),
        boards: cut_boards(&solution, pieces, sold, params),
        problem,
        solution,
    }
}

/// The solution with marks in place of numbers, the longest board and the longest piece first.
fn cut_boards(
    solution: &Solution,
    mut pieces: Vec<(u64, Vec<&Row>)>,
    sold: &[SoldLength],
    params: &Params,
) -> Vec<CutBoard> {
    let (kerf, trim) = (params.stock.kerf, params.stock.end_trim);
    for (_, rows) in &mut pieces {
        rows.reverse();
    }
    let boards = solution.boards.iter().map(|(board, places)| {
        let taken = places.iter().filter_map(|it| pieces[*it].1.pop());
        let mut taken: Vec<(String, CutLength)> =
            taken.map(|row| (row.mark.clone(), row.long())).collect();
        taken.sort_by(|a, b| b.1.exact.to_mm().total_cmp(&a.1.exact.to_mm()));
        let used: Length = taken.iter().map(|it| it.1.exact + kerf).sum();
        let sold = sold[*board];
        CutBoard {
            sold,
            offcut: (sold.length - trim - used).max(Length::ZERO),
            pieces: taken,
        }
    });
    let mut boards: Vec<CutBoard> = boards.collect();
    boards.sort_by(|a, b| {
        let key = |it: &CutBoard| {
            (
                it.sold.length.to_mm(),
                it.pieces.first().map_or(0.0, |it| it.1.exact.to_mm()),
            )
        };
        let ((length, first), (other_length, other_first)) = (key(a), key(b));
        other_length
            .total_cmp(&length)
            .then(other_first.total_cmp(&first))
    });
    boards
}

fn near_misses(kind: &Kind<'_>, sold: &[SoldLength], params: &Params) -> Vec<NearMiss> {
    let mut found = Vec::new();
    for row in &kind.rows {
        for board in sold {
            let by = row.long_point - (board.length - params.stock.end_trim);
            if by.is_positive() && by < NEAR {
                found.push(NearMiss {
                    mark: row.mark.clone(),
                    board: board.length,
                    by,
                });
            }
        }
    }
    found
}
