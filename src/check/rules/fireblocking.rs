//! Fireblocking of concealed hollows.
//!
//! # What it finds
//! How far the hollow of the chase runs horizontally between side walls and fireblocks across it, against 10 ft; how
//! much of each wall has no top plate under the ceiling, and how much of a bump-out frame has no ledge over it; and,
//! where the local code requires it (`blocking.every_ten_feet`), the tallest stretch of a stud bay between blocks,
//! against 10 ft. Bays between steel studs get no blocks; where they are taller, it asks.
//!
//! # Why
//! Fire runs up and along hollows. Where a wall meets the ceiling, where a step of the face makes a shelf,
//! and every 10 ft horizontally, lumber, board or mineral wool stops it. What closes the chase at the ceiling is
//! the rule `fireblocking at the ceiling`.
//!
//! # Datum
//! Inside faces of the side walls; the plates' ends along the wall.
//!
//! # Source
//! IRC 2018 and 2021, R302.11 (from the 2000s R602.8), read in the form of IBC 718.2; materials
//! R302.11.1. Editions of about 2000, and some states, require it every 10 ft vertically too. The local code decides.

use super::first_studs;
use crate::catalog::FramingMember;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{
    Branch, Design, Kind, LEAST_BAY, LONGEST_HOLLOW, Part, Span, Stock, hollow, point,
};
use crate::geom::TOLERANCE;
use crate::params::ChaseWall;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "fireblocking",
    concern: Concern::FireAndGas,
    text: include_str!("fireblocking.rs"),
    keys: &["chase.width", "blocking.every_ten_feet", "blocking.across"],
    check,
};

const SOURCE: &str = "IRC 2021 R302.11; the local code decides";

fn check(design: &Design, report: &mut Report<'_>) {
    sideways(design, report);
    for wall in ChaseWall::FRAMED {
        let own: Vec<&Part> = design.parts.iter().filter(|it| it.is_of(wall)).collect();
        if own.is_empty() {
            continue;
        }
        closed_above(wall, &own, design, report);
        if design.params.blocking.every_ten_feet && !wall.has_ledge() {
            upward((wall, design.params.stud_of(wall)), &own, report);
        }
    }
}

fn sideways(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let inside = hollow(layout);
    let boards = design.parts.iter().filter(|it| it.is_of(Branch::Fireblock));
    let hollows = inside.gaps(boards.map(Part::sides)).into_iter();
    let longest = longest(hollows);
    let row = Row {
        subject: Measure("longest horizontal run of hollow without a fireblock").into(),
        parts: first_studs(design, ChaseWall::SIDES),
        location: Some(point(
            longest.center(),
            layout.faces.front_back,
            layout.heights.header_top,
        )),
        source: SOURCE.to_owned(),
        levers: &["chase.width"],
        detail: Some("a board across it divides it: `blocking.across`".to_owned())
            .filter(|_| (longest.size() - LONGEST_HOLLOW).is_positive()),
    };
    report.judge(row, Numbers::at_most(longest.size(), LONGEST_HOLLOW));
}

/// The level direction that a wall runs in.
fn along(own: &[&Part]) -> glam::DVec3 {
    own.iter()
        .find(|it| it.kind == Kind::SolePlate)
        .map_or(glam::DVec3::X, |it| {
            it.body.frame.z.with_z(0.0).normalize_or_zero()
        })
}

