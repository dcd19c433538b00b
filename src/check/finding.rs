//! What a check has to say: a verdict with its numbers, its place, its source and what to move.

use glam::DVec3;

use super::{Concern, Subject};
use crate::geom::TOLERANCE;
use crate::params::{Decision, GROUPS, Nature, Value, parameter};
use crate::units::{Length, TapeUnit};

/// The word a check ends with, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// The margin is below zero.
    Fail,
    /// The margin is within what a careful builder may be off: from exactly 0 up to the build allowance.
    Tight,
    /// Only the manual, the inspector or a trade can answer; the question is printed.
    Ask,
    /// Nobody can measure it, and somebody decided it.
    Decided,
    /// The margin is the build allowance or more.
    Pass,
    /// Meant to be flush, and it is.
    Flush,
}

impl Verdict {
    /// Every verdict, worst first.
    pub const ALL: [Self; 6] = [
        Self::Fail,
        Self::Tight,
        Self::Ask,
        Self::Decided,
        Self::Pass,
        Self::Flush,
    ];

    /// The word as it is printed.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fail => "FAIL",
            Self::Tight => "TIGHT",
            Self::Ask => "ASK",
            Self::Decided => "DECIDED",
            Self::Pass => "PASS",
            Self::Flush => "FLUSH",
        }
    }

    /// The verdict on a margin: FAIL below zero, TIGHT below the allowance, else PASS.
    pub fn of_margin(margin: f64, allowance: f64) -> Self {
        if margin < -TOLERANCE {
            Self::Fail
        } else if margin < allowance - TOLERANCE {
            Self::Tight
        } else {
            Self::Pass
        }
    }
}

/// A kind of quantity, with the unit that its numbers are in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quantity {
    /// Millimetres.
    Length,
    /// Degrees.
    Angle,
    /// Kilograms.
    Mass,
    /// Square metres.
    Area,
    /// Pounds per square foot.
    AreaWeight,
    /// Cubic feet per hour.
    GasFlow,
    /// A plain number.
    Count,
}

impl Quantity {
    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Angle => "angle",
            Self::Mass => "mass",
            Self::Area => "area",
            Self::AreaWeight => "weight per area",
            Self::GasFlow => "gas flow",
            Self::Count => "count",
        }
    }

    /// The unit of its numbers.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length => "mm",
            Self::Angle => "degree",
            Self::Mass => "kg",
            Self::Area => "m2",
            Self::AreaWeight => "lb/ft2",
            Self::GasFlow => "ft3/h",
            Self::Count => "1",
        }
    }
}

/// Which way a limit counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// What is measured has to be at least what is required.
    AtLeast,
    /// What is measured may be at most what is required.
    AtMost,
}

impl Sense {
    /// The words before the limit.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AtLeast => "at least",
            Self::AtMost => "at most",
        }
    }
}

/// The numbers behind a verdict, all of one quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Numbers {
    /// Of what kind they are.
    pub quantity: Quantity,
    /// Which way the limit counts.
    pub sense: Sense,
    /// What the design has.
    pub measured: f64,
    /// What is asked of it.
    pub required: f64,
    /// How much is left; below zero it is missing.
    pub margin: f64,
}

impl Numbers {
    /// A number, in the quantity's own unit, against its limit.
    pub fn new(quantity: Quantity, sense: Sense, measured: f64, required: f64) -> Self {
        let margin = match sense {
            Sense::AtLeast => measured - required,
            Sense::AtMost => required - measured,
        };
        Self {
            quantity,
            sense,
            measured,
            required,
            margin,
        }
    }

    /// A length that has to be at least another.
    pub fn at_least(measured: Length, required: Length) -> Self {
        let [measured, required] = [measured, required].map(Length::to_mm);
        Self::new(Quantity::Length, Sense::AtLeast, measured, required)
    }

    /// A length that may be at most another.
    pub fn at_most(measured: Length, limit: Length) -> Self {
        let [measured, limit] = [measured, limit].map(Length::to_mm);
        Self::new(Quantity::Length, Sense::AtMost, measured, limit)
    }

