//! The unit's body through its opening.
//!
//! # What it finds
//! The free width and the free height of the framed front, with the platform in place, against the body and the
//! spacers on it. Both are measured between the sticks themselves: in a stepped front the unit passes through two
//! openings, and the narrower one counts.
//!
//! # Why
//! The unit is slid in through the front once the walls stand. Spacers hammered flat to make it go in are a clearance
//! lost.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Group, Part, Span, point};
use crate::geom::TOLERANCE;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "unit through the opening",
    concern: Concern::Framing,
    text: include_str!("unit_through_opening.rs"),
    keys: &[
        "room.width",
        "front.opening_ease",
        "front.header_ease",
        "appliance.body_width",
        "appliance.body_height",
        "appliance.standoff",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let unit = &params.appliance;
    let height = Span::new(layout.heights.platform_top, layout.heights.body_top);
    let sides = Span::about(layout.unit_center, unit.body_width);
    let row = |measure: Measure, parts, levers| Row {
        subject: measure.into(),
        parts,
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_stud,
            height.center(),
        )),
        source: ARITHMETIC.to_owned(),
        levers,
        ..Row::default()
    };
    let (width, parts) = free_width(design, height);
    let measure = Measure("opening's width for the body on its way in");
    report.judge(
        row(measure, parts, &["front.opening_ease"]),
        Numbers::at_least(width, unit.body_width),
    );
    if let Some((top, part)) = lowest_over(design, sides) {
        let measure = Measure("opening's height for body and spacers on the way in");
        report.judge(
            row(measure, vec![part], &["front.header_ease"]),
            Numbers::at_least(
                top - layout.heights.platform_top,
                unit.body_height + unit.standoff,
            ),
        );
    }
}

/// The sticks of the front walls.
fn front(design: &Design) -> impl Iterator<Item = &Part> {
    design
        .parts
        .iter()
        .filter(|part| part.group == Group::Framing && part.branch.has_opening())
}

/// Between the nearest sticks to the left and to the right of the unit's middle, at these heights.
fn free_width(design: &Design, height: Span) -> (Length, Vec<String>) {
    let center = design.layout.unit_center;
    let mut free = Span::new(Length::ZERO, design.params.room.width);
    let mut beside = [None, None];
    for part in front(design).filter(|it| it.heights().overlaps(height)) {
        let span = part.sides();
        if !(span.high - center).is_positive() && span.high > free.low {
            free.low = span.high;
            beside[0] = Some(part.id.clone());
        } else if !(center - span.low).is_positive() && span.low < free.high {
            free.high = span.low;
            beside[1] = Some(part.id.clone());
        }
    }
    (free.size(), beside.into_iter().flatten().collect())
}

/// The lowest underside over the body's width, above half its height.
fn lowest_over(design: &Design, sides: Span) -> Option<(Length, String)> {
    let layout = &design.layout;
    let middle = (layout.heights.platform_top + layout.heights.body_top) / 2.0;
    front(design)
        .filter(|it| it.sides().overlaps(sides))
        .filter(|it| (it.heights().low - middle).to_mm() > -TOLERANCE)
        .map(|it| (it.heights().low, it.id.clone()))
        .min_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm()))
}
