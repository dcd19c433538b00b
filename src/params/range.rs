//! What a value may be: ranges of parameters, as they are declared, judged and shown.

use std::ops::RangeInclusive;

use super::fault::Fault;
use super::text::angle_text;
use crate::units::{Amount, AmountKind, Angle, Length, Marks, Rounding, Slope, TapeUnit};

/// What a parameter may be, ends included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Range {
    /// Whatever its kind allows.
    Any,
    /// A length from the first to the last.
    Length(Length, Length),
    /// A length above the first, up to the last.
    LengthAbove(Length, Length),
    /// A slope from the first to the last.
    Slope(Slope, Slope),
    /// A whole number from the first to the last.
    Count(u32, u32),
    /// An angle from the first to the last.
    Angle(Angle, Angle),
    /// An amount from the first to the last.
    Amount(Amount, Amount),
}

/// A range of lengths in millimetres.
pub(super) const fn mm(range: RangeInclusive<f64>) -> Range {
    Range::Length(Length::mm(*range.start()), Length::mm(*range.end()))
}

/// A range of lengths in metres.
pub(super) const fn meters(range: RangeInclusive<f64>) -> Range {
    let (least, most) = (*range.start(), *range.end());
    Range::Length(Length::mm(least * 1000.0), Length::mm(most * 1000.0))
}

/// A range of lengths in metres whose lower end does not belong to it.
pub(super) const fn meters_above(range: RangeInclusive<f64>) -> Range {
    let (least, most) = (*range.start(), *range.end());
    Range::LengthAbove(Length::mm(least * 1000.0), Length::mm(most * 1000.0))
}

/// A range of slopes, rise over run.
pub(super) const fn ratio(range: RangeInclusive<f64>) -> Range {
    Range::Slope(Slope::ratio(*range.start()), Slope::ratio(*range.end()))
}

/// A range of whole numbers.
pub(super) const fn count(range: RangeInclusive<u32>) -> Range {
    Range::Count(*range.start(), *range.end())
}

/// A range of angles in degrees.
pub(super) const fn degrees(range: RangeInclusive<f64>) -> Range {
    Range::Angle(
        Angle::radians(range.start().to_radians()),
        Angle::radians(range.end().to_radians()),
    )
}

/// A range of heat inputs in Btu/h.
pub(super) const fn btu_per_hour(range: RangeInclusive<f64>) -> Range {
    amounts(AmountKind::HeatInput, &range)
}

/// A range of weights per area in lb/ft².
pub(super) const fn lb_per_square_foot(range: RangeInclusive<f64>) -> Range {
    amounts(AmountKind::AreaWeight, &range)
}

/// A range of weights in kilograms.
pub(super) const fn kilograms(range: RangeInclusive<f64>) -> Range {
    amounts(AmountKind::Weight, &range)
}

/// A range of pressures in psi.
pub(super) const fn psi(range: RangeInclusive<f64>) -> Range {
    amounts(AmountKind::Pressure, &range)
}

const fn amounts(kind: AmountKind, range: &RangeInclusive<f64>) -> Range {
    let (least, most) = (*range.start(), *range.end());
    Range::Amount(Amount { kind, value: least }, Amount { kind, value: most })
}

/// What a parameter may be, as text; empty where its kind says all.
pub(super) fn range_text(range: Range, unit: TapeUnit) -> String {
    match range {
        Range::Any => String::new(),
        Range::Length(least, most) => limits_text(least, most, unit),
        Range::LengthAbove(least, most) => {
            let most = limit_text(most, unit, Rounding::Down);
            format!(
                "above {} and up to {most}",
                limit_text(least, unit, Rounding::Up)
            )
        }
        Range::Slope(least, most) => format!("from {} to {}", least.text(), most.text()),
        Range::Count(least, most) => format!("from {least} to {most}"),
        Range::Amount(least, most) => {
            format!("from {} to {}", least.text(unit), most.text(unit))
        }
        Range::Angle(least, most) => {
            format!("from {} to {}", angle_text(least), angle_text(most))
        }
    }
}

/// Two limits, rounded inward so that what is printed is allowed.
pub(super) fn limits_text(least: Length, most: Length, unit: TapeUnit) -> String {
    let most = limit_text(most, unit, Rounding::Down);
    format!("from {} to {most}", limit_text(least, unit, Rounding::Up))
}

fn limit_text(limit: Length, unit: TapeUnit, rounding: Rounding) -> String {
    let marks = match unit {
        TapeUnit::Inch if limit < Length::inches(1.0) => Marks::SixtyFourths,
        TapeUnit::Millimeter if limit < Length::mm(1.0) => Marks::TenthMillimeters,
        TapeUnit::Inch | TapeUnit::Millimeter => unit.marks(),
    };
    limit.tape_on(marks, rounding)
}

pub(super) fn out_of_range(key: &str, found: String, allowed: String) -> Fault {
    let way_out = format!("write a value {allowed}; mind the unit of the number");
    Fault::new(key, format!("`{key}` is out of range"))
        .found(found)
        .expected(allowed)
        .way_out(way_out)
}

pub(super) fn within(length: Length, (least, most): (Length, Length)) -> bool {
    (least..=most).contains(&length)
}
