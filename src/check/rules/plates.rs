//! Top plates: what they cover, what they take up, and where they are joined.
//!
//! # What it finds
//! How much of the studs' width the lowest plate covers, and how far a plate is proud of the studs' faces, seen in
//! plan; both should be zero. A plate as sold that leans across the wall covers at least `chase.plate_cover`, and may
//! be proud of the studs' back, not of the face that takes board. The longest piece of a plate against the longest
//! board of the yard; and, where two plates lie on each other, the distance between their joints against 24 in.
//!
//! # Why
//! A square-edged board that is tilted across its width covers less of the stud than its width and takes up more of
//! the plan. Flush with the face that takes board it is proud of the studs only behind, where nothing is hung; ripped
//! with plumb edges it covers them from face to face. Joints over each other make a hinge. One plate is enough in a
//! nonbearing wall (IRC R602.5).
//!
//! # Datum
//! The faces of the studs under the plate, in plan; joints along the wall.
//!
//! # Source
//! IRC 2018 and 2021, R602.3.2 (end joints of double plates 24 in apart), read in a secondary copy. Cover
//! and footprint are arithmetic: a board of width w and thickness t tilted by an angle covers w·cos and
//! takes w·cos + t·sin.

use glam::DVec3;

use super::ARITHMETIC;
use crate::catalog::FramingMember;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Subject};
use crate::design::{Design, Kind, Part, Stock};
use crate::geom::{TOLERANCE, contact};
use crate::params::ChaseWall;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "plates",
    concern: Concern::Structure,
    text: include_str!("plates.rs"),
    keys: &[
        "chase.width",
        "chase.plate_edges",
        "chase.plate_cover",
        "stock.lengths",
        "stock.steel_lengths",
        "stock.boards",
        "stock.end_trim",
    ],
    check,
};

/// Between the joints of two plates on each other.
const JOINTS: Length = Length::inches(24.0);

fn check(design: &Design, report: &mut Report<'_>) {
    for wall in ChaseWall::FRAMED {
        let plates: Vec<&Part> = design
            .parts
            .iter()
            .filter(|it| it.kind == Kind::TopPlate && it.is_of(wall))
            .collect();
        if plates.is_empty() {
            continue;
        }
        across(design, wall, &plates, report);
        lengths(design, wall, &plates, report);
        joints(wall, &plates, report);
    }
}

fn row(subject: Subject, part: &Part, source: &str, levers: &'static [&'static str]) -> Row {
    Row {
        subject,
        parts: vec![part.id.clone()],
        location: Some(part.body.bounds.center()),
        source: source.to_owned(),
        levers,
        ..Row::default()
    }
}

/// The level direction along a plate, and the one across it.
fn directions(plate: &Part) -> (DVec3, DVec3) {
    let along = plate.body.frame.z.with_z(0.0).normalize_or_zero();
    (along, DVec3::Z.cross(along))
}

/// Cover over the studs, and what stands proud of them.
fn across(design: &Design, wall: ChaseWall, plates: &[&Part], report: &mut Report<'_>) {
    let (_, across) = directions(plates[0]);
    let mut least: Option<(Length, Length, bool, &Part)> = None;
    let mut proud: Option<(Length, &Part)> = None;
    let studs = design
        .parts
        .iter()
        .filter(|it| it.is_of(wall) && matches!(it.kind, Kind::Stud | Kind::King));
    for stud in studs {
        let under = stud.reach(across);
        for plate in plates {
            let Some(touch) = contact(&stud.shimmed(), &plate.shimmed()) else {
                continue;
            };
            let (a, b) = (touch.low.dot(across), touch.high.dot(across));
            let cover = Length::mm((b - a).abs());
            let leans = touch.normal.dot(across).abs() > TOLERANCE && !is_ripped(plate);
            let wanted = if leans {
                design.params.chase.plate_cover
            } else {
                under.size()
            };
            let missing = wanted - cover;
            if least.is_none_or(|(worst, ..)| missing > worst) {
                least = Some((missing, wanted, leans, plate));
            }
            let over = plate.reach(across);
            let face = -plate.body.frame.x.dot(across);
            let sides = [(-1.0, under.low - over.low), (1.0, over.high - under.high)];
            // the back of a plate that leans is free
            let judged = sides
                .into_iter()
                .filter(|(side, _)| !leans || side * face > 0.0);
            let out = judged.fold(Length::mm(f64::NEG_INFINITY), |most, it| most.max(it.1));
            if proud.is_none_or(|(worst, _)| out > worst) {
                proud = Some((out, plate));
            }
        }
    }
    let stud = design.params.stud_of(wall);
    if let Some((missing, wanted, leans, plate)) = least {
        let subject = Measure("{}: plate's cover over the width of the studs").of([wall.into()]);
        let numbers = Numbers::at_least(wanted - missing, wanted);
        if leans {
            let source = "chase.plate_cover; common practice, no source";
            report.limit(row(subject, plate, source, &[]), numbers);
        } else {
            report.judge_flush(row(subject, plate, ARITHMETIC, &[]), numbers);
        }
    }
    if let Some((out, plate)) = proud {
        let subject = Measure("{}: plate's edge beyond the studs' face").of([wall.into()]);
        // the flange of a track laps the studs
        let numbers = Numbers::at_most(out, stud.nested());
        report.judge_flush(row(subject, plate, ARITHMETIC, &[]), numbers);
    }
}