fn closed_above(wall: ChaseWall, own: &[&Part], design: &Design, report: &mut Report<'_>) {
    let way = along(own);
    // as far as it is shimmed
    let span = |part: &Part| {
        let body = part.shimmed();
        let end = |outward: glam::DVec3| Length::mm(body.farthest(outward).dot(way));
        Span::new(end(-way), end(way))
    };
    let studs = own.iter().filter(|it| it.kind == Kind::Stud);
    let studs: Vec<Span> = studs.map(|it| span(it)).collect();
    let is_top = |it: &&Part| matches!(it.kind, Kind::TopPlate | Kind::Ledge);
    let over: Vec<&Part> = own.iter().copied().filter(is_top).collect();
    // the plate of a wall that this one butts against closes it as far as it is past its own studs, where it lies over
    // all of this wall's thickness
    let across = way.cross(glam::DVec3::Z);
    let covers = |it: &Part, own: &Part| {
        let past = |outward| it.body.farthest(outward).dot(outward) + TOLERANCE;
        let reaches = |outward| past(outward) >= own.body.farthest(outward).dot(outward);
        reaches(across) && reaches(-across)
    };
    let meets = |it: &&Part| {
        let bounds = &it.body.bounds;
        let met = |own: &&Part| own.body.bounds.touches(bounds) && covers(it, own);
        it.kind == Kind::TopPlate && over.iter().any(met)
    };
    let beside = design.parts.iter().filter(meets);
    let tops: Vec<Span> = over.iter().copied().chain(beside).map(span).collect();
    let ends = studs
        .iter()
        .copied()
        .reduce(|a, b| Span::new(a.low.min(b.low), a.high.max(b.high)));
    let Some(whole) = ends else { return };
    let bare: Length = whole.gaps(tops).into_iter().map(Span::size).sum();
    let measure = if wall.has_ledge() {
        Measure("{}: wall length not closed by a ledge")
    } else {
        Measure("{}: wall length not closed by a top plate")
    };
    let row = Row {
        subject: measure.of([wall.into()]),
        parts: own.iter().take(1).map(|it| it.id.clone()).collect(),
        location: own.first().map(|it| it.body.bounds.center()),
        source: SOURCE.to_owned(),
        ..Row::default()
    };
    let limit = Numbers::at_most(bare, Length::ZERO);
    if bare.to_mm() > TOLERANCE {
        report.fail(row, Some(limit));
    } else {
        report.judge_flush(row, limit);
    }
}

/// The tallest stretch of a bay between sticks that close it.
fn upward((wall, stud): (ChaseWall, &FramingMember), own: &[&Part], report: &mut Report<'_>) {
    let way = along(own);
    let is_upright = |it: &Part| {
        matches!(
            it.kind,
            Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple
        )
    };
    // along the wall, and up to where
    let mut stood: Vec<(Span, Length)> = own
        .iter()
        .filter(|it| is_upright(it))
        .map(|it| (it.reach(way), it.heights().high))
        .collect();
    stood.sort_by(|a, b| a.0.low.to_mm().total_cmp(&b.0.low.to_mm()));
    let mut worst = Span::default();
    let Some((first, mut under)) = stood.first().copied() else {
        return;
    };
    let mut at = first.high;
    for (upright, top) in stood {
        let bay = Span::new(at, upright.low);
        if (bay.size() - LEAST_BAY).is_positive() {
            let tallest = tallest(own, way, (bay.center(), under.max(top)));
            if tallest.size() > worst.size() {
                worst = tallest;
            }
        }
        under = if upright.low > at {
            top
        } else {
            under.max(top)
        };
        at = at.max(upright.high);
    }
    let row = Row {
        subject: Measure("{}: tallest stud bay without a fireblock").of([wall.into()]),
        parts: own.iter().take(1).map(|it| it.id.clone()).collect(),
        location: own
            .first()
            .map(|it| it.body.bounds.center().with_z(worst.center().to_mm())),
        source: "IRC of about 2000, R602.8; the local code decides".to_owned(),
        ..Row::default()
    };
    let numbers = Numbers::at_most(worst.size(), LONGEST_HOLLOW);
    match stud {
        FramingMember::Steel(_) if numbers.margin < -TOLERANCE => {
            let question = "The code's wording covers combustible construction: does the inspector want these steel-stud bays fireblocked, and with what?";
            report.ask(row, Some(numbers), question);
        }
        FramingMember::Wood(_) | FramingMember::Steel(_) => report.judge(row, numbers),
    }
}

/// The tallest gap, upward, between sticks over one place of a wall, up to the plates.
fn tallest(own: &[&Part], way: glam::DVec3, (at, plates): (Length, Length)) -> Span {
    let sticks: Vec<Span> = own
        .iter()
        // a plate on a slope is lower elsewhere
        .filter(|it| it.kind != Kind::TopPlate)
        // a strap on the studs' faces closes no bay
        .filter(|it| it.kind != Kind::Blocking || it.stock != Stock::Bought)
        .filter(|it| {
            let span = it.reach(way);
            span.low <= at && at <= span.high
        })
        .map(|it| it.heights())
        .collect();
    let lowest = sticks
        .iter()
        .min_by(|a, b| a.low.to_mm().total_cmp(&b.low.to_mm()));
    let bay = lowest.map_or(Span::default(), |it| Span::new(it.high, plates));
    longest(bay.gaps(sticks).into_iter())
}

/// The first of the longest; nothing where there is none.
fn longest(spans: impl Iterator<Item = Span>) -> Span {
    spans.fold(Span::default(), |kept, span| {
        if span.size() > kept.size() {
            span
        } else {
            kept
        }
    })
}
