//! What the chase is screwed to.
//!
//! # What it finds
//! For each wall of the chase that ends at a wall of the room whose studs are known: how much of a stud, or of a
//! block between two studs, lies behind its end, against 3/4 in. For each top plate: the longest stretch not fastened
//! to a rafter, joist or truss above, against 24 in. A plate between two of them that crosses none needs blocks. The
//! gap under the ceiling: under rafters and joists over 1/4 in, whatever its height, it asks for shims or clips;
//! under trusses, which move, at least 1/2 in. The bite of your own screws (`fasteners.ceiling_screw`) past plates,
//! gap and board, against `fasteners.ceiling_screw_bite`. Without
//! `[rafters]`, and under a ceiling of its own behind a wall (`behind.ceiling`), it asks once what the ceiling is framed with.
//!
//! # Why
//! Board alone holds no screw: a chase screwed only to board moves when someone leans on the mantel.
//!
//! # Datum
//! A screw stays 3/8 in from the edges of both sticks, so they share 3/4 in. Along the plate, in plan, from
//! its end. The bite counts plumb.
//!
//! # Source
//! Common practice, no source.

use super::COMMON_PRACTICE;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{
    Branch, CeilingMembers, Design, Kind, LEAST_HOLD, PLATE_HELD, Part, PlateRun, Span,
    StandingWall, longest_free, passed_by_ceiling_screw,
};
use crate::geom::TOLERANCE;
use crate::params::{ChaseWall, RafterKind};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "attachment",
    concern: Concern::Structure,
    text: include_str!("attachment.rs"),
    keys: &[
        "ceiling.gap",
        "rafters.kind",
        "rafters.runs",
        "rafters.first",
        "rafters.spacing",
        "rafters.stock",
        "rafters.blocks",
        "roof.rafter",
        "roof.rafters",
        "roof.first_rafter",
        "roof.rafter_spacing",
        "wall.first_stud",
        "wall.stud_spacing",
        "left_wall.first_stud",
        "left_wall.stud_spacing",
        "right_wall.first_stud",
        "right_wall.stud_spacing",
        "behind.ceiling",
        "chase.left",
        "chase.width",
        "chase.depth",
        "blocking.behind_sides",
        "fasteners.ceiling_screw_bite",
        "fasteners.ceiling_screw",
        "fasteners.ceiling_board",
    ],
    check,
};

/// Under rafters and joists; over it plates are shimmed tight, or clipped.
const UNDER_RAFTERS: Length = Length::inches(0.25);
/// Under trusses, which rise and fall with the seasons.
const UNDER_TRUSSES: Length = Length::inches(0.5);

fn check(design: &Design, report: &mut Report<'_>) {
    for wall in ChaseWall::FRAMED {
        for standing in &design.layout.standing {
            behind_end(design, wall, standing, report);
        }
    }
    bite(design, report);
    let asked = |measure: Measure, over: Branch| Row {
        subject: measure.into(),
        parts: ceiling_of(design, over),
        source: COMMON_PRACTICE.to_owned(),
        ..Row::default()
    };
    if design.layout.site.ceiling_behind.is_some() {
        let row = asked(
            Measure("framing of the ceiling behind the wall"),
            Branch::Behind,
        );
        let question = "What are the top plates of the enclosure screwed to: what is the ceiling over them framed with, which way does the framing run, and where is it?";
        report.ask(row, None, question);
        return;
    }
    let Some(members) = CeilingMembers::of(&design.params) else {
        let row = asked(Measure("framing of the ceiling"), Branch::Room);
        let question = "What are the top plates screwed to: rafters, joists or trusses, which way do they run, and where is the first ([rafters])?";
        report.ask_for(row, None, question, vec!["rafters"]);
        return;
    };
    gap(design, report);
    for wall in ChaseWall::FRAMED {
        if let Some(run) = PlateRun::of(wall, &design.parts, &members) {
            plate(design, wall, &run, &members, report);
        }
    }
}

/// Studs of a wall of the room behind the end of one of the chase's.
fn behind_end(design: &Design, wall: ChaseWall, standing: &StandingWall, report: &mut Report<'_>) {
    let uprights = design
        .parts
        .iter()
        .filter(|it| it.is_of(wall) && matches!(it.kind, Kind::Stud | Kind::King | Kind::Return));
    let ends: Vec<(&Part, Span)> = uprights
        .filter_map(|it| Some((it, standing.against(it)?)))
        .collect();
    let Some((_, first)) = ends.first() else {
        return;
    };
    let blocks: Vec<Span> = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Blocking && it.is_of(Branch::ExistingWall))
        .map(|it| {
            let [a, b] = [it.body.bounds.low, it.body.bounds.high]
                .map(|corner| Length::mm(standing.frame.local_point(corner).x));
            Span::new(a.min(b), a.max(b))
        })
        .collect();
    let shared = |end: &Span| {
        let common = blocks
            .iter()
            .map(|it| it.high.min(end.high) - it.low.max(end.low));
        common.fold(standing.stud_behind(*end), Length::max)
    };
    let best = ends
        .iter()
        .map(|it| shared(&it.1))
        .fold(Length::ZERO, Length::max);
    let numbers = Numbers::at_least(best, LEAST_HOLD);
    let row = Row {
        subject: Measure("{}: stud where this wall ends, in the {}")
            .of([wall.into(), Thing::RoomWall(standing.place)]),
        parts: ends.iter().take(1).map(|it| it.0.id.clone()).collect(),
        location: Some(standing.point(
            first.center(),
            Length::ZERO,
            standing.top_at(first.center()) / 2.0,
        )),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["chase.left", "chase.width"],
        ..Row::default()
    };
    if numbers.margin >= -TOLERANCE {
        report.judge(row, numbers);
    } else {
        let question = "The room's wall has no stud there: will blocks be added (blocking.behind_sides), or what is the chase's wall screwed to?";
        report.ask_for(row, Some(numbers), question, vec!["blocking.behind_sides"]);
    }
}

