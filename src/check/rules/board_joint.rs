//! The joint between cement board and gypsum board.
//!
//! # What it finds
//! The longest stretch of the level joint, where the face changes from cement board to gypsum board, that has no wood
//! behind both boards' edges. A stretch of 1-1/2 in or less passes. A joint at the step of the face lies on the
//! ledge's edge. Where the parameters want no blocks there, it asks.
//!
//! # Why
//! Two kinds of board move differently as the unit heats up; a joint without backing between studs cracks the finish
//! over it, right above the fire.
//!
//! # Datum
//! `skins.noncombustible_to`, on the stud face; the wood reaches 3/8 in past it both ways.
//!
//! # Source
//! Common practice, no source.

use super::COMMON_PRACTICE;
use glam::DVec3;

use crate::catalog::FramingMember;
use crate::check::backing::longest_bare;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Backing, Band, Branch, ChaseFace, Design, Kind, LEAST_BAY, Span, bands};
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "board joint",
    concern: Concern::Framing,
    text: include_str!("board_joint.rs"),
    keys: &[
        "skins.noncombustible_to",
        "appliance.opening_width",
        "appliance.opening_bottom",
        "appliance.opening_top",
        "appliance.lip_thickness",
        "blocking.board_joint",
    ],
    check,
};

/// Screws stand this far from the edge of a board.
const EDGE: Length = Length::inches(0.375);

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let boards = design.parts.iter();
    let boards =
        boards.filter(|it| it.kind == Kind::Board && it.is_of(Branch::Face(ChaseFace::Front)));
    let boards: Vec<String> = boards.map(|it| it.id.clone()).collect();
    for band in bands(layout) {
        if band.backing != Backing::BoardJoint {
            continue;
        }
        let heights = Span::about(band.height, EDGE * 2.0);
        let bare = longest_bare(design, &band, heights, &openings(design, &band, heights));
        let longest = bare.map_or(Length::ZERO, |it| it.along.size());
        let numbers = Numbers::at_most(longest, LEAST_BAY);
        let middle = DVec3::new(band.along.center().to_mm(), 0.0, band.height.to_mm());
        let stuff = match band.wall.stud(params) {
            FramingMember::Wood(_) => "wood",
            FramingMember::Steel(_) => "stud or strap",
        };
        let row = Row {
            subject: Measure("longest stretch of the board joint without {} behind it")
                .of([Thing::Word(stuff)]),
            parts: boards.clone(),
            location: Some(bare.map_or(band.frame.point(middle), |it| it.location)),
            source: COMMON_PRACTICE.to_owned(),
            levers: &["skins.noncombustible_to"],
            ..Row::default()
        };
        if band.wanted || numbers.margin >= 0.0 {
            report.judge(row, numbers);
        } else {
            let question = "You want no blocks behind the board joint: what backs it?";
            report.ask(row, Some(numbers), question);
        }
    }
}

/// Where the face has no board at these heights, along the front.
fn openings(design: &Design, band: &Band, heights: Span) -> Vec<Span> {
    let (params, layout) = (&design.params, &design.layout);
    let begins = Length::mm(band.frame.origin.x);
    let unit = &params.appliance;
    let opening = Span::new(
        layout.heights.platform_top + unit.opening_bottom,
        layout.heights.opening_top,
    )
    .grown(unit.lip_thickness);
    let sides = Span::about(layout.unit_center, unit.opening_width).grown(unit.lip_thickness);
    let mut found = Vec::new();
    if opening.overlaps(heights) {
        found.push(sides.moved(-begins));
    }
    if let Some(recess) = &layout.recess
        && recess.rough_height.overlaps(heights)
    {
        // along its edge the boards end on the lining
        found.push(recess.rough.moved(-begins));
    }
    found
}
