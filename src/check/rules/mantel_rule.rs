//! The mantel against the manual's rule.
//!
//! # What it finds
//! The height of the mantel's underside against what the manual requires for its projection: a table of steps or a
//! slope. It also gives the lowest mantel for this projection, with what governs it, and the largest projection at
//! this height. A projection past the table's last row fails; it is never extrapolated. A mantel that does not
//! project past the manual's datum is not judged. The cleat of a hollow mantel is judged by itself.
//!
//! # Why
//! Heat rises along the face and gathers under whatever stands forward of it.
//!
//! # Datum
//! Both are the manual's: `mantel.projection_from` and `mantel.height_from`.
//!
//! # Source
//! The unit's manual, `mantel.rule`.

use super::page;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Branch, Design, Kind, height_datum, mantel_front, point, projection_datum};
use crate::geom::TOLERANCE;
use crate::params::{Mantel, MantelRule};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "mantel rule",
    concern: Concern::Heat,
    text: include_str!("mantel_rule.rs"),
    keys: &[
        "mantel.projection",
        "mantel.underside",
        "mantel.combustible",
        "mantel.held_by",
        "mantel.shell",
        "mantel.cleat",
        "mantel.rule",
        "mantel.projection_from",
        "mantel.height_from",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Mantel) else {
        return;
    };
    let (params, layout) = (&design.params, &design.layout);
    let Some(mantel) = &params.mantel else { return };
    let front = mantel_front(mantel, layout);
    let projection = front - projection_datum(layout, mantel.projection_from.value);
    if !projection.is_positive() {
        return;
    }
    let base = height_datum(layout, mantel.height_from.value);
    of_cleat(design, (mantel, base), report);
    let row = Row {
        subject: Measure("mantel's underside for its projection").into(),
        parts: vec![part.id.clone()],
        location: Some(point(layout.unit_center, front, mantel.underside)),
        source: page(&mantel.rule),
        levers: &["mantel.underside", "mantel.projection"],
        detail: None,
    };
    if !mantel.combustible {
        let question = "The mantel is noncombustible: what rule does the manual give for it?";
        report.ask(row, None, question);
        return;
    }
    match least_height(&mantel.rule.value, projection) {
        Some(height) => {
            let detail = Some(governs(design, mantel, base, height));
            let numbers = Numbers::at_least(mantel.underside, base + height);
            report.judge(Row { detail, ..row }, numbers);
        }
        None => past_the_table(row, mantel, projection, report),
    }
}

/// A cleat of wood in the mantel is combustible whatever the mantel is of, and is judged by its own projection and
/// underside.
fn of_cleat(design: &Design, (mantel, base): (&Mantel, Length), report: &mut Report<'_>) {
    let Some(cleat) = design.first_on(Branch::Mantel, Kind::Cleat) else {
        return;
    };
    let front = Length::mm(-cleat.body.bounds.low.y);
    let projection = front - projection_datum(&design.layout, mantel.projection_from.value);
    if !projection.is_positive() {
        return;
    }
    let row = Row {
        subject: Measure("cleat's underside for its projection").into(),
        parts: vec![cleat.id.clone()],
        location: Some(point(cleat.sides().center(), front, cleat.heights().low)),
        source: page(&mantel.rule),
        levers: &["mantel.underside", "mantel.cleat"],
        detail: None,
    };
    match least_height(&mantel.rule.value, projection) {
        Some(height) => report.judge(row, Numbers::at_least(cleat.heights().low, base + height)),
        None => past_the_table(row, mantel, projection, report),
    }
}

/// The least height over the datum for a projection; `None` past the table's last row.
pub(in crate::check) fn least_height(rule: &MantelRule, projection: Length) -> Option<Length> {
    match rule {
        MantelRule::Ramp { base, factor } => Some(*base + projection * *factor),
        MantelRule::Steps(steps) => steps
            .iter()
            .find(|step| (step.projection - projection).to_mm() >= -TOLERANCE)
            .map(|step| step.height),
    }
}

/// The largest projection at a height over the datum; zero where none is allowed.
fn largest_projection(rule: &MantelRule, height: Length) -> Length {
    match rule {
        MantelRule::Ramp { base, factor } if *factor > 0.0 => {
            ((height - *base) / *factor).max(Length::ZERO)
        }
        MantelRule::Ramp { base, .. } => {
            if height < *base {
                Length::ZERO
            } else {
                Length::mm(f64::INFINITY)
            }
        }
        MantelRule::Steps(steps) => steps
            .iter()
            .filter(|step| (height - step.height).to_mm() >= -TOLERANCE)
            .map(|step| step.projection)
            .fold(Length::ZERO, Length::max),
    }
}

/// Lowest mantel here and what governs it, and the largest projection at this height.
fn governs(design: &Design, mantel: &Mantel, base: Length, height: Length) -> String {
    let (params, layout) = (&design.params, &design.layout);
    let unit = params.project.unit;
    let (lowest, by) = if layout.heights.framing_top > base + height {
        (layout.heights.framing_top, "the framing")
    } else {
        (base + height, "the rule")
    };
    let datum = projection_datum(layout, mantel.projection_from.value);
    let free = largest_projection(&mantel.rule.value, mantel.underside - base);
    let largest = free + datum - layout.faces.lower_finished;
    let largest = if largest.to_mm().is_finite() {
        format!(
            "at most {} of projection",
            largest.tape(unit, Rounding::Down)
        )
    } else {
        "any projection".to_owned()
    };
    format!(
        "lowest here {}, set by {by}; at this height {largest}",
        lowest.tape(unit, Rounding::Up)
    )
}

fn past_the_table(row: Row, mantel: &Mantel, projection: Length, report: &mut Report<'_>) {
    let MantelRule::Steps(steps) = &mantel.rule.value else {
        return;
    };
    let last = steps.last().map_or(Length::ZERO, |step| step.projection);
    let measure = Measure("mantel's projection against the last row of the manual's table");
    report.fail(
        Row {
            subject: measure.into(),
            ..row
        },
        Some(Numbers::at_most(projection, last)),
    );
}
