//! The most valuable way to fill one board, by branch and bound, with a proved upper limit.

use super::Counts;

/// Steps after which a fill is taken as it is; its proved limit is then that of the relaxation.
const STEPS: usize = 20_000;
/// Values nearer than this are equal.
const EQUAL: f64 = 1e-12;

/// A piece that may go into the board.
#[derive(Debug, Clone, Copy)]
pub(super) struct Item {
    pub(super) place: usize,
    pub(super) value: f64,
    pub(super) length: u64,
    pub(super) most: usize,
}

/// A filled board.
#[derive(Debug, Clone)]
pub(super) struct Fill {
    pub(super) counts: Counts,
    /// No fill is worth more than this.
    pub(super) limit: f64,
}

struct Knapsack<'a> {
    items: &'a [Item],
    counts: Vec<usize>,
    best: Vec<usize>,
    best_value: f64,
    steps: usize,
}

/// Pieces in the order in which they are tried: the most value a length first.
pub(super) fn ordered(lengths: impl Iterator<Item = (u64, usize)>, values: &[f64]) -> Vec<Item> {
    let mut items: Vec<Item> = lengths
        .zip(values)
        .enumerate()
        .map(|(place, ((length, most), value))| Item {
            place,
            value: *value,
            length,
            most,
        })
        .filter(|it| it.value > EQUAL && it.most > 0)
        .collect();
    items.sort_by(|a, b| {
        let ratio = |it: &Item| it.value / it.length as f64;
        ratio(b).total_cmp(&ratio(a)).then(a.place.cmp(&b.place))
    });
    items
}

/// Fills a board of this room from ordered items; the counts are by place, over `places` of them.
pub(super) fn fill(items: &[Item], room: u64, places: usize) -> Fill {
    let mut knapsack = Knapsack {
        items,
        counts: vec![0; items.len()],
        best: vec![0; items.len()],
        best_value: 0.0,
        steps: 0,
    };
    let relaxed = knapsack.relaxed(0, room);
    knapsack.branch(0, room, 0.0);
    let mut counts = vec![0; places];
    for (item, count) in items.iter().zip(&knapsack.best) {
        counts[item.place] = *count;
    }
    Fill {
        counts,
        limit: if knapsack.steps < STEPS {
            knapsack.best_value + EQUAL
        } else {
            relaxed
        },
    }
}

impl Knapsack<'_> {
    /// What the rest of the room is worth at the very most: the last piece that goes in may be cut.
    fn relaxed(&self, from: usize, room: u64) -> f64 {
        let items = self.items.get(from..).unwrap_or_default();
        relaxed(items.iter().map(|it| (it.value, it.length, it.most)), room)
    }

    fn branch(&mut self, at: usize, room: u64, value: f64) {
        self.steps += 1;
        if value > self.best_value + EQUAL {
            self.best_value = value;
            self.best.clone_from(&self.counts);
        }
        if self.steps >= STEPS || value + self.relaxed(at, room) <= self.best_value + EQUAL {
            return;
        }
        let Some(item) = self.items.get(at).copied() else {
            return;
        };
        let fits = usize::try_from(room / item.length).unwrap_or(usize::MAX);
        for count in (0..=fits.min(item.most)).rev() {
            self.counts[at] = count;
            let rest = room - item.length * count as u64;
            self.branch(at + 1, rest, value + item.value * count as f64);
        }
        self.counts[at] = 0;
    }
}

/// What a room is worth at the very most, filled with pieces (value, length, how many) in their order.
pub(super) fn relaxed(pieces: impl Iterator<Item = (f64, u64, usize)>, room: u64) -> f64 {
    let (mut room, mut worth) = (room, 0.0);
    for (value, length, most) in pieces {
        let all = length.saturating_mul(most as u64);
        if all >= room {
            return worth + value * (room as f64 / length as f64);
        }
        worth += value * most as f64;
        room -= all;
    }
    worth
}