/// The id of the ceiling over the room, or over what lies behind the wall.
fn ceiling_of(design: &Design, over: Branch) -> Vec<String> {
    let part = design.first_on(over, Kind::Ceiling);
    part.map(|it| it.id.clone()).into_iter().collect()
}

/// The gap over the plates, which is measured and shimmed as it comes: no allowance is taken from it.
fn gap(design: &Design, report: &mut Report<'_>) {
    let gap = design.params.ceiling.gap;
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: ceiling_of(design, Branch::Room),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["ceiling.gap"],
        ..Row::default()
    };
    match design.params.rafters.as_ref().map(|it| it.kind) {
        Some(RafterKind::Truss) => report.limit(
            row(Measure("gap over the plates, under trusses")),
            Numbers::at_least(gap, UNDER_TRUSSES),
        ),
        _ if gap > UNDER_RAFTERS => {
            let height = gap.tape(design.params.project.unit, Rounding::Up);
            let question = format!(
                "A gap of any height will do if the plates are held: is this one, {height}, shimmed tight at every screw, or are the plates clipped?"
            );
            let row = row(Measure("gap over the plates, under rafters"));
            report.ask(row, Some(Numbers::at_most(gap, UNDER_RAFTERS)), question);
        }
        _ => report.limit(
            row(Measure("gap over the plates, under rafters")),
            Numbers::at_most(gap, UNDER_RAFTERS),
        ),
    }
}

fn plate(
    design: &Design,
    wall: ChaseWall,
    run: &PlateRun,
    members: &CeilingMembers,
    report: &mut Report<'_>,
) {
    let own = |it: &&Part| it.kind == Kind::TopPlate && it.is_of(wall);
    let plates: Vec<&Part> = design.parts.iter().filter(own).collect();
    let places = run.block_places();
    let row = Row {
        subject: Measure("{}: top plate not fastened to framing above").of([wall.into()]),
        parts: plates.iter().map(|it| it.id.clone()).collect(),
        location: plates.first().map(|it| it.body.bounds.center()),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["chase.left", "chase.width", "chase.depth"],
        ..Row::default()
    };
    if run.lies_under_one(members) {
        report.judge(row, Numbers::at_most(Length::ZERO, PLATE_HELD));
        return;
    }
    let crossings = run.crossings(members);
    if !crossings.is_empty() {
        let free = longest_free(run.length, &crossings);
        report.judge(row, Numbers::at_most(free, PLATE_HELD));
        return;
    }
    let blocks = design.parts.iter().filter(|it| {
        it.kind == Kind::Blocking
            && it.is_of(Branch::Ceiling)
            && plates.iter().any(|plate| over(it, plate))
    });
    let count = blocks.count();
    let whole = Numbers::at_most(run.length, PLATE_HELD);
    if count >= places.len() {
        let free = longest_free(run.length, &places);
        report.judge(row, Numbers::at_most(free, PLATE_HELD));
    } else {
        let apart = PLATE_HELD.tape(design.params.project.unit, Rounding::Down);
        let question = format!(
            "It runs between two rafters and crosses none: will {} blocks be installed, {apart} apart or less (rafters.blocks), or what is it screwed to?",
            places.len()
        );
        report.ask_for(row, Some(whole), question, vec!["rafters.blocks"]);
    }
}

/// Whether a block lies over a plate, as seen from above.
fn over(block: &Part, plate: &Part) -> bool {
    let (a, b) = (&block.body.bounds, &plate.body.bounds);
    let meet = |low: f64, high: f64| high - low > TOLERANCE;
    meet(a.low.x.max(b.low.x), a.high.x.min(b.high.x))
        && meet(a.low.y.max(b.low.y), a.high.y.min(b.high.y))
}

/// The bite of the user's own screws.
fn bite(design: &Design, report: &mut Report<'_>) {
    let own = &design.params.fasteners;
    let Some(screw) = own.ceiling_screw else {
        return;
    };
    let passed = design.layout.ceiling_behind.planes().iter();
    let passed = passed
        .map(|plane| passed_by_ceiling_screw(&design.params, plane))
        .fold(Length::ZERO, Length::max);
    let row = Row {
        subject: Measure("bite of the ceiling screws").into(),
        parts: design
            .parts
            .iter()
            .find(|it| it.kind == Kind::TopPlate)
            .map(|it| it.id.clone())
            .into_iter()
            .collect(),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["fasteners.ceiling_screw", "ceiling.gap"],
        ..Row::default()
    };
    report.limit(
        row,
        Numbers::at_least(screw - passed, own.ceiling_screw_bite),
    );
}
