//! What the yard has for a size: wider boards for rips, lengths, prices and weights.
//!
//! In: parameters. Out: boards and their lengths. A size without prices has none; nothing is guessed.

use crate::catalog::{FramingMember, Lumber, lumber, member, nominal};
use crate::geom::TOLERANCE;
use crate::params::{self, Layer, PARAMETERS, Params, Value};
use crate::units::{Length, Money};

/// Nominal widths that yards have; 5 is in the standard but not in the yard (common practice, no source).
const NOMINAL_WIDTHS: [&str; 8] = ["2", "3", "4", "6", "8", "10", "12", "14"];

/// What a stick is cut from.
#[derive(Debug, Clone, PartialEq)]
pub struct Board {
    /// The yard's size, such as `2x4`.
    pub size: FramingMember,
    /// Whether it is treated.
    pub treated: bool,
}

/// A length that a board is sold in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoldLength {
    /// The length.
    pub length: Length,
    /// What one costs, if the user says so.
    pub price: Option<Money>,
}

impl Board {
    /// The name in the buy list.
    pub fn name(&self) -> String {
        let treated = if self.treated { ", treated" } else { "" };
        format!("{}{treated}", self.size.name())
    }
}

/// The sizes that a job uses, and what the yard has of them.
#[derive(Debug)]
pub(super) struct Yard<'a> {
    params: &'a Params,
    sizes: Vec<FramingMember>,
}

impl<'a> Yard<'a> {
    pub(super) fn new(params: &'a Params) -> Self {
        let stocks = PARAMETERS
            .iter()
            .filter(|it| matches!(it.kind, params::Kind::Lumber | params::Kind::Wood));
        let told = stocks.filter_map(|it| match params.get(it.key) {
            Some(Value::Lumber(size)) => Some(size),
            _ => None,
        });
        let mut sizes: Vec<FramingMember> = told.collect();
        sizes.extend(params.platform.layers.iter().filter_map(|it| match it {
            Layer::Flat(size) | Layer::OnEdge(size) => Some(size.clone().into()),
            Layer::Panel(_) => None,
        }));
        sizes.extend(params.stock.boards.iter().map(|it| it.size.clone()));
        Self { params, sizes }
    }

    /// The actual size behind a name of the design.
    pub(super) fn size(&self, name: &str) -> Option<FramingMember> {
        let known = self.sizes.iter().find(|it| it.name() == name);
        known.cloned().or_else(|| member(name))
    }

    /// This board where it is wide enough, else the narrowest of its thickness that is.
    pub(super) fn wide_enough(&self, size: &Lumber, width: Length) -> Lumber {
        if !(width - size.width).is_positive() {
            return size.clone();
        }
        let fits = |it: &Lumber| {
            (it.thickness - size.thickness).abs().to_mm() <= TOLERANCE
                && !(width - it.width).is_positive()
        };
        let thickness = nominal(&size.name).map(|it| it.0);
        let wider = NOMINAL_WIDTHS
            .iter()
            .filter_map(|width| lumber(&format!("{}x{width}", thickness?)));
        let candidates = self
            .sizes
            .iter()
            .filter_map(FramingMember::wood)
            .cloned()
            .chain(wider);
        let narrowest = candidates
            .filter(fits)
            .min_by(|a, b| a.width.to_mm().total_cmp(&b.width.to_mm()));
        narrowest.unwrap_or_else(|| made_to_size(size, width))
    }

    /// The lengths a board is sold in, the shortest first; never empty.
    pub(super) fn lengths(&self, board: &Board) -> Vec<SoldLength> {
        let stock = &self.params.stock;
        let listed = stock
            .boards
            .iter()
            .filter(|it| it.size.name() == board.size.name() && it.treated == board.treated);
        let mut lengths: Vec<SoldLength> = listed
            .map(|it| SoldLength {
                length: it.length,
                price: it.price,
            })
            .collect();
        if lengths.is_empty() {
            let usual = match board.size {
                FramingMember::Wood(_) => &stock.lengths,
                FramingMember::Steel(_) => &stock.steel_lengths,
            };
            lengths.extend(usual.iter().map(|length| SoldLength {
                length: *length,
                price: None,
            }));
        }
        lengths.sort_by(|a, b| a.length.to_mm().total_cmp(&b.length.to_mm()));
        lengths.dedup_by(|later, kept| later.length == kept.length);
        lengths
    }
}

/// A board that no list names, to the next whole millimetre.
fn made_to_size(size: &Lumber, width: Length) -> Lumber {
    let width = Length::mm((width.to_mm() - TOLERANCE).ceil());
    Lumber {
        name: format!("{}x{} mm", size.thickness.to_mm().round(), width.to_mm()),
        thickness: size.thickness,
        width,
    }
}
