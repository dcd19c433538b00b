//! Tilting walls up, and the floor to frame them on.
//!
//! # What it finds
//! For every wall, how it goes up, from which side and when. For one that is tilted up: how near its corners come to
//! the ceiling on the way, and how much floor it has to lie on. A corner at height H, a depth t behind the foot that
//! the wall turns about, swings through √(H² + t²), which is more than its height when it stands; under a ceiling
//! that falls toward the side from which the wall is raised it needs more still. A wall without room to go up as one
//! frame is raised beside its top plates and slid under them, and one without room for that either is built in place:
//! then its longest upright is compared with the floor. It fails only where the way that the file asks for has no
//! room. The floor outside an enclosure behind a wall is not known: where a wall of it could go up from there, it
//! asks.
//!
//! # Why
//! A wall that fits once it stands may not fit while it is tilted up, and one without a floor to lie on cannot be
//! tilted up.
//!
//! # Datum
//! The outer or inner foot of the sole plate; the slab; the room's walls, and of an enclosure behind a wall its own.
//!
//! # Source
//! Arithmetic.

use glam::DVec3;

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Lifted, Method, RaisedFrom, Raising, WayUp, raising};
use crate::params::{ChaseWall, Fit};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "tilt-up",
    concern: Concern::Framing,
    text: include_str!("tilt_up.rs"),
    keys: &[
        "ceiling.gap",
        "chase.fit",
        "raising.front",
        "raising.set_back",
        "raising.bump_out",
        "raising.left_side",
        "raising.right_side",
        "raising.back",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let walls = raising(design);
    for (number, wall) in walls.iter().enumerate() {
        match &wall.method {
            Method::Raised(way) => {
                let turn = turn(number, &walls);
                raised(design, (wall, way), &turn, report);
            }
            Method::InPlace => match wall.asked {
                Fit::TiltUp | Fit::PlateFirst => refused(design, wall, report),
                Fit::FirstThatFits | Fit::InPlace => in_place(design, wall, report),
            },
        }
    }
}

/// What moves a wall's way up: the gap over it, then the key that says how it goes up.
fn levers(design: &Design, wall: ChaseWall) -> &'static [&'static str] {
    if design.params.own_fit_of(wall).is_none() {
        return &["ceiling.gap", "chase.fit"];
    }
    match wall {
        ChaseWall::Front => &["ceiling.gap", "raising.front"],
        ChaseWall::SetBack => &["ceiling.gap", "raising.set_back"],
        ChaseWall::BumpOut => &["ceiling.gap", "raising.bump_out"],
        ChaseWall::LeftSide => &["ceiling.gap", "raising.left_side"],
        ChaseWall::RightSide => &["ceiling.gap", "raising.right_side"],
        ChaseWall::Back => &["ceiling.gap", "raising.back"],
        ChaseWall::Opened => &["ceiling.gap", "chase.fit"],
    }
}

/// When a wall goes up.
fn turn(number: usize, walls: &[Raising]) -> String {
    let laid = if walls[number].before_platform {
        ", before the platform is laid"
    } else {
        ""
    };
    format!("wall {} of {} to go up{laid}", number + 1, walls.len())
}

fn raised(design: &Design, (wall, way): (&Raising, &WayUp), turn: &str, report: &mut Report<'_>) {
    let beyond = from_beyond(design, wall).filter(|_| !way.has_room());
    let way = beyond.unwrap_or(way);
    let name = wall.wall;
    let side = way.from.words(name);
    let how = match way.lifted {
        Lifted::Whole => format!("as one frame {side}"),
        Lifted::UnderPlate => format!("without its top plates {side}, and slid under them"),
    };
    let row = |measure: Measure| Row {
        subject: measure.of([name.into()]),
        parts: vec![way.part.clone()],
        source: ARITHMETIC.to_owned(),
        ..Row::default()
    };
    let under = Row {
        location: Some(way.place),
        levers: levers(design, name),
        detail: Some(format!("{how}; {turn}")),
        ..row(Measure("{}: room to tilt the wall up"))
    };
    report.judge(under, Numbers::at_least(way.ceiling, way.height));
    let lying = Row {
        location: Some(way.end),
        levers: &levers(design, name)[1..],
        detail: Some(how.clone()),
        ..row(Measure("{}: floor to frame the wall on"))
    };
    match beyond {
        Some(way) => ask_for_floor(design, lying, way, report),
        None => report.judge(lying, Numbers::at_least(way.floor, way.lies)),
    }
    if !way.slides {
        let row = Row {
            location: Some(way.place),
            levers: &levers(design, name)[1..],
            detail: Some(how),
            ..row(Measure(
                "{}: top plates hang lower on the side that it comes from",
            ))
        };
        report.fail(row, None);
    }
}

