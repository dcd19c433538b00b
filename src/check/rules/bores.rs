//! Studs that cables or the gas line cross.
//!
//! # What it finds
//! Where a cable or the gas pipe passes straight through a stud, king, jack or cripple: the diameter of the
//! bore, what is left of the stud beside it, and, where the bore breaks out of an edge, the depth of the
//! notch that it makes. Such a place is no clash of parts: the stud has to be bored or notched. Whatever ends
//! within a stud, runs along it or crosses it askew is one.
//!
//! # Why
//! A stud with too large a hole, or cut into from its edge, buckles or splits there.
//!
//! # Datum
//! The stud's width across the bore. The bore is as wide as what passes it. Limits are rounded down to a
//! mark of the tape. The chase's own walls carry nothing; a wall of the room counts as an outside one where
//! it stands behind the chase, and as carrying until you say that it does not.
//!
//! # Source
//! IRC 2018 R602.6, read in a secondary copy: in an outside wall or one that carries, notches up to 25 % and
//! bores up to 40 % of the stud's width; in one that carries nothing, 40 % and 60 %; 5/8 in left between bore
//! and edge. In the web of a steel stud half its depth and 2-1/2 in at most, on the middle of the web (IRC
//! R603.2.6.1, from memory). A bore of up to 60 % in a carrying wall, with the stud doubled, is not looked at.

use glam::DVec3;

use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Part, Stock};
use crate::geom::{CenterLine, Frame, Shape, TOLERANCE, Tube, overlaps};
use crate::params::{Bearing, RoomWall};
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "bores and notches",
    text: include_str!("bores.rs"),
    check,
};

/// Between a bore and the stud's edge.
const EDGE: Length = Length::inches(0.625);
/// The widest hole in the web of a steel stud.
const STEEL_HOLE: Length = Length::inches(2.5);
const STEEL_SOURCE: &str =
    "IRC 2018 R603.2.6.1, from memory; bushings: NEC 300.4(B), from memory; the local code decides";
const SOURCE: &str = "IRC 2018 R602.6, read in a secondary copy; the local code decides";

/// Something round that passes straight through an upright.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Bore {
    diameter: Length,
    /// The stud's width across it.
    width: Length,
    /// From its middle to the nearer edge.
    from_edge: Length,
    location: DVec3,
}

/// Whether two parts share space only because one has to be bored for the other.
pub(super) fn is_bore(a: &Part, b: &Part) -> bool {
    bore(a, b).or_else(|| bore(b, a)).is_some()
}

fn check(design: &Design, report: &mut Report<'_>) {
    let passes = design.parts.iter().filter(|it| is_service(it));
    for service in passes {
        for stud in design.parts.iter().filter(|it| is_upright(it)) {
            if service.body.bounds.touches(&stud.body.bounds)
                && let Some(bore) = bore(service, stud)
                && overlaps(&service.body, &stud.body)
            {
                judge(design, (service, stud), &bore, report);
            }
        }
    }
}

fn is_service(part: &Part) -> bool {
    matches!(part.kind, Kind::Cable | Kind::GasStub)
}

fn is_upright(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple | Kind::ExistingStud
    )
}

/// How a service passes through an upright with square sides, if it does.
fn bore(service: &Part, stud: &Part) -> Option<Bore> {
    if !is_service(service) || !is_upright(stud) {
        return None;
    }
    let (Shape::Tube(tube), Shape::Swept(swept)) = (&service.body.shape, &stud.body.shape) else {
        return None;
    };
    let [low, ..] = swept.profile.outline.as_slice() else {
        return None;
    };
    let corners = swept.profile.outline.iter();
    let steel = matches!(stud.stock, Stock::Steel(_));
    let is_square = (steel || swept.profile.outline.len() == 4)
        && corners
            .clone()
            .zip(corners.cycle().skip(1))
            .all(|(a, b)| (a.x - b.x).abs() <= TOLERANCE || (a.y - b.y).abs() <= TOLERANCE);
    let far = swept
        .profile
        .outline
        .iter()
        .fold(*low, |far, it| far.max(*it));
    let near = swept
        .profile
        .outline
        .iter()
        .fold(*low, |near, it| near.min(*it));
    if !is_square {
        return None;
    }
    let [start, end] = ends(tube, &service.body.frame)?.map(|it| stud.body.frame.local_point(it));
    let way = (end - start).normalize_or_zero();
    let through = [way.x, way.y].map(|it| it.abs() > 1.0 - TOLERANCE);
    let (along, across) = match through {
        [true, _] => ([start.x, end.x, near.x, far.x], [start.y, near.y, far.y]),
        // through the flanges of a steel stud nothing passes
        [_, true] if !steel => ([start.y, end.y, near.y, far.y], [start.x, near.x, far.x]),
        _ => return None,
    };
    let [a, b, front, back] = along;
    let passes = a.min(b) <= front + TOLERANCE && a.max(b) >= back - TOLERANCE;
    let [place, low, high] = across;
    let radius = tube.outer;
    let height = start.z;
    let corners = || swept.profile.outline.iter();
    let bottom = corners().flat_map(|it| swept.bottom.iter().map(|plane| plane.z(*it)));
    let top = corners().flat_map(|it| swept.top.iter().map(|plane| plane.z(*it)));
    let within = height - radius >= bottom.fold(f64::NEG_INFINITY, f64::max) - TOLERANCE
        && height + radius <= top.fold(f64::INFINITY, f64::min) + TOLERANCE;
    (passes && within).then(|| Bore {
        diameter: Length::mm(radius * 2.0),
        width: Length::mm(high - low),
        from_edge: Length::mm((place - low).min(high - place)),
        location: stud.body.frame.point((start + end) / 2.0),
    })
}

