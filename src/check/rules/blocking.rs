//! Wood behind what hangs on the walls.
//!
//! # What it finds
//! The longest stretch without backing behind the face: behind a mantel that hangs on studs, behind the two rows that
//! the screen's mount is screwed to, and behind a rail on the side walls. A stretch of 1-1/2 in or less passes.
//! Blocks that would lie in a clearance or in another part are left out, and count as missing here. Where the
//! parameters want no blocks, it asks how the thing is fixed. A mantel that lies on the ledge is supported by it and
//! not judged. On studs of steel, with straps across them in place of blocks, it asks what these hold.
//!
//! # Why
//! Board alone holds no screw. A mantel or a screen hung on board alone comes down.
//!
//! # Datum
//! The stud face: of the mantel its middle height, of a screen the middle of the recess.
//!
//! # Source
//! Common practice, no source.

use super::{COMMON_PRACTICE, first_studs, parts_of};
use crate::check::backing::longest_bare;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Subject, Thing};
use crate::design::{Backing, Band, Design, Kind, LEAST_BAY, Span, bands};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "blocking",
    concern: Concern::Framing,
    text: include_str!("blocking.rs"),
    keys: &[
        "mantel.underside",
        "recess.depth",
        "recess.sill",
        "blocking.stock",
        "blocking.mantel",
        "blocking.screen",
        "blocking.side_rail",
    ],
    check,
};

/// Height over which the wood has to be behind the face.
const BITE: Length = Length::inches(0.5);

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    for band in bands(layout) {
        let row = params.blocking.stock.depth();
        let heights = match band.backing {
            Backing::Mantel | Backing::Rail => vec![band.height],
            Backing::Screen => vec![band.height - row / 2.0, band.height + row / 2.0],
            Backing::BoardJoint => Vec::new(),
        };
        for (index, height) in heights.into_iter().enumerate() {
            judge(design, &band, (index, height), report);
        }
    }
}

fn judge(design: &Design, band: &Band, (index, height): (usize, Length), report: &mut Report<'_>) {
    let bare = longest_bare(design, band, Span::about(height, BITE), &[]);
    let longest = bare.map_or(Length::ZERO, |it| it.along.size());
    let numbers = Numbers::at_most(longest, LEAST_BAY);
    let middle = band.frame.point(glam::DVec3::new(
        band.along.center().to_mm(),
        0.0,
        height.to_mm(),
    ));
    let row = Row {
        subject: subject(design, band, index),
        parts: parts(design, band),
        location: Some(bare.map_or(middle, |it| it.location)),
        source: COMMON_PRACTICE.to_owned(),
        levers: levers(band.backing),
        ..Row::default()
    };
    if is_on_steel(design, band) && numbers.margin >= 0.0 {
        report.ask(
            row,
            Some(numbers),
            "Behind it are studs and straps of thin steel: what load do the makers of bracket and screw allow there? A toggle in the board alone is no substitute for a stud; through-bolts or wood in the bays hold more.",
        );
    } else if band.wanted || numbers.margin >= 0.0 {
        report.judge(row, numbers);
    } else {
        report.ask(
            row,
            Some(numbers),
            "You want no blocks here: what is it fastened to?",
        );
    }
}

/// Whether straps on the studs back a band; behind a screen are blocks of wood in any wall.
fn is_on_steel(design: &Design, band: &Band) -> bool {
    let stud = band.wall.stud(&design.params);
    stud.steel().is_some() && band.backing != Backing::Screen
}

fn stuff(design: &Design, band: &Band) -> &'static str {
    if is_on_steel(design, band) {
        "stud or strap"
    } else {
        "wood"
    }
}

fn subject(design: &Design, band: &Band, index: usize) -> Subject {
    let stuff = Thing::Word(stuff(design, band));
    match (band.backing, index) {
        (Backing::Mantel, _) => Measure("longest stretch without {} behind the mantel").of([stuff]),
        (Backing::Screen, 0) => {
            Measure("longest stretch without {} behind the screen's mount, lower row").of([stuff])
        }
        (Backing::Screen, _) => {
            Measure("longest stretch without {} behind the screen's mount, upper row").of([stuff])
        }
        (Backing::Rail | Backing::BoardJoint, _) => {
            Measure("longest stretch without {} behind the rail, {}")
                .of([stuff, Thing::Branch(band.wall)])
        }
    }
}

/// Ids of what hangs there; of a rail, which is no part, of the wall's first stud.
fn parts(design: &Design, band: &Band) -> Vec<String> {
    match band.backing {
        Backing::Mantel => parts_of(design, Kind::Mantel),
        Backing::Screen => parts_of(design, Kind::Screen),
        Backing::Rail | Backing::BoardJoint => first_studs(design, [band.wall]),
    }
}

const fn levers(backing: Backing) -> &'static [&'static str] {
    match backing {
        Backing::Mantel => &["mantel.underside", "blocking.stock"],
        Backing::Screen => &["blocking.stock", "recess.sill", "recess.depth"],
        Backing::Rail | Backing::BoardJoint => &["blocking.side_rail", "blocking.stock"],
    }
}
