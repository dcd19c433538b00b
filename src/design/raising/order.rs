//! Which way each wall takes, so that they can be raised one after the other: a wall goes up before every wall whose place
//! it lies over.

use glam::DVec3;

use super::way::{Method, Raising, WayUp};
use crate::params::ChaseWall;

/// Low and high corner.
type Place = (DVec3, DVec3);

/// In which turn walls go up that nothing forces into another: what the front closes comes before it.
const fn usual(wall: ChaseWall) -> u8 {
    match wall {
        ChaseWall::Back => 0,
        ChaseWall::LeftSide => 1,
        ChaseWall::RightSide => 2,
        ChaseWall::Front | ChaseWall::SetBack | ChaseWall::Opened => 3,
        ChaseWall::BumpOut => 4,
    }
}

/// The walls with their methods, in the order in which they go up: the first choice of each if that can be, else with as
/// little given up as there is an order for, and the most room left.
pub(super) fn settle(options: &[(Raising, Vec<Method>)], places: &[Place]) -> Vec<Raising> {
    let names: Vec<ChaseWall> = options.iter().map(|it| it.0.wall).collect();
    let first = vec![0; options.len()];
    let order_of = |picks: &[usize]| sequence(&names, &chosen(options, picks), places);
    let found = match order_of(&first) {
        Some(order) => Some((first, order)),
        None => every(options)
            .into_iter()
            .filter_map(|picks| order_of(&picks).map(|order| (picks, order)))
            .min_by_key(|(picks, _)| given_up(options, picks)),
    };
    let (picks, order) = found.unwrap_or_default();
    let settled = order.into_iter().map(|at| {
        let (raising, methods) = &options[at];
        Raising {
            method: methods[picks[at]].clone(),
            ..raising.clone()
        }
    });
    settled.collect()
}

fn chosen<'a>(options: &'a [(Raising, Vec<Method>)], picks: &[usize]) -> Vec<&'a Method> {
    let both = options.iter().zip(picks);
    both.map(|((_, methods), pick)| &methods[*pick]).collect()
}

/// Every choice of one method for each wall.
fn every(options: &[(Raising, Vec<Method>)]) -> Vec<Vec<usize>> {
    options.iter().fold(vec![Vec::new()], |all, (_, methods)| {
        let longer = |picks: &Vec<usize>| {
            let picks = picks.clone();
            (0..methods.len()).map(move |pick| [picks.as_slice(), &[pick]].concat())
        };
        all.iter().flat_map(longer).collect()
    })
}

/// Places in the lists of methods, then minus the room that is left, in thousandths of a millimetre.
fn given_up(options: &[(Raising, Vec<Method>)], picks: &[usize]) -> (usize, i64, i64) {
    let ways = chosen(options, picks).into_iter();
    let ways: Vec<&WayUp> = ways.filter_map(Method::way).collect();
    let lacking = |room: fn(&WayUp) -> f64| {
        let sum: f64 = ways.iter().map(|it| room(it)).sum();
        thousandths(-sum)
    };
    (
        picks.iter().sum(),
        lacking(|it| it.margin().to_mm()),
        lacking(|it| it.floor_left().to_mm()),
    )
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a few metres in thousandths of a millimetre"
)]
fn thousandths(mm: f64) -> i64 {
    (mm.clamp(-1e9, 1e9) * 1000.0).round() as i64
}

/// The order in which walls go up by these methods; none where each waits for another.
fn sequence(names: &[ChaseWall], methods: &[&Method], places: &[Place]) -> Option<Vec<usize>> {
    let mut rest: Vec<usize> = (0..names.len()).collect();
    rest.sort_by_key(|at| usual(names[*at]));
    let mut order = Vec::new();
    while !rest.is_empty() {
        let is_free = |at: &usize| {
            let lies_here = |other: &usize| {
                let way = methods[*other].way();
                other != at && way.is_some_and(|it| it.lies_over(places[*at]))
            };
            !rest.iter().any(lies_here)
        };
        let next = rest.iter().position(is_free)?;
        order.push(rest.remove(next));
    }
    Some(order)
}
