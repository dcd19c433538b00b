//! What holds the mantel.
//!
//! # What it finds
//! It asks what holds the mantel where that is not given. For screws down into the ledge, through a cleat, or through
//! brackets on the sides of studs it finds the bite of the worst one in wood, past mantel, cleat, finish, board or
//! steel, with the longest screw sold; the room for a driver on its head, 8 in long behind a bit, past whatever is
//! already built at that step; and the longest stretch between two of them. For brackets through the facing zone it
//! asks what the manual says about steel in it.
//!
//! # Why
//! People lean and climb on a mantel. Board holds no screw, and a screw that no driver reaches is not driven.
//!
//! # Source
//! 1-1/2 in of bite, the driver of 1-1/4 in to either side of its middle: common practice, no source. The manual,
//! `mantel.steel_in_zone`.

use super::{COMMON_PRACTICE, page};
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense, Thing};
use crate::design::{
    ClearanceKind, Design, Kind, MANTEL_BITE, MantelFixing, Part, front_wall_at, mantel_fixings,
};
use crate::geom::{Body, Frame, Tube, nearest_within, overlaps};
use crate::params::{Mantel, MantelHold, Permission};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "mantel hold",
    concern: Concern::Structure,
    text: include_str!("mantel_hold.rs"),
    keys: &[
        "mantel.held_by",
        "mantel.hold_spacing",
        "mantel.counterbore",
        "mantel.shell",
        "mantel.cleat",
        "mantel.bracket_thickness",
        "mantel.bracket_height",
        "mantel.steel_in_zone",
        "mantel.underside",
        "mantel.thickness",
        "mantel.projection",
        "skins.lower_finish",
        "skins.upper_finish",
        "skins.board",
        "front.ledge",
    ],
    check,
};

/// Half of a driver's thickness.
const DRIVER: Length = Length::inches(1.25);
/// How long a driver is.
const DRIVER_LENGTH: Length = Length::inches(8.0);
/// How long its bit is.
const BIT: Length = Length::inches(2.0);
/// Thickness of the line used for a driver's middle, in millimetres.
const LINE: f64 = 0.01;

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(mantel) = &design.params.mantel else {
        return;
    };
    let Some(part) = design.first(Kind::Mantel) else {
        return;
    };
    let row = |measure: Measure| Row {
        subject: measure.into(),
        parts: vec![part.id.clone()],
        location: Some(part.body.bounds.center()),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["mantel.hold_spacing"],
        ..Row::default()
    };
    let Some(held_by) = mantel.held_by else {
        let question = "What holds the mantel (mantel.held_by): screws down into the ledge, a cleat in its hollow, or steel brackets set before the board goes on?";
        let row = row(Measure("what holds the mantel"));
        report.ask_for(row, None, question, vec!["mantel.held_by"]);
        return;
    };
    let fixings = mantel_fixings(design);
    if !bites(design, (mantel, held_by, &fixings), row, report) {
        return;
    }
    reached(design, (mantel, &fixings), row, report);
    apart(mantel, &fixings, part, row, report);
    if held_by == MantelHold::Brackets {
        in_zone(design, mantel, report);
    }
}

/// What the screws go into, in words.
const fn into(held_by: MantelHold) -> &'static str {
    match held_by {
        MantelHold::Screws => "the ledge",
        MantelHold::Cleat => "the framing behind the cleat",
        MantelHold::Brackets => "the studs beside its brackets",
    }
}

/// Judges the bite; whether there is any wood at all.
fn bites(
    design: &Design,
    (mantel, held_by, fixings): (&Mantel, MantelHold, &[MantelFixing]),
    row: impl Fn(Measure) -> Row,
    report: &mut Report<'_>,
) -> bool {
    let subject = Measure("bite of the mantel's screws into {}").of([Thing::Word(into(held_by))]);
    let worst = fixings
        .iter()
        .min_by(|a, b| a.bite().to_mm().total_cmp(&b.bite().to_mm()));
    let bite = worst.map_or(Length::ZERO, |it| it.bite().max(Length::ZERO));
    let row = Row {
        subject,
        location: worst.map(|it| it.head),
        levers: &["mantel.underside", "mantel.counterbore"],
        ..row(Measure(""))
    };
    let numbers = Numbers::at_least(bite, MANTEL_BITE);
    let wall = front_wall_at(&design.layout, mantel.underside).0;
    let on_steel = design.params.stud_of(wall).steel().is_some();
    if on_steel && held_by != MantelHold::Screws && numbers.margin < 0.0 {
        let question = "There is no wood behind it, only studs and straps of thin steel: what load do the makers of screw and bracket allow there?";
        report.ask(row, Some(numbers), question);
        return false;
    }
    // the stock is as thick as it is, and screws are sold by length
    report.limit(row, numbers);
    worst.is_some()
}