/// Whether a plate is ripped, or no stick of wood at all.
fn is_ripped(plate: &Part) -> bool {
    !matches!(plate.stock, Stock::Stick(_))
}

/// A plate's length from tip to tip.
fn length(plate: &Part) -> Length {
    plate.reach(plate.body.frame.z).size()
}

fn lengths(design: &Design, wall: ChaseWall, plates: &[&Part], report: &mut Report<'_>) {
    let longest = plates
        .iter()
        .max_by(|a, b| length(a).to_mm().total_cmp(&length(b).to_mm()));
    if let Some(plate) = longest {
        let subject =
            Measure("{}: longest piece of a plate against the longest board").of([wall.into()]);
        let stud = design.params.stud_of(wall);
        let longest = design.params.longest_board(stud);
        let numbers = Numbers::at_most(length(plate), longest);
        let source = match stud {
            FramingMember::Wood(_) => "stock.lengths",
            FramingMember::Steel(_) => "stock.steel_lengths",
        };
        let row = row(subject, plate, source, &["chase.width"]);
        report.limit(row, numbers);
    }
}

/// Joints of plates that lie on each other.
fn joints(wall: ChaseWall, plates: &[&Part], report: &mut Report<'_>) {
    let (along, _) = directions(plates[0]);
    let ends = |plate: &Part| {
        let reach = plate.reach(along);
        [reach.low, reach.high].map(Length::to_mm)
    };
    // where plates bend over a ridge is no joint: there none could run through
    let goes_on = |plate: &Part, at: f64| {
        let in_line = plates
            .iter()
            .filter(|it| it.body.frame.z.dot(plate.body.frame.z) > 1.0 - TOLERANCE);
        let all: Vec<f64> = in_line.flat_map(|it| ends(it)).collect();
        all.iter().any(|it| at - it > TOLERANCE) && all.iter().any(|it| it - at > TOLERANCE)
    };
    let mut nearest: Option<(Length, &Part)> = None;
    for (index, upper) in plates.iter().enumerate() {
        for lower in &plates[index + 1..] {
            let on = contact(&upper.body, &lower.body);
            if on.is_none_or(|it| it.normal.z.abs() < 0.3) {
                continue;
            }
            for a in ends(upper).into_iter().filter(|at| goes_on(upper, *at)) {
                for b in ends(lower).into_iter().filter(|at| goes_on(lower, *at)) {
                    let apart = Length::mm((a - b).abs());
                    if nearest.is_none_or(|(least, _)| apart < least) {
                        nearest = Some((apart, upper));
                    }
                }
            }
        }
    }
    if let Some((apart, plate)) = nearest {
        let subject = Measure("{}: between joints of the two plates").of([wall.into()]);
        let source = "IRC 2021 R602.3.2, read in a secondary copy";
        report.judge(
            row(subject, plate, source, &[]),
            Numbers::at_least(apart, JOINTS),
        );
    }
}
