//! The cap outside.
//!
//! # What it finds
//! The distance of the cap from every window, door or inlet of [outside], and from each fixed thing of the
//! fireplace wall that says it opens, by the unit's input: 6 in up
//! to 10,000 Btu/h, 9 in up to 50,000, 12 in up to 150,000; its height over the ground, at least 12 in;
//! and its distance from an inside corner and a soffit where the manual's number is given. The manual's
//! number counts wherever it is the larger. What the parameters do not say is one question.
//!
//! # Why
//! Exhaust that finds a window comes back into the house; a cap in the snow stops drawing.
//!
//! # Datum
//! The cap's edges, in the plane of the outside wall; places are measured from the left corner of the
//! room, inside, and from the heights' datum.
//!
//! # Source
//! Openings: NFPA 54 12.9, IFGC 503.8 (table 503.8 since 2018), direct vent, from memory; the same three
//! steps were seen in reprints. Ground: 12 in, IRC 2018 G2427.8, read for other vents, from memory for
//! direct vents. These are for the United States; Canada has others, and this rule does not mix them.
//! Corners, soffits, meters and regulators: the model code has no number.

use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, Span, point};
use crate::params::{Manual, Outside, RoomWall};
use crate::units::{HeatInput, Length};

use super::page;

pub(super) const RULE: Rule = Rule {
    name: "terminal",
    text: include_str!("terminal.rs"),
    check,
};

/// Up to this input, so far from openings.
const STEPS: [(HeatInput, Length); 3] = [
    (HeatInput::new(10_000.0), Length::inches(6.0)),
    (HeatInput::new(50_000.0), Length::inches(9.0)),
    (HeatInput::new(150_000.0), Length::inches(12.0)),
];
const OVER_GROUND: Length = Length::inches(12.0);
const OPENINGS: &str = "IFGC 2018 table 503.8, direct vent, from memory";
const GROUND: &str = "IRC 2018 G2427.8";

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(cap) = Cap::of(design) else { return };
    // what is told of the outside is that of the wall behind the chase
    let behind = design.layout.pass.wall == Some(design.layout.site.behind)
        && !design.layout.site.is_turned();
    let Some(outside) = design.params.outside.as_ref().filter(|_| behind) else {
        let question = "Where are the ground, windows, doors, inlets, corners and the meter outside ([outside]), and what does the manual ask of the cap there?";
        report.ask(
            cap.row(
                design,
                "the cap outside",
                "the unit's manual; the local code",
                &[],
            ),
            None,
            question,
        );
        return;
    };
    cap.over_ground(design, outside, report);
    cap.to_corner_and_soffit(design, outside, report);
    let asked = cap.to_openings(design, outside, report);
    let answered = outside.corner_clearance.is_some() && outside.soffit_clearance.is_some();
    if !asked && !answered {
        let row = cap.row(
            design,
            "the cap and corners, soffits, meter, regulator, walkway",
            "the unit's manual; the gas supplier",
            &[],
        );
        let question = "The code has no number for corners, soffits, meter, regulator and walkway: what does the manual ask, and is the cap so far away?";
        report.ask(row, None, question);
    }
}

/// The cap's outline on the outside wall.
struct Cap {
    sides: Span,
    heights: Span,
}

impl Cap {
    fn of(design: &Design) -> Option<Self> {
        let caps = design.parts.iter().filter(|it| it.kind == Kind::Cap);
        let bounds = caps.map(|it| it.body.bounds).reduce(|a, b| a.union(&b))?;
        Some(Self {
            sides: Span::new(Length::mm(bounds.low.x), Length::mm(bounds.high.x)),
            heights: Span::new(Length::mm(bounds.low.z), Length::mm(bounds.high.z)),
        })
    }