/// The middle of a driver whose bit is on a screw's head.
fn driver(mantel: &Mantel, fixing: &MantelFixing) -> Body {
    let sunk = match mantel.held_by {
        Some(MantelHold::Screws) => mantel.counterbore,
        Some(MantelHold::Cleat | MantelHold::Brackets) | None => Length::ZERO,
    };
    let begins = fixing.head - fixing.way * BIT.max(sunk + DRIVER).to_mm();
    let across = fixing.way.any_orthonormal_vector();
    let frame = Frame::new(begins, across, (-fixing.way).cross(across));
    let length = DRIVER_LENGTH;
    let line = Tube::straight(Length::mm(LINE), Length::ZERO, length);
    Body::new(line, frame)
}

/// What is in a driver's way at its stage: not what it screws through.
fn is_in_the_way(part: &Part, fixing: &MantelFixing) -> bool {
    let own = matches!(part.kind, Kind::Mantel | Kind::MantelEnd) || part.id == fixing.part;
    part.stage <= fixing.stage && !own
}

fn reached(
    design: &Design,
    (mantel, fixings): (&Mantel, &[MantelFixing]),
    row: impl Fn(Measure) -> Row,
    report: &mut Report<'_>,
) {
    let mut worst: Option<(Length, &MantelFixing, &Part)> = None;
    for fixing in fixings {
        let driver = driver(mantel, fixing);
        for part in design.parts.iter().filter(|it| is_in_the_way(it, fixing)) {
            let limit = worst.map_or(DRIVER_LENGTH, |it| it.0).to_mm();
            if driver.bounds.gap(&part.body.bounds) >= limit {
                continue;
            }
            let apart = nearest_within(&driver, &part.body, limit - LINE).distance;
            if apart.is_finite() {
                let from_middle = if apart > 0.0 { apart + LINE } else { 0.0 };
                worst = Some((Length::mm(from_middle), fixing, part));
            }
        }
    }
    let row = Row {
        location: worst.map(|it| it.1.head),
        detail: worst.map(|it| format!("{} is nearest", it.2.id)),
        levers: &["front.ledge", "mantel.thickness", "mantel.underside"],
        ..row(Measure("room for a driver on the mantel's screws"))
    };
    let room = worst.map_or(DRIVER_LENGTH, |it| it.0);
    report.judge(row, Numbers::at_least(room, DRIVER));
}

/// Judges the longest stretch of the mantel without a screw or bracket.
fn apart(
    mantel: &Mantel,
    fixings: &[MantelFixing],
    part: &Part,
    row: impl Fn(Measure) -> Row,
    report: &mut Report<'_>,
) {
    let mut places: Vec<f64> = fixings.iter().map(|it| it.head.x).collect();
    places.sort_by(f64::total_cmp);
    let bounds = &part.body.bounds;
    let longest = places.windows(2).map(|it| it[1] - it[0]);
    let longest = longest.fold(0.0, f64::max);
    // a single one lets the mantel turn about it
    let longest = if places
        .last()
        .zip(places.first())
        .is_none_or(|(a, b)| a - b <= 1.0)
    {
        bounds.size().x
    } else {
        longest
    };
    let measure = Measure("longest stretch of the mantel between two of its screws or brackets");
    report.limit(
        row(measure),
        Numbers::at_most(Length::mm(longest), mantel.hold_spacing),
    );
}

/// Asks whether steel may go through the facing zone, where a bracket does.
fn in_zone(design: &Design, mantel: &Mantel, report: &mut Report<'_>) {
    let zones = design.clearances.iter();
    let zones: Vec<_> = zones
        .filter(|it| it.kind == ClearanceKind::FacingZone)
        .collect();
    let brackets = design.parts.iter().filter(|it| it.kind == Kind::Bracket);
    let inside: Vec<&Part> = brackets
        .filter(|it| zones.iter().any(|zone| overlaps(&it.body, &zone.body)))
        .collect();
    let Some(first) = inside.first() else { return };
    let row = Row {
        subject: Measure("mantel brackets in the facing zone").into(),
        parts: inside.iter().map(|it| it.id.clone()).collect(),
        location: Some(first.body.bounds.center()),
        source: COMMON_PRACTICE.to_owned(),
        levers: &["mantel.underside"],
        ..Row::default()
    };
    let Some(answer) = &mantel.steel_in_zone else {
        let question = "Steel goes through the facing zone: does the unit's manual allow that (mantel.steel_in_zone)?";
        report.ask_for(row, None, question, vec!["mantel.steel_in_zone"]);
        return;
    };
    let row = Row {
        source: page(answer),
        ..row
    };
    let count = inside.len() as f64;
    let allowed = match answer.value {
        Permission::Yes => count,
        Permission::No => 0.0,
    };
    let numbers = Numbers::new(Quantity::Count, Sense::AtMost, count, allowed);
    report.limit(row, numbers);
}
