//! Studs that cables or the gas line cross.
//!
//! # What it finds
//! Where a cable or the gas pipe passes straight through a stud, king, jack or cripple: the diameter of the bore,
//! what is left of the stud beside it, and, where the bore breaks out of an edge, the depth of the notch that it
//! makes. Such a place is not reported as one part in another: the stud has to be bored or notched. Whatever ends
//! within a stud, runs along it or crosses it at an angle is reported.
//!
//! # Why
//! A stud with too large a hole, or cut into from its edge, buckles or splits there.
//!
//! # Datum
//! The stud's width across the bore. The bore is the size of the cable or pipe, rounded up to the next tape mark;
//! limits are rounded down to one. The chase's own walls are nonbearing; a wall of the room counts as an outside wall
//! where it is behind the chase, and as bearing until you say that it is not.
//!
//! # Source
//! IRC 2018 R602.6, read in a secondary copy: in an outside or bearing wall, notches up to 25 % and bores up to 40 %
//! of the stud's width; in a nonbearing wall, 40 % and 60 %; 5/8 in left between bore and edge. In the web of a steel
//! stud half its depth and 1-1/2 in at most, on the middle of the web (IRC R603.2.6.1, from memory: 1-1/2 in is
//! remembered of walls, 2-1/2 in of joists, and the smaller is taken). Plates over bores near an edge: `nail plates`.
//! A bore of up to 60 % in a bearing wall, with the stud doubled, is not considered.

use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Crossing, Design, Kind, Part, Stock, crossings, nail_plates};
use crate::geom::TOLERANCE;
use crate::params::{Bearing, RoomWall};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "bores and notches",
    concern: Concern::Structure,
    text: include_str!("bores.rs"),
    keys: &[
        "wall.bearing",
        "left_wall.bearing",
        "right_wall.bearing",
        "far_wall.bearing",
        "cables.diameter",
        "fasteners.nail_plates",
    ],
    check,
};

/// Between a bore and the stud's edge.
const EDGE: Length = Length::inches(0.625);
/// The widest hole in the web of a steel stud: of the two numbers that are remembered the smaller.
const STEEL_HOLE: Length = Length::inches(1.5);
const STEEL_SOURCE: &str = "IRC 2018 R603.2.6.1, from memory, the smaller of two numbers; bushings: NEC 300.4(B), from memory; the local code decides";
const SOURCE: &str = "IRC 2018 R602.6, read in a secondary copy; the local code decides";

/// Whether two parts share space only because one has to be cut for the other, and no bore was made.
pub(super) fn is_cut(a: &Part, b: &Part, unit: TapeUnit) -> bool {
    Crossing::of(a, b, unit)
        .or_else(|| Crossing::of(b, a, unit))
        .is_some()
}

fn check(design: &Design, report: &mut Report<'_>) {
    for (service, stud, crossing) in crossings(&design.parts, design.params.project.unit) {
        judge(design, (service, stud), &crossing, report);
    }
}

/// Whether an upright is in a bearing wall or an outside wall.
fn carries(design: &Design, stud: &Part) -> bool {
    if stud.kind != Kind::ExistingStud {
        return false;
    }
    let own = design.layout.standing.iter().find(|it| it.holds(stud));
    own.is_none_or(|wall| wall.place == RoomWall::Back || wall.bearing != Bearing::No)
}

/// A share of a width, rounded down to a mark of the tape.
fn share(width: Length, share: f64, unit: TapeUnit) -> Length {
    (width * share).to_mark(unit, Rounding::Down)
}

/// Holes in the web of a steel stud.
fn judge_steel(design: &Design, row: Row, bore: &Crossing, report: &mut Report<'_>) {
    let unit = design.params.project.unit;
    let most = share(bore.width, 0.5, unit).min(STEEL_HOLE);
    let numbers = Numbers::at_most(bore.diameter, most);
    if numbers.margin < -TOLERANCE {
        report.limit(row, numbers);
        return;
    }
    let question = "Is there a punch-out at this height, 10 in or more from the stud's end, with a bushing for a cable? No other hole is made in the web without the maker's approval.";
    report.ask(row, Some(numbers), question);
}

/// What is said of the nail plates over a bore; nothing where none is needed.
fn plate(design: &Design, service: &Part, stud: &Part) -> &'static str {
    if !design.params.fasteners.nail_plates {
        return "";
    }
    let plates = nail_plates(design).into_iter();
    let here = plates.filter(|it| it.service == service.id && it.stud == stud.id);
    match here.count() {
        0 => "",
        1 => "; a nail plate over that edge",
        _ => "; a nail plate over both edges",
    }
}

fn judge(
    design: &Design,
    (service, stud): (&Part, &Part),
    bore: &Crossing,
    report: &mut Report<'_>,
) {
    let unit = design.params.project.unit;
    let carries = carries(design, stud);
    let (notch, hole) = if carries { (0.25, 0.40) } else { (0.40, 0.60) };
    let row = |measure: Measure, detail: Option<String>| Row {
        subject: measure.of([service.into(), stud.into()]),
        parts: vec![service.id.clone(), stud.id.clone()],
        location: Some(bore.location),
        source: SOURCE.to_owned(),
        levers: &["cables.diameter"],
        detail,
    };
    if matches!(stud.stock, Stock::Steel(_)) {
        let row = Row {
            source: STEEL_SOURCE.to_owned(),
            ..row(Measure("{} through {}: hole in the web"), None)
        };
        judge_steel(design, row, bore, report);
        return;
    }
    let wood = bore.wood_beside();
    if wood.is_positive() {
        let size = bore.diameter.tape(unit, Rounding::Up);
        let place = bore.from_edge.tape(unit, Rounding::Nearest);
        let up = bore.up.tape(unit, Rounding::Nearest);
        let to_do = format!(
            "drill {size}, center {place} from the stud's edge and {up} up from its foot{}",
            plate(design, service, stud)
        );
        report.limit(
            row(Measure("{} through {}: bore"), Some(to_do)),
            Numbers::at_most(bore.diameter, share(bore.width, hole, unit)),
        );
        report.judge(
            row(Measure("{} through {}: wood between bore and edge"), None),
            Numbers::at_least(wood, EDGE),
        );
    } else {
        let depth = (bore.from_edge + bore.diameter / 2.0).min(bore.width);
        let to_do = format!(
            "notch it {} deep{}",
            depth.tape(unit, Rounding::Up),
            plate(design, service, stud)
        );
        report.judge(
            row(Measure("{} through {}: notch"), Some(to_do)),
            Numbers::at_most(depth, share(bore.width, notch, unit)),
        );
    }
}
