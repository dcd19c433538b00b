//! Sticks longer than any board at the yard.
//!
//! # What it finds
//! Of each size the longest stick, from long point to long point, against the longest board that the yard has of it,
//! less what is trimmed off its end. A size whose sticks can all be cut from its boards is not listed.
//!
//! # Why
//! Otherwise a plate that nobody sells is discovered at the yard, or on the day it is cut.
//!
//! # Source
//! Arithmetic: `stock.boards`, and `stock.lengths` or `stock.steel_lengths` for what that does not name.

use std::collections::BTreeMap;

use super::ARITHMETIC;
use crate::catalog::Material;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Part, Stock};
use crate::params::Params;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "stock lengths",
    concern: Concern::Framing,
    text: include_str!("stock_lengths.rs"),
    keys: &[
        "stock.lengths",
        "stock.steel_lengths",
        "stock.boards",
        "stock.end_trim",
        "chase.width",
        "chase.depth",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let mut too_long: BTreeMap<(&str, bool), Vec<&Part>> = BTreeMap::new();
    for part in &design.parts {
        if let Some(board) = board_of(part)
            && (length(part) - usable(&design.params, part, board)).is_positive()
        {
            too_long.entry(board).or_default().push(part);
        }
    }
    for (board, mut parts) in too_long {
        parts.sort_by(|a, b| length(b).to_mm().total_cmp(&length(a).to_mm()));
        let Some(longest) = parts.first() else {
            continue;
        };
        let row = Row {
            subject: Measure("longest stick of {} from the yard's longest board")
                .of([Thing::Named(board.0.to_owned())]),
            parts: parts.iter().map(|it| it.id.clone()).collect(),
            location: Some(longest.body.bounds.center()),
            source: ARITHMETIC.to_owned(),
            levers: &["chase.width", "chase.depth"],
            ..Row::default()
        };
        let most = usable(&design.params, longest, board);
        report.limit(row, Numbers::at_most(length(longest), most));
    }
}

/// The size that a stick is cut from, and whether it is treated.
fn board_of(part: &Part) -> Option<(&str, bool)> {
    match &part.stock {
        Stock::Stick(name) | Stock::Rip(name) | Stock::Steel(name) => {
            Some((name, part.material == Material::TREATED))
        }
        Stock::Sheet(_) | Stock::Bought | Stock::Existing => None,
    }
}

/// From tip to tip along a stick.
fn length(part: &Part) -> Length {
    let along = part.body.frame.z;
    let ends = [along, -along].map(|way| way.dot(part.body.farthest(way)));
    Length::mm(ends[0] + ends[1])
}

/// What is left of the longest board of a size when its end is trimmed.
fn usable(params: &Params, part: &Part, (name, treated): (&str, bool)) -> Length {
    let stock = &params.stock;
    let own = stock.boards.iter();
    let own = own.filter(|it| it.size.name() == name && it.treated == treated);
    let own = own.map(|it| it.length).reduce(Length::max);
    let usual = match part.stock {
        Stock::Steel(_) => &stock.steel_lengths,
        Stock::Stick(_) | Stock::Rip(_) | Stock::Sheet(_) | Stock::Bought | Stock::Existing => {
            &stock.lengths
        }
    };
    let usual = usual.iter().copied().fold(Length::ZERO, Length::max);
    own.unwrap_or(usual) - stock.end_trim
}
