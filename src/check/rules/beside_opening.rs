//! Legs, cabinets and open doors beside the opening.
//!
//! # What it finds
//! The distance from the opening's side to each combustible thing that projects beside it, against the manual's row
//! for its projection; a projection past the last row fails. A cabinet's door is judged where it stands when it is
//! open square. What does not project past the manual's datum is not judged. Without [`side_rule`] it asks once.
//!
//! # Why
//! What projects beside the opening is in the heat, and a cabinet's door swings into it.
//!
//! # Datum
//! The opening's side; for the projection the manual's own, `side_rule.projection_from`.
//!
//! # Source
//! The unit's manual, `side_rule.rows`.

use super::{page, parts_of};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Subject, Thing};
use crate::design::{Branch, ChaseFace, Design, Kind, Span, cabinets, point, projection_datum};
use crate::params::{DoorHinge, Hand, Manual, SideRows};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "beside the opening",
    concern: Concern::FireAndGas,
    text: include_str!("beside_opening.rs"),
    keys: &[
        "appliance.opening_width",
        "mantel.end_legs",
        "side_rule.rows",
        "side_rule.projection_from",
        "legs.distance",
        "legs.projection",
        "legs.combustible",
        "cabinets.gap",
        "cabinets.depth",
        "cabinets.door",
        "cabinets.hinge",
    ],
    check,
};

/// Something beside the opening.
struct Beside {
    subject: Subject,
    part: String,
    /// From the opening's side to it.
    distance: Length,
    /// Its front, out from the wall.
    front: Length,
    burns: bool,
    levers: &'static [&'static str],
}

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let things = beside(design);
    let row = |thing: &Beside| Row {
        subject: thing.subject.clone(),
        parts: vec![thing.part.clone()],
        location: Some(point(
            layout.unit_center,
            thing.front,
            layout.heights.opening_top,
        )),
        source: "the unit's manual, combustibles beside the opening".to_owned(),
        levers: thing.levers,
        detail: None,
    };
    let Some(rule) = &params.side_rule else {
        let forward = |it: &&Beside| (it.front - layout.faces.lower_finished).is_positive();
        let nearest = things
            .iter()
            .filter(forward)
            .min_by(|a, b| a.distance.to_mm().total_cmp(&b.distance.to_mm()));
        if let Some(thing) = nearest {
            let question = "What distance does the manual require for legs, cabinets and open doors beside the opening ([side_rule])?";
            report.ask_for(
                row(thing),
                Some(Numbers::at_least(thing.distance, Length::ZERO)),
                question,
                vec!["side_rule"],
            );
        }
        return;
    };
    let datum = projection_datum(layout, rule.projection_from.value);
    for thing in things {
        let projection = thing.front - datum;
        if !projection.is_positive() {
            continue;
        }
        let row = Row {
            source: page(&rule.rows),
            ..row(&thing)
        };
        if thing.burns {
            judge(row, &rule.rows, projection, thing.distance, report);
        } else {
            report.ask(
                row,
                None,
                "The legs are noncombustible: what distance does the manual give for them?",
            );
        }
    }
}

fn judge(
    row: Row,
    rows: &Manual<SideRows>,
    projection: Length,
    distance: Length,
    report: &mut Report<'_>,
) {
    let holds = |[up_to, _]: &&[Length; 2]| !(projection - *up_to).is_positive();
    match (rows.value.0.iter().find(holds), rows.value.0.last()) {
        (Some([_, least]), _) => report.judge(row, Numbers::at_least(distance, *least)),
        (None, Some([last, _])) => {
            let subject = Measure("projection of {} against the last row of the table").of(row
                .parts
                .iter()
                .cloned()
                .map(Thing::Part));
            report.fail(
                Row { subject, ..row },
                Some(Numbers::at_most(projection, *last)),
            );
        }
        (None, None) => {}
    }
}

fn beside(design: &Design) -> Vec<Beside> {
    let (params, layout) = (&design.params, &design.layout);
    let opening = Span::about(layout.unit_center, params.appliance.opening_width);
    let mut things = Vec::new();
    let leg = design.first_on(Branch::Face(ChaseFace::Front), Kind::Leg);
    if let (Some(legs), Some(leg)) = (&params.legs, leg) {
        things.push(Beside {
            subject: Measure("legs beside the opening").into(),
            part: leg.id.clone(),
            distance: legs.distance,
            front: layout.faces.lower_finished + legs.projection,
            burns: legs.combustible,
            levers: &["legs.distance", "legs.projection"],
        });
    }
    things.extend(end_legs(design, opening));
    let built = parts_of(design, Kind::Cabinet);
    for (cabinet, part) in cabinets(layout).iter().zip(built) {
        let (hand, distance) = if cabinet.on_the_left {
            (Hand::Left, opening.low - cabinet.sides.high)
        } else {
            (Hand::Right, cabinet.sides.low - opening.high)
        };
        things.push(Beside {
            subject: Measure("{} cabinet beside the opening").of([Thing::Hand(hand)]),
            part: part.clone(),
            distance,
            front: cabinet.outs.high,
            burns: true,
            levers: &["cabinets.gap", "cabinets.depth"],
        });
        let Some(keys) = params.cabinets.as_ref().filter(|it| it.door.is_positive()) else {
            continue;
        };
        let hinge = match keys.hinge {
            DoorHinge::Near => Length::ZERO,
            DoorHinge::Far => keys.door,
        };
        things.push(Beside {
            subject: Measure("{} cabinet's door, open square").of([Thing::Hand(hand)]),
            part,
            distance: distance + hinge,
            front: cabinet.outs.high + keys.door,
            burns: true,
            levers: &["cabinets.door", "cabinets.gap"],
        });
    }
    things
}

/// Legs under the mantel's ends.
fn end_legs(design: &Design, opening: Span) -> Vec<Beside> {
    let legs = design.parts.iter();
    let legs = legs.filter(|it| it.kind == Kind::Leg && it.is_of(Branch::Mantel));
    legs.map(|leg| {
        let sides = leg.sides();
        Beside {
            subject: Measure("leg under the mantel's end").into(),
            part: leg.id.clone(),
            distance: (opening.low - sides.high).max(sides.low - opening.high),
            front: Length::mm(-leg.body.bounds.low.y),
            burns: leg.material.combustible,
            levers: &["mantel.end_legs"],
        }
    })
    .collect()
}
