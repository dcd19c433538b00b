//! Existing studs that are cut.
//!
//! # What it finds
//! Studs of an existing wall that the hole for the vent would cut; and those of the wall that a flush chase is
//! set into, which end over the header of the opening or are taken out where its kings stand.
//!
//! # Why
//! An outside wall is bearing until somebody qualified says that it is not: a stud cut in it needs a header that
//! somebody designs. In a nonbearing wall, the stud is headed off above and below the hole, and over the unit's
//! opening the header of the parameters is framed.
//!
//! # Datum
//! Faces of the existing studs, as `wall.first_stud` and `wall.stud_spacing` place them.
//!
//! # Source
//! Common practice, no source; the local code decides.

use super::clearances_of;
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule};
use crate::design::{ClearanceKind, Design, Kind, OpenedWall, StandingWall, WallHole, point};
use crate::params::{Bearing, ChaseWall, RoomWall};
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "existing stud cut",
    concern: Concern::Structure,
    text: include_str!("existing_stud_cut.rs"),
    keys: &[
        "wall.first_stud",
        "wall.stud_spacing",
        "left_wall.first_stud",
        "left_wall.stud_spacing",
        "right_wall.first_stud",
        "right_wall.stud_spacing",
        "far_wall.first_stud",
        "far_wall.stud_spacing",
        "wall.bearing",
        "left_wall.bearing",
        "right_wall.bearing",
        "far_wall.bearing",
        "chase.left",
        "appliance.center",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    if let Some(opened) = &design.layout.opened {
        opening(design, opened, report);
    }
    // the back of a flush chase's own enclosure is framed round its hole
    let walls = design.layout.standing.iter();
    for wall in walls.filter(|it| !design.layout.site.frames(it.place)) {
        if let Some(hole) = design.layout.hole_in(wall) {
            judge(design, (wall, hole), report);
        }
    }
}

/// The studs of the wall that a flush chase is set into.
fn opening(design: &Design, opened: &OpenedWall, report: &mut Report<'_>) {
    let layout = &design.layout;
    let header = design.first_on(ChaseWall::Opened, Kind::Header);
    let gone = opened.cut.len() + opened.taken_out.len();
    let row = Row {
        subject: Measure("existing studs cut by the opening for the unit").into(),
        parts: header.map(|it| it.id.clone()).into_iter().collect(),
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_stud,
            layout.heights.header_bottom,
        )),
        source: "local code; a licensed designer where the wall is bearing".to_owned(),
        levers: &["appliance.center", "chase.left"],
        detail: places(design, opened),
    };
    let question = match design.params.wall.bearing {
        Bearing::No if gone == 0 => return,
        Bearing::No => {
            "You say the wall is nonbearing. Who confirms that these studs may be cut, to end over the header of the opening?"
        }
        Bearing::Yes => {
            "The wall is bearing: which licensed designer sizes header, jacks and kings, and specifies the temporary shoring? What is drawn only reserves the space for them."
        }
        Bearing::Unknown => {
            "Is this wall bearing? Until it is known not to be, a licensed designer sizes header, jacks and kings, and specifies the temporary shoring; what is drawn only reserves the space for them."
        }
    };
    let numbers = Numbers::none(Quantity::Count, gone as f64);
    let keys = unknown(design.params.wall.bearing, "wall.bearing");
    report.ask_for(row, Some(numbers), question, keys);
}

/// Where those studs stand, and what becomes of them; nothing where none is cut.
fn places(design: &Design, opened: &OpenedWall) -> Option<String> {
    let unit = design.params.project.unit;
    let of = |centers: &[Length], what: &str| {
        let centers = centers.iter().map(|it| it.tape(unit, Rounding::Nearest));
        let centers: Vec<String> = centers.collect();
        (!centers.is_empty()).then(|| format!("{} {what}", centers.join(", ")))
    };
    let both = [
        of(&opened.cut, "cut over the header"),
        of(&opened.taken_out, "taken out for a king"),
    ];
    let both: Vec<String> = both.into_iter().flatten().collect();
    (!both.is_empty()).then(|| format!("centers from the left corner: {}", both.join("; ")))
}

fn judge(design: &Design, (wall, hole): (&StandingWall, WallHole), report: &mut Report<'_>) {
    let cut = wall.cut_studs(hole.sides);
    let Some(first) = cut.first() else { return };
    let numbers = Numbers::none(Quantity::Count, cut.len() as f64);
    let row = Row {
        subject: Measure("existing studs cut by the hole through the wall").into(),
        parts: clearances_of(design, &[ClearanceKind::WallPass]),
        location: Some(wall.point(*first, wall.depths.studs, hole.heights.center())),
        source: "local code; a designer where the wall is bearing".to_owned(),
        levers: &["appliance.center"],
        ..Row::default()
    };
    let question = match wall.bearing {
        Bearing::No => {
            "You say the wall is nonbearing. Who confirms that the stud may be headed off above and below the hole?"
        }
        Bearing::Yes => "The wall is bearing: who designs the header over the cut stud?",
        Bearing::Unknown => {
            "Is this outside wall bearing? Until it is known not to be, who designs the header over the cut stud?"
        }
    };
    let keys = unknown(wall.bearing, bearing_of(wall.place));
    report.ask_for(row, Some(numbers), question, keys);
}

/// The key that would say whether a wall is bearing.
const fn bearing_of(place: RoomWall) -> &'static str {
    match place {
        RoomWall::Back => "wall.bearing",
        RoomWall::Left => "left_wall.bearing",
        RoomWall::Right => "right_wall.bearing",
        RoomWall::Behind => "far_wall.bearing",
    }
}

/// That key, where nobody knows.
fn unknown(bearing: Bearing, key: &'static str) -> Vec<&'static str> {
    match bearing {
        Bearing::Unknown => vec![key],
        Bearing::Yes | Bearing::No => Vec::new(),
    }
}