    /// The margin as a share of the larger of measured and required: −1 where all of it is lacking, or where nothing
    /// may be at all; it has no unit, so that findings of all quantities can be put in order. A margin within the
    /// tolerance is zero, so that the last bit of a sum puts nothing in order.
    pub fn share(&self) -> f64 {
        if self.margin.abs() < TOLERANCE {
            return 0.0;
        }
        let whole = self.measured.abs().max(self.required.abs());
        if whole > 0.0 {
            (self.margin / whole).max(-1.0)
        } else {
            0.0
        }
    }

    /// Something that must not occur at all; the margin is minus what there is of it.
    pub fn none(quantity: Quantity, found: f64) -> Self {
        Self::new(quantity, Sense::AtMost, found, 0.0)
    }
}

/// A dimension that is changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// The parameter's key.
    pub key: &'static str,
    /// As it is; `None` where the file does not say it.
    pub from: Option<Value>,
    /// As it should be.
    pub to: Value,
    /// The tape that it was written on.
    pub unit: TapeUnit,
}

/// What was tried for a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// The changes that clear it together; none where nothing was found that does.
    pub changes: Vec<Change>,
    /// The margin that is left after them, in the finding's own quantity.
    pub margin: Option<f64>,
    /// The keys that were tried.
    pub tried: Vec<&'static str>,
}

impl Finding {
    /// Whether it asks for a fact that a key or a table would tell.
    pub fn asks_for_a_fact(&self) -> bool {
        self.answered_by.iter().any(|name| {
            let key = parameter(name).map(|it| it.nature);
            let table = GROUPS.iter().find(|it| it.name == *name);
            key.or(table.and_then(|it| it.nature)) == Some(Nature::Fact)
        })
    }
}

/// A verdict that waits for an answer.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Waiting {
    /// The rule's name.
    pub rule: &'static str,
    /// What it would measure; nothing for whatever it may find.
    pub subject: Option<Subject>,
}

impl Waiting {
    /// Whatever a rule may find.
    pub(super) const fn on(rule: &'static str) -> Self {
        Self {
            rule,
            subject: None,
        }
    }

    pub(super) fn of(finding: &Finding) -> Self {
        Self {
            rule: finding.rule,
            subject: Some(finding.subject.clone()),
        }
    }
}

/// One thing that a rule found.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule's name.
    pub rule: &'static str,
    /// What is at stake.
    pub concern: Concern,
    /// The verdict.
    pub verdict: Verdict,
    /// What is measured, and of what.
    pub subject: Subject,
    /// The numbers, where there are any.
    pub numbers: Option<Numbers>,
    /// Ids of the parts and clearance volumes that are concerned.
    pub parts: Vec<String>,
    /// Where it is, in the world.
    pub location: Option<DVec3>,
    /// Manual page, published rule, or the arithmetic it follows from.
    pub source: String,
    /// The question, where only somebody else can answer.
    pub question: Option<String>,
    /// Keys that answer the question; none where only somebody's word does.
    pub answered_by: Vec<&'static str>,
    /// Who answered it, where somebody did.
    pub decision: Option<Decision>,
    /// The verdicts that wait for the answer.
    pub waiting: Vec<Waiting>,
    /// Keys of the builder's own dimensions that move it.
    pub levers: Vec<&'static str>,
    /// More that the reader wants to know, or nothing.
    pub detail: Option<String>,
    /// The finding that it follows from, once causes have been looked for: what clears that clears this.
    pub follows: Option<Name>,
    /// What was tried to clear it, once something has been tried.
    pub remedy: Option<Remedy>,
}

/// Which finding it is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name {
    /// The rule that found it.
    pub rule: &'static str,
    /// What it is about.
    pub subject: Subject,
}

impl Finding {
    /// Which finding it is, whatever its numbers are.
    pub fn name(&self) -> Name {
        Name {
            rule: self.rule,
            subject: self.subject.clone(),
        }
    }

    /// How much of what it is about is left or lacking, without a unit: 0 for what has no numbers and does not fail.
    pub fn share(&self) -> f64 {
        let none = if self.verdict == Verdict::Fail {
            -1.0
        } else {
            0.0
        };
        self.numbers.map_or(none, |it| it.share())
    }

    /// The rule, and what it is about, in one line.
    pub fn heading(&self) -> String {
        format!("{}: {}", self.rule, self.subject)
    }
}