    fn row(
        &self,
        design: &Design,
        about: &str,
        source: &str,
        levers: &'static [&'static str],
    ) -> Row {
        Row {
            about: about.to_owned(),
            parts: vec!["vent/cap/1".to_owned()],
            location: Some(point(
                self.sides.center(),
                -design.layout.wall.outside,
                self.heights.center(),
            )),
            source: source.to_owned(),
            levers,
            detail: None,
        }
    }

    fn over_ground(&self, design: &Design, outside: &Outside, report: &mut Report<'_>) {
        let (required, source) = larger(OVER_GROUND, GROUND, outside.ground_clearance.as_ref());
        let row = self.row(
            design,
            "cap's underside over the ground",
            &source,
            &["vent.rise"],
        );
        let measured = self.heights.low - outside.ground;
        report.judge(row, Numbers::at_least(measured, required));
    }

    /// Judges every opening; true where it had to ask.
    fn to_openings(&self, design: &Design, outside: &Outside, report: &mut Report<'_>) -> bool {
        let openings = openings(design, outside);
        if openings.is_empty() {
            return false;
        }
        let step = design.params.appliance.input.map(step);
        let manual = outside.opening_clearance.as_ref();
        let (required, source) = match (step, manual) {
            (Some(Some(step)), manual) => larger(step, OPENINGS, manual),
            (None, Some(manual)) => (manual.value, page(manual)),
            (input, _) => {
                let question = if input.is_none() {
                    "What is the unit's highest input (appliance.input)? How far the cap stays from openings depends on it."
                } else {
                    "The input is beyond the table's last step: what does the code ask between cap and openings?"
                };
                let row = self.row(design, "the cap and openings outside", OPENINGS, &[]);
                report.ask(row, None, question);
                return true;
            }
        };
        for (name, opening) in openings {
            let about = format!("cap to {name}");
            let row = self.row(design, &about, &source, &["appliance.center", "vent.rise"]);
            report.judge(row, Numbers::at_least(self.distance(&opening), required));
        }
        false
    }

    /// From the cap's outline to a rectangle: left, bottom, right, top.
    fn distance(&self, [left, bottom, right, top]: &[Length; 4]) -> Length {
        let apart = |span: Span, low: Length, high: Length| {
            (low - span.high).max(span.low - high).max(Length::ZERO)
        };
        let across = apart(self.sides, *left, *right).to_mm();
        let up = apart(self.heights, *bottom, *top).to_mm();
        Length::mm((across * across + up * up).sqrt())
    }

    fn to_corner_and_soffit(&self, design: &Design, outside: &Outside, report: &mut Report<'_>) {
        if let (Some(corner), Some(asked)) = (outside.corner, &outside.corner_clearance) {
            let distance = (self.sides.low - corner).max(corner - self.sides.high);
            let row = self.row(
                design,
                "cap to the inside corner outside",
                &page(asked),
                &["appliance.center"],
            );
            report.judge(row, Numbers::at_least(distance, asked.value));
        }
        if let (Some(soffit), Some(asked)) = (outside.soffit, &outside.soffit_clearance) {
            let row = self.row(
                design,
                "cap's top under the soffit",
                &page(asked),
                &["vent.rise"],
            );
            report.judge(
                row,
                Numbers::at_least(soffit - self.heights.high, asked.value),
            );
        }
    }
}

/// What air can pass in the wall behind the chase: the openings told of outside, and fixed things inside.
fn openings(design: &Design, outside: &Outside) -> Vec<(String, [Length; 4])> {
    let told = outside.openings.0.iter().enumerate();
    let told = told.map(|(number, it)| (format!("opening {} outside", number + 1), *it));
    let fixed = design.params.room.fixed.iter();
    let fixed = fixed.filter(|it| it.opens && it.wall == RoomWall::Back);
    let fixed = fixed.map(|it| {
        let edges = [it.from, it.sill, it.from + it.width, it.sill + it.height];
        (it.name.clone(), edges)
    });
    told.chain(fixed).collect()
}

/// The distance for an input; `None` past the last step.
fn step(input: HeatInput) -> Option<Length> {
    let step = STEPS.iter().find(|(most, _)| input <= *most);
    step.map(|(_, distance)| *distance)
}

/// The larger of the code's number and the manual's, with its source.
fn larger(code: Length, source: &str, manual: Option<&Manual<Length>>) -> (Length, String) {
    match manual {
        Some(manual) if manual.value > code => (manual.value, page(manual)),
        _ => (code, source.to_owned()),
    }
}
