//! Studs along the plates.
//!
//! # What it finds
//! The widest distance, from center to center, between uprights that touch a plate, a sill or a ledge, against the
//! spacing that the parameters ask for; plates or ledges without an upright at their very end; and the widest distance
//! between what bears the back of a ledge that is wider than the studs under it. Where a jack or a king takes the place
//! of a layout stud, it is up to a stud's thickness off the layout, which is allowed for. The upper of two plates lies
//! on the lower one, and a ledge over studs of steel on their track.
//!
//! # Why
//! Board, cement board and stone need a stud behind them at every step of the layout.
//!
//! # Source
//! `chase.stud_spacing`; the layout on center is common practice, no source.

use glam::DVec3;

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Part};
use crate::geom::{TOLERANCE, contact};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "stud spacing",
    concern: Concern::Framing,
    text: include_str!("stud_spacing.rs"),
    keys: &["chase.stud_spacing"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let chase = &design.params.chase;
    for level in design.parts.iter().filter(|it| is_level(it)) {
        let thickness = level.branch.stud(&design.params).breadth();
        let allowed = chase.stud_spacing + thickness;
        let found = Supports::new(design, level);
        let row = |measure: Measure, at| Row {
            subject: measure.of([level.into()]),
            parts: vec![level.id.clone()],
            location: Some(at),
            source: "chase.stud_spacing; common practice, no source".to_owned(),
            levers: &["chase.stud_spacing"],
            ..Row::default()
        };
        if let Some((step, at)) = found.widest(thickness)
            && (step - allowed).is_positive()
        {
            let measure = Measure("widest step between uprights along {}");
            report.fail(row(measure, at), Some(Numbers::at_most(step, allowed)));
        }
        if let Some(behind) = Supports::behind(design, level)
            && let Some((step, at)) = behind.widest(thickness)
            && (step - allowed).is_positive()
        {
            let measure = Measure("widest step between what bears the back of {}");
            report.fail(row(measure, at), Some(Numbers::at_most(step, allowed)));
        }
        // a sill ends against jacks; every other needs an upright at its very end
        if level.kind != Kind::Sill && found.free_end(thickness).is_positive() {
            let free = found.free_end(thickness);
            let numbers = Numbers::at_most(free, Length::ZERO);
            let at = level.body.bounds.center();
            report.fail(
                row(Measure("no upright at an end of {}"), at),
                Some(numbers),
            );
        }
    }
}

fn is_level(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::SolePlate | Kind::TopPlate | Kind::Sill | Kind::Ledge
    )
}

fn supports(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple | Kind::Header
    )
}

/// Whether an upright touches the stick, or a plate lies under it.
fn touches(part: &Part, level: &Part) -> bool {
    contact(&part.shimmed(), &level.shimmed()).is_some_and(|it| supports(part) || it.normal.z > 0.0)
}

/// What touches a level stick, along it.
struct Supports {
    /// From where to where each reaches along the stick, and its middle; sorted.
    places: Vec<(f64, f64, DVec3)>,
    /// The stick's own ends.
    ends: (f64, f64),
    /// Which of them meets the end of another plate, under a ridge.
    meets: [bool; 2],
}

impl Supports {
    fn new(design: &Design, level: &Part) -> Self {
        let wall = level.branch;
        let along = level.body.frame.z.with_z(0.0).normalize_or_zero();
        let reach = |part: &Part| {
            let span = part.reach(along);
            (span.low.to_mm(), span.high.to_mm())
        };
        let mut places: Vec<(f64, f64, DVec3)> = design
            .parts
            .iter()
            .filter(|it| supports(it) || matches!(it.kind, Kind::TopPlate | Kind::Ledge))
            .filter(|it| it.is_of(wall))
            .filter(|it| touches(it, level))
            .map(|it| (reach(it).0, reach(it).1, it.body.bounds.center()))
            .collect();
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        let meets = |way: DVec3| {
            let mut plates = design.parts.iter().filter(|it| it.kind == Kind::TopPlate);
            plates.any(|it| {
                it.is_of(wall)
                    && contact(&level.shimmed(), &it.shimmed())
                        .is_some_and(|it| it.normal.dot(way) > 0.5)
            })
        };
        Self {
            places,
            ends: reach(level),
            meets: [-along, along].map(meets),
        }
    }

    /// What bears the back of a ledge that is wider than the wooden studs under it; `None` for any other stick.
    fn behind(design: &Design, level: &Part) -> Option<Self> {
        let stud = level.branch.stud(&design.params).wood()?;
        let size = level.body.bounds.size().y;
        if level.kind != Kind::Ledge || size - stud.depth().to_mm() <= TOLERANCE {
            return None;
        }
        let bears = |it: &&Part| {
            matches!(it.kind, Kind::Return | Kind::Blocking)
                && it.is_of(level.branch)
                && contact(&it.body, &level.body).is_some_and(|it| it.normal.z > 0.0)
        };
        let along = level.body.frame.z.with_z(0.0).normalize_or_zero();
        let found = design.parts.iter().filter(bears).map(|it| {
            let reach = it.reach(along);
            (
                reach.low.to_mm(),
                reach.high.to_mm(),
                it.body.bounds.center(),
            )
        });
        let mut places: Vec<(f64, f64, DVec3)> = found.collect();
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        let reach = level.reach(along);
        Some(Self {
            places,
            ends: (reach.low.to_mm(), reach.high.to_mm()),
            meets: [false; 2],
        })
    }

    /// The widest step from center to center of studs, and where it begins; a header supports all
    /// along. `None` where nothing touches the stick.
    fn widest(&self, thickness: Length) -> Option<(Length, DVec3)> {
        let mut covered = f64::NEG_INFINITY;
        let mut widest: Option<(Length, DVec3)> = None;
        for (low, high, center) in &self.places {
            let step = Length::mm(low - covered) + thickness;
            if covered.is_finite() && widest.is_none_or(|(found, _)| step > found) {
                widest = Some((step, *center));
            }
            covered = covered.max(*high);
        }
        widest
    }

    /// How much of the stick hangs over past its first or last support. An end that meets another
    /// plate may reach past by a stud's thickness: the stud under the joint stands beside it.
    fn free_end(&self, thickness: Length) -> Length {
        let first = self
            .places
            .iter()
            .map(|it| it.0)
            .fold(f64::INFINITY, f64::min);
        let last = self
            .places
            .iter()
            .map(|it| it.1)
            .fold(f64::NEG_INFINITY, f64::max);
        let allowed = self
            .meets
            .map(|it| if it { thickness } else { Length::ZERO });
        let [left, right] = [first - self.ends.0, self.ends.1 - last].map(Length::mm);
        (left - allowed[0]).max(right - allowed[1])
    }
}
