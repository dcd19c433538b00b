//! What the yard has: boards and sheets by size, and prices by name; and what each must be by itself.

use super::fault::Fault;
use super::range::{limits_text, out_of_range, within};
use super::shown::text_fault;
use super::text::{angle_text, length_text};
use crate::catalog::{FramingMember, Steel};
use crate::units::{Angle, Length, Money, TapeUnit};

/// Lengths that a board or a pipe can be sold in.
const BOARDS: (Length, Length) = (Length::mm(50.0), Length::mm(13_000.0));
/// Sides that a sheet can have.
const SHEETS: (Length, Length) = (Length::mm(100.0), Length::mm(6000.0));
/// Thicknesses that a sheet can have.
const THICKNESSES: (Length, Length) = (Length::mm(3.0), Length::mm(100.0));
/// Lists of lengths that may have nothing in them.
const MAY_BE_EMPTY: [&str; 2] = ["appliance.brackets", "blocking.across"];
/// Feet of the board lengths that yards usually have (common practice, no source).
const USUAL_FEET: [f64; 5] = [8.0, 10.0, 12.0, 14.0, 16.0];
/// The same in metres.
const USUAL_METERS: [f64; 5] = [2.4, 3.0, 3.6, 4.2, 4.8];
/// Feet of the steel members that yards usually have (common practice, no source).
const STEEL_FEET: [f64; 3] = [8.0, 10.0, 12.0];
/// The same in metres.
const STEEL_METERS: [f64; 3] = [2.4, 3.0, 3.6];
/// Kilograms that nothing in a chase weighs more than.
const HEAVIEST: f64 = 5000.0;
/// Degrees at which common saws click in (common practice, no source).
const USUAL_STOPS: [f64; 6] = [0.0, 15.0, 22.5, 30.0, 31.6, 45.0];

/// A board of one size and length.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardStock {
    /// Its size.
    pub size: FramingMember,
    /// Its length.
    pub length: Length,
    /// What one costs, if the user says so.
    pub price: Option<Money>,
    /// Whether it is treated; treated and plain boards are never taken for one another.
    pub treated: bool,
}

/// What a sheet of the yard is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetKind {
    /// Paper-faced gypsum board.
    GypsumBoard,
    /// Cement board.
    CementBoard,
    /// Plywood or another structural panel.
    StructuralPanel,
}

impl SheetKind {
    /// The words of the parameter file, in the order they are offered.
    pub const WORDS: &'static [&'static str] =
        &["gypsum_board", "cement_board", "structural_panel"];

    /// What a word of the parameter file means.
    pub fn from_word(word: &str) -> Option<Self> {
        let all = [Self::GypsumBoard, Self::CementBoard, Self::StructuralPanel];
        all.into_iter().find(|it| it.word() == word)
    }

    /// What it is called in every list and on every sheet.
    pub const fn name(self) -> &'static str {
        match self {
            Self::GypsumBoard => "gypsum board",
            Self::CementBoard => "cement board",
            Self::StructuralPanel => "structural panel",
        }
    }

    /// The word of the parameter file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::GypsumBoard => Self::WORDS[0],
            Self::CementBoard => Self::WORDS[1],
            Self::StructuralPanel => Self::WORDS[2],
        }
    }
}

/// A sheet of one material and size.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetStock {
    /// What it is.
    pub material: SheetKind,
    /// Its thickness.
    pub thickness: Length,
    /// The shorter side.
    pub width: Length,
    /// The longer side.
    pub length: Length,
    /// What one costs, if the user says so.
    pub price: Option<Money>,
}

/// What one of something costs and weighs, and how many are bought of what the model does not know.
#[derive(Debug, Clone, PartialEq)]
pub struct Price {
    /// Its name, as the buy list shows it.
    pub item: String,
    /// What one costs, if the user says so.
    pub price: Option<Money>,
    /// What one weighs in kilograms, if the user says so.
    pub weight: Option<f64>,
    /// How many are bought, for what the model does not count.
    pub count: Option<u32>,
}

