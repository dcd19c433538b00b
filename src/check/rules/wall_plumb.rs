//! A wall behind the chase measured from a plumb line.
//!
//! # What it finds
//! How far the wall is behind its place farthest into the room, at the reading where it is farthest back, against the
//! build allowance; how far the readings are off the straight line through them, the worst against 1/4 in; and how
//! much farther the vent goes to the outside face than drawn.
//!
//! # Why
//! The face of a chase is plumb, whatever is behind it. So the ends of its walls are set where the wall comes
//! farthest into the room, nothing cuts into the wall, and elsewhere a gap widens up or down: what is screwed there
//! is packed, and board or trim is scribed to the wall. Distances from the wall are measured from the same place,
//! where they are least; the pipe reaches to where the wall is.
//!
//! # Datum
//! The place of the wall farthest into the room, between the slab and the ceiling over the chase; whatever counts
//! out from the wall counts from there.
//!
//! # Source
//! Least squares; 1/4 in, plumb ends and scribed board: common practice, no source.

use super::{COMMON_PRACTICE, first_of, packed_at};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Subject, Thing};
use crate::design::{Design, Kind, point};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "wall plumb",
    concern: Concern::Framing,
    text: include_str!("wall_plumb.rs"),
    keys: &["project.build_allowance", "wall.plumb"],
    check,
};

/// How far a reading may lie off the line.
const OFF: Length = Length::inches(0.25);

fn check(design: &Design, report: &mut Report<'_>) {
    let layout = &design.layout;
    let Some(lean) = layout.lean.as_ref() else {
        return;
    };
    let unit = design.params.project.unit;
    let row = |subject: Subject, height: Length, detail: Option<String>| Row {
        subject,
        parts: first_of(design, Kind::WallLayer),
        location: Some(point(
            layout.site.chase.center(),
            layout.wall_comes_out(Length::ZERO),
            height,
        )),
        source: COMMON_PRACTICE.to_owned(),
        levers: &[],
        detail,
    };
    let size = |it: Length| it.abs().to_mm();
    let read = lean.read.iter().enumerate();
    let bowed = read.max_by(|a, b| size(a.1.2).total_cmp(&size(b.1.2)));
    if let Some((index, (height, _, off))) = bowed.filter(|_| lean.read.len() > 2) {
        let subject =
            Measure("plumb reading {} off the line through all").of([Thing::Number(index + 1)]);
        let numbers = Numbers::at_most(off.abs(), OFF);
        if (off.abs() - OFF).is_positive() {
            let question = "Was it measured correctly, or is the wall bowed? Measure it again before anything is cut.";
            report.ask(row(subject.clone(), *height, None), Some(numbers), question);
        } else {
            report.limit(row(subject.clone(), *height, None), numbers);
        }
    }
    let farthest = lean
        .read
        .iter()
        .max_by(|a, b| size(a.1).total_cmp(&size(b.1)));
    let Some((height, behind, _)) = farthest.filter(|_| !design.layout.site.stands_off()) else {
        return;
    };
    let tape = |it: Length| it.tape(unit, Rounding::Nearest);
    let each = packed_at(design.packing.iter().filter(|it| it.of.is_behind()), unit);
    let longer = layout.vent_goes_on();
    let pipe = if longer.is_positive() {
        format!(
            "; the vent goes {} farther than drawn",
            longer.tape(unit, Rounding::Up)
        )
    } else {
        String::new()
    };
    let detail = format!(
        "behind the plumb ends of the chase's walls: {each}; on the slab the chase's depth is measured from {} in front of the wall{pipe}",
        tape(lean.behind(layout.slab))
    );
    let row = row(
        Measure("gap at the back wall, plumb").into(),
        *height,
        Some(detail),
    );
    let numbers = Numbers::at_most(*behind, report.allowance());
    if (*behind - report.allowance()).is_positive() {
        let question = "The walls' ends stay plumb: will they be packed where they are screwed to the wall, and the board scribed to it?";
        report.ask(row, Some(numbers), question);
    } else {
        report.limit(row, numbers);
    }
}
