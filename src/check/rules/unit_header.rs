//! The header over the unit's opening.
//!
//! # What it finds
//! In each wall that the unit stands in: the whole load over the opening, against the load that bends the header by
//! 1/600 of its span under stone or tile, by 1/360 under board, and against its strength. For a stick lying flat,
//! where its only load is board, the opening against 8 ft and the height to the plate or the sill above it against 24
//! in. Over 8 ft, and for a header of steel, it asks.
//!
//! # Why
//! The chase supports only itself, and yet stone cracks on a header that sags. Over a longer opening, or where the
//! wall supports more than the chase, somebody designs the header: that includes a wall of the room that a flush
//! chase is set into and that may be bearing, where `existing stud cut` asks.
//!
//! # Datum
//! Between the jacks.
//!
//! # Source
//! A flat stick: IRC 2015 to 2021, R602.7.4 (numbered otherwise in older editions), read in a secondary copy.
//! Bending: `check/header.rs`, with its sources.

use crate::check::header::{Beam, over_unit};
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense, Thing};
use crate::design::{Design, point};
use crate::params::{ChaseWall, HeaderForm};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "unit header",
    concern: Concern::Structure,
    text: include_str!("unit_header.rs"),
    keys: &[
        "ceiling.gap",
        "front.header",
        "front.header_form",
        "front.header_plies",
        "front.bump_out_header",
        "front.opening_ease",
        "front.header_modulus",
        "skins.lower_material",
        "skins.upper_material",
        "stock.prices",
        "skins.lower_weight",
        "skins.upper_weight",
    ],
    check,
};

const SPAN: Length = Length::inches(96.0);
const TO_NAILING: Length = Length::inches(24.0);
const BY_CODE: &str =
    "IRC 2021 R602.7.4, nonbearing, read in a secondary copy; the local code decides";
const BY_BENDING: &str = "simple beam, NDS 2018 values from memory; L/600 under stone (IBC 2018 1404.10), else L/360 (common practice)";
const BY_MAKER: &str = "the maker's table of headers, as AISI S220 asks for one";
const LEVERS: &[&str] = &["front.header", "front.header_form"];
const LEVERS_OF_BUMP_OUT: &[&str] = &["front.bump_out_header", "front.header", "front.header_form"];

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    if layout.opened.as_ref().is_some_and(|it| !it.is_settled) {
        return;
    }
    for beam in over_unit(design) {
        let levers = match beam.wall {
            ChaseWall::BumpOut => LEVERS_OF_BUMP_OUT,
            ChaseWall::Front
            | ChaseWall::SetBack
            | ChaseWall::Opened
            | ChaseWall::LeftSide
            | ChaseWall::RightSide
            | ChaseWall::Back => LEVERS,
        };
        if beam.header.form == HeaderForm::Flat && beam.stud.wood().is_some() {
            let to_nailing = over_flat(design, &beam);
            spans_by_code(design, report, &beam, to_nailing, [levers; 2]);
        }
        carried(design, report, &beam, levers);
    }
}

/// From a flat header over the unit to what can be nailed to above it: the ledge, the recess's sill, or the plate.
fn over_flat(design: &Design, beam: &Beam<'_>) -> Length {
    let layout = &design.layout;
    let plate = beam.stud.plate();
    let top = beam.bottom + beam.header.height(beam.stud);
    if beam.wall.has_ledge() {
        return Length::ZERO;
    }
    let recess = layout.recess.filter(|it| it.framed.overlaps(beam.opening));
    match recess {
        Some(recess) => recess.rough_height.low - plate - top,
        None => beam.highest_ceiling(design) - layout.params.ceiling.gap - plate - top,
    }
}

/// What the code says of a flat stick in a nonbearing wall.
pub(super) fn spans_by_code(
    design: &Design,
    report: &mut Report<'_>,
    beam: &Beam<'_>,
    to_nailing: Length,
    levers: [&'static [&'static str]; 2],
) {
    let about = [
        Measure("opening under the flat header over the {} in the {}"),
        Measure("from the flat header over the {} in the {} up to the plate"),
    ];
    let measured = [(beam.opening.size(), SPAN), (to_nailing, TO_NAILING)];
    for ((about, (measured, most)), levers) in about.into_iter().zip(measured).zip(levers) {
        let row = row(design, beam, (about, BY_CODE), levers);
        report.judge(row, Numbers::at_most(measured, most));
    }
}

/// What a header bears, against its load. A flat stick without stone over it is the code's own.
pub(super) fn carried(
    design: &Design,
    report: &mut Report<'_>,
    beam: &Beam<'_>,
    levers: &'static [&'static str],
) {
    let hung = beam.hung(design);
    let about = Measure("load on the header over the {} in the {}");
    let unit = design.params.project.unit;
    let span = beam.opening.size().tape(unit, Rounding::Up);
    let Some(most) = beam.carries(hung.is_stone) else {
        let row = row(design, beam, (about, BY_MAKER), levers);
        let header = match beam.header.form {
            HeaderForm::Flat => format!("the track of {} alone as header", beam.stud.name()),
            HeaderForm::OnEdge => format!("a header of two {}", beam.header.stock.name()),
        };
        let question = format!(
            "Does the maker's table allow {header} over {span}, for the board and finish above it?"
        );
        report.ask(row, None, question);
        return;
    };
    if beam.header.form == HeaderForm::Flat && !hung.is_stone {
        return;
    }
    let row = row(design, beam, (about, BY_BENDING), levers);
    let numbers = Numbers::new(Quantity::Mass, Sense::AtMost, hung.mass, most);
    if let Some(key) = hung.unknown {
        let question = format!(
            "What does the finish over the opening weigh ({key})? The header cannot be judged without it."
        );
        report.ask(row, None, question);
    } else if numbers.margin >= 0.0
        && beam.header.form == HeaderForm::OnEdge
        && (beam.opening.size() - SPAN).is_positive()
    {
        let question =
            format!("Who designs the header over {span}? Over 8 ft no rule of thumb applies.");
        report.ask(row, Some(numbers), question);
    } else {
        report.limit(row, numbers);
    }
}

fn row(
    design: &Design,
    beam: &Beam<'_>,
    (about, source): (Measure, &str),
    levers: &'static [&'static str],
) -> Row {
    let faces = &design.layout.faces;
    let out = if beam.wall.has_ledge() {
        faces.lower_stud
    } else {
        faces.upper_stud
    };
    Row {
        subject: about.of([beam.over.name(), beam.wall.full_name()].map(Thing::Word)),
        parts: beam.parts(design).map(|it| it.id.clone()).collect(),
        location: Some(point(beam.opening.center(), out, beam.bottom)),
        source: source.to_owned(),
        levers,
        ..Row::default()
    }
}
