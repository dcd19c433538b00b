//! A ceiling measured at several places.
//!
//! # What it finds
//! How far each reading is off the plane that fits them best by least squares, the worst against 1/4 in. How far that
//! plane could be off above the top plates if each reading were 1/16 in off, against 1/4 in too: about readings taken
//! too far from the chase it asks. The gap above the plates at the reading that is lowest below the plane; or, where
//! each wall's plates follow the readings above it (`ceiling.plates`), how they are packed.
//!
//! # Why
//! No ceiling is a true plane, and a tape is misread now and then: a reading that is off by itself should be measured
//! again. Plates are straight, so where the ceiling sags below the plane there is only the gap to take it up, or a
//! wall's plates are set lower, straight under the readings over it, its studs cut to them, and packed up to the
//! ceiling at each reading.
//!
//! # Source
//! Least squares: what the plane says of a place is a sum of the readings, each with a weight that follows from where
//! it was taken (NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1, from memory); 1/4 in and 1/16 in for a reading:
//! common practice, no source.

use glam::{DMat3, DVec3};

use super::{ARITHMETIC, packed_at};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Subject, Thing};
use crate::design::{Design, Kind, Packed, Packing};
use crate::geom::TOLERANCE;
use crate::params::PlatesAlong;
use crate::units::{Length, Marks, Rounding, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "ceiling readings",
    concern: Concern::Framing,
    text: include_str!("ceiling_readings.rs"),
    keys: &["ceiling.gap", "ceiling.readings", "ceiling.plates"],
    check,
};

/// How far a reading may lie off.
const OFF: Length = Length::inches(0.25);

/// How far a careful reading may be off.
const READING: Length = Length::inches(0.0625);

fn check(design: &Design, report: &mut Report<'_>) {
    let (points, off): (Vec<_>, Vec<_>) = design.params.off_the_plane().into_iter().unzip();
    let size = |at: &usize| off[*at].abs().to_mm();
    let Some(worst) = (0..off.len()).max_by(|a, b| size(a).total_cmp(&size(b))) else {
        return;
    };
    let unit = design.params.project.unit;
    let row = |subject: Subject, at: usize, detail: Option<String>| Row {
        subject,
        parts: vec![design.ceiling_over(points[at])],
        location: Some(points[at]),
        source: "least squares; 1/4 in: common practice, no source".to_owned(),
        levers: &[],
        detail,
    };
    let listed = off.iter().enumerate();
    let listed = listed.map(|(at, off)| format!("{}: {}", at + 1, signed(*off, unit)));
    let listed = listed.collect::<Vec<_>>().join(", ");
    let worst_row = row(
        Measure("reading {} off the plane through all").of([Thing::Number(worst + 1)]),
        worst,
        Some(format!("above (+) or below (−) the plane, {listed}")),
    );
    let numbers = Numbers::at_most(off[worst].abs(), OFF);
    if (off[worst].abs() - OFF).is_positive() {
        let question = "Was it measured correctly? Measure it again before anything is cut.";
        report.ask(worst_row, Some(numbers), question);
    } else {
        report.limit(worst_row, numbers);
    }
    if let Some((place, may_be)) = least_certain(design, &points) {
        let row = Row {
            subject: Measure("plane over the plates, if each reading is {} off")
                .of([Thing::Word(reading_off(unit))]),
            parts: vec![design.ceiling_over(place)],
            location: Some(place),
            source: "least squares; 1/4 in and 1/16 in: common practice, no source".to_owned(),
            ..Row::default()
        };
        let numbers = Numbers::at_most(may_be, OFF);
        if (may_be - OFF).is_positive() {
            let question = "Can the ceiling be measured nearer to the chase, and on both sides of it? The readings are too far away, or too close together, to show how it runs there.";
            report.ask(row, Some(numbers), question);
        } else {
            report.limit(row, numbers);
        }
    }
    if design.params.ceiling.plates == PlatesAlong::Readings && packed(design, report) {
        return;
    }
    let lowest = (0..off.len()).min_by(|a, b| off[*a].to_mm().total_cmp(&off[*b].to_mm()));
    if let Some(lowest) = lowest {
        let subject = Measure("gap over the plates for reading {}, the lowest")
            .of([Thing::Number(lowest + 1)]);
        let under = (-off[lowest]).max(Length::ZERO);
        let lever = Row {
            levers: &["ceiling.gap"],
            ..row(subject, lowest, None)
        };
        report.judge(lever, Numbers::at_least(design.params.ceiling.gap, under));
    }
}

