//! The unit's fixing brackets on the framing.
//!
//! # What it finds
//! For each bracket height, the stick beside the opening that it is screwed to, left and right: the distance from the
//! screw to the nearer end of the stick, up or down, against 3/4 in. Without brackets in the parameters nothing is
//! judged.
//!
//! # Why
//! A bracket over a joint between two sticks, or over board alone, does not hold the unit.
//!
//! # Datum
//! Heights over the body's base (`appliance.brackets`); the middle of the stick next to the opening.
//!
//! # Source
//! Where the brackets are: the unit's own manual. 3/4 in from an end: common practice, no source.

use super::{COMMON_PRACTICE, first_of};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Group, Kind, Span, point};
use crate::params::Hand;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "brackets",
    concern: Concern::Structure,
    text: include_str!("brackets.rs"),
    keys: &["front.header", "appliance.brackets"],
    check,
};

/// From a screw to the end of what it is screwed to.
const FROM_END: Length = Length::inches(0.75);

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let half = params.lower_stud().breadth() / 2.0;
    let sides = layout.rough_opening.grown(half);
    for (number, above) in params.appliance.brackets.iter().enumerate() {
        let height = layout.heights.platform_top + *above;
        for (hand, right) in [(Hand::Left, sides.low), (Hand::Right, sides.high)] {
            let wood = wood_at(design, right, height);
            let from_end = wood.map_or(Length::ZERO, |it| (height - it.low).min(it.high - height));
            let row = Row {
                subject: Measure("{} bracket {}, from the end of the stick")
                    .of([Thing::Hand(hand), Thing::Number(number + 1)]),
                parts: first_of(design, Kind::UnitBody),
                location: Some(point(right, layout.faces.lower_stud, height)),
                source: COMMON_PRACTICE.to_owned(),
                levers: &["front.header"],
                ..Row::default()
            };
            report.judge(row, Numbers::at_least(from_end, FROM_END));
        }
    }
}

/// From where to where wood stands without a gap behind the stud face, at a place and height.
fn wood_at(design: &Design, right: Length, height: Length) -> Option<Span> {
    let face = design.layout.faces.lower_stud;
    let depth = Length::inches(0.25);
    let at = point(right, face - depth, height);
    let mut spans: Vec<Span> = design
        .parts
        .iter()
        .filter(|it| it.group == Group::Framing)
        .map(|it| &it.body.bounds)
        .filter(|it| it.low.x <= at.x && at.x <= it.high.x && it.low.y <= at.y && at.y <= it.high.y)
        .map(|it| Span::new(Length::mm(it.low.z), Length::mm(it.high.z)))
        .collect();
    spans.sort_by(|a, b| a.low.to_mm().total_cmp(&b.low.to_mm()));
    let mut joined: Option<Span> = None;
    for span in spans {
        joined = Some(match joined {
            Some(it) if !(span.low - it.high).is_positive() => {
                Span::new(it.low, it.high.max(span.high))
            }
            Some(it) if !(height - it.high).is_positive() => it,
            _ => span,
        });
    }
    joined.filter(|it| !(it.low - height).is_positive() && !(height - it.high).is_positive())
}