impl Price {
    pub(super) fn text(&self) -> String {
        let count = self.count.map(|it| format!("{it} x "));
        let weight = self.weight.map(|it| format!(", {it:.3} kg"));
        let price = self.price.map(|it| format!(": {it}"));
        let texts = [count, Some(self.item.clone()), price, weight];
        texts.into_iter().flatten().collect()
    }
}

impl BoardStock {
    pub(super) fn text(&self, unit: TapeUnit) -> String {
        let treated = if self.treated { "treated " } else { "" };
        let length = length_text(self.length, unit);
        format!(
            "{treated}{} of {length}{}",
            self.size.name(),
            priced(self.price)
        )
    }
}

impl SheetStock {
    pub(super) fn text(&self, unit: TapeUnit) -> String {
        let text = |length| length_text(length, unit);
        format!(
            "{} {} of {} by {}{}",
            text(self.thickness),
            self.material.word(),
            text(self.width),
            text(self.length),
            priced(self.price)
        )
    }
}

fn priced(price: Option<Money>) -> String {
    price.map_or_else(String::new, |price| format!(" at {price}"))
}

/// The lengths of a yard that nobody has described.
pub(super) fn usual_lengths(unit: TapeUnit) -> Vec<Length> {
    sold(unit, &USUAL_FEET, &USUAL_METERS)
}

/// The same of steel studs and tracks.
pub(super) fn usual_steel(unit: TapeUnit) -> Vec<Length> {
    sold(unit, &STEEL_FEET, &STEEL_METERS)
}

fn sold(unit: TapeUnit, feet: &[f64], meters: &[f64]) -> Vec<Length> {
    let in_feet = |it: &f64| Length::inches(it * 12.0);
    let in_meters = |it: &f64| Length::mm((it * 1000.0).round());
    match unit {
        TapeUnit::Inch => feet.iter().map(in_feet).collect(),
        TapeUnit::Millimeter => meters.iter().map(in_meters).collect(),
    }
}

/// The stops of a saw that nobody has described.
pub(super) fn usual_stops() -> Vec<Angle> {
    USUAL_STOPS.map(Angle::degrees).to_vec()
}

/// Actual sides that a stick can have.
const STICK_SIDES: (Length, Length) = (Length::mm(5.0), Length::mm(450.0));

/// The fault of a stick's name and sides, the smaller one first.
pub(super) fn lumber_fault(
    key: &str,
    (name, smaller, larger): (&str, Length, Length),
    unit: TapeUnit,
) -> Option<Fault> {
    let sound = within(smaller, STICK_SIDES) && within(larger, STICK_SIDES) && smaller <= larger;
    (!sound).then(|| {
        Fault::new(key, format!("`{key}` is not the size of a stick"))
            .found(format!("`{name}`"))
            .expected(format!(
                "sides {}, the smaller one first",
                limits_text(STICK_SIDES.0, STICK_SIDES.1, unit)
            ))
            .way_out("write a size such as 2x4 or 45x95 mm")
    })
}

/// The fault of a steel member where it has no place: a track, or any where only wood is framed.
pub(super) fn steel_fault(key: &str, steel: &Steel, studs: bool) -> Fault {
    let (problem, expected) = if studs {
        ("a track is not a stud", "a stud, such as \"362S125-30\"")
    } else {
        (
            "this is framed in wood only",
            "a size of lumber, such as \"2x4\"",
        )
    };
    Fault::new(key, problem)
        .found(format!("`{}`, a steel member", steel.name))
        .expected(expected)
        .way_out("steel studs go in `chase.stud`, `front.stud`, `front.bump_out_stud` and the headers; their tracks go with them")
}

pub(super) fn lengths_fault(key: &str, lengths: &[Length], unit: TapeUnit) -> Option<Fault> {
    if lengths.is_empty() && !MAY_BE_EMPTY.contains(&key) {
        return Some(empty(key, "at least one length"));
    }
    lengths
        .iter()
        .find_map(|length| board_fault(key, *length, unit))
}