/// [`READING`] in the unit of the job.
fn reading_off(unit: TapeUnit) -> &'static str {
    match unit {
        TapeUnit::Inch => "1/16 in",
        TapeUnit::Millimeter => "1.6 mm",
    }
}

/// How plates that follow the readings are packed, wall by wall; whether there is one under a reading.
fn packed(design: &Design, report: &mut Report<'_>) -> bool {
    let unit = design.params.project.unit;
    let plates: Vec<_> = design.packing.iter().filter(|it| it.of.is_over()).collect();
    let mut walls: Vec<Packed> = plates.iter().map(|it| it.of).collect();
    walls.dedup();
    for wall in &walls {
        let own = plates.iter().filter(|it| it.of == *wall);
        let own: Vec<&Packing> = own.copied().collect();
        let thick = |it: &Packing| it.thickness.to_mm();
        let Some(least) = own.iter().min_by(|a, b| thick(a).total_cmp(&thick(b))) else {
            continue;
        };
        let each = packed_at(own.iter().copied(), unit);
        let row = Row {
            subject: Measure("{}: space under its lowest reading").of([Thing::Packed(*wall)]),
            parts: vec![design.ceiling_over(least.place)],
            location: Some(least.place),
            source: ARITHMETIC.to_owned(),
            levers: &["ceiling.gap"],
            detail: Some(format!(
                "the plate is packed, from its {}: {each}",
                least.from
            )),
        };
        let numbers = Numbers::at_least(least.thickness, design.params.ceiling.gap);
        report.judge_flush(row, numbers);
    }
    !walls.is_empty()
}

/// Where over the plates the plane through the readings is least certain, and how far it may be off there.
fn least_certain(design: &Design, readings: &[DVec3]) -> Option<(DVec3, Length)> {
    let row = |it: DVec3| DVec3::new(1.0, it.x, it.y);
    // about their own middle, so that the sums keep their digits
    let middle = readings.iter().sum::<DVec3>() / readings.len() as f64;
    let rows: Vec<DVec3> = readings.iter().map(|it| row(*it - middle)).collect();
    let square = rows.iter().fold(DMat3::ZERO, |sum, it| {
        sum + DMat3::from_cols(*it * it.x, *it * it.y, *it * it.z)
    });
    if square.determinant().abs() <= TOLERANCE {
        return None;
    }
    let inverse = square.inverse();
    let plates = design.parts.iter().filter(|it| it.kind == Kind::TopPlate);
    let corners = plates.flat_map(|it| it.body.pieces.iter().flat_map(|piece| &piece.vertices));
    let off = corners.map(|corner| {
        let weights = inverse * row(*corner - middle);
        let worst: f64 = rows.iter().map(|it| it.dot(weights).abs()).sum();
        (*corner, READING * worst)
    });
    off.max_by(|a, b| a.1.to_mm().total_cmp(&b.1.to_mm()))
}

fn signed(off: Length, unit: TapeUnit) -> String {
    let marks = match unit {
        TapeUnit::Inch => Marks::SixtyFourths,
        TapeUnit::Millimeter => Marks::TenthMillimeters,
    };
    let sign = if off < Length::ZERO { '−' } else { '+' };
    format!("{sign}{}", off.abs().tape_on(marks, Rounding::Nearest))
}