/// A wall that is left to be built in place although the file asks for another way.
fn refused(design: &Design, wall: &Raising, report: &mut Report<'_>) {
    let measure = match wall.asked {
        Fit::PlateFirst => Measure(
            "{}: no frame can slide under its track or ledge, or another wall is in the way",
        ),
        Fit::FirstThatFits | Fit::TiltUp | Fit::InPlace => {
            Measure("{}: it cannot go up as one frame")
        }
    };
    let row = Row {
        subject: measure.of([wall.wall.into()]),
        parts: vec![wall.longest.0.clone()],
        location: middle(design, &wall.longest.0),
        source: ARITHMETIC.to_owned(),
        levers: &levers(design, wall.wall)[1..],
        detail: why_not(wall, design.params.project.unit),
    };
    match from_beyond(design, wall) {
        Some(way) => ask_for_floor(design, row, way, report),
        None => report.fail(row, None),
    }
}

/// Asks what floor there is outside an enclosure.
fn ask_for_floor(design: &Design, row: Row, way: &WayUp, report: &mut Report<'_>) {
    let question = format!(
        "Outside the enclosure, is there floor or level ground as high as the slab, {} of it or more, to raise this wall from?",
        way.lies.tape(design.params.project.unit, Rounding::Up)
    );
    report.ask(row, None, question);
}

/// The way up from outside an enclosure behind a wall, where nothing but the floor is in question.
fn from_beyond<'a>(design: &Design, wall: &'a Raising) -> Option<&'a WayUp> {
    let is_of_enclosure = design.layout.site.opens_wall
        && match wall.wall {
            ChaseWall::LeftSide | ChaseWall::RightSide | ChaseWall::Back => true,
            ChaseWall::Front | ChaseWall::SetBack | ChaseWall::BumpOut | ChaseWall::Opened => false,
        };
    let lifted = match wall.asked {
        Fit::PlateFirst => Lifted::UnderPlate,
        Fit::TiltUp | Fit::FirstThatFits | Fit::InPlace => Lifted::Whole,
    };
    let mut ways = wall.ways.iter().filter(|_| is_of_enclosure);
    ways.find(|it| {
        let stands = it.slides && !(-it.under_ceiling()).is_positive();
        it.lifted == lifted && it.from == RaisedFrom::Outside && stands
    })
}

fn in_place(design: &Design, wall: &Raising, report: &mut Report<'_>) {
    let (part, long) = &wall.longest;
    let row = Row {
        subject: Measure("{}: built in place, its longest upright over the room's floor")
            .of([wall.wall.into()]),
        parts: vec![part.clone()],
        location: middle(design, part),
        source: ARITHMETIC.to_owned(),
        levers: &levers(design, wall.wall)[1..],
        detail: why_not(wall, design.params.project.unit),
    };
    report.judge(row, Numbers::at_least(wall.across, *long));
}

fn middle(design: &Design, id: &str) -> Option<DVec3> {
    let part = design.parts.iter().find(|it| it.id == id)?;
    Some(part.body.bounds.center())
}

/// What keeps a wall from being raised as one frame, side by side.
fn why_not(wall: &Raising, unit: TapeUnit) -> Option<String> {
    if wall.asked == Fit::InPlace {
        return None;
    }
    let whole = wall.ways.iter().filter(|it| it.lifted == Lifted::Whole);
    let said = whole.map(|way| {
        let lacks = [
            (way.floor_left(), "short of floor"),
            (way.under_ceiling(), "into the ceiling"),
        ];
        let lacks = lacks.into_iter().filter(|it| (-it.0).is_positive());
        let lacks: Vec<String> = lacks.map(|it| lacking(it.0, it.1, unit)).collect();
        let lacks = if lacks.is_empty() {
            "another wall has to be there first".to_owned()
        } else {
            lacks.join(" and ")
        };
        format!("{}: {lacks}", way.from.words(wall.wall))
    });
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| format!("as one frame {}", said.join("; ")))
}

fn lacking(room: Length, what: &str, unit: TapeUnit) -> String {
    format!("{} {what}", (-room).tape(unit, Rounding::Up))
}