fn empty(key: &str, expected: &str) -> Fault {
    Fault::new(key, format!("`{key}` is empty"))
        .found("an empty list")
        .expected(expected)
        .way_out("write what you have, or leave the key out")
}

fn board_fault(key: &str, length: Length, unit: TapeUnit) -> Option<Fault> {
    (!within(length, BOARDS)).then(|| {
        let allowed = limits_text(BOARDS.0, BOARDS.1, unit);
        out_of_range(key, length_text(length, unit), allowed)
    })
}

pub(super) fn angles_fault(key: &str, angles: &[Angle]) -> Option<Fault> {
    if angles.is_empty() {
        return Some(empty(key, "at least one angle"));
    }
    let bad = angles
        .iter()
        .find(|it| !(0.0..90.0).contains(&it.to_degrees()));
    bad.map(|angle| out_of_range(key, angle_text(*angle), "from 0 to below 90 deg".to_owned()))
}

pub(super) fn boards_fault(key: &str, boards: &[BoardStock], unit: TapeUnit) -> Option<Fault> {
    boards.iter().find_map(|board| {
        lumber_fault(
            key,
            (board.size.name(), board.size.breadth(), board.size.depth()),
            unit,
        )
        .or_else(|| board_fault(key, board.length, unit))
        .or_else(|| board.price.and_then(|price| price_fault(key, price)))
    })
}

pub(super) fn sheets_fault(key: &str, sheets: &[SheetStock], unit: TapeUnit) -> Option<Fault> {
    sheets.iter().find_map(|sheet| {
        let lengths = [
            (sheet.thickness, THICKNESSES),
            (sheet.width, SHEETS),
            (sheet.length, SHEETS),
        ];
        let bad = lengths
            .into_iter()
            .find(|(length, limits)| !within(*length, *limits));
        let range = bad.map(|(length, limits)| {
            let allowed = limits_text(limits.0, limits.1, unit);
            out_of_range(key, length_text(length, unit), allowed)
        });
        range.or_else(|| sheet.price.and_then(|price| price_fault(key, price)))
    })
}

pub(super) fn prices_fault(key: &str, prices: &[Price]) -> Option<Fault> {
    let nameless = prices.iter().find(|it| it.item.trim().is_empty());
    let nameless = nameless.map(|_| {
        Fault::new(key, format!("`{key}` has a price without an item"))
            .found("an empty `item`")
            .expected("the name of an item in the buy list")
            .way_out("write the item as the buy list shows it")
    });
    let mut items = prices.iter();
    nameless
        .or_else(|| items.find_map(|it| text_fault(key, "item", &it.item)))
        .or_else(|| {
            let mut prices = prices.iter().filter_map(|it| it.price);
            prices.find_map(|it| price_fault(key, it))
        })
        .or_else(|| {
            let mut weights = prices.iter().filter_map(|it| it.weight);
            weights.find_map(|it| weight_fault(key, it))
        })
}

fn weight_fault(key: &str, kilograms: f64) -> Option<Fault> {
    let is_one = kilograms > 0.0 && kilograms <= HEAVIEST;
    (!is_one).then(|| {
        Fault::new(key, format!("`{key}` has an impossible weight"))
            .found(format!("{kilograms} kg"))
            .expected(format!("above 0 and up to {HEAVIEST} kg"))
            .way_out("write what one weighs, such as `\"185 lb\"` or `\"84 kg\"`, or leave the weight out")
    })
}

fn price_fault(key: &str, price: Money) -> Option<Fault> {
    (price < Money::ZERO).then(|| {
        Fault::new(key, format!("`{key}` has a price below 0"))
            .found(price.to_string())
            .expected("a price of 0 or more")
            .way_out("write what one costs, or leave the price out")
    })
}