/// Both ends of a straight tube.
fn ends(tube: &Tube, frame: &Frame) -> Option<[DVec3; 2]> {
    match tube.center_line {
        CenterLine::Segment { length } => Some([0.0, length].map(|at| frame.point(DVec3::Z * at))),
        CenterLine::Arc { .. } => None,
    }
}

/// Whether an upright stands in a wall that carries, or in an outside one.
fn carries(design: &Design, stud: &Part) -> bool {
    if stud.kind != Kind::ExistingStud {
        return false;
    }
    let own = design.layout.standing.iter().find(|it| it.holds(stud));
    own.is_none_or(|wall| wall.place == RoomWall::Back || wall.bearing != Bearing::No)
}

/// A share of a width, rounded down to a mark of the tape.
fn share(width: Length, share: f64, unit: TapeUnit) -> Length {
    let mark = match unit {
        TapeUnit::Inch => Length::inches(0.0625),
        TapeUnit::Millimeter => Length::mm(1.0),
    };
    mark * ((width * share) / mark + 1e-9).floor()
}

/// Holes in the web of a steel stud.
fn judge_steel(design: &Design, row: Row, bore: &Bore, report: &mut Report<'_>) {
    let unit = design.params.project.unit;
    let most = share(bore.width, 0.5, unit).min(STEEL_HOLE);
    let numbers = Numbers::at_most(bore.diameter, most);
    if numbers.margin < -TOLERANCE {
        report.limit(row, numbers);
        return;
    }
    let question = "Is there a punch-out at this height, 10 in or more from the stud's end, with a bushing for a cable? No other hole goes through the web without the maker's word.";
    report.ask(row, Some(numbers), question);
}

fn judge(design: &Design, (service, stud): (&Part, &Part), bore: &Bore, report: &mut Report<'_>) {
    let unit = design.params.project.unit;
    let carries = carries(design, stud);
    let (notch, hole) = if carries { (0.25, 0.40) } else { (0.40, 0.60) };
    let row = |what: &str, detail: Option<String>| Row {
        about: format!("{} through {}: {what}", service.id, stud.id),
        parts: vec![service.id.clone(), stud.id.clone()],
        location: Some(bore.location),
        source: SOURCE.to_owned(),
        levers: &["cables.diameter"],
        detail,
    };
    if matches!(stud.stock, Stock::Steel(_)) {
        let row = Row {
            source: STEEL_SOURCE.to_owned(),
            ..row("hole in the web", None)
        };
        judge_steel(design, row, bore, report);
        return;
    }
    let left = bore.from_edge - bore.diameter / 2.0;
    if left.is_positive() {
        let size = bore.diameter.tape(unit, Rounding::Up);
        let place = bore.from_edge.tape(unit, Rounding::Nearest);
        let to_do = format!("bore it {size}, the middle {place} from the stud's edge");
        report.limit(
            row("bore", Some(to_do)),
            Numbers::at_most(bore.diameter, share(bore.width, hole, unit)),
        );
        report.limit(
            row("wood between bore and edge", None),
            Numbers::at_least(left, EDGE),
        );
    } else {
        let depth = (bore.from_edge + bore.diameter / 2.0).min(bore.width);
        let to_do = format!("notch it {} deep", depth.tape(unit, Rounding::Up));
        report.limit(
            row("notch", Some(to_do)),
            Numbers::at_most(depth, share(bore.width, notch, unit)),
        );
    }
}
