//! The words of the takeoff, the same in every form.

use crate::takeoff::{End, PlanCost, Rip, Row, Setup, Stop, faces_text};
use crate::units::{Angle, Length, Marks, Rounding, TapeUnit};

/// An angle to a tenth of a degree, as a saw is set.
pub(super) fn degrees(angle: Angle) -> String {
    format!("{:.1}°", angle.to_degrees() + 0.0)
}

/// An end in words; a square one says so, and one with two cuts where they meet.
pub(super) fn end_text(row: &Row, end: &End, unit: TapeUnit) -> String {
    if let Some(second) = &end.second {
        let cuts = end.cuts();
        let words = cuts.iter().map(|cut| {
            let (miter, bevel) = row.setting(cut);
            if cut.is_square() {
                "square".to_owned()
            } else {
                cut_words(miter, bevel)
            }
        });
        let words: Vec<String> = words.collect();
        return format!(
            "{}: two cuts that meet {} from the {} face: {} on that side, {} on the other",
            end.place,
            second.at.tape_on(fine(unit), Rounding::Nearest),
            second.from,
            words[0],
            words[1]
        );
    }
    if end.is_square() {
        return format!("{}: square", end.place);
    }
    let (miter, bevel) = row.setting(end);
    let cut = cut_words(miter, bevel);
    let mut sides = end.long_at.clone();
    sides.dedup();
    format!("{}: {cut}, long to the {}", end.place, faces_text(&sides))
}

fn cut_words(miter: Angle, bevel: Angle) -> String {
    match (miter.to_radians() > 0.0, bevel.to_radians() > 0.0) {
        (true, false) => format!("miter {}", degrees(miter)),
        (false, true) => format!("bevel {}", degrees(bevel)),
        _ => format!(
            "compound: miter {}, bevel {}",
            degrees(miter),
            degrees(bevel)
        ),
    }
}

/// A setting of the saw in words.
pub(super) fn setting_text(setup: &Setup) -> String {
    cut_words(setup.miter, setup.bevel)
}

/// How the stick lies on the saw.
pub(super) const fn lies(on_edge: bool) -> &'static str {
    if on_edge { "on edge" } else { "flat" }
}

/// How an end looks with the wide face up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EndSign {
    /// Square.
    Square,
    /// A miter, its upper edge toward the right.
    Rising,
    /// A miter, its upper edge toward the left.
    Falling,
    /// A bevel.
    Bevel,
    /// Miter and bevel.
    Compound,
    /// Two cuts that meet.
    Peak,
}

impl EndSign {
    /// Both ends of a stick, the lower or left one first.
    pub(super) fn of(row: &Row) -> [Self; 2] {
        [0, 1].map(|at| Self::of_end(&row.ends[at], row.on_edge))
    }

    fn of_end(end: &End, on_edge: bool) -> Self {
        let (lean, through) = if on_edge {
            (end.through, end.across)
        } else {
            (end.across, end.through)
        };
        let is = |slope: f64| slope.abs() > 1e-9;
        match (is(lean), is(through)) {
            _ if end.second.is_some() => Self::Peak,
            (false, false) => Self::Square,
            (false, true) => Self::Bevel,
            (true, true) => Self::Compound,
            (true, false) if lean > 0.0 => Self::Rising,
            (true, false) => Self::Falling,
        }
    }

    /// A piece in letters: `|` square, `/` and `\` miter, `:` bevel, `%` compound, `>` a peak.
    pub(super) fn drawing(ends: [Self; 2]) -> String {
        let [left, right] = ends.map(|it| match it {
            Self::Square => '|',
            Self::Rising => '/',
            Self::Falling => '\\',
            Self::Bevel => ':',
            Self::Compound => '%',
            Self::Peak => '>',
        });
        format!("{left}-----{right}")
    }
}

/// A rip in words, with the board that it comes out of.
pub(super) fn rip_text(row: &Row, rip: &Rip, unit: TapeUnit) -> String {
    let edge = if rip.edge.to_radians() > 1e-9 {
        format!(", both edges at {}", degrees(rip.edge))
    } else {
        String::new()
    };
    let thickness = if rip.thinned {
        format!(
            " and to {} thick",
            rip.thickness.tape_on(fine(unit), Rounding::Nearest)
        )
    } else {
        String::new()
    };
    format!(
        "rip a {} to {}{thickness}{edge}",
        row.board.size.name(),
        rip.width.tape_on(fine(unit), Rounding::Nearest)
    )
}

/// A stop, the gap that it leaves, and whether to use it.
pub(super) fn stop_text(stop: Option<Stop>, unit: TapeUnit) -> String {
    stop.map_or_else(String::new, |stop| {
        let gap = stop.gap.tape_on(finest(unit), Rounding::Up);
        let advice = if stop.good {
            "use the stop"
        } else {
            "set the angle"
        };
        format!("{}: gap {gap}, {advice}", degrees(stop.angle))
    })
}

const fn fine(unit: TapeUnit) -> Marks {
    match unit {
        TapeUnit::Inch => Marks::ThirtySeconds,
        TapeUnit::Millimeter => Marks::TenthMillimeters,
    }
}

const fn finest(unit: TapeUnit) -> Marks {
    match unit {
        TapeUnit::Inch => Marks::SixtyFourths,
        TapeUnit::Millimeter => Marks::TenthMillimeters,
    }
}

/// What a plan makes small, in words.
pub fn amount(cost: PlanCost, currency: &str, unit: TapeUnit) -> String {
    match cost {
        PlanCost::Money(money) => format!("{currency}{money}"),
        PlanCost::Length(length) => whole_length(length, unit),
    }
}

fn whole_length(length: Length, unit: TapeUnit) -> String {
    match unit {
        TapeUnit::Inch => length.feet_inches(Marks::Sixteenths, Rounding::Nearest),
        TapeUnit::Millimeter => format!("{:.2} m", length.to_mm() / 1000.0),
    }
}

/// A mass in the unit of the tape's country.
pub(super) fn kilograms(mass: f64, unit: TapeUnit) -> String {
    let (number, unit) = weight(mass, unit);
    format!("{number:.1} {unit}")
}

/// Kilograms as a number in the unit of the tape's country, and that unit.
pub(super) fn weight(mass: f64, unit: TapeUnit) -> (f64, &'static str) {
    match unit {
        // 1 lb = 0.45359237 kg exactly: NIST SP 811 (2008), appendix B.8
        TapeUnit::Inch => (mass / 0.453_592_37, "lb"),
        TapeUnit::Millimeter => (mass, "kg"),
    }
}
